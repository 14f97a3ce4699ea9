package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Failures;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.RepairSummary.Count;
import org.wearledger.model.RepairSummary.DeadDrives;
import org.wearledger.model.RepairSummary.StockNeed;
import org.wearledger.model.SweepResult;
import org.wearledger.report.MethodNotes.Note;

/** Repairs and stock, as tables and in words. */
final class RepairTables {
    static final String RULE_OF_STOCK = "In one quarter of ten fewer than \"at least\" are fitted, and in nine of ten \"enough\" suffices, if repairs come as evenly as they did. Each line is for itself: "
        + "what the shops need, or the models, does not add up to what the chain needs";
    private static final String ALL = "all";
    private static final Comparator<Count> DEAREST_FIRST = Comparator.comparing(Count::cost, Comparator.reverseOrder());
    private static final int MOST_COSTS = 4;
    private static final int MOST_SHOPS = 3;
    private static final int MOST_BOARDS = 2;

    private RepairTables() {
    }

    static Table<Count> repairs(SweepResult result) {
        return new Table<>("Repairs", List.of(
            text("quarter", "Quarter", count -> orAll(count.quarter())),
            text("reason", "Reason", count -> count.reason() == null ? ALL : count.reason().label()),
            integer("repairs", "Repairs", "", Count::tickets),
            money("cost", "Cost", result.fleet().repairs().currency(), Count::cost),
            integer("withoutCost", "Rows without a cost", "", Count::withoutCost),
            text("site", "Shop", count -> orAll(count.site()))), result.fleet().repairs().counts());
    }

    /** The same in parts: by reason, by shop, by quarter, and by reason in each quarter and shop. */
    static List<Table<Count>> repairsInParts(SweepResult result) {
        Table<Count> all = repairs(result);
        return Stream.<Predicate<Count>>of(Count::isOfReason, Count::isOfSite, Count::isOfQuarter, count -> count.quarter() != null && count.reason() != null, count -> count.site() != null && count.reason() != null)
            .map(all::only).filter(part -> !part.rows().isEmpty()).toList();
    }

    static Table<StockNeed> stock(SweepResult result) {
        return new Table<>("Stock", List.of(
            text("site", "Shop", need -> orAll(need.site())),
            text("item", "Item", StockNeed::item),
            integer("fitted", "Fitted so far", "", StockNeed::fitted),
            decimal("quarters", "In", "quarters", 1, StockNeed::quarters),
            integer("low", "At least, in a quarter", "", StockNeed::low),
            integer("typical", "Typical", "", StockNeed::typical),
            integer("enough", "Enough, to have in stock", "", StockNeed::enough),
            text("machineModel", "Of these for machines of model", need -> orAll(need.machineModel())),
            yesNo("inPriceList", "In the price list", StockNeed::inPriceList)), result.fleet().repairs().stock());
    }

    private static String orAll(String name) {
        return name == null ? ALL : name;
    }

    /** What was repaired, why and where, and what to stock; empty without repairs. */
    static List<Note> notes(SweepResult result) {
        RepairSummary repairs = result.fleet().repairs();
        List<Note> notes = new ArrayList<>();
        if (repairs.isEmpty()) {
            return notes;
        }
        if (repairs.deadDrives().dead() > 0) {
            notes.add(new Note("Dead drives that were worn", worn(repairs.deadDrives())));
        }
        BigDecimal sum = repairs.counts().stream().filter(Count::isOfReason).map(Count::cost).reduce(BigDecimal.ZERO, BigDecimal::add);
        notes.add(new Note("Repairs by reason", "since " + repairs.from() + ": " + costs(repairs.counts().stream().filter(Count::isOfReason).sorted(DEAREST_FIRST), MOST_COSTS, count -> count.reason().label())
            + "; all " + rounded(sum, repairs.currency()) + "; " + SweepWriter.REPAIR_COSTS_CSV
            + (repairs.later() == 0 ? "" : "; " + Wording.count(repairs.later(), "row") + " after the as-of date not counted")));
        notes.add(new Note("Repairs by shop", costs(repairs.counts().stream().filter(Count::isOfSite).sorted(DEAREST_FIRST), MOST_SHOPS, Count::site)));
        notes.add(new Note("Repairs by quarter", costs(repairs.counts().stream().filter(Count::isOfQuarter).sorted(Comparator.comparing(repairs.counts()::indexOf, Comparator.reverseOrder())), MOST_COSTS, Count::quarter)));
        if (!repairs.stock().isEmpty()) {
            notes.add(new Note("Stock for a quarter", stock(repairs.stock())));
        }
        if (!FailureTable.isInBudget(result)) {
            notes.add(new Note("Failures", FailureTable.learned(repairs)));
        }
        if (repairs.failures().incidences().isEmpty() && repairs.failures().basis() != Failures.Basis.NOT_FOLLOWED) {
            notes.add(new Note("Failures by age", FailureTable.noAges(repairs.failures())));
        }
        return notes;
    }

    private static String costs(Stream<Count> counts, int most, Function<Count, String> name) {
        return Wording.named(counts.toList(), most, count -> name.apply(count) + " " + count.tickets() + " (" + rounded(count.cost(), "") + ")");
    }

    private static String rounded(BigDecimal cost, String currency) {
        return String.format(Locale.ROOT, "%,.0f %s", cost, currency).strip();
    }

    private static String stock(List<StockNeed> stock) {
        List<StockNeed> mostFirst = stock.stream().filter(need -> need.site() == null).sorted(Comparator.comparing(StockNeed::fitted, Comparator.reverseOrder())).toList();
        List<StockNeed> all = mostFirst.stream().filter(need -> need.machineModel() == null).toList();
        List<StockNeed> boards = mostFirst.stream().filter(need -> need.machineModel() != null).toList();
        String lacking = all.stream().filter(need -> !need.inPriceList()).map(StockNeed::item).collect(Collectors.joining(", "));
        return "one in ten to nine in ten (80 %), all shops: " + all.stream().map(need -> need.item() + " " + range(need)).collect(Collectors.joining(", "))
            + (boards.isEmpty() ? "" : "; boards by model: " + Wording.named(boards, MOST_BOARDS, need -> (need.machineModel().equals(RepairSummary.NOT_KNOWN) ? "model " : "") + need.machineModel() + " " + range(need)))
            + "; " + SweepWriter.STOCK_CSV + (lacking.isEmpty() ? "" : "; not in the price list: " + lacking);
    }

    private static String range(StockNeed need) {
        return need.low() + " to " + need.enough();
    }

    /** Example: {@code of 20 drives that came in dead, 15 could be read, and 3 of them were worn (20 %); of all, 3 to 60 % (95 %), since the 5 not read may all be worn, or none}. */
    static String worn(DeadDrives dead) {
        return "of " + Wording.count(dead.dead(), "drive") + " that came in dead, " + dead.read() + " could be read" + (dead.read() == 0 ? ""
            : ", and " + dead.worn() + " of them " + (dead.worn() == 1 ? "was" : "were") + " worn (" + Wording.number(100.0 * dead.worn() / dead.read(), 0) + " %)")
            + "; of all, " + Wording.number(100 * dead.share().low(), 0) + " to " + Wording.number(100 * dead.share().high(), 0) + " % (95 %)"
            + (dead.read() == dead.dead() ? "" : ", since the " + (dead.dead() - dead.read()) + " not read may all be worn, or none");
    }
}
