package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What somebody types into the workbook gives, to the cent and in every period, what the program gives for the same. */
class RepricedBudgetTest {
    @TestFactory
    Stream<DynamicTest> asTheProgram() {
        return Repricing.all().stream().map(change -> DynamicTest.dynamicTest(change.name(), () -> {
            try (XSSFWorkbook book = change.typed()) {
                book.getCreationHelper().createFormulaEvaluator().evaluateAll();
                change.assertAsTheProgram(book);
            }
        }));
    }

    /** A slip of the keyboard is named beside its cell; the request says that it is incomplete, and no cell shows an error. */
    @Test
    void whatIsNoNumberIsNamedBesideItAndLeavesTheRequestIncomplete() throws IOException {
        try (XSSFWorkbook book = Repricing.first()) {
            Row board = Repricing.row(book.getSheet("Assumptions"), "board");
            Row drive = Repricing.row(book.getSheet("Assumptions"), "drive 256 GB");
            Row leadTime = Repricing.row(book.getSheet("Assumptions"), "Lead time, from order to delivery");
            Row line = Repricing.row(book.getSheet("Purchases"), "LT-01");
            board.getCell(1).setBlank();
            drive.getCell(2).setCellValue("45,00 EUR");
            Repricing.row(book.getSheet("Assumptions"), "machine").getCell(2).setBlank();
            leadTime.getCell(1).setCellValue("six weeks");
            line.getCell(4).setCellValue("two");
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(List.of(board.getCell(11), drive.getCell(11), leadTime.getCell(7), line.getCell(8))).extracting(Repricing::text)
                .containsExactly("no price: type one", "not a number: type one", "not a number: type one", "quantity: number");
            assertThat(Repricing.text(book.getSheet("Budget").getRow(7).getCell(0))).isEqualTo("Incomplete. Mend first: Assumptions, row " + (leadTime.getRowNum() + 1) + ".");
            assertThat(Repricing.text(Repricing.row(book.getSheet("Assumptions"), "Cells to mend: till then the funding request is incomplete (worked out)").getCell(2))).as("with the labour that was deleted").isEqualTo("5.00");
            assertThat(Repricing.text(Repricing.row(book.getSheet("Budget"), "Check: cost centres, quarters and parts agree").getCell(1))).isEqualTo("incomplete");
            assertThat(Repricing.text(Repricing.row(book.getSheet("Budget"), "= Plan").getCell(1))).isEqualTo("incomplete");
            assertThat(Repricing.text(leadTime.getCell(2))).as("used: as swept").isEqualTo("30.00");
            assertThat(Repricing.text(Repricing.row(book.getSheet("Budget"), "To sign: funding request of 2025-Q1").getCell(1))).isEqualTo("incomplete");
            assertThat(Repricing.text(Repricing.row(book.getSheet("Budget"), "= Funding request").getCell(1))).isEqualTo("incomplete");
            book.forEach(sheet -> sheet.forEach(row -> row.forEach(cell -> assertThat(cell.getCellType() == org.apache.poi.ss.usermodel.CellType.FORMULA
                && cell.getCachedFormulaResultType() == org.apache.poi.ss.usermodel.CellType.ERROR).as(sheet.getSheetName() + "!" + cell.getAddress() + " " + cell).isFalse())));
        }
    }

    /** What nobody can mean is named where it was typed, and on the page that is signed. */
    @ParameterizedTest(name = "{0}, {1}: {2}")
    @CsvSource(nullValues = "-", value = {
        "defer,  -,       defer: to when?",
        "defer,  2025-Q1, defer: to later",
        "accept, 2025-Q3, quarter: defer?",
        "'defer ', 2025-Q3, which decision?"})
    void aDecisionThatNobodyCanMeanIsAFault(String decision, String quarter, String fault) throws IOException {
        try (XSSFWorkbook book = Repricing.first()) {
            Row line = Repricing.row(book.getSheet("Purchases"), "LT-01");
            line.getCell(6).setBlank();
            line.getCell(6).setCellValue(decision);
            line.getCell(7, Row.MissingCellPolicy.CREATE_NULL_AS_BLANK).setCellValue(quarter);
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(Repricing.text(line.getCell(8))).isEqualTo(fault);
            assertThat(Repricing.text(book.getSheet("Budget").getRow(7).getCell(0))).isEqualTo("Incomplete. Mend first: Purchases, row " + (line.getRowNum() + 1) + ".");
        }
    }

    /** LT-002 is past its rating: a machine for 962.00, to be ordered on the day of the sweep. */
    @Test
    void theTableForItFollowsPricesAndDecisions() throws IOException {
        try (XSSFWorkbook book = Repricing.workbook(Sweeps.small())) {
            Row work = Repricing.row(book.getSheet("To do"), "LT-002");
            Row line = Repricing.row(book.getSheet("Purchases"), "LT-002");
            Repricing.row(book.getSheet("Assumptions"), "machine").getCell(1).setCellValue(1_000);
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(work.getCell(6).getNumericCellValue()).isEqualTo(1_072);
            line.getCell(6).setBlank();
            line.getCell(6).setCellValue("defer");
            line.getCell(7, Row.MissingCellPolicy.CREATE_NULL_AS_BLANK).setCellValue("2025-Q3");
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(work.getCell(7).getStringCellValue()).isEqualTo("defer 2025-Q3");
            assertThat(work.getCell(4).getStringCellValue()).isEqualTo("check the backup; check the figures; purchase: defer 2025-Q3");
            assertThat(work.getCell(5).getLocalDateTimeCellValue().toLocalDate()).as("of the backup").isEqualTo(Sweeps.AS_OF);
            assertThat(line.getCell(9).getLocalDateTimeCellValue().toLocalDate()).as("when its quarter begins").isEqualTo("2025-07-01");
            line.getCell(6).setCellValue("reject");
            line.getCell(7).setBlank();
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(List.of(work.getCell(6), work.getCell(7))).extracting(Repricing::text).containsExactly("", "reject");
        }
    }

    /** A share is typed as 0.2, the tax as 19: a mix-up is a fault. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"Share of boards that turn out to be machines, 20, too large: at most 1", "Value added tax, 190, too large: at most 100", "Value added tax, -1, too small"})
    void whatCannotBeIsAFault(String label, double typed, String fault) throws IOException {
        try (XSSFWorkbook book = Repricing.workbook(Repricing.Plan.first().result())) {
            Row row = Repricing.row(book.getSheet("Assumptions"), label);
            row.getCell(1).setCellValue(typed);
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(Repricing.text(row.getCell(7))).isEqualTo(fault);
            assertThat(Repricing.text(Repricing.row(book.getSheet("Budget"), "= Funding request").getCell(1))).isEqualTo("incomplete");
        }
    }

    @Test
    void aLineOfQuantityZeroLeavesPlanAndRequest() throws IOException {
        try (XSSFWorkbook book = Repricing.first()) {
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            double before = Repricing.row(book.getSheet("Budget"), "= Funding request").getCell(1).getNumericCellValue();
            double amount = Repricing.row(book.getSheet("Purchases"), "LT-01").getCell(5).getNumericCellValue();
            Repricing.row(book.getSheet("Purchases"), "LT-01").getCell(4).setCellValue(0);
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(before - Repricing.row(book.getSheet("Budget"), "= Funding request").getCell(1).getNumericCellValue()).isCloseTo(amount, org.assertj.core.api.Assertions.within(0.005)).isPositive();
        }
    }
}
