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
        try (XSSFWorkbook book = Repricing.workbook(Repricing.Plan.first().result())) {
            Row board = Repricing.row(book.getSheet("Assumptions"), "board");
            Row drive = Repricing.row(book.getSheet("Assumptions"), "drive 256 GB");
            Row leadTime = Repricing.row(book.getSheet("Assumptions"), "Lead time, from order to delivery");
            Row line = Repricing.row(book.getSheet("Purchases"), "LT-01");
            board.getCell(1).setBlank();
            drive.getCell(2).setCellValue("45,00 EUR");
            leadTime.getCell(1).setCellValue("six weeks");
            line.getCell(13).setCellValue("two");
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(List.of(board.getCell(11), drive.getCell(11), leadTime.getCell(7), line.getCell(9))).extracting(Repricing::text)
                .containsExactly("no price: type one", "not a number: type one", "not a number: type one", "type a number as quantity");
            assertThat(Repricing.text(leadTime.getCell(2))).as("used: as swept").isEqualTo("30.00");
            assertThat(Repricing.text(Repricing.row(book.getSheet("Budget"), "Funding request").getCell(1))).isEqualTo("incomplete");
            assertThat(Repricing.text(Repricing.row(book.getSheet("Budget"), "= Funding request").getCell(1))).isEqualTo("incomplete");
            book.forEach(sheet -> sheet.forEach(row -> row.forEach(cell -> assertThat(cell.getCellType() == org.apache.poi.ss.usermodel.CellType.FORMULA
                && cell.getCachedFormulaResultType() == org.apache.poi.ss.usermodel.CellType.ERROR).as(sheet.getSheetName() + "!" + cell.getAddress() + " " + cell).isFalse())));
        }
    }

    @Test
    void aLineOfQuantityZeroLeavesPlanAndRequest() throws IOException {
        try (XSSFWorkbook book = Repricing.workbook(Repricing.Plan.first().result())) {
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            double before = Repricing.row(book.getSheet("Budget"), "= Funding request").getCell(1).getNumericCellValue();
            double amount = Repricing.row(book.getSheet("Purchases"), "LT-01").getCell(14).getNumericCellValue();
            Repricing.row(book.getSheet("Purchases"), "LT-01").getCell(13).setCellValue(0);
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(before - Repricing.row(book.getSheet("Budget"), "= Funding request").getCell(1).getNumericCellValue()).isCloseTo(amount, org.assertj.core.api.Assertions.within(0.005)).isPositive();
        }
    }
}
