package org.wearledger.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MappingUse;
import org.wearledger.model.Ownership;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** The sweep on one or two screens: Markdown that also reads well unrendered on a console. */
public final class SummaryText {
    static final int MOST_LISTED = 25;
    private static final int MOST_WITHOUT_VERDICT = 12;
    private static final int MOST_MAPPINGS = 6;

    private final SweepResult result;
    private final MachineLines machines;
    private final Map<String, String> formerNames;
    private final MarkdownLines lines = new MarkdownLines();

    private SummaryText(SweepResult result) {
        this.result = result;
        machines = new MachineLines(result);
        formerNames = MachineAssessment.formerNames(result.machines());
    }

    /** The same text that {@code summary.md} holds, ending with a line break. */
    public static String of(SweepResult result) {
        return new SummaryText(result).build();
    }

    private String build() {
        lines.title("Wear sweep, " + (result.asOf() == null ? "no reading kept" : "as of " + result.asOf()));
        warnings();
        // A chain with a few machines of its own reads of its customers' first.
        boolean isOfAChain = CustomersSummary.isOfAChain(result);
        if (isOfAChain) {
            CustomersSummary.write(result, lines);
        } else {
            toDo();
        }
        if (result.isOfCustomersAlone()) {
            accounting();
            CustomersSummary.problems(result, lines);
        } else {
            if (isOfAChain) {
                toDo();
                ownMachines();
            } else {
                ownMachines();
                fleet();
            }
            notSeen();
            accounting();
            problems();
            nextSteps();
        }
        lines.heading("Cautions");
        lines.bullet("Reaching the rating is not failure, and drives often fail without warning: back up always.");
        if (!result.isOfCustomersAlone()) {
            lines.bullet(Wording.TWO_MEASURES + ".");
            lines.bullet(Wording.calibration(result));
        }
        MethodNotes.CAUTIONS.forEach(lines::bullet);
        return lines.text();
    }

    private void fleet() {
        if (!result.customersMachines().isEmpty()) {
            lines.heading("Customers' machines");
            CustomerCounts.notes(result).forEach(lines::note);
            CustomersSummary.pressing(result).forEach(lines::note);
        }
        new ModelsText(result, lines).write();
        memory();
        List<MethodNotes.Note> repairs = RepairTables.notes(result);
        if (!repairs.isEmpty()) {
            lines.heading("Repairs");
            repairs.forEach(lines::note);
        }
    }

    private void ownMachines() {
        List<MachineRow> rows = MachineRow.of(result.ownMachines()).stream().sorted(MachineRow.WORST_FIRST).toList();
        list("Urgent", rows, Standing.URGENT, MOST_LISTED);
        list("Past rating", rows, Standing.PAST_RATING, MOST_LISTED);
        list("Due", rows, Standing.DUE, MOST_LISTED);
        list("Watch", rows, Standing.WATCH, MOST_LISTED);
        list("No verdict", rows, Standing.NO_VERDICT, MOST_WITHOUT_VERDICT);
        budget();
    }

    private void notSeen() {
        notReported();
        notInInventory();
        setAside();
    }

    /** The machines that the counts are of: own ones, or all where there is no own one. */
    static List<MachineAssessment> counted(SweepResult result) {
        return result.isOfCustomersAlone() ? result.machines() : result.ownMachines();
    }

    /** What those are all of. */
    static String all(SweepResult result) {
        return result.customersMachines().isEmpty() ? "All machines" : result.isOfCustomersAlone() ? "All machines, customers'" : "All own machines";
    }

    /** What to settle before anything below is acted on. */
    private void warnings() {
        InputGaps.missingColumns(result.problems()).forEach(lines::bullet);
        DoubtfulSites.sentence(result).lines().forEach(lines::bullet);
        InDoubtSentence doubt = new InDoubtSentence(result);
        if (doubt.count() > 0) {
            lines.bullet("in doubt: " + doubt.sentence());
        }
    }

    private void toDo() {
        Overview overview = new Overview(result);
        lines.bullet(overview.counts());
        if (!Overview.silentOnErrors(result).isEmpty()) {
            lines.bullet(Overview.silentOnErrors(result));
        }
        if (!overview.money().isEmpty()) {
            lines.bullet(overview.money());
        }
        if (overview.machines() > 0) {
            lines.heading("To do");
            List<List<String>> table = overview.table(MOST_LISTED);
            lines.table(table, column -> table.get(0).get(column).equals(Overview.COST));
            if (overview.machines() > MOST_LISTED) {
                lines.bullet(overview.more(MOST_LISTED));
            }
        }
    }

    private void accounting() {
        lines.heading("What was read");
        List<String> sums = new ArrayList<>(FileSum.sums(result.accounting()));
        if (!result.isOfCustomersAlone() || result.accounting().filesPassedOver() > 0) {
            sums.add("files passed over (no reports): " + result.accounting().filesPassedOver());
        }
        (result.isOfCustomersAlone() ? List.of(String.join("; ", sums)) : sums).forEach(lines::bullet);
        List<MappingUse> mappings = result.files().mappings();
        mappings.stream().limit(MOST_MAPPINGS).map(Wording::mapping).forEach(lines::bullet);
        if (mappings.size() > MOST_MAPPINGS) {
            lines.bullet("mappings: " + (mappings.size() - MOST_MAPPINGS) + " more, which `wearledger check` lists");
        }
        lines.bullet("side tables: " + result.accounting().sideTables() + " (" + result.files().ratings() + " ratings, "
            + result.files().inventoryMachines() + " inventory machines, " + result.files().prices() + " prices" + (result.files().repairs() == 0 ? "" : ", " + Wording.count(result.files().repairs(), "repair")) + ")");
        lines.bullet("form of the tables: " + SweepWriter.FORM);
        InputGaps.unusedRows(result.problems()).forEach(lines::bullet);
        InputGaps.nearRatings(result).ifPresent(lines::bullet);
        String unchecked = GlanceText.unchecked(result);
        if (!unchecked.isEmpty()) {
            lines.bullet("not to be checked: " + unchecked);
        }
    }

    private void list(String heading, List<MachineRow> rows, Standing standing, int most) {
        capped(heading, rows.stream().filter(row -> row.standing() == standing).toList(), most, SweepWriter.MACHINES_CSV, machines::of);
    }

    private <T> void capped(String heading, List<T> rows, Function<T, String> entry) {
        capped(heading, rows, MOST_LISTED, SweepWriter.MACHINES_CSV, entry);
    }

    private <T> void capped(String heading, List<T> rows, int most, String file, Function<T, String> entry) {
        if (rows.isEmpty()) {
            return;
        }
        lines.heading(heading);
        lines.bullets(rows, most, file, entry);
    }

    private void budget() {
        if (result.plan().budget() != null) {
            lines.heading("Budget");
            new BudgetText(result).write(lines);
            DecisionText.of(result.plan().decisions()).forEach(lines::bullet);
        }
        if (result.plan().comparison() != null) {
            new ComparisonText(result, lines).write();
        }
    }

    private void notReported() {
        capped("Not reported this sweep",
            result.ownMachines().stream().filter(machine -> !machine.reportedThisSweep()).toList(),
            machine -> MachineLines.place(machine) + ": " + (machine.lastSeenAt() == null
                ? (result.accounting().readingsKept() == 0 ? "no report could be read" : machine.refused() != null ? "no report of it could be used" : "in the inventory, never reported")
                : "last seen " + Wording.day(machine.lastSeenAt())) + (machine.refused() == null ? "" : "; " + machine.refused()));
    }

    private void notInInventory() {
        capped("Reported, but not in the inventory", result.ownMachines().stream().filter(machine -> !machine.inInventory()).toList(), MOST_LISTED,
            SweepWriter.COVERAGE_CSV, machine -> MachineLines.place(machine) + ": "
                + (machine.lastSeenAt() == null ? "no usable report" : "last seen " + Wording.day(machine.lastSeenAt())) + formerName(machine));
    }

    private String formerName(MachineAssessment machine) {
        String former = formerNames.get(machine.machine().id());
        return former == null ? "" : "; it has the drive of " + former + ": if that was renamed so, change its name in inventory.csv";
    }

    /** Machines that only set-aside or refused reports speak of: their figures are old, or there are none. */
    private void setAside() {
        capped("Latest report set aside", result.ownMachines().stream().filter(machine -> machine.latestSetAsideBy() != null).toList(),
            machine -> MachineLines.place(machine) + ": by rule " + machine.latestSetAsideBy().id() + (machine.activeDrives().isEmpty()
                ? "; no figures" : "; figures are those of the report before it"));
        Set<String> known = result.machines().stream().map(machine -> DriveId.fold(machine.machine().id()))
            .collect(Collectors.toSet());
        capped("Machines whose every report was refused", result.settings().ownership() != Ownership.OWN ? List.of() : result.problems().stream()
            .filter(problem -> problem.kind().effect() == Effect.RECORD_REFUSED && !problem.subject().isEmpty()
                && !known.contains(DriveId.fold(problem.subject()))).toList(),
            problem -> problem.subject() + ": " + problem.kind().id() + " in " + problem.source().file());
    }

    private void memory() {
        if (!result.fleet().memoryContrasts().isEmpty()) {
            lines.heading("Memory and writes");
            result.fleet().memoryContrasts().stream().map(DifferenceWords::of).forEach(lines::bullet);
        }
    }

    private void problems() {
        lines.heading("Data quality");
        if (result.problems().isEmpty()) {
            lines.bullet("no problem found in the input");
        }
        ProblemWords.problemsByRule(result).forEach((kind, count) -> lines.bullet(kind.id() + ": " + count + " ("
            + kind.effect().label() + "): " + FactWords.meaning(kind)));
    }

    private void nextSteps() {
        lines.heading("Next steps");
        if (!result.customersMachines().isEmpty()) {
            lines.bullet("of own machines; " + SweepWriter.MACHINES_CSV + " has those of customers' machines");
        }
        Arrays.stream(Standing.values())
            .forEach(standing -> lines.bullet(standing.label() + ": " + standing.nextStep()));
    }
}
