package org.wearledger.report;

import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.model.Budget;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Doubted;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** How much of a sweep and its plan rests on figures that contradict themselves, and which orders wait for a check. */
final class DoubtText {
    static final String CHECK_FIRST = "check the figures first";

    private final Budget budget;
    private final Doubted doubted;
    private final List<DriveAssessment> drives;
    private final Set<DriveId> checkedFirst;

    DoubtText(SweepResult result) {
        budget = result.budget();
        doubted = Doubted.of(result.problems());
        drives = result.machines().stream().flatMap(machine -> machine.activeDrives().stream()).toList();
        checkedFirst = drives.stream().filter(drive -> doubted.checkFirst(drive) != null).map(DriveAssessment::id).collect(Collectors.toSet());
    }

    /** Active drives in doubt. */
    long count() {
        return drives.stream().filter(drive -> doubted.has(drive.id())).count();
    }

    /** Whether the line rests on figures in doubt. A drive that reports its own failing is replaced whatever its wear. */
    boolean isOf(PlannedReplacement line) {
        return line.standing() != Standing.URGENT && doubted.has(line.drive());
    }

    /** Whether figures are checked before it is ordered: those in doubt, and two measures that disagree. */
    boolean isCheckedFirst(PlannedReplacement line) {
        return checkedFirst.contains(line.drive());
    }

    /** Active drives. */
    long drives() {
        return drives.size();
    }

    /** One sentence for all of them, without a final stop. */
    String sentence() {
        return "the figures of " + count() + " of " + Wording.count(drives.size(), "drive") + " contradict themselves, most often by a wrong unit in the mapping: settle that "
            + "before ordering" + (budget == null ? "" : "; " + rest());
    }

    private String rest() {
        String quarter = budget.quarters().get(0).label();
        List<PlannedReplacement> lines = lines(line -> line.quarter().equals(quarter));
        boolean priced = !budget.currency().isEmpty();
        return (lines.isEmpty() ? "none" : !priced ? String.valueOf(lines.size()) : Wording.amount(sum(lines), budget.currency()))
            + " of the named replacements of this quarter " + (lines.isEmpty() || lines.size() == 1 && !priced ? "rests" : "rest")
            + " on them, and some may be missing by the same error";
    }

    /**
     * The line above each sheet of money: a text, or a formula where there are prices, since its amount follows them. {@code null} where no
     * line is in doubt.
     *
     * @param amountInDoubt the formula of the amount
     */
    Object above(String amountInDoubt) {
        List<PlannedReplacement> lines = lines(line -> true);
        String before = "In doubt: " + lines.size() + " of " + Wording.count(budget.lines().size(), "line");
        String after = ". " + Wording.sentenceCase(CHECK_FIRST) + ": sheet " + BudgetTables.LINES + ", column \"" + BudgetTables.RESTS_ON_DOUBT + "\".";
        if (lines.isEmpty() || budget.currency().isEmpty()) {
            return lines.isEmpty() ? null : before + after;
        }
        String behindAmount = " " + budget.currency() + after;
        return new Formula(quoted(before + ", ") + "&FIXED(" + amountInDoubt + ",2)&" + quoted(behindAmount),
            before + ", " + Wording.amount(sum(lines), "") + behindAmount, CellType.TEXT);
    }

    private static String quoted(String text) {
        return "\"" + text.replace("\"", "\"\"") + "\"";
    }

    private List<PlannedReplacement> lines(Predicate<PlannedReplacement> among) {
        return budget.lines().stream().filter(among.and(this::isOf)).toList();
    }

    private static BigDecimal sum(List<PlannedReplacement> lines) {
        return lines.stream().map(PlannedReplacement::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
    }
}
