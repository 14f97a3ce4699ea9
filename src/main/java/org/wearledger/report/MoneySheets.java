package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.usermodel.DataValidationConstraint;
import org.apache.poi.ss.usermodel.DataValidationHelper;
import org.apache.poi.ss.usermodel.Name;
import org.apache.poi.ss.util.CellRangeAddressList;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.LineDecision;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSnapshot;

/** The workbook's sheets of money, and its lines on the first sheet. Which of them are shown, and where, is {@link WorkbookWriter}'s. */
final class MoneySheets {
    private static final int CHART_ROWS = 18;

    private final SweepResult result;
    private final Budget plan;
    private final BudgetTables budget;
    private final SXSSFWorkbook workbook;
    private final Styles styles;

    /** @param result with a budget */
    MoneySheets(SweepResult result, SXSSFWorkbook workbook, Styles styles) {
        this.result = result;
        plan = result.plan().budget();
        budget = new BudgetTables(result);
        this.workbook = workbook;
        this.styles = styles;
    }

    /** What to approve, at most six lines: worked out by the sheet of figures. */
    List<SummaryAmount> onSummary() {
        BudgetText words = new BudgetText(result);
        List<SummaryAmount> amounts = new ArrayList<>();
        BudgetPeriod quarter = words.nextQuarters().get(0);
        add(amounts, words.nameOf(quarter), quarter);
        words.years().stream().limit(1).forEach(year -> add(amounts, words.nameOfSum(year), year));
        return amounts;
    }

    private void add(List<SummaryAmount> amounts, String name, BudgetPeriod period) {
        Formula plan = amount("plan", period);
        amounts.add(new SummaryAmount(Wording.sentenceCase(name) + ": plan", new Formula("IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\"," + plan.text() + ")",
            period.priced() ? plan.result() : PeriodTable.INCOMPLETE, CellType.MONEY), false));
        amounts.add(new SummaryAmount(Wording.sentenceCase(name) + ": funding request", amount("toAskFor", period), true));
    }

    /** What is to be checked before it is ordered, a text or a formula; {@code null} for nothing. */
    Object toCheck() {
        return budget.aboveMoney();
    }

    private Formula amount(String column, BudgetPeriod period) {
        Table<BudgetPeriod> table = budget.periodsOnTheSheet();
        return new Formula("'" + table.name() + "'!" + table.letter(column) + (budget.firstRowOfMoney() + plan.quarters().indexOf(period)),
            table.columns().get(table.indexOf(column)).valueOf(period), CellType.MONEY);
    }

    /** The page to sign with its picture below, what it rests on, and what is bought. */
    void write(BarCharts charts) {
        SheetWriter page = sheet(BudgetPage.NAME);
        page.fillOnePage();
        page.printUpright();
        AssumptionsSheet assumptions = new AssumptionsSheet(workbook, styles, plan, result.asOf(), budget);
        assumptions.write();
        BudgetPage signed = new BudgetPage(page, result, budget, lastRequests());
        signed.write(assumptions);
        workbook.setPrintArea(workbook.getSheetIndex(BudgetPage.NAME), 0, signed.columns() - 1, 0, page.row() - 1);
        new BudgetPicture(plan, budget).draw(charts.at(new BarCharts.Spot(BudgetPage.NAME, 0, page.row() + 1, signed.columns(), CHART_ROWS)));
        lines();
    }

    /** What the amounts are worked out in and from. */
    void writeAppendix() {
        sheet(BudgetTables.FIGURES).dataSheet(budget.periodsOnTheSheet(), period -> !period.isOneQuarter());
        quarters();
        sheet(OrderTable.NAME).dataSheet(budget.orders().table(), row -> false);
        sheet(CentreTable.NAME).dataSheet(budget.centres().table(), row -> false);
        sheet(ModelOutputs.NAME).dataSheet(budget.modelOutputs().table(), row -> false);
    }

    private void quarters() {
        name(Names.QUARTERS, "period");
        name(Names.QUARTER_STARTS, "from");
    }

    private void name(String of, String column) {
        Name name = workbook.createName();
        name.setNameName(of);
        name.setRefersToFormula(BudgetTables.range(budget.periodsOnTheSheet(), column, 0, plan.settings().quarters() - 1));
    }

    /** The table for IT, whose orders follow what is typed. */
    Table<WorkRow> following(Table<WorkRow> work) {
        return new WorkFormulas(budget).in(work);
    }

    private Map<String, BigDecimal> lastRequests() {
        return result.plan().comparison() == null ? Map.of()
            : result.plan().comparison().asked().stream().collect(Collectors.toMap(SweepSnapshot.Ask::period, SweepSnapshot.Ask::amount, (one, other) -> one));
    }

    private void lines() {
        Table<PlannedReplacement> table = budget.linesOnTheSheet();
        sheet(BudgetTables.LINES).dataSheet(table, row -> false);
        SXSSFSheet lines = workbook.getSheet(BudgetTables.LINES);
        if (!table.rows().isEmpty()) {
            choice(lines, table, "decision", Stream.of(LineDecision.Choice.values()).map(LineDecision.Choice::label).toList());
            choice(lines, table, "deferredTo", plan.quarters().subList(0, plan.settings().quarters()).stream().map(BudgetPeriod::label).toList());
            whole(lines, table, "quantity");
        }
    }

    /** A list to choose from, in place of typing. */
    private static void choice(SXSSFSheet sheet, Table<?> table, String column, List<String> words) {
        DataValidationHelper helper = sheet.getDataValidationHelper();
        add(sheet, table, column, helper.createExplicitListConstraint(words.toArray(String[]::new)), "Choose from the list: " + String.join(", ", words));
    }

    private static void whole(SXSSFSheet sheet, Table<?> table, String column) {
        DataValidationHelper helper = sheet.getDataValidationHelper();
        add(sheet, table, column, helper.createIntegerConstraint(DataValidationConstraint.OperatorType.GREATER_OR_EQUAL, "0", null), "A whole number, 0 or more");
    }

    private static void add(SXSSFSheet sheet, Table<?> table, String column, DataValidationConstraint constraint, String message) {
        int index = table.indexOf(column);
        DataValidation validation = sheet.getDataValidationHelper().createValidation(constraint,
            new CellRangeAddressList(BudgetTables.HEADER_ROWS, BudgetTables.HEADER_ROWS + table.rows().size() - 1, index, index));
        validation.setShowErrorBox(true);
        validation.createErrorBox("Not taken", message);
        sheet.addValidationData(validation);
    }

    private SheetWriter sheet(String name) {
        return new SheetWriter(workbook.createSheet(name), styles);
    }
}
