package org.wearledger.report;

import java.util.function.Predicate;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.SweepResult;

/** The workbook's sheets of money. Their order among the others is {@link WorkbookWriter}'s. */
final class MoneySheets {
    private final SweepResult result;
    private final BudgetTables budget;
    private final SXSSFWorkbook workbook;
    private final Styles styles;

    /** @param result with a budget */
    MoneySheets(SweepResult result, BudgetTables budget, SXSSFWorkbook workbook, Styles styles) {
        this.result = result;
        this.budget = budget;
        this.workbook = workbook;
        this.styles = styles;
    }

    /** What the money is for, and how it adds up. */
    void write() {
        SheetWriter sheet = money(budget.periodsOnTheSheet(), period -> !period.isOneQuarter());
        sheet.gap();
        sheet.note(Wording.sentenceCase(BudgetText.ADDING_UP) + ".");
        sheet.note(BudgetText.NEAR);
        workbook.setPrintArea(workbook.getSheetIndex(BudgetTables.BUDGET), 0, BudgetTables.BUDGET_COLUMNS_PRINTED - 1, 0, sheet.row() - 1);
        SheetWriter lines = sheet(BudgetTables.LINES);
        lines.dataSheet(budget.lines(), row -> false);
        workbook.setPrintArea(workbook.getSheetIndex(BudgetTables.LINES), 0, BudgetTables.LINE_COLUMNS_PRINTED - 1, 0, lines.row() - 1);
        money(budget.purchases(), row -> false);
        money(budget.totals(), row -> false);
        money(budget.orders(), row -> false);
        waiting();
    }

    /** What the model gives, and what can be typed: the amounts are worked out from both. */
    void writeBehindTheAmounts() {
        sheet(ModelOutputs.NAME).dataSheet(budget.modelOutputs().table(), row -> false);
        new AssumptionsSheet(workbook, styles, result.plan().budget(), result.asOf()).write();
    }

    private void waiting() {
        SheetWriter waiting = money(new WaitingTable(result.plan().budget(), budget).table(), row -> false);
        if (result.plan().budget().settings().unplanned().extra().signum() == 0) {
            waiting.gap();
            waiting.note("The last four columns are empty until an unplanned replacement costs more than a planned one: fill in its extra on the sheet Assumptions, or give --rush-fee, "
                + "--recovery-cost, --downtime-hours and --downtime-cost.");
        }
    }

    /** Above it stands how much of the money is to be checked before it is ordered. */
    private <T> SheetWriter money(Table<T> table, Predicate<T> emphasised) {
        SheetWriter sheet = sheet(table.name());
        Object checks = budget.aboveMoney();
        if (checks != null) {
            sheet.above(checks);
        }
        sheet.dataSheet(table, emphasised);
        return sheet;
    }

    private SheetWriter sheet(String name) {
        return new SheetWriter(workbook.createSheet(name), styles);
    }
}
