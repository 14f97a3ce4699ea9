package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.SweepResult;

/** The workbook's sheets of money, and its lines on the first sheet. Which of them are shown, and where, is {@link WorkbookWriter}'s. */
final class MoneySheets {
    private static final int CHART_ROWS = 18;

    private final SweepResult result;
    private final BudgetTables budget;
    private final SXSSFWorkbook workbook;
    private final Styles styles;

    /** @param result with a budget */
    MoneySheets(SweepResult result, SXSSFWorkbook workbook, Styles styles) {
        this.result = result;
        this.budget = new BudgetTables(result);
        this.workbook = workbook;
        this.styles = styles;
    }

    /** What to approve, at most six lines: worked out by the sheet "Budget". */
    List<SummaryAmount> onSummary() {
        BudgetText words = new BudgetText(result);
        List<SummaryAmount> amounts = new ArrayList<>();
        BudgetPeriod quarter = words.nextQuarters().get(0);
        add(amounts, words.nameOf(quarter), quarter);
        words.years().stream().limit(1).forEach(year -> add(amounts, words.nameOfSum(year), year));
        return amounts;
    }

    private void add(List<SummaryAmount> amounts, String name, BudgetPeriod period) {
        amounts.add(new SummaryAmount(Wording.sentenceCase(name) + ": plan", amount("plan", period), false));
        amounts.add(new SummaryAmount(Wording.sentenceCase(name) + ": to ask for", amount("toAskFor", period), true));
    }

    /** What is to be checked before it is ordered, a text or a formula; {@code null} for nothing. */
    Object toCheck() {
        return budget.aboveMoney();
    }

    private Formula amount(String column, BudgetPeriod period) {
        Table<BudgetPeriod> table = budget.periodsOnTheSheet();
        return new Formula("'" + table.name() + "'!" + table.letter(column) + (budget.firstRowOfMoney() + result.plan().budget().quarters().indexOf(period)),
            table.columns().get(table.indexOf(column)).valueOf(period), CellType.MONEY);
    }

    /** Those that people read. */
    void write(BarCharts charts) {
        SheetWriter sheet = money(budget.periodsOnTheSheet(), period -> !period.isOneQuarter());
        sheet.gap();
        sheet.note(Wording.sentenceCase(BudgetText.ADDING_UP) + ".");
        sheet.note(BudgetText.NEAR);
        sheet.gap();
        new BudgetPicture(result.plan().budget(), budget).draw(charts.at(new BarCharts.Spot(BudgetTables.BUDGET, 0, sheet.row(), BudgetTables.BUDGET_COLUMNS_PRINTED, CHART_ROWS)));
        workbook.setPrintArea(workbook.getSheetIndex(BudgetTables.BUDGET), 0, BudgetTables.BUDGET_COLUMNS_PRINTED - 1, 0, sheet.row() + CHART_ROWS);
        new AssumptionsSheet(workbook, styles, result.plan().budget(), result.asOf()).write();
        money(budget.purchases(), row -> false);
    }

    /** Those that the amounts are worked out from, and details. */
    void writeAppendix() {
        sheet(BudgetTables.LINES).dataSheet(budget.lines(), row -> false);
        money(budget.totals(), row -> false);
        money(budget.orders(), row -> false);
        waiting();
        sheet(ModelOutputs.NAME).dataSheet(budget.modelOutputs().table(), row -> false);
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
