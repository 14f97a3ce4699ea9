package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.Accounting;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Problem;
import org.wearledger.model.Standing;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.SweepResult;
import org.wearledger.report.MethodNotes.Note;

/** The sweep as one workbook with typed cells, worst rows first. */
final class WorkbookWriter {
    /** Of a sheet, with room for its heading and a line above it: the file format has 1,048,576 rows. */
    static final int MOST_DATA_ROWS = 1_048_574;

    private static final int ROWS_IN_MEMORY = 100;
    private static final int NAMES_LISTED = 12;
    private static final Comparator<ProblemWords> GRAVEST_FIRST =
        Comparator.comparing((ProblemWords words) -> words.problem().kind().effect()).thenComparing(Comparator.naturalOrder());

    private final SweepResult result;
    private final int mostRows;
    private final SXSSFWorkbook workbook;
    private final Styles styles;
    private final boolean isOfAChain;
    /** {@code null} without a budget, and where a chain has nothing to buy for machines of its own. */
    private final BudgetTables budget;

    private WorkbookWriter(SweepResult result, int mostRows, SXSSFWorkbook workbook) {
        this.result = result;
        this.mostRows = mostRows;
        this.workbook = workbook;
        this.styles = new Styles(workbook, "Wear sweep" + (result.asOf() == null ? "" : ", as of " + result.asOf()));
        this.isOfAChain = CustomersSummary.isOfAChain(result);
        this.budget = result.plan().budget() == null || isOfAChain && result.plan().budget().lines().isEmpty() ? null : new BudgetTables(result);
    }

    /**
     * @param mostRows of each sheet of facts, 1 or more; the sheets that amounts are worked out from hold all
     * @throws OutputRefusedException when the plan has more lines than a sheet has rows
     */
    static void write(SweepResult result, OutputStream out, int mostRows) throws IOException {
        if (result.plan().budget() != null && result.plan().budget().lines().size() > MOST_DATA_ROWS) {
            throw new OutputRefusedException(String.format(Locale.ROOT, "the plan has %,d replacements, and a sheet of the workbook holds %,d: sweep the sites apart, or plan fewer --budget-quarters",
                result.plan().budget().lines().size(), MOST_DATA_ROWS));
        }
        try (SXSSFWorkbook workbook = new LargeWorkbook(ROWS_IN_MEMORY)) {
            new WorkbookWriter(result, Math.min(mostRows, MOST_DATA_ROWS), workbook).fill();
            workbook.write(out);
        }
    }

    private void fill() {
        WorkbookProperties.set(workbook, "Wear sweep", result.version(), result.asOf());
        Table<MachineRow> machines = Tables.machines(result).moved("site", 1).sortedBy(MachineRow.WORST_FIRST);
        Table<ProblemWords> problems = Tables.problems(ProblemWords.listed(result.problems())).sortedBy(GRAVEST_FIRST);
        summary(machines);
        boolean plans = !result.isOfCustomersAlone();
        if (plans && isWorthASheet(CareTables.work(result))) {
            facts(CareTables.work(result), List.of(), work -> true, "", SweepWriter.WORK_LIST_CSV, work -> isPressing(work.standing()));
        }
        if (budget != null) {
            budget();
        }
        Set<String> toDo = result.plan().work().stream().map(item -> item.machine().id()).collect(Collectors.toSet());
        Table<MachineRow> shown = isOfAChain ? machines.with(Tables.MACHINE_COLUMNS_PRINTED - 1, when()) : machines;
        SheetWriter sheet = facts(shown, List.of(), row -> !plans || toDo.contains(row.machineId()), plans ? " (machines to do something for)" : "", SweepWriter.MACHINES_CSV,
            row -> isPressing(row.standing()));
        workbook.setPrintArea(workbook.getSheetIndex("Machines"), 0, Tables.MACHINE_COLUMNS_PRINTED - (isOfAChain ? 0 : 1), 0, sheet.row() - 1);
        if (!result.customersMachines().isEmpty()) {
            facts(CustomerCounts.table(result), SweepWriter.CUSTOMERS_CSV);
        }
        if (plans && isWorthASheet(CareTables.coverage(result))) {
            Table<MachineAssessment> coverage = CareTables.coverage(result);
            facts(coverage.rows().size() <= mostRows ? coverage : coverage.sortedBy(Comparator.comparing(MachineAssessment::standing)), SweepWriter.COVERAGE_CSV);
        }
        if (result.plan().comparison() != null) {
            facts(CareTables.changes(result), SweepWriter.CHANGES_CSV);
        }
        if (plans && isWorthASheet(CareTables.warranties(result))) {
            facts(CareTables.warranties(result), List.of(), check -> check.finding().isToBeAsked(), " (drives to ask the maker about)", SweepWriter.WARRANTY_CSV, row -> false);
        }
        repairs();
        new FleetPictures(result, budget, workbook, styles).draw();
        models(ModelTables.drivesOnSheet(result), ComparedNotes.ofDrives(result), SweepWriter.MODELS_CSV);
        models(ModelTables.onSheet(ModelTables.machines(result)), List.of(), SweepWriter.MACHINE_MODELS_CSV);
        if (!ModelTables.sites(result).rows().isEmpty()) {
            models(ModelTables.onSheet(ModelTables.sites(result)), List.of(), SweepWriter.SITES_CSV);
        }
        memory();
        facts(problems, SweepWriter.PROBLEMS_CSV);
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
        SheetWriter lines = sheet(BudgetTables.LINES);
        lines.dataSheet(budget.lines(), row -> false);
        workbook.setPrintArea(workbook.getSheetIndex(BudgetTables.LINES), 0, BudgetTables.LINE_COLUMNS_PRINTED - 1, 0, lines.row() - 1);
        money(budget.purchases(), row -> false);
        money(budget.totals(), row -> false);
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

    private <T> void facts(Table<T> table, String csv) {
        facts(table, List.of(), row -> true, "", csv, row -> false);
    }

    /** A chain has few machines of its own, and seldom anything to do for them. */
    private boolean isWorthASheet(Table<?> ofOwnMachines) {
        return !isOfAChain || !ofOwnMachines.rows().isEmpty();
    }

    /** A chain's people tell it to the owner. */
    private Column<MachineRow> when() {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        return Column.longText("when", "When, in words", MachineRow.ofDrive(drive -> OwnersWords.when(drive, doubts, result.asOf())));
    }

    /**
     * A sheet that no amount rests on. Where the table has more rows than it may hold, it holds those that matter, in their order, and says so on top.
     *
     * @param above what the table says, in words
     * @param which what those are, in words; empty for the first of all
     */
    private <T> SheetWriter facts(Table<T> table, List<Note> above, Predicate<T> matters, String which, String csv, Predicate<T> emphasised) {
        SheetWriter sheet = sheet(table.name());
        above.forEach(note -> sheet.note(note.topic() + ": " + note.text() + "."));
        Table<T> shown = table;
        if (table.rows().size() > mostRows) {
            shown = table.only(matters).firstRows(mostRows);
            sheet.above(String.format(Locale.ROOT, "%,d of %,d rows, worst first%s: all are in %s. For more here, sweep with --workbook-rows.",
                shown.rows().size(), table.rows().size(), which, csv));
        }
        sheet.dataSheet(shown, emphasised);
        return sheet;
    }

    private SheetWriter sheet(String name) {
        return new SheetWriter(workbook.createSheet(name), styles);
    }

    private static boolean isPressing(Standing standing) {
        return standing == Standing.URGENT || standing == Standing.PAST_RATING;
    }

    private void summary(Table<MachineRow> machines) {
        SheetWriter sheet = sheet("Summary");
        sheet.columnWidths(46, 14, 90);
        sheet.line(true, "Wear sweep");
        sheet.line(false, "As of", result.asOf() == null ? "no reading kept" : result.asOf());
        if (isOfAChain) {
            sheet.gap();
            sheet.line(true, CustomersSummary.HEADING);
            CustomersSummary.answers(result).forEach(note -> sheet.line(false, note.topic(), null, note.text()));
            if (budget == null && result.plan().budget() != null) {
                sheet.line(false, "Own machines", null, "nothing is to be bought for them: their budget is in " + SweepWriter.BUDGET_CSV + " alone");
            }
        }
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
        InputGaps.missingColumnSentences(result.problems()).forEach(line -> sheet.line(true, "Columns missing", "", Wording.sentenceCase(line)));
        InDoubtSentence doubt = new InDoubtSentence(result);
        if (doubt.count() > 0) {
            sheet.line(true, "Drives in doubt", doubt.count(), Wording.sentenceCase(doubt.sentence()));
        }
        sheet.gap();
        sheet.line(true, "Standing", "Machines", "Next step");
        List<MachineAssessment> counted = SummaryText.counted(result);
        SummaryText.byStanding(counted).forEach((standing, count) ->
            sheet.line(isPressing(standing), standing.label(), count, result.isOfCustomersAlone() ? standing.nextStepForCustomer() : standing.nextStep()));
        sheet.line(false, SummaryText.all(result), counted.size());
        List<String> silent = result.ownMachines().stream().filter(machine -> !machine.reportedThisSweep()).map(machine -> machine.machine().id()).toList();
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
            sheet.line(false, kind.id(), count, FactWords.meaning(kind)));
        sheet.line(false, "All problems", Problem.count(result.problems()));
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
            sheet.line(true, name + ": to ask for", amount(table, "toAskFor", quarter), new NamedReplacementsText(result.plan().budget()).of(quarter));
            sheet.line(false, name + ": the same, as swept", quarter.toAskFor(), typedSince(table, quarter));
            sheet.line(false, name + ": cost of named replacements", amount(table, "namedAmount", quarter), "those items; the plan may be more");
            sheet.line(false, name + ": plan", amount(table, "plan", quarter), "the cost of named replacements, or the P50 where that is more");
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
            BudgetText.MONEY.forEach(column -> sheet.line(column.name().equals("toAskFor"), column(table, column.name()).heading(), amount(table, column.name(), year), column.meaning()));
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

    private void repairs() {
        RepairSummary repairs = result.fleet().repairs();
        if (!repairs.isEmpty()) {
            SheetWriter sheet = sheet("Repairs");
            if (repairs.deadDrives().dead() > 0) {
                sheet.above(Wording.sentenceCase(RepairTables.worn(repairs.deadDrives())) + ".");
            }
            sheet.dataSheet(RepairTables.repairs(result), count -> false);
            SheetWriter stock = sheet("Stock");
            stock.above(RepairTables.RULE_OF_STOCK + ".");
            stock.dataSheet(RepairTables.stock(result), need -> false);
            if (!repairs.failures().incidences().isEmpty()) {
                sheet("Failures").dataSheet(FailureTable.of(result), incidence -> false);
            }
        }
    }

    private <T> void models(Table<T> table, List<Note> above, String csv) {
        SheetWriter sheet = facts(table, above, row -> true, "", csv, row -> false);
        sheet.gap();
        sheet.note(Wording.sentenceCase(ModelsText.SELECTION) + ". " + csv + " has further columns.");
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
