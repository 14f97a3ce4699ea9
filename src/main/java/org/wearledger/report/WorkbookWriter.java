package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.Accounting;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.Problem;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** The sweep as one workbook with typed cells, worst rows first. */
final class WorkbookWriter {
    /** Rows of a sheet, header included; fixed by the file format. */
    static final int SHEET_ROWS = 1_048_576;

    private static final int ROWS_IN_MEMORY = 100;
    private static final int NAMES_LISTED = 12;
    private static final Comparator<Problem> GRAVEST_FIRST =
        Comparator.comparing((Problem problem) -> problem.kind().effect()).thenComparing(Comparator.naturalOrder());

    private final SweepResult result;
    private final int mostRows;
    private final SXSSFWorkbook workbook;
    private final Styles styles;
    /** {@code null} without a budget. */
    private final BudgetTables budget;

    private WorkbookWriter(SweepResult result, int mostRows, SXSSFWorkbook workbook) {
        this.result = result;
        this.mostRows = mostRows;
        this.workbook = workbook;
        this.styles = new Styles(workbook, "Wear sweep" + (result.asOf() == null ? "" : ", as of " + result.asOf()));
        this.budget = result.plan().budget() == null ? null : new BudgetTables(result, mostRows);
    }

    static void write(SweepResult result, OutputStream out) throws IOException {
        write(result, out, SHEET_ROWS - 1);
    }

    /** @param mostRows data rows per sheet, below {@link #SHEET_ROWS}; fewer in tests */
    static void write(SweepResult result, OutputStream out, int mostRows) throws IOException {
        try (SXSSFWorkbook workbook = new LargeWorkbook(ROWS_IN_MEMORY)) {
            new WorkbookWriter(result, mostRows, workbook).fill();
            workbook.write(out);
        }
    }

    private void fill() {
        WorkbookProperties.set(workbook, "Wear sweep", result.version(), result.asOf());
        Table<MachineRow> machines = Tables.machines(result).moved("site", 1).sortedBy(MachineRow.WORST_FIRST);
        Table<Problem> problems = Tables.problems(Problem.listed(result.problems())).sortedBy(GRAVEST_FIRST);
        summary(machines, problems);
        if (budget != null) {
            budget();
        }
        data(CareTables.work(result));
        sheet("Machines").dataSheet(machines.firstRows(mostRows), row -> isPressing(row.standing()));
        workbook.setPrintArea(workbook.getSheetIndex("Machines"), 0, Tables.MACHINE_COLUMNS_PRINTED - 1, 0,
            Math.min(machines.rows().size(), mostRows));
        data(CareTables.coverage(result));
        if (result.plan().comparison() != null) {
            data(CareTables.changes(result));
        }
        data(CareTables.warranties(result));
        new FleetPictures(result, workbook, styles).draw();
        data(Tables.models(result));
        memory();
        data(problems);
        if (budget != null) {
            sheet(ModelOutputs.NAME).dataSheet(budget.modelOutputs().table(), row -> false);
            new AssumptionsSheet(workbook, styles, result.plan().budget(), result.asOf()).write();
        }
        method();
    }

    private void budget() {
        SheetWriter sheet = money(budget.periodsOnTheSheet(), period -> !period.isOneQuarter());
        sheet.gap();
        sheet.note(Wording.sentenceCase(BudgetText.ADDING_UP) + ".");
        sheet.note(BudgetText.NEAR);
        workbook.setPrintArea(workbook.getSheetIndex(BudgetTables.BUDGET), 0, BudgetTables.BUDGET_COLUMNS_PRINTED - 1, 0, sheet.row() - 1);
        data(budget.lines());
        workbook.setPrintArea(workbook.getSheetIndex(BudgetTables.LINES), 0, BudgetTables.LINE_COLUMNS_PRINTED - 1, 0,
            Math.min(result.plan().budget().lines().size(), mostRows));
        money(budget.purchases().firstRows(mostRows), row -> false);
        money(budget.totals().firstRows(mostRows), row -> false);
        money(budget.orders(), row -> false);
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

    private <T> void data(Table<T> table) {
        sheet(table.name()).dataSheet(table.firstRows(mostRows), row -> false);
    }

    private SheetWriter sheet(String name) {
        return new SheetWriter(workbook.createSheet(name), styles);
    }

    private static boolean isPressing(Standing standing) {
        return standing == Standing.URGENT || standing == Standing.PAST_RATING;
    }

    private void summary(Table<MachineRow> machines, Table<Problem> problems) {
        SheetWriter sheet = sheet("Summary");
        sheet.columnWidths(46, 14, 90);
        sheet.line(true, "Wear sweep");
        sheet.line(false, "As of", result.asOf() == null ? "no reading kept" : result.asOf());
        sheet.gap();
        sheet.line(true, "Found and used", "Count", "Sum");
        Accounting sums = result.accounting();
        var words = SummaryText.sums(sums);
        sheet.line(false, "Files found", sums.filesFound(), words.get(0));
        sheet.line(false, "Records found", sums.recordsFound(), words.get(1));
        sheet.line(false, "Readings", sums.readingsIn(), words.get(2));
        sheet.line(false, "Files passed over (no reports)", sums.filesPassedOver());
        sheet.line(false, "Side tables", sums.sideTables());
        sheet.line(false, "Rows of side tables", sums.rowsFound(), words.get(3));
        MissingColumnsText.sentences(result.problems()).forEach(line -> sheet.line(true, "Columns missing", "", Wording.sentenceCase(line)));
        DoubtText doubt = new DoubtText(result);
        if (doubt.count() > 0) {
            sheet.line(true, "Drives in doubt", doubt.count(), Wording.sentenceCase(doubt.sentence()));
        }
        sheet.gap();
        sheet.line(true, "Standing", "Machines", "Next step");
        SummaryText.machinesByStanding(result).forEach((standing, count) ->
            sheet.line(isPressing(standing), standing.label(), count, standing.nextStep()));
        sheet.line(false, "All machines", result.machines().size());
        List<String> silent = result.machines().stream().filter(machine -> !machine.reportedThisSweep()).map(machine -> machine.machine().id()).toList();
        sheet.line(false, "Not reported this sweep", (long) silent.size(), silent.isEmpty() ? "none"
            : silent.stream().limit(NAMES_LISTED).collect(Collectors.joining(", ")) + "; Machines sheet, column \"Reported this sweep\"");
        sheet.line(false, "Drives with an assumed rating", machines.rows().stream()
                .filter(row -> row.drive() != null && row.drive().wear().endurance() != null
                    && row.drive().wear().endurance().assumed()).count(),
            "assumed: 0.6 TB written per GB of capacity, common practice, no source");
        budgetSummary(sheet);
        sheet.gap();
        sheet.line(true, "Data quality: rule", "Problems", "Meaning");
        SummaryText.problemsByRule(result).forEach((kind, count) ->
            sheet.line(false, kind.id(), count, RuleMeaning.of(kind)));
        sheet.line(false, "All problems", Problem.count(result.problems()));
        overflow(sheet, machines, SweepWriter.MACHINES_CSV);
        overflow(sheet, problems, SweepWriter.PROBLEMS_CSV);
        overflow(sheet, CareTables.work(result), SweepWriter.WORK_LIST_CSV);
        overflow(sheet, CareTables.coverage(result), SweepWriter.COVERAGE_CSV);
        overflow(sheet, CareTables.warranties(result), SweepWriter.WARRANTY_CSV);
        overflow(sheet, CareTables.changes(result), SweepWriter.CHANGES_CSV);
        if (budget != null) {
            overflow(sheet, budget.lines(), SweepWriter.REPLACEMENTS_CSV);
        }
    }

    /** The ask, as formulas of the sheet "Budget". */
    private void budgetSummary(SheetWriter sheet) {
        if (budget == null) {
            return;
        }
        String unit = result.plan().budget().currency().isEmpty() ? "No prices" : result.plan().budget().currency();
        BudgetText words = new BudgetText(result);
        Table<BudgetPeriod> table = budget.periodsOnTheSheet();
        sheet.gap();
        sheet.line(true, "Budget of the next quarters", unit, "Named items");
        for (BudgetPeriod quarter : words.nextQuarters()) {
            String name = Wording.sentenceCase(words.nameOf(quarter));
            sheet.line(true, name + ": to ask for", amount(table, "toAskFor", quarter), new NamedItems(result.plan().budget()).of(quarter));
            sheet.line(false, name + ": the same, as swept", quarter.toAskFor(), typedSince(table, quarter));
            sheet.line(false, name + ": cost of the named", amount(table, "namedAmount", quarter), "those items; the plan may be more");
            sheet.line(false, name + ": plan", amount(table, "plan", quarter), "the cost of the named, or the P50 where that is more");
            sheet.line(false, name + ": contingency and allowance", beyondThePlan(table, quarter), "what to ask for beyond the plan; sheet Budget has the parts");
        }
        if (budget.aboveMoney() != null) {
            sheet.gap();
            sheet.line(true, budget.aboveMoney());
        }
        for (BudgetPeriod year : words.years()) {
            sheet.gap();
            sheet.line(true, "Budget of " + words.nameOfSum(year) + ", " + year.from() + " to " + year.until(), unit,
                words.lackingPrices().isEmpty() ? "What it is" : "AT LEAST: no price for " + String.join(", ", words.lackingPrices()));
            BudgetText.meanings().forEach((name, meaning) ->
                sheet.line(name.equals("toAskFor"), column(table, name).heading(), amount(table, name, year), meaning));
        }
        sheet.gap();
        sheet.line(true, "To know with the amounts");
        words.notes().forEach(note -> sheet.line(false, note.topic(), null, note.text()));
    }

    private static Column<BudgetPeriod> column(Table<BudgetPeriod> table, String name) {
        return table.columns().stream().filter(column -> column.name().equals(name)).findFirst().orElseThrow();
    }

    /** The cell of the sheet "Budget". */
    private Formula amount(Table<BudgetPeriod> table, String name, BudgetPeriod period) {
        return new Formula("'" + table.name() + "'!" + table.letter(name) + (budget.firstRowOfMoney() + result.plan().budget().quarters().indexOf(period)),
            column(table, name).valueOf(period), CellType.MONEY);
    }

    /** Example: {@code what was typed on the sheet Assumptions since changes it by +13.00}. */
    private Formula typedSince(Table<BudgetPeriod> table, BudgetPeriod period) {
        String change = amount(table, "typedSince", period).text();
        String words = "what was typed on the sheet Assumptions since changes it by ";
        return new Formula("\"" + words + "\"&IF(" + change + ">0,\"+\",\"\")&FIXED(" + change + ",2)", words + "0.00", CellType.LONG_TEXT);
    }

    private Formula beyondThePlan(Table<BudgetPeriod> table, BudgetPeriod period) {
        return new Formula(amount(table, "toAskFor", period).text() + "-" + amount(table, "plan", period).text(), period.toAskFor().subtract(period.plan()), CellType.MONEY);
    }

    private void overflow(SheetWriter sheet, Table<?> table, String csv) {
        int left = table.rows().size() - mostRows;
        if (left > 0) {
            sheet.gap();
            sheet.line(true, "Rows that do not fit the " + table.name() + " sheet", left,
                "The sheet lists the worst " + mostRows + " rows first; all rows are in " + csv + ".");
        }
    }

    private void memory() {
        SheetWriter sheet = sheet("Memory and writes");
        sheet.dataSheet(Tables.memoryBands(result), band -> false);
        if (!result.fleet().memoryContrasts().isEmpty()) {
            sheet.gap();
            sheet.table(Tables.memoryContrasts(result), contrast -> false);
        }
    }

    private void method() {
        SheetWriter sheet = sheet("Method and assumptions");
        sheet.columnWidths(38, 110);
        sheet.line(true, "Topic", "What it means");
        MethodNotes.of(result).forEach(note -> sheet.line(false, note.topic(), note.text()));
    }
}
