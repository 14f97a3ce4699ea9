package org.wearledger.report;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.DriveId;
import org.wearledger.model.Doubted;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.SweepResult;

/** What is to be checked, or the maker to be asked, before a line of the plan is ordered. */
final class OrderChecks {
    static final String ORDER_NOW = "order now";
    static final String ASK_FIRST = "ask the maker first";
    static final String CHECK_FIRST = "check the figures first";
    private static final String AT_LEAST = "at least ";

    private final Budget budget;
    private final Map<DriveId, String> toCheck = new HashMap<>();
    private final Map<DriveId, String> toAsk = new HashMap<>();

    /** @param result with a budget */
    OrderChecks(SweepResult result) {
        budget = result.budget();
        Doubted doubted = Doubted.of(result.problems());
        result.machines().forEach(machine -> machine.activeDrives().forEach(drive -> toCheck.put(drive.id(), doubted.toCheck(drive))));
        result.warranties().stream().filter(check -> check.finding().isToBeAsked()).forEach(check -> toAsk.put(check.drive().id(), "the maker's warranty, until " + check.endsOn()));
    }

    /** Figures in doubt, why two measures disagree, whether the maker pays; {@code null} for nothing. */
    String before(PlannedReplacement line) {
        String what = Stream.of(toCheck, toAsk).map(checks -> checks.get(line.drive())).filter(Objects::nonNull).collect(Collectors.joining("; "));
        return what.isEmpty() ? null : what;
    }

    /** Whether there is anything before its order. */
    boolean holds(PlannedReplacement line) {
        return before(line) != null;
    }

    /** What to do with an order that is late. */
    String atOnce(PlannedReplacement line) {
        return toCheck.get(line.drive()) != null ? CHECK_FIRST : toAsk.containsKey(line.drive()) ? ASK_FIRST : ORDER_NOW;
    }

    /**
     * The line above each sheet of money: a text, or a formula where there are prices, since its amount follows them. {@code null} where there
     * is nothing to check.
     *
     * @param amountToCheck the formula of the amount
     */
    Object above(String amountToCheck) {
        List<PlannedReplacement> lines = budget.lines().stream().filter(this::holds).toList();
        String before = "To be checked before they are ordered, over all " + budget.settings().quarters() + " quarters: " + lines.size() + " of " + Wording.count(budget.lines().size(), "line");
        String after = " (sheet " + BudgetTables.LINES + ", column \"" + BudgetTables.CHECK_FIRST + "\").";
        if (lines.isEmpty() || budget.currency().isEmpty()) {
            return lines.isEmpty() ? null : before + after;
        }
        String behindAmount = " " + budget.currency() + after;
        return new Formula(quoted(before + ", ") + "&IF(" + Names.PRICES_MISSING + ">0," + quoted(AT_LEAST) + ",\"\")&FIXED(" + amountToCheck + ",2)&" + quoted(behindAmount),
            before + ", " + (budget.quarters().get(0).priced() ? "" : AT_LEAST) + Wording.amount(BudgetTables.sumOf(lines.stream()), "") + behindAmount, CellType.TEXT);
    }

    private static String quoted(String text) {
        return "\"" + text.replace("\"", "\"\"") + "\"";
    }
}
