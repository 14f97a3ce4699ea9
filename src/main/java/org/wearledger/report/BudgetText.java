package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarrantyCheck;

/** The budget in words. */
final class BudgetText {
    private static final String NOT_KNOWN = "not known";
    private static final String CAP = "suffices in nine of ten cases, also if all boards turn out to be machines";

    /**
     * A part of the money.
     *
     * @param heading in the summary's table; {@code null} where it stands elsewhere
     */
    record MoneyColumn(String name, String heading, String meaning) {
    }

    /** In the order to read them. */
    static final List<MoneyColumn> MONEY = List.of(
        new MoneyColumn("plan", "plan", "identified replacements and expected further ones"),
        new MoneyColumn("contingencyForPrices", "boards as machines", "some boards turn out to be whole machines, at the share on the sheet Assumptions"),
        new MoneyColumn("contingencyForWear", "risk reserve", "so that it suffices in four of five quarters, and for what was put off"),
        new MoneyColumn("allowance", "random failures", "drives that fail without having worn out: machines x rate x mean cost"),
        new MoneyColumn("toAskFor", null, "the sum of these, less stock and expected warranty recovery, with whole packs and tax"),
        new MoneyColumn("cap", null, CAP));

    private final SweepResult result;
    private final Budget budget;

    BudgetText(SweepResult result) {
        this.result = result;
        budget = result.plan().budget();
    }

    /** The fiscal year in course, what is left of it, and the next as far as the plan goes; for a plan of one quarter that. */
    List<BudgetPeriod> years() {
        List<BudgetPeriod> sums = sums();
        return sums.subList(0, Math.min(2, Math.max(1, sums.size() - 1)));
    }

    private List<BudgetPeriod> sums() {
        return budget.quarters().subList(budget.settings().quarters(), budget.quarters().size());
    }

    /** This quarter and the next, as far as the plan goes. */
    List<BudgetPeriod> nextQuarters() {
        return budget.quarters().subList(0, Math.min(2, budget.settings().quarters()));
    }

    /** Example: {@code this quarter (2025-Q1)}. */
    String nameOf(BudgetPeriod quarter) {
        return (quarter.first() == 0 ? "this quarter (" : "next quarter (") + quarter.label() + ")";
    }

    /** Examples: {@code the rest of FY2027, Q3 to Q4}, {@code FY2028}. */
    String nameOfSum(BudgetPeriod sum) {
        boolean begunBefore = sum.first() == 0 && sum.label().contains(", ") && sum.label().contains("Q4");
        return (begunBefore ? "the rest of " : "") + sum.label();
    }

    /** The next quarters, each fiscal year and the whole plan, by label, with their names: the rows of the table. */
    Map<String, String> askedFor() {
        Map<String, String> names = new LinkedHashMap<>();
        nextQuarters().forEach(quarter -> names.put(quarter.label(), nameOf(quarter)));
        sums().forEach(sum -> names.put(sum.label(), nameOfSum(sum)));
        return names;
    }

    /** Purchases of the plan whose price is not known. */
    private long unpriced() {
        return budget.lines().stream().filter(line -> line.price() == null).count();
    }

    /** What lines of the plan buy, or may, and the price list lacks: it leaves the funding request incomplete. */
    List<String> lackingPrices() {
        return withoutPrice(true);
    }

    private List<String> withoutPrice(boolean inThePlan) {
        Set<String> called = budget.lines().stream().flatMap(line -> Stream.of(line.item(), line.upperItem())).collect(Collectors.toSet());
        return budget.currency().isEmpty() ? List.of() : budget.items().stream().filter(item -> item.price() == null && called.contains(item.item()) == inThePlan).map(PricedItem::item).sorted().toList();
    }

    /** What must be known with the amounts; it names none, since the workbook's follow other prices. */
    List<MethodNotes.Note> notes() {
        List<MethodNotes.Note> notes = new ArrayList<>();
        years().forEach(year -> howMany(notes, year));
        note(notes, "How sure", Wording.calibration(result));
        prices(notes);
        machines(notes);
        attachments(notes);
        warranty(notes);
        if (!result.fleet().repairs().isEmpty()) {
            note(notes, "Random failures", FailureTable.rate(result));
        }
        long stale = budget.lines().stream().filter(PlannedReplacement::stale).count();
        if (stale > 0) {
            note(notes, "Stale figures", Wording.count(stale, "replacement") + (stale == 1 ? " rests" : " rest") + " on reports older than this sweep; the lines say which");
        }
        BudgetSettings.Unplanned unplanned = budget.settings().unplanned();
        if (unplanned.isGiven()) {
            note(notes, "Not planned", "each replacement that is not planned costs more: the extra stands on the sheet Assumptions, and counts for what is put off");
        }
        return notes;
    }

    private void howMany(List<MethodNotes.Note> notes, BudgetPeriod year) {
        String topic = "How many in " + nameOfSum(year);
        if (year.counts() == null) {
            note(notes, topic, year.named() + " identified; the method of the straight line knows no further ones");
        } else {
            note(notes, topic, Wording.count(year.named(), "replacement") + " identified; " + (year.counts().p90() <= year.named() ? "no more in the worst case"
                : String.format(Locale.ROOT, "with further ones %d in half of all cases, %d in the worst case", year.counts().p50(), year.counts().p90())));
        }
    }

    private void prices(List<MethodNotes.Note> notes) {
        if (unpriced() > 0) {
            note(notes, "Without a price", Wording.count(unpriced(), "purchase") + " of the plan: " + budget.lines().stream().filter(line -> line.price() == null)
                .map(PlannedReplacement::item).distinct().sorted().collect(Collectors.joining(", ")) + ". The funding request is incomplete until the sheet Assumptions or the price list has their prices");
        }
        if (!lackingPrices().isEmpty()) {
            note(notes, "Incomplete", "no price for " + String.join(", ", lackingPrices()) + ": give the prices. Until then there is no reserve and no worst case");
        }
        if (!withoutPrice(false).isEmpty()) {
            note(notes, "Not counted", "no price for " + String.join(", ", withoutPrice(false)) + ": no line of the plan buys one");
        }
        if (lacksAllowance()) {
            note(notes, "No random failures", "nothing is known of what replacing a drive would cost here, so random failures stand at 0");
        }
        List<String> refused = result.problems().stream().filter(BudgetText::refusesPrice)
            .map(problem -> problem.subject().isEmpty() ? problem.source().place() : problem.subject()).distinct().sorted().toList();
        if (!refused.isEmpty()) {
            note(notes, "Prices not used", String.join(", ", refused) + ": other items stand in for them, perhaps dearer ones; the sheet Problems says why");
        }
        long soldered = budget.lines().stream().filter(line -> line.attachment() == Attachment.SOLDERED && !Price.isBoard(line.item())).count();
        boolean noBoard = budget.items().stream().map(PricedItem::item).noneMatch(Price::isBoard);
        if (soldered > 0 && noBoard && !budget.currency().isEmpty()) {
            note(notes, "No price of a board", Wording.count(soldered, "soldered drive") + " of the plan " + (soldered == 1 ? "takes" : "take")
                + " a whole machine, because the price list has no \"board\"");
        }
    }

    /** A board whose dearest choice is itself: the amounts do not have what a machine in its place would cost. */
    private void machines(List<MethodNotes.Note> notes) {
        long boards = budget.lines().stream().filter(line -> line.price() != null && Price.isBoard(line.item()) && line.upperItem().equals(line.item())).count();
        if (boards > 0) {
            note(notes, "No price of a machine", Wording.count(boards, "board") + " of the plan may turn out to be " + (boards == 1 ? "a machine" : "machines")
                + ": the price list has no dearer \"machine\", so the amounts lack it");
        }
    }

    private void attachments(List<MethodNotes.Note> notes) {
        List<MachineRow> unknown = MachineRow.of(result.ownMachines()).stream().filter(row -> row.drive() != null && row.attachment() == Attachment.UNKNOWN).toList();
        if (!unknown.isEmpty() && budget.quarters().stream().anyMatch(period -> period.isContingencyKnown() && period.contingencyForPrices().signum() > 0)) {
            note(notes, "Not known whether soldered", InputGaps.unknownAttachments(unknown));
        }
    }

    /** Without a drive to price, the allowance has nothing to multiply. */
    private boolean lacksAllowance() {
        return budget.machines() > 0 && !budget.currency().isEmpty() && budget.items().stream().allMatch(item -> item.price() == null);
    }

    private void warranty(List<MethodNotes.Note> notes) {
        List<WarrantyCheck> open = claims();
        if (!open.isEmpty()) {
            note(notes, "Ask first", Wording.count(open.size(), "drive") + (open.size() == 1 ? " fails or is" : " that fail or are") + " used up before "
                + (open.size() == 1 ? "its" : "their") + " warranty date: ask the maker before buying (sheet To do)");
        }
    }

    private List<WarrantyCheck> claims() {
        return result.plan().warranties().stream().filter(check -> check.finding().isToBeAsked()).toList();
    }

    private static boolean refusesPrice(Problem problem) {
        return problem.kind() == ProblemKind.PRICE_ITEM_UNKNOWN || problem.kind() == ProblemKind.PRICE_CURRENCY_DIFFERS
            || problem.kind() == ProblemKind.SIDE_TABLE_ROW_INVALID && problem.source().file().endsWith("prices.csv");
    }

    private static void note(List<MethodNotes.Note> notes, String topic, String text) {
        notes.add(new MethodNotes.Note(topic, text));
    }

    /** The budget in the summary: what to ask for as a table, then what its columns are, what is named, and what to know with it. */
    void write(MarkdownLines lines) {
        if (budget.currency().isEmpty()) {
            lines.bullet("no price list was given: " + Wording.count(budget.lines().size(), "replacement") + " named, no amounts");
        } else {
            lines.table(table());
            MONEY.stream().filter(column -> column.heading() != null).forEach(column -> lines.bullet(column.heading() + ": " + column.meaning()));
            lines.bullet("funding request: " + MONEY.get(MONEY.size() - 2).meaning());
            if (sums().stream().allMatch(BudgetPeriod::priced)) {
                lines.bullet("worst case: " + CAP + ". " + sums().stream().map(sum -> nameOfSum(sum) + " (" + sum.from() + " to " + sum.until() + ") "
                    + money(sum.cap())).collect(Collectors.joining("; ")));
                years().stream().filter(sum -> sum.funding().allMachines().signum() > 0)
                    .forEach(sum -> lines.bullet("if whole machines are bought instead of boards, " + nameOfSum(sum) + ": + " + money(sum.funding().allMachines())));
                years().stream().filter(sum -> sum.funding().refresh().signum() > 0)
                    .forEach(sum -> lines.bullet("of the plan, machines replaced in place of a repair, " + nameOfSum(sum) + ": " + money(sum.funding().refresh())));
            }
        }
        NamedReplacementsText named = new NamedReplacementsText(budget);
        nextQuarters().forEach(quarter -> lines.bullet("identified for " + nameOf(quarter) + ", by the day of need: " + named.of(quarter)));
        String later = named.after(nextQuarters());
        if (!later.isEmpty()) {
            lines.bullet("identified after " + nextQuarters().get(nextQuarters().size() - 1).label() + ", by the day of need: " + later);
        }
        notes().stream().filter(note -> !note.topic().equals("How sure"))
            .forEach(note -> lines.bullet(Character.toLowerCase(note.topic().charAt(0)) + note.topic().substring(1) + ": " + note.text()));
        OrderChecks checks = new OrderChecks(result);
        String toCheck = checks.sentence();
        if (toCheck != null) {
            lines.bullet(Character.toLowerCase(toCheck.charAt(0)) + toCheck.substring(1) + " (replacements.csv, column checkFirst)");
        }
        List<PlannedReplacement> now = budget.lines().stream().filter(PlannedReplacement::late).toList();
        if (!now.isEmpty()) {
            lines.bullet("order at once: " + atOnce(now, checks) + "; replacements.csv and the work list say which");
        }
    }

    /** The numbers of each, as the column of replacements.csv has them. */
    private static String atOnce(List<PlannedReplacement> now, OrderChecks checks) {
        Map<String, Long> counts = now.stream().collect(Collectors.groupingBy(checks::atOnce, Collectors.counting()));
        long ordered = counts.getOrDefault(OrderChecks.ORDER_NOW, 0L);
        return (ordered == 0 ? "none" : Wording.count(ordered, "replacement")) + Stream.of(OrderChecks.ASK_FIRST, OrderChecks.CHECK_FIRST).filter(counts::containsKey)
            .map(first -> "; " + first + ", then order: " + counts.get(first)).collect(Collectors.joining());
    }

    private List<List<String>> table() {
        List<List<String>> rows = new ArrayList<>();
        List<String> headings = new ArrayList<>(List.of((lackingPrices().isEmpty() ? "in " : "at least, in ") + budget.currency()));
        MONEY.stream().map(MoneyColumn::heading).filter(Objects::nonNull).forEach(headings::add);
        headings.add("less, and tax");
        headings.add("funding request");
        rows.add(headings);
        nextQuarters().forEach(quarter -> rows.add(row(nameOf(quarter), quarter)));
        sums().forEach(sum -> rows.add(row(nameOfSum(sum), sum)));
        return rows;
    }

    private static List<String> row(String name, BudgetPeriod period) {
        return List.of(name, plain(period.plan()), plain(period.contingencyForPrices()), plain(period.contingencyForWear()), plain(period.allowance()),
            plain(others(period)), plain(period.toAskFor()));
    }

    /** What the other parts leave of the request: stock, packs, warranty and tax. */
    private static BigDecimal others(BudgetPeriod period) {
        return period.toAskFor().subtract(period.plan()).subtract(period.funding().machines()).subtract(period.funding().reserve()).subtract(period.funding().putOff()).subtract(period.allowance());
    }

    private static String plain(BigDecimal amount) {
        return amount == null ? NOT_KNOWN : Wording.amount(amount, "");
    }

    private String money(BigDecimal amount) {
        return Wording.amount(amount, budget.currency());
    }
}
