package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.Repair;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.RepairSummary.Count;
import org.wearledger.model.RepairSummary.DeadDrives;
import org.wearledger.model.RepairSummary.StockNeed;
import org.wearledger.model.SweepResult;

/** Repairs and stock, as tables and in words. */
final class RepairTables {
    static final String RULE_OF_STOCK = "In one quarter of ten fewer than \"at least\" are fitted, and in nine of ten \"enough\" suffices, if repairs come as evenly as they did";
    private static final int MOST_SHOPS = 5;

    private RepairTables() {
    }

    static Table<Count> repairs(SweepResult result) {
        return new Table<>("Repairs", List.of(
            text("quarter", "Quarter", Count::quarter),
            text("reason", "Reason", count -> count.reason().label()),
            integer("repairs", "Repairs", "", Count::tickets),
            money("cost", "Cost", result.fleet().repairs().currency(), Count::cost),
            integer("withoutCost", "Rows without a cost", "", Count::withoutCost)), result.fleet().repairs().counts());
    }

    static Table<StockNeed> stock(SweepResult result) {
        return new Table<>("Stock", List.of(
            text("site", "Shop", StockNeed::site),
            text("item", "Item", StockNeed::item),
            integer("fitted", "Fitted so far", "", StockNeed::fitted),
            decimal("quarters", "In", "quarters", 1, StockNeed::quarters),
            integer("low", "At least, in a quarter", "", StockNeed::low),
            integer("typical", "Typical", "", StockNeed::typical),
            integer("enough", "Enough, to have in stock", "", StockNeed::enough)), result.fleet().repairs().stock());
    }

    /** In the summary. */
    static void write(SweepResult result, MarkdownLines lines) {
        RepairSummary repairs = result.fleet().repairs();
        if (repairs.isEmpty()) {
            return;
        }
        lines.heading("Repairs");
        Map<Repair.Reason, Integer> tickets = new TreeMap<>();
        repairs.counts().forEach(count -> tickets.merge(count.reason(), count.tickets(), Integer::sum));
        BigDecimal cost = repairs.counts().stream().map(Count::cost).reduce(BigDecimal.ZERO, BigDecimal::add);
        lines.bullet("since " + repairs.from() + ": " + tickets.entrySet().stream().map(reason -> reason.getKey().label() + " " + reason.getValue()).collect(Collectors.joining(", "))
            + String.format(Locale.ROOT, "; cost %,.2f %s", cost, result.fleet().repairs().currency()).stripTrailing() + " (" + SweepWriter.REPAIR_COSTS_CSV + ")"
            + (repairs.later() == 0 ? "" : "; " + Wording.count(repairs.later(), "row") + " after the as-of date not counted"));
        if (!FailureTable.isInBudget(result)) {
            lines.bullet(FailureTable.learned(repairs));
        }
        if (repairs.failures().incidences().isEmpty()) {
            lines.bullet(FailureTable.noAges(repairs.failures()));
        }
        if (repairs.deadDrives().dead() > 0) {
            lines.bullet(worn(repairs.deadDrives()));
        }
        Map<String, String> needs = new TreeMap<>();
        repairs.stock().forEach(need -> needs.merge(need.site(), need.item() + ": " + need.enough(), (one, other) -> one + ", " + other));
        lines.bullets(needs.entrySet().stream().toList(), MOST_SHOPS, SweepWriter.STOCK_CSV,
            need -> "enough for a quarter at " + need.getKey() + ", as far as past repairs tell: " + need.getValue());
    }

    /** Example: {@code of 20 drives that came in dead, 15 could be read; 3 of them were worn (20 %). Of all 20, 3 to 60 % were worn (95 %), ...}. */
    static String worn(DeadDrives dead) {
        return "of " + Wording.count(dead.dead(), "drive") + " that came in dead, " + dead.read() + " could be read" + (dead.read() == 0 ? ""
            : "; " + dead.worn() + " of them " + (dead.worn() == 1 ? "was" : "were") + " worn (" + Wording.number(100.0 * dead.worn() / dead.read(), 0) + " %)")
            + ". Of all, " + Wording.number(100 * dead.share().low(), 0) + " to " + Wording.number(100 * dead.share().high(), 0) + " % were worn (95 %)"
            + (dead.read() == dead.dead() ? "" : ": the low end takes none of the " + (dead.dead() - dead.read()) + " not read as worn, the high end all");
    }
}
