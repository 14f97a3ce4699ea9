package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.wearledger.budget.Budgets;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;

/** A machine to be replaced for which the price list has no price: what cannot be worked out is empty, not 0.00. */
class MissingPriceTest {
    private static SweepResult sweep() {
        SweepResult r = Sweeps.small();
        return Sweeps.with(r, r.problems(), Budgets.of(r.machines(), r.fleet().fleetModel(), List.of(), r.asOf(), SweepSettings.withDefaults(), BudgetSettings.withDefaults()));
    }

    @Test
    void theContingenciesAndTheCapAreEmptyUntilThePriceIsKnown() {
        assertThat(cells(sweep())).containsExactly("plan 0.00", "contingencyForWear null", "contingencyForPrices null", "allowance 0.00", "toAskFor 0.00", "cap null");
        assertThat(cells(Sweeps.small())).as("with its price").containsExactly("plan 962.00", "contingencyForWear 0.00", "contingencyForPrices 0.00", "allowance 0.10", "toAskFor 962.10", "cap 962.10");
    }

    private static List<String> cells(SweepResult result) {
        Table<BudgetPeriod> periods = new BudgetTables(result).periods();
        return periods.columns().subList(4, 10).stream().map(column -> column.name() + " " + column.valueOf(periods.rows().get(0))).toList();
    }

    /** Finance fills the price in on the sheet "Assumptions": then they are worked out. */
    @Test
    void theWorkbookWorksThemOutOnceThePriceIsFilledIn() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(sweep(), out, Integer.MAX_VALUE);
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()))) {
            assertThat(shown(book)).containsExactly("0.0", "", "", "0.0", "incomplete", "");
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(shown(book)).containsExactly("0.0", "", "", "0.0", "incomplete", "");
            for (Row row : book.getSheet("Assumptions")) {
                if (row.getCell(0) != null && row.getCell(0).getStringCellValue().equals("machine")) {
                    row.getCell(1).setCellValue(962);
                }
            }
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(shown(book)).containsExactly("962.0", "0.0", "0.0", "0.1", "962.1", "962.1");
        }
    }

    private static List<String> shown(XSSFWorkbook book) {
        for (Sheet sheet : book) {
            for (Row row : sheet) {
                for (Cell cell : row) {
                    assertThat(cell.getCellType() == CellType.FORMULA && cell.getCachedFormulaResultType() == CellType.ERROR).as(sheet.getSheetName() + "!" + cell.getAddress()).isFalse();
                }
            }
        }
        Row quarter = book.getSheet("Budget figures").getRow(1);
        return List.of(4, 5, 6, 7, 8, 9).stream().map(quarter::getCell).map(cell -> cell.getCachedFormulaResultType() == CellType.STRING ? cell.getStringCellValue()
            : String.valueOf(cell.getNumericCellValue())).toList();
    }
}
