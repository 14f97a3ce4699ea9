package org.wearledger.report;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** What the summary says where no machine is an own one: of thousands that others answer for nobody reads more than one screen. */
final class CustomersSummary {
    /** Rules. */
    private static final int MOST = 3;
    private static final int MOST_NAMED = 8;

    private CustomersSummary() {
    }

    static void write(SweepResult result, MarkdownLines lines) {
        problems(result, lines);
        CustomerCounts.write(result, lines);
        RepairTables.write(result, lines);
        new ModelsText(result, lines).writeShort();
    }

    /** Those whose owners are to be spoken to, the worst first. */
    static void pressing(SweepResult result, MarkdownLines lines) {
        List<MachineRow> rows = MachineRow.of(result.customersMachines()).stream().filter(row -> row.standing().compareTo(Standing.DUE) <= 0).sorted(MachineRow.WORST_FIRST).toList();
        if (!rows.isEmpty()) {
            lines.heading("Customers' machines to tell the owner of");
            lines.bullets(rows, MOST_NAMED, SweepWriter.MACHINES_CSV, row -> MachineLines.place(row.assessment()) + ": " + row.standing().label() + "; " + firstClauses(row.reason()));
        }
    }

    /** What was seen; the times and notes stand in the table. */
    private static String firstClauses(String reason) {
        return Arrays.stream(reason.split("; ")).limit(2).collect(Collectors.joining("; "));
    }

    private static void problems(SweepResult result, MarkdownLines lines) {
        Map<ProblemKind, Long> rules = SummaryText.problemsByRule(result);
        if (!rules.isEmpty()) {
            lines.bullet(Wording.count(Problem.count(result.problems()), "problem") + " by " + Wording.count(rules.size(), "rule") + ": "
                + rules.entrySet().stream().sorted(Map.Entry.comparingByValue(Comparator.reverseOrder())).limit(MOST)
                .map(rule -> rule.getKey().id() + " " + rule.getValue()).collect(Collectors.joining(", ")) + more(rules.size(), SweepWriter.PROBLEMS_CSV));
        }
    }

    private static String more(int all, String file) {
        return (all > MOST ? ", and " + (all - MOST) + " more" : "") + "; " + file + " has each";
    }
}
