package org.wearledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
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

    /** Those whose owners are to be spoken to, by standing: the most worn, or those that will first be, with the time as it is told to the owner. */
    static List<Note> pressing(SweepResult result) {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        List<MachineRow> rows = MachineRow.of(result.customersMachines());
        List<Note> notes = new ArrayList<>();
        add(notes, Standing.URGENT, rows, Comparator.comparing(MachineRow::machineId), MachineRow::reason);
        add(notes, Standing.PAST_RATING, rows, Comparator.comparingDouble(row -> -percent(row)), row -> row.drive() == null ? row.reason() : Wording.number(percent(row), 0) + " %");
        add(notes, Standing.DUE, rows, Comparator.comparing((MachineRow row) -> OwnersWords.isTimeKnown(row.drive(), doubts, result.asOf()) ? MachineLines.deciding(row.drive()).p50On() : null,
            Comparator.nullsLast(Comparator.naturalOrder())), row -> row.drive() == null ? row.reason() : OwnersWords.when(row.drive(), doubts, result.asOf()).replaceFirst("\\.$", ""));
        return notes;
    }

    private static void add(List<Note> notes, Standing standing, List<MachineRow> rows, Comparator<MachineRow> first, Function<MachineRow, String> words) {
        List<MachineRow> these = rows.stream().filter(row -> row.standing() == standing).sorted(first.thenComparing(MachineRow.BY_MACHINE)).toList();
        if (!these.isEmpty()) {
            notes.add(new Note("Owners to tell, " + standing.label(), ModelsText.named(these, MOST_NAMED, row -> MachineLines.place(row.assessment()) + ": " + words.apply(row))));
        }
    }

    private static double percent(MachineRow row) {
        DriveAssessment drive = row.drive();
        return drive == null ? 0 : Math.max(drive.wear().consumedPercent() == null ? 0 : drive.wear().consumedPercent(), drive.percentageUsed() == null ? 0 : drive.percentageUsed());
    }

    static void problems(SweepResult result, MarkdownLines lines) {
        Map<ProblemKind, Long> rules = SummaryText.problemsByRule(result);
        if (!rules.isEmpty()) {
            lines.bullet(Wording.count(Problem.count(result.problems()), "problem") + ": " + ModelsText.named(rules.entrySet().stream().sorted(Map.Entry.comparingByValue(Comparator.reverseOrder())).toList(),
                MOST, rule -> rule.getKey().id() + " " + rule.getValue()) + "; " + SweepWriter.PROBLEMS_CSV);
        }
    }
}
