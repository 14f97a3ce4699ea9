package org.wearledger.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Calibration;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Forecast;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.report.MethodNotes.Note;

/** What the summary and the workbook's first sheet say of customers' machines: of thousands that others answer for nobody reads more than one screen. */
final class CustomersSummary {
    static final String HEADING = "What machines and repairs say";
    /** Rules. */
    private static final int MOST = 3;
    private static final int MOST_NAMED = 2;

    private CustomersSummary() {
    }

    /** Whether most machines are customers': a chain with a few machines of its own reads of the others first. */
    static boolean isOfAChain(SweepResult result) {
        return result.customersMachines().size() > result.ownMachines().size();
    }

    static void write(SweepResult result, MarkdownLines lines) {
        lines.heading(HEADING);
        answers(result).forEach(lines::note);
    }

    /** One line for each question of a chain. */
    static List<Note> answers(SweepResult result) {
        List<Note> notes = new ArrayList<>(CustomerCounts.notes(result));
        notes.addAll(pressing(result));
        notes.addAll(ComparedNotes.of(result));
        notes.addAll(RepairTables.notes(result));
        return notes;
    }

    /** Those whose owners are to be spoken to, by standing: the most worn, or those that will first be, with the time as the owner reads it. */
    static List<Note> pressing(SweepResult result) {
        List<MachineRow> rows = MachineRow.of(result.customersMachines()).stream().sorted(mostPressingFirst(result)).toList();
        List<Note> notes = new ArrayList<>();
        add(notes, Standing.URGENT, rows, MachineRow::reason);
        add(notes, Standing.PAST_RATING, rows, row -> row.drive() == null ? row.reason() : Wording.number(row.usedPercent(), 0) + " %");
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        List<MachineRow> due = rows.stream().filter(row -> row.standing() == Standing.DUE && row.drive() != null).toList();
        Map<Boolean, List<MachineRow>> byTime = due.stream().collect(Collectors.partitioningBy(row -> OwnersWords.isTimeKnown(row.drive(), doubts, result.asOf())));
        if (!due.isEmpty()) {
            long inDoubt = byTime.get(false).stream().filter(row -> OwnersWords.isInDoubt(row.drive(), doubts)).count();
            String named = Wording.named(byTime.get(true), MOST_NAMED, row -> MachineLines.place(row.assessment()) + " " + time(row, result.asOf()));
            notes.add(new Note("Owners to tell, due", (named.isEmpty() ? "" : named + "; ") + due.stream().filter(MachineRow::isSeenOnce).count() + " of " + due.size() + " seen once; no date for "
                + (byTime.get(false).size() - inDoubt) + " (too little is known" + byTime.get(false).stream().filter(row -> !OwnersWords.isInDoubt(row.drive(), doubts)).max(Comparator.comparingDouble(MachineRow::usedPercent))
                    .map(row -> "; most worn " + row.machineId() + " " + Wording.number(row.usedPercent(), 0) + " %").orElse("") + ") and " + inDoubt + " (check the figures)" + (isChecked(result) ? "" : ". Dates not checked yet")));
        }
        return notes;
    }

    private static boolean isChecked(SweepResult result) {
        return result.fleet().calibration() != null && result.fleet().calibration().checks().stream().anyMatch(Calibration.Check::isEstablished);
    }

    /** Example: {@code between 23 April and 11 May 2024 (probably passed, seen once, rating assumed)}. */
    private static String time(MachineRow row, LocalDate asOf) {
        DriveAssessment drive = row.drive();
        List<String> known = Stream.of(OwnersWords.isProbablyReached(drive, asOf) ? "probably passed" : "", row.isSeenOnce() ? "seen once" : "",
            OwnersWords.isByOwnEstimate(drive) ? "own estimate" : drive.wear().endurance() != null && drive.wear().endurance().assumed() ? "rating assumed" : "").filter(word -> !word.isEmpty()).toList();
        return OwnersWords.range(OwnersWords.forecast(drive), asOf) + (known.isEmpty() ? "" : " (" + String.join(", ", known) + ")");
    }

    private static void add(List<Note> notes, Standing standing, List<MachineRow> rows, Function<MachineRow, String> words) {
        List<MachineRow> these = rows.stream().filter(row -> row.standing() == standing).toList();
        if (!these.isEmpty()) {
            notes.add(new Note("Owners to tell, " + standing.label(), Wording.named(these, MOST_NAMED, row -> MachineLines.place(row.assessment()) + ": " + words.apply(row))));
        }
    }

    /** By standing; the further worn, then those of known time by how likely they reach their limit, then by when. */
    static Comparator<MachineRow> mostPressingFirst(SweepResult result) {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        return Comparator.comparing(MachineRow::standing)
            .thenComparingDouble(row -> row.standing() == Standing.PAST_RATING ? -row.usedPercent() : 0)
            .thenComparing(row -> !OwnersWords.isTimeKnown(row.drive(), doubts, result.asOf()))
            .thenComparing(row -> -chancePercent(row))
            .thenComparing(row -> row.drive() == null || OwnersWords.forecast(row.drive()) == null ? null : OwnersWords.forecast(row.drive()).p50On(), Comparator.nullsLast(Comparator.naturalOrder()))
            .thenComparing(MachineRow.BY_MACHINE);
    }

    private static long chancePercent(MachineRow row) {
        Forecast forecast = row.drive() == null ? null : OwnersWords.forecast(row.drive());
        return forecast == null ? 0 : Math.round(100 * (row.standing() == Standing.DUE ? forecast.withinLeadTime() : forecast.within4Quarters()));
    }

    static void problems(SweepResult result, MarkdownLines lines) {
        Map<ProblemKind, Long> rules = ProblemWords.problemsByRule(result);
        if (!rules.isEmpty()) {
            lines.bullet(Wording.count(Problem.count(result.problems()), "problem") + ": " + Wording.named(rules.entrySet().stream().sorted(Map.Entry.comparingByValue(Comparator.reverseOrder())).toList(),
                MOST, rule -> rule.getKey().id() + " " + rule.getValue()) + "; " + SweepWriter.PROBLEMS_CSV);
        }
    }
}
