package org.wearledger.report;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.wearledger.model.FundingDifference;
import org.wearledger.model.NamedCostDifference;
import org.wearledger.model.PlanOutcome;
import org.wearledger.model.SweepDifference;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSnapshot;

/** What the summary says of this sweep against an earlier one. */
final class ComparisonText {
    /** Fewer than one machine in ten of the smaller sweep. */
    private static final int LEAST_SHARE_IN_BOTH = 10;
    private final SweepResult result;
    private final MarkdownLines lines;

    /** @param result with a comparison */
    ComparisonText(SweepResult result, MarkdownLines lines) {
        this.result = result;
        this.lines = lines;
    }

    void write() {
        lines.heading("Changes since " + result.plan().comparison().with());
        if (result.plan().budget() != null) {
            BigDecimal before = result.plan().comparison().plannedBefore();
            BigDecimal now = result.plan().comparison().plannedNow();
            lines.bullet("named replacements: then " + (before == null ? "without a budget" : amount(before)) + ", now " + amount(now)
                + (before == null ? "" : " (" + FundingDifference.signed(now.subtract(before)) + ")"));
        }
        if (!InputGaps.missingColumns(result.problems()).isEmpty()) {
            lines.bullet("columns are missing, as said at the top: what eased, was dropped or costs less may come of that alone");
        }
        asks();
        changes(result.plan().comparison().differences());
    }

    /** Of the next quarters, the years and the whole; the table has the others. */
    private void asks() {
        if (result.plan().budget() == null) {
            return;
        }
        Map<String, String> names = new BudgetText(result).askedFor();
        NamedCostDifference quarter = result.plan().comparison().quarter();
        if (quarter != null) {
            lines.bullet("named replacements of this quarter (" + quarter.quarter() + "): then " + amount(quarter.before()) + ", now " + amount(quarter.now()) + " ("
                + FundingDifference.signed(quarter.costDelta()) + "): " + quarter.parts().stream().map(NamedCostDifference.Part::words).collect(Collectors.joining(", ")));
        }
        if (result.plan().comparison().outcome() != null) {
            lines.bullet(outcome(result.plan().comparison().outcome()));
        }
        List<FundingDifference> asks = result.plan().comparison().asks();
        names.forEach((period, name) -> asks.stream().filter(ask -> ask.now().period().equals(period)).findFirst()
            .ifPresent(ask -> lines.bullet("funding request, " + name + ": then " + ask(ask.before(), ask) + ", now " + ask(ask.now(), ask) + " (" + FundingDifference.signed(ask.delta()) + ")"
                + (ask.parts().isEmpty() ? "" : ": " + ask.parts()))));
        long others = asks.stream().filter(ask -> !names.containsKey(ask.now().period())).count();
        if (others > 0) {
            lines.bullet("funding request, " + Wording.count(others, "other period") + ": " + SweepWriter.CHANGES_CSV);
        }
    }

    /** Example: {@code the earlier plan for 2024-Q4 said 3 replacements, up to 5 in four of five cases; 4 came, 1 of them urgent, which no forecast of wear foretells}. */
    static String outcome(PlanOutcome outcome) {
        return "the earlier plan for " + outcome.period() + " said " + Wording.count(outcome.middle(), "replacement") + ", up to " + outcome.high() + " in four of five cases; " + outcome.came() + " came" + (outcome.urgent() == 0 ? "" : ", " + outcome.urgent() + " of them urgent, which no forecast of wear foretells");
    }

    private String ask(SweepSnapshot.Ask ask, FundingDifference change) {
        return amount(ask.amount()) + (change.hasSameEnd() ? "" : " until " + ask.until());
    }

    private void changes(List<SweepDifference> all) {
        List<SweepDifference> others = all.stream().filter(change -> change.kind() != SweepDifference.Kind.ASK_CHANGED).toList();
        fewInBoth(others);
        if (all.isEmpty()) {
            lines.bullet("none");
        }
        lines.bullets(others, SummaryText.MOST_LISTED, SweepWriter.CHANGES_CSV, ComparisonText::change);
    }

    /** Real names never meet pseudonyms, nor those of another key. */
    private void fewInBoth(List<SweepDifference> changes) {
        long gone = changes.stream().filter(change -> change.kind() == SweepDifference.Kind.GONE).count();
        long added = changes.stream().filter(change -> change.kind() == SweepDifference.Kind.NEW).count();
        int own = result.ownMachines().size();
        long both = own - added;
        long least = Math.min(both + gone, own);
        if (least <= 0 || both * LEAST_SHARE_IN_BOTH >= least) {
            return;
        }
        String few = "only " + Wording.count(both, "machine") + (both == 1 ? " is" : " are");
        lines.bullet((both == 0 ? "no machine is" : few) + " in both sweeps, which have " + (both + gone) + " and " + own
            + ": was one made under pseudonyms and the other not, or with another key? Then all that follows here is gone and new by name only");
    }

    private String amount(BigDecimal amount) {
        return Wording.amount(amount, result.plan().budget().currency());
    }

    private static String change(SweepDifference change) {
        return change.kind().label() + ": " + (change.machineId() == null ? change.item() : change.machineId())
            + (change.site() == null ? "" : " at " + change.site()) + ", "
            + (change.before().isEmpty() ? "" : "was " + change.before() + ", ") + "now " + change.now();
    }
}
