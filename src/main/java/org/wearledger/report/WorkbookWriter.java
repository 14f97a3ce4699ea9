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
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.SweepResult;
import org.wearledger.report.MethodNotes.Note;

/** The sweep as one workbook with typed cells, worst rows first. */
final class WorkbookWriter {
    /** Of a sheet, with room for its heading and a line above it: the file format has 1,048,576 rows. */
    static final int MOST_DATA_ROWS = 1_048_574;

    private static final int ROWS_IN_MEMORY = 100;
    private static final Comparator<ProblemWords> GRAVEST_FIRST =
        Comparator.comparing((ProblemWords words) -> words.problem().kind().effect()).thenComparing(Comparator.naturalOrder());

    private final SweepResult result;
    private final int mostRows;
    private final SXSSFWorkbook workbook;
    private final Styles styles;
    private final boolean isOfAChain;
    /** {@code null} without a budget, and where a chain has nothing to buy for machines of its own. */
    private final BudgetTables budget;
    private final MoneySheets money;

    private WorkbookWriter(SweepResult result, int mostRows, SXSSFWorkbook workbook) {
        this.result = result;
        this.mostRows = mostRows;
        this.workbook = workbook;
        this.styles = new Styles(workbook, "Wear sweep" + (result.asOf() == null ? "" : ", as of " + result.asOf()));
        this.isOfAChain = CustomersSummary.isOfAChain(result);
        this.budget = result.plan().budget() == null || isOfAChain && result.plan().budget().lines().isEmpty() ? null : new BudgetTables(result);
        this.money = budget == null ? null : new MoneySheets(result, budget, workbook, styles);
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
        new SummarySheet(result, budget, isOfAChain, sheet("Summary")).write();
        boolean plans = !result.isOfCustomersAlone();
        if (plans && isWorthASheet(CareTables.work(result))) {
            facts(CareTables.work(result).showing(CareTables.WORK_COLUMNS_SHOWN), List.of(), work -> true, "", SweepWriter.WORK_LIST_CSV, work -> isPressing(work.standing()));
        }
        if (budget != null) {
            money.write();
        }
        Set<String> toDo = result.plan().work().stream().map(item -> item.machine().id()).collect(Collectors.toSet());
        Table<MachineRow> shown = isOfAChain ? ofAChain(machines) : machines;
        SheetWriter sheet = facts(shown, List.of(), row -> !plans || toDo.contains(row.machineId()), plans ? " (machines to do something for)" : "", SweepWriter.MACHINES_CSV,
            row -> isPressing(row.standing()));
        workbook.setPrintArea(workbook.getSheetIndex("Machines"), 0, shown.indexOf("reason"), 0, sheet.row() - 1);
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
            money.writeBehindTheAmounts();
        }
        method();
    }

    private <T> void facts(Table<T> table, String csv) {
        facts(table, List.of(), row -> true, "", csv, row -> false);
    }

    /** A chain has few machines of its own, and seldom anything to do for them. */
    private boolean isWorthASheet(Table<?> ofOwnMachines) {
        return !isOfAChain || !ofOwnMachines.rows().isEmpty();
    }

    /** The most pressing first, with the time in words that a chain's people tell the owner; no cell has a date where the words give none. */
    private Table<MachineRow> ofAChain(Table<MachineRow> machines) {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        Column<MachineRow> when = Column.longText("when", "When, in words", MachineRow.ofDrive(drive -> OwnersWords.when(drive, doubts, result.asOf())));
        return machines.with(machines.indexOf("reason"), when).emptying(column -> column.name().endsWith("Date"), row -> OwnersWords.isTimeKnown(row.drive(), doubts, result.asOf()))
            .sortedBy(CustomersSummary.mostPressingFirst(result)).withoutEmptyColumns();
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

    static boolean isPressing(Standing standing) {
        return standing == Standing.URGENT || standing == Standing.PAST_RATING;
    }

    private void repairs() {
        RepairSummary repairs = result.fleet().repairs();
        if (!repairs.isEmpty()) {
            SheetWriter sheet = sheet("Repairs");
            if (repairs.deadDrives().dead() > 0) {
                sheet.above(Wording.sentenceCase(RepairTables.worn(repairs.deadDrives())) + ".");
            }
            RepairTables.repairsInParts(result).forEach(part -> {
                sheet.table(part, count -> false);
                sheet.gap();
            });
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
