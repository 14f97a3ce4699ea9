package org.wearledger.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.DriveId;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.SweepResult;

/** What is to be checked, or the maker to be asked, before a line of the plan is ordered. */
final class OrderChecks {
    static final String ORDER_NOW = "order now";
    static final String ASK_FIRST = "ask the maker first";
    static final String ASK = "ask";
    static final String CHECK_FIRST = "check the figures first";
    private static final String BEFORE = "To be checked before they are ordered: ";
    private static final String AT_LEAST = "at least ";

    private final Budget budget;
    private final Map<DriveId, String> toCheck = new HashMap<>();
    private final Map<DriveId, String> toAsk = new HashMap<>();

    /** @param result with a budget */
    OrderChecks(SweepResult result) {
        budget = result.plan().budget();
        DrivesToCheck drivesToCheck = DrivesToCheck.of(result.problems());
        Set<DriveId> replaced = budget.lines().stream().map(PlannedReplacement::drive).collect(Collectors.toSet());
        result.machines().forEach(machine -> machine.activeDrives().stream().filter(drive -> replaced.contains(drive.id()))
            .forEach(drive -> toCheck.put(drive.id(), drivesToCheck.whatToCheck(drive))));
        result.plan().warranties().stream().filter(check -> check.finding().isToBeAsked()).forEach(check -> toAsk.put(check.drive().id(), (check.isOfMachine(result.asOf()) ? "the machine's" : "the drive's") + " warranty, until " + check.nextEndOn(result.asOf())));
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

    /** The line above the money: a text, or a formula where there are prices, since it follows them and what is decided. {@code null} where there is nothing to check. */
    Object above(BudgetTables tables) {
        String after = " (sheet " + BudgetTables.LINES + ", column \"" + BudgetTables.CHECK_FIRST + "\").";
        String told = sentence();
        if (told == null || budget.currency().isEmpty()) {
            return told == null ? null : told + after;
        }
        List<String> parts = new ArrayList<>();
        periods().forEach((period, lines) -> {
            String bought = tables.criterion("boughtIndex", parts.isEmpty() ? "1" : "\">0\"") + ")";
            parts.add(Formula.quoted((parts.isEmpty() ? BEFORE : "; ") + period) + "&COUNTIFS(" + tables.toCheck() + "," + bought + "&\" of \"&COUNTIFS(" + bought + "&\" lines, \"&IF(" + Names.INCOMPLETE + ">0,"
                + Formula.quoted(AT_LEAST) + ",\"\")&FIXED(SUMIFS(" + tables.lineColumn("amount") + "," + tables.toCheck() + "," + bought + ",2)&" + Formula.quoted(" " + budget.currency()));
        });
        return new Formula(String.join("&", parts) + "&" + Formula.quoted(after), told + after, CellType.TEXT);
    }

    /** How many lines, and how much money, at the prices of the sweep; {@code null} for none. */
    String sentence() {
        if (budget.lines().stream().noneMatch(this::holds)) {
            return null;
        }
        return BEFORE + periods().entrySet().stream().map(period -> period.getKey() + numbers(period.getValue()) + amount(period.getValue())).collect(Collectors.joining("; "));
    }

    private String amount(List<PlannedReplacement> lines) {
        if (budget.currency().isEmpty()) {
            return "";
        }
        String least = budget.quarters().get(0).priced() ? "" : AT_LEAST;
        return ", " + least + Wording.amount(BudgetTables.sumOf(lines.stream().filter(this::holds)), budget.currency());
    }

    /** The lines bought in this quarter, which is what is read beside, and in the whole plan. */
    private Map<String, List<PlannedReplacement>> periods() {
        Map<String, List<PlannedReplacement>> periods = new LinkedHashMap<>();
        String quarter = budget.quarters().get(0).label();
        List<String> quarters = budget.quarters().subList(0, budget.settings().quarters()).stream().map(BudgetPeriod::label).toList();
        periods.put("this quarter ", budget.lines().stream().filter(line -> quarter.equals(line.boughtIn())).toList());
        if (budget.settings().quarters() > 1) {
            periods.put("over all " + budget.settings().quarters() + " quarters ", budget.lines().stream().filter(line -> quarters.contains(line.boughtIn())).toList());
        }
        return periods;
    }

    private String numbers(List<PlannedReplacement> lines) {
        return lines.stream().filter(this::holds).count() + " of " + lines.size() + " lines";
    }

    /** What is done before a line is ordered: {@code check} its figures, {@code ask} the maker, or nothing. */
    String first(PlannedReplacement line) {
        return toCheck.get(line.drive()) != null ? "check" : toAsk.containsKey(line.drive()) ? ASK : "";
    }
}
