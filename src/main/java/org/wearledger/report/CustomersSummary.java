package org.wearledger.report;

import java.util.Comparator;
import java.util.Map;
import java.util.stream.Collectors;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;

/** What the summary says where no machine is an own one: of thousands that others answer for nobody reads more than one screen. */
final class CustomersSummary {
    /** Rules. */
    private static final int MOST = 3;

    private CustomersSummary() {
    }

    static void write(SweepResult result, MarkdownLines lines) {
        problems(result, lines);
        CustomerCounts.write(result, lines);
        RepairTables.write(result, lines);
        new ModelsText(result, lines).writeShort();
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
