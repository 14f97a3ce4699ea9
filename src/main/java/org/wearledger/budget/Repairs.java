package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.DriveId;
import org.wearledger.model.Failures;
import org.wearledger.model.Price;
import org.wearledger.model.Repair;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.RepairSummary.Count;
import org.wearledger.model.RepairSummary.StockNeed;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.NextCount;

/** What repairs cost by reason, shop and quarter, and what is fitted in a quarter. */
public final class Repairs {
    /** Where machines are, and of which model, by folded id. */
    public record Places(Map<String, String> sites, Map<String, String> machineModels) {
    }

    private final List<Repair> done;
    private final FiscalCalendar calendar;
    private final Places places;
    /** One spelling of each machine model, by the folded. */
    private final Map<String, String> spellings;

    private Repairs(List<Repair> done, FiscalCalendar calendar, Places places) {
        this.done = done;
        this.calendar = calendar;
        this.places = places;
        spellings = places.machineModels.values().stream().collect(Collectors.toMap(DriveId::fold, model -> model, (one, other) -> one.compareTo(other) <= 0 ? one : other));
    }

    /**
     * Of these repairs. Quarters count from the one of the first repair of any shop; what has passed of the present one counts as its part.
     *
     * @param later how many others are after the as-of date
     * @param prices whose spelling of an item goes first
     * @param until the last day that repairs are known of
     */
    public static RepairSummary summary(List<Repair> repairs, int later, RepairSummary.DeadDrives dead, Places places, Collection<Price> prices,
                                        LocalDate until, BudgetSettings settings) {
        LocalDate first = repairs.stream().map(Repair::date).min(Comparator.naturalOrder()).orElse(null);
        if (first == null) {
            return RepairSummary.none();
        }
        Repairs all = new Repairs(repairs, FiscalCalendar.of(settings), places);
        LocalDate from = all.calendar.of(first).from();
        return new RepairSummary(from, UsablePrices.currencyOfMost(List.copyOf(prices)), all.counts(), dead, all.stock(from, until, prices), Failures.none(Failures.Basis.TOO_FEW), later, 0);
    }

    private List<Count> counts() {
        List<Count> counts = new ArrayList<>();
        by(Repair::reason, done).forEach((reason, rows) -> counts.add(count(null, reason, null, rows)));
        by(this::site, done).forEach((site, rows) -> counts.add(count(null, null, site, rows)));
        Map<LocalDate, List<Repair>> quarters = by(repair -> calendar.of(repair.date()).from(), done);
        quarters.forEach((from, rows) -> counts.add(count(calendar.of(from).label(), null, null, rows)));
        quarters.forEach((from, rows) -> by(Repair::reason, rows).forEach((reason, some) -> counts.add(count(calendar.of(from).label(), reason, null, some))));
        by(this::site, done).forEach((site, rows) -> by(Repair::reason, rows).forEach((reason, some) -> counts.add(count(null, reason, site, some))));
        return counts;
    }

    private static <K> Map<K, List<Repair>> by(Function<Repair, K> key, List<Repair> repairs) {
        return repairs.stream().collect(Collectors.groupingBy(key, TreeMap::new, Collectors.toList()));
    }

    private static Count count(String quarter, Repair.Reason reason, String site, List<Repair> rows) {
        return new Count(quarter, reason, site, (int) rows.stream().map(row -> DriveId.fold(row.ticket()) + "\0" + DriveId.fold(row.machineId())).distinct().count(),
            rows.stream().map(Repair::cost).filter(cost -> cost != null).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add), (int) rows.stream().filter(row -> row.cost() == null).count());
    }

    private String site(Repair repair) {
        return repair.site() != null ? repair.site() : places.sites.getOrDefault(DriveId.fold(repair.machineId()), RepairSummary.NOT_KNOWN);
    }

    private List<StockNeed> stock(LocalDate from, LocalDate until, Collection<Price> prices) {
        double quarters = (ChronoUnit.DAYS.between(from, until) + 1) / SweepSettings.DAYS_PER_QUARTER;
        Map<String, String> spelt = prices.stream().collect(Collectors.toMap(price -> DriveId.fold(price.item()), Price::item, (one, other) -> one));
        List<Repair> fitting = done.stream().filter(repair -> repair.action() != null && UsablePrices.isKnown(repair.action())).toList();
        List<StockNeed> needs = new ArrayList<>(stock(null, fitting, quarters, spelt));
        by(this::site, fitting).forEach((site, rows) -> needs.addAll(stock(site, rows, quarters, spelt)));
        return needs;
    }

    /** However it is spelt, as in the comparison of models. */
    private String machineModel(Repair repair) {
        String model = places.machineModels.get(DriveId.fold(repair.machineId()));
        return model == null ? RepairSummary.NOT_KNOWN : spellings.get(DriveId.fold(model));
    }

    private List<StockNeed> stock(String site, List<Repair> rows, double quarters, Map<String, String> spelt) {
        List<StockNeed> needs = new ArrayList<>();
        Function<Repair, String> item = repair -> spelt.getOrDefault(DriveId.fold(repair.action()), repair.action());
        by(item, rows).forEach((name, some) -> needs.add(need(site, name, null, some.size(), quarters, spelt)));
        // A board fits machines of one model, whatever the price list calls it. A single shop fits too few of one model to tell.
        by(item, site != null ? List.<Repair>of() : rows.stream().filter(repair -> DriveId.fold(repair.action()).startsWith(DriveId.fold(PriceBook.BOARD))).toList()).forEach((name, some) ->
            by(this::machineModel, some)
                .forEach((model, boards) -> needs.add(need(site, name, model, boards.size(), quarters, spelt))));
        return needs;
    }

    private static StockNeed need(String site, String item, String machineModel, int count, double quarters, Map<String, String> spelt) {
        NextCount next = new NextCount(count, quarters);
        return new StockNeed(site, item, machineModel, isPriced(DriveId.fold(item), machineModel, spelt.keySet()), count, quarters, next.quantile(0.1), next.quantile(0.5), next.quantile(0.9));
    }

    /** Under its own name, a drive also as one of any size, and a board as that of the model. */
    private static boolean isPriced(String item, String machineModel, Set<String> priced) {
        String anyDrive = DriveId.fold(PriceBook.DRIVE);
        return priced.contains(item) || item.startsWith(anyDrive) && priced.contains(anyDrive)
            || priced.stream().anyMatch(other -> other.startsWith(item + " ") && (machineModel == null || other.endsWith(" " + DriveId.fold(machineModel))));
    }
}
