package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Doubted;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;

/** How much of a sweep and its plan rests on figures in doubt, and which orders wait for a check. */
final class DoubtText {
    static final String ORDER_NOW = "order now";
    static final String ASK_FIRST = "ask the maker first";
    static final String CHECK_FIRST = "check the figures first";
    private static final String AT_LEAST = "at least ";

    private final Budget budget;
    private final Doubted doubted;
    private final List<DriveAssessment> drives;
    private final Set<DriveId> inDoubt;
    /** Drives without an assessment, since no report of them could be believed. */
    private final long unbelieved;
    private final Map<DriveId, String> toCheck = new HashMap<>();
    private final Map<DriveId, String> toAsk = new HashMap<>();

    DoubtText(SweepResult result) {
        budget = result.budget();
        doubted = Doubted.of(result.problems());
        drives = result.machines().stream().flatMap(machine -> machine.activeDrives().stream()).toList();
        inDoubt = ids(doubted::has);
        unbelieved = result.problems().stream().filter(problem -> problem.kind() == ProblemKind.NO_REPORT_BELIEVED).count();
        drives.forEach(drive -> toCheck.put(drive.id(), doubted.toCheck(drive)));
        result.warranties().stream().filter(check -> check.finding().isToBeAsked()).forEach(check -> toAsk.put(check.drive().id(), "the maker's warranty, until " + check.endsOn()));
    }

    private Set<DriveId> ids(Predicate<DriveAssessment> among) {
        return drives.stream().filter(among).map(DriveAssessment::id).collect(Collectors.toSet());
    }

    /** Active drives in doubt, and those of which no report could be believed. */
    long count() {
        return inDoubt.size() + unbelieved;
    }

    /** What to check before it is ordered: figures in doubt, why two measures disagree, whether the maker pays; {@code null} for nothing. */
    String toCheck(PlannedReplacement line) {
        String what = Stream.of(toCheck, toAsk).map(checks -> checks.get(line.drive())).filter(Objects::nonNull).collect(Collectors.joining("; "));
        return what.isEmpty() ? null : what;
    }

    /** What to do with an order that is late. */
    String atOnce(PlannedReplacement line) {
        return toCheck.get(line.drive()) != null ? CHECK_FIRST : toAsk.containsKey(line.drive()) ? ASK_FIRST : ORDER_NOW;
    }

    boolean isCheckedFirst(PlannedReplacement line) {
        return toCheck(line) != null;
    }

    /** Active drives, and those of which no report could be believed. */
    long drives() {
        return drives.size() + unbelieved;
    }

    /** One sentence for all of them, without a final stop. */
    String sentence() {
        List<String> reasons = new ArrayList<>();
        if (drives.stream().anyMatch(doubted::isContradicted)) {
            reasons.add("the figures contradict themselves");
        }
        if (drives.stream().anyMatch(drive -> doubted.isOutdated(drive) && !doubted.isContradicted(drive))) {
            reasons.add("the latest report could not be believed");
        }
        if (unbelieved > 0) {
            reasons.add("no report could be believed");
        }
        return "of " + count() + " of " + Wording.count(drives(), "drive") + " " + String.join(", or ", reasons)
            + ", most often by a wrong unit in the export or its mapping: settle that before ordering" + (budget == null ? "" : "; " + rest());
    }

    private String rest() {
        String quarter = budget.quarters().get(0).label();
        List<PlannedReplacement> lines = lines(line -> line.quarter().equals(quarter) && inDoubt.contains(line.drive()));
        return (lines.isEmpty() ? "none" : lines.size() + money(lines)) + " of the named replacements of this quarter "
            + (lines.size() < 2 ? "rests" : "rest") + " on them, and some may be missing by the same error";
    }

    private String money(List<PlannedReplacement> lines) {
        long unpriced = lines.stream().filter(line -> line.price() == null).count();
        return budget.currency().isEmpty() ? "" : unpriced == lines.size() ? " (without a price)"
            : " (" + Wording.amount(sum(lines), budget.currency()) + (unpriced == 0 ? ")" : " and " + unpriced + " without a price)");
    }

    /**
     * The line above each sheet of money: a text, or a formula where there are prices, since its amount follows them. {@code null} where there
     * is nothing to check.
     *
     * @param amountToCheck the formula of the amount
     */
    Object above(String amountToCheck) {
        List<PlannedReplacement> lines = lines(line -> true);
        String before = "To be checked before they are ordered, over all " + budget.settings().quarters() + " quarters: " + lines.size() + " of " + Wording.count(budget.lines().size(), "line");
        String after = " (sheet " + BudgetTables.LINES + ", column \"" + BudgetTables.CHECK_FIRST + "\").";
        if (lines.isEmpty() || budget.currency().isEmpty()) {
            return lines.isEmpty() ? null : before + after;
        }
        String behindAmount = " " + budget.currency() + after;
        return new Formula(quoted(before + ", ") + "&IF(" + Names.PRICES_MISSING + ">0," + quoted(AT_LEAST) + ",\"\")&FIXED(" + amountToCheck + ",2)&" + quoted(behindAmount),
            before + ", " + (budget.quarters().get(0).priced() ? "" : AT_LEAST) + Wording.amount(sum(lines), "") + behindAmount, CellType.TEXT);
    }

    private static String quoted(String text) {
        return "\"" + text.replace("\"", "\"\"") + "\"";
    }

    private List<PlannedReplacement> lines(Predicate<PlannedReplacement> among) {
        return budget.lines().stream().filter(among.and(this::isCheckedFirst)).toList();
    }

    private static BigDecimal sum(List<PlannedReplacement> lines) {
        return lines.stream().map(PlannedReplacement::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
    }
}
