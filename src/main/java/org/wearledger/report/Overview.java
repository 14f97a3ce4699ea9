package org.wearledger.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Accounting;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Effect;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Problem;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WorkItem;

/** What is read first: counts, money, the machines to act on, and what to look at before trusting them. */
public final class Overview {
    private static final int MOST_NOTES = 8;
    private static final int MOST_COLUMNS = 2;
    private static final int MOST_NAMES = 3;
    /** A tenth of the records. */
    private static final int MANY_REFUSED = 10;
    static final String BY = "By";
    static final String COST = "Cost";

    private final SweepResult result;
    private final List<WorkRow> work;
    private final List<String> doubtfulSites;
    private final boolean hasUsers;

    /** @param result of own machines, at least some */
    public Overview(SweepResult result) {
        this.result = result;
        doubtfulSites = DoubtfulSites.of(result);
        work = WorkRow.of(result);
        hasUsers = work.stream().anyMatch(row -> machine(row).user() != null);
    }

    /** Not for a chain, which reads of models and repairs. */
    public static boolean isUseful(SweepResult result) {
        return !result.machines().isEmpty() && !CustomersSummary.isOfAChain(result);
    }

    /** Where no machine is known: what was found, and that it is nothing. */
    public static List<String> nothingRead(SweepResult result) {
        return Stream.concat(Stream.of("No machine: no report could be used."), FileSum.sums(result.accounting()).stream().map(sum -> "- " + sum)).toList();
    }

    /** Example: {@code 60 machines, as of 2025-01-06: 3 urgent, 2 past rating, 1 due, 2 watch, 49 within rating, 3 no verdict}. */
    public String counts() {
        Map<Standing, Long> counts = byStanding(result.ownMachines());
        return Wording.count(result.ownMachines().size(), result.customersMachines().isEmpty() ? "machine" : "own machine") + (result.asOf() == null ? "" : ", as of " + result.asOf()) + ": "
            + Arrays.stream(Standing.values()).filter(standing -> counts.get(standing) > 0).map(standing -> counts.get(standing) + " " + standing.label()).collect(Collectors.joining(", "));
    }

    /** Example: {@code this quarter (2025-Q1): plan 1,470.00, funding request 1,405.38 EUR; 2025: plan ..., funding request ...}; empty without a budget. */
    public String money() {
        if (result.plan().budget() == null) {
            return "";
        }
        if (result.plan().budget().currency().isEmpty()) {
            return "no amounts: put prices.csv into the folder of the reports, or give --prices FILE";
        }
        BudgetText words = new BudgetText(result);
        String least = words.lackingPrices().isEmpty() ? "" : "at least ";
        Function<BudgetPeriod, String> amounts = period -> ": plan " + Wording.amount(period.plan(), "") + ", funding request " + least + Wording.amount(period.toAskFor(), result.plan().budget().currency()) + lessWarranty(period);
        BudgetPeriod quarter = words.nextQuarters().get(0);
        BudgetPeriod year = words.years().get(0);
        return words.nameOf(quarter) + amounts.apply(quarter) + (year.label().equals(quarter.label()) ? "" : "; " + words.nameOfSum(year) + amounts.apply(year))
            + (least.isEmpty() ? "" : "; no price for " + words.lackingPrices().stream().limit(MOST_NAMES).collect(Collectors.joining(", ")));
    }

    /** Who sees a request below the plan asks why. */
    private static String lessWarranty(BudgetPeriod period) {
        return period.funding() == null || period.funding().warranty().signum() == 0 ? "" : " (less " + Wording.amount(period.funding().warranty(), "") + " from warranty)";
    }

    /** How many machines there is something to do for. */
    public int machines() {
        return work.size();
    }

    /** The machines that there is something to do for, the worst first. */
    List<WorkRow> work() {
        return work;
    }

    /** The headings, then as many machines, the worst first. */
    public List<List<String>> table(int most) {
        List<List<String>> rows = new ArrayList<>(List.of(headings()));
        work.stream().limit(most).map(this::cells).forEach(rows::add);
        return rows;
    }

    List<String> headings() {
        return cells("Machine", "Site", "User", "Standing", BY, COST, "Why", "Do");
    }

    /** Of a machine without anything to do no day and no cost. */
    List<String> cells(WorkRow row) {
        if (isOfDoubtfulSite(row)) {
            return cells(machine(row).id(), machine(row).site(), machine(row).user(), row.standing().label(), "check first", "", "its site's figures are in doubt", "check the mapping, then sweep again");
        }
        String by = row.steps().isEmpty() ? "" : row.isCheckedFirst() ? "check first" : row.byOn().isAfter(result.asOf()) ? row.byOn().toString() : "now";
        return cells(machine(row).id(), machine(row).site(), machine(row).user(), row.standing().label(), by, ShortWords.cost(row), ShortWords.why(row, result.asOf()), ShortWords.what(row));
    }

    /** What it reports of its own failing holds all the same. */
    private boolean isOfDoubtfulSite(WorkRow row) {
        return row.standing() != Standing.URGENT && row.has(WorkItem.Action.CHECK_FIGURES) && doubtfulSites.contains(DoubtfulSites.site(machine(row)));
    }

    private static Machine machine(WorkRow row) {
        return row.row().assessment().machine();
    }

    /** The user's column is left out where the inventory names none. */
    private List<String> cells(String machine, String site, String user, String... others) {
        return Stream.concat(Stream.of(machine, site, user).limit(hasUsers ? 3 : 2), Stream.of(others)).map(cell -> cell == null ? "" : VisibleText.of(cell)).toList();
    }

    /** Where the rest of the table is; empty where all is shown. */
    public String more(int shown) {
        return work.size() <= shown ? "" : "and " + (work.size() - shown) + " more in " + SweepWriter.WORK_LIST_CSV;
    }

    /** What to settle before any of it is acted on: columns that the mapping misses, figures in doubt. */
    public List<String> warnings() {
        List<String> columns = InputGaps.missingColumns(result.problems());
        List<String> warnings = new ArrayList<>(columns.subList(0, Math.min(MOST_COLUMNS, columns.size())));
        if (columns.size() > MOST_COLUMNS) {
            warnings.add("columns missing: " + (columns.size() - MOST_COLUMNS) + " more, see " + SweepWriter.PROBLEMS_CSV);
        }
        refused().ifPresent(warnings::add);
        DoubtfulSites.sentence(result).lines().map(VisibleText::of).forEach(warnings::add);
        GlanceText.doubt(result).lines().forEach(warnings::add);
        return warnings;
    }

    /** A site whose export cannot be read is missed by nobody who reads the table. */
    private Optional<String> refused() {
        Accounting sums = result.accounting();
        if (sums.recordsRefused() * MANY_REFUSED < sums.recordsFound() || sums.recordsRefused() == 0) {
            return Optional.empty();
        }
        Map<String, Long> folders = result.problems().stream().filter(problem -> problem.kind().effect() == Effect.RECORD_REFUSED)
            .collect(Collectors.groupingBy(problem -> folder(problem.source().file()), TreeMap::new, Collectors.summingLong(Problem::count)));
        return folders.entrySet().stream().max(Map.Entry.comparingByValue()).map(most -> "correct the export or its mapping first: " + sums.recordsRefused() + " of " + sums.recordsFound()
            + " records were refused" + (most.getKey().isEmpty() ? "" : ", " + most.getValue() + " of them in " + VisibleText.of(most.getKey())) + ", so machines are missing below; see " + SweepWriter.PROBLEMS_CSV);
    }

    private static String folder(String file) {
        return file.contains("/") ? file.substring(0, file.lastIndexOf('/')) : "";
    }

    /** At most eight lines: what was read and refused, and who is silent; each with a number and where to look. */
    public List<String> notes() {
        List<String> notes = new ArrayList<>(accounting(result.accounting()));
        Stream.of(silentOnErrors(result)).filter(silent -> !silent.isEmpty()).forEach(notes::add);
        add(notes, "not reported this sweep", SweepWriter.COVERAGE_CSV, result.ownMachines().stream().filter(machine -> !machine.reportedThisSweep()).toList());
        add(notes, "latest report set aside", SweepWriter.PROBLEMS_CSV, result.ownMachines().stream().filter(machine -> machine.latestSetAsideBy() != null).toList());
        add(notes, "not in the inventory", SweepWriter.COVERAGE_CSV, result.ownMachines().stream().filter(machine -> !machine.inInventory()).toList());
        later(notes);
        notes.addAll(DecisionText.of(result.plan().decisions()));
        assumed(notes);
        if (!result.customersMachines().isEmpty()) {
            notes.add("customers' machines: " + result.customersMachines().size() + ", see " + SweepWriter.SUMMARY_MD + " and " + SweepWriter.CUSTOMERS_CSV);
        }
        return notes.size() <= MOST_NOTES ? notes : notes.subList(0, MOST_NOTES);
    }

    /** Both sums that must add up, and the side tables where rows were refused. */
    private static List<String> accounting(Accounting sums) {
        List<String> lines = FileSum.sums(sums);
        return sums.rowsRefused() == 0 ? lines.subList(0, lines.size() - 1) : lines;
    }

    private static void add(List<String> notes, String what, String file, List<MachineAssessment> machines) {
        if (!machines.isEmpty()) {
            notes.add(what + ": " + machines.size() + " (" + machines.stream().limit(MOST_NAMES).map(machine -> VisibleText.of(machine.machine().id())).collect(Collectors.joining(", "))
                + (machines.size() > MOST_NAMES ? ", ..." : "") + "), see " + file);
        }
    }

    /** What the plan has and the table has not yet. */
    private void later(List<String> notes) {
        Set<String> now = work.stream().filter(row -> !row.orders().isEmpty()).map(row -> row.row().machineId()).collect(Collectors.toSet());
        List<PlannedReplacement> lines = result.plan().budget() == null ? List.of() : result.plan().budget().lines().stream()
            .filter(line -> line.orderByOn().isAfter(result.asOf()) && !now.contains(line.machine().id())).sorted(Comparator.comparing(PlannedReplacement::orderByOn).thenComparing(line -> line.machine().id())).toList();
        if (!lines.isEmpty()) {
            notes.add("later orders: " + lines.size() + ", the next by " + lines.get(0).orderByOn() + " (" + VisibleText.of(lines.get(0).machine().id()) + ": " + lines.get(0).item() + "), see " + SweepWriter.REPLACEMENTS_CSV);
        }
    }

    private void assumed(List<String> notes) {
        List<DriveAssessment> drives = result.ownMachines().stream().flatMap(machine -> machine.activeDrives().stream()).toList();
        List<String> models = drives.stream().filter(drive -> drive.wear().endurance() != null && drive.wear().endurance().assumed()).map(drive -> drive.latest().drive().model()).toList();
        if (!models.isEmpty()) {
            // Those of the worst machines first: what is done for them rests on it.
            List<String> names = Stream.concat(work.stream().map(WorkRow::row).filter(row -> row.drive() != null).map(row -> row.drive().latest().drive().model()).filter(Set.copyOf(models)::contains),
                models.stream().sorted()).distinct().toList();
            notes.add("rating assumed: " + models.size() + " of " + Wording.count(drives.size(), "drive") + "; give theirs in ratings.csv, in the folder of the reports: "
                + names.stream().limit(MOST_NAMES).map(VisibleText::of).collect(Collectors.joining(", ")) + (names.size() > MOST_NAMES ? ", ..." : ""));
        }
    }

    static Map<Standing, Long> byStanding(List<MachineAssessment> machines) {
        Map<Standing, Long> counts = new TreeMap<>();
        Arrays.stream(Standing.values()).forEach(standing -> counts.put(standing, 0L));
        machines.forEach(machine -> counts.merge(machine.standing(), 1L, Long::sum));
        return counts;
    }

    /** Of drives that tell none of it no failing state can be seen. */
    static String silentOnErrors(SweepResult result) {
        List<Health> healths = result.ownMachines().stream().flatMap(machine -> machine.activeDrives().stream()).map(drive -> drive.latest().health()).toList();
        long silent = healths.stream().filter(health -> health.criticalWarning() == null && health.availableSparePercent() == null
            && health.mediaAndDataIntegrityErrors() == null).count();
        return silent == 0 ? "" : "not reported by " + silent + " of " + Wording.count(healths.size(), "drive") + ": warnings, spare blocks and media errors; whether " + (silent == 1 ? "it is" : "they are") + " urgent cannot be seen";
    }
}
