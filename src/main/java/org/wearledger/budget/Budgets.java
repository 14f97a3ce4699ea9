package org.wearledger.budget;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.FleetModel;
import org.wearledger.model.ItemDemand;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Outcome;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.CountDistribution;
import org.wearledger.stats.SharedShock;

/** Draws up the budget of a sweep. */
public final class Budgets {
    private static final double DAYS_PER_YEAR = 365.25;
    private static final int QUARTERS_PER_YEAR = 4;
    private static final BigDecimal ZERO = BigDecimal.ZERO.setScale(2);
    private static final int EXPECTED_PLACES = 4;

    private final LocalDate asOf;
    private final int leadTimeDays;
    private final int recentDays;
    private final BudgetSettings settings;
    private final PriceBook prices;
    private final List<FiscalCalendar.Quarter> quarters;
    private final List<Candidate> candidates;
    private final List<PlannedReplacement> lines;
    private final List<PricedItem> items;
    private final int machines;

    private Budgets(List<MachineAssessment> machines, FleetModel fleet, List<Price> priceList, LocalDate asOf, SweepSettings sweep,
                    BudgetSettings settings) {
        this.asOf = asOf;
        leadTimeDays = sweep.leadTimeDays();
        recentDays = sweep.recentDays();
        this.settings = settings;
        this.machines = machines.size();
        prices = new PriceBook(priceList);
        quarters = new FiscalCalendar(settings.fiscalYearStartMonth()).from(asOf, settings.quarters());
        LocalDate horizon = quarters.get(quarters.size() - 1).until();
        candidates = machines.parallelStream().flatMap(machine -> Candidate.of(machine, fleet, prices, asOf, horizon, settings).stream()).toList();
        lines = lines(horizon);
        items = items();
    }

    /**
     * Names the replacements of the quarters planned, and says by probability how many come and what they cost; see
     * {@code notebooks-free-docs/budget.md}. Without prices every amount is 0 and no quantile of the cost is given.
     *
     * @param machines by machine id; the random failures are allowed for on all of them
     * @param fleet {@code null} by the method of the straight line: then lines only, no probabilities
     * @param priceList in any order, those that are {@link #usable}
     */
    public static Budget of(List<MachineAssessment> machines, FleetModel fleet, List<Price> priceList, LocalDate asOf,
                            SweepSettings sweep, BudgetSettings settings) {
        Budgets budgets = new Budgets(machines, fleet, priceList, asOf, sweep, settings);
        List<BudgetPeriod> periods = new ArrayList<>();
        List<ItemDemand> demand = new ArrayList<>();
        budgets.fill(periods, demand, fleet != null);
        return new Budget(settings, sweep.leadTimeDays(), budgets.prices.currency(), budgets.lines, periods, demand, budgets.items,
            budgets.machines, fleet == null ? Double.NaN : fleet.sharedShockPerQuarter());
    }

    /**
     * The prices that a machine can call for, in the currency of most of them, as they are ordered; and what is wrong with the others.
     *
     * @param places where each of them stands, in their order
     */
    public static Outcome<Price> usable(List<Price> prices, List<SourcePlace> places) {
        return UsablePrices.of(prices, places);
    }

    private List<PlannedReplacement> lines(LocalDate horizon) {
        return candidates.stream().map(candidate -> line(candidate, candidate.needOn(), horizon))
            .filter(line -> line != null)
            .sorted(Comparator.comparing(PlannedReplacement::needOn).thenComparing(PlannedReplacement::standing)
                .thenComparing(line -> line.machine().id()).thenComparing(PlannedReplacement::drive)).toList();
    }

    private PlannedReplacement line(Candidate candidate, LocalDate needOn, LocalDate horizon) {
        if (needOn == null || needOn.isAfter(horizon)) {
            return null;
        }
        FiscalCalendar.Quarter quarter = quarters.stream().filter(q -> q.contains(needOn)).findFirst().orElseThrow();
        LocalDate orderBy = needOn.minusDays(leadTimeDays + (long) settings.installSlotDays());
        MachineAssessment machine = candidate.machine();
        String item = candidate.choice().item();
        return new PlannedReplacement(machine.machine(), candidate.drive().id(), candidate.drive().latest().drive().model(),
            candidate.attachment(), candidate.drive().standing(), needOn, quarter.label(), orderBy.isBefore(asOf) ? asOf : orderBy,
            orderBy.isBefore(asOf), replaces(candidate), item, candidate.choice().upperItem(), 1, prices.price(item),
            prices.costOfOne(item), prices.costOfOne(candidate.choice().upperItem()), candidate.probabilityBy(quarter.until()),
            candidate.drive().reason(), candidate.figuresOn(),
            candidate.staleBecause(asOf, recentDays), machine.inInventory());
    }

    private static String replaces(Candidate candidate) {
        return candidate.attachment() == Attachment.SOCKETED ? "socketed drive"
            : candidate.attachment() == Attachment.UNKNOWN ? "drive, attachment not known"
            : Price.isBoard(candidate.choice().item()) ? "board, for its soldered drive" : "machine, for its soldered drive";
    }

    private List<PricedItem> items() {
        Map<String, Integer> machinesByItem = new TreeMap<>();
        for (Candidate candidate : candidates) {
            machinesByItem.merge(candidate.choice().item(), 1, Integer::sum);
            machinesByItem.merge(candidate.choice().upperItem(), 0, Integer::sum);
        }
        return machinesByItem.entrySet().stream()
            .map(item -> new PricedItem(item.getKey(), prices.price(item.getKey()), item.getValue())).toList();
    }

    private void fill(List<BudgetPeriod> periods, List<ItemDemand> demand, boolean withProbabilities) {
        Demand crossings = withProbabilities ? new Demand(candidates, quarters.stream().map(FiscalCalendar.Quarter::until).toList()) : null;
        for (int i = 0; i < quarters.size(); i++) {
            Forecast forecast = forecast(crossings, i, i);
            periods.add(quarter(i, forecast));
            demand.addAll(demand(quarters.get(i).label(), forecast));
        }
        List<BudgetPeriod> each = List.copyOf(periods);
        for (int from = 0; from < each.size();) {
            String year = quarters.get(from).year();
            int until = from;
            while (until < each.size() && quarters.get(until).year().equals(year)) {
                until++;
            }
            if (each.size() > 1) {
                String label = year + (until - from < QUARTERS_PER_YEAR ? ", " + quartersOf(from, until) : "");
                Forecast forecast = forecast(crossings, from, until - 1);
                periods.add(sum(label, each.subList(from, until), forecast));
                demand.addAll(demand(label, forecast));
            }
            from = until;
        }
        String all = each.size() == 1 ? "the whole plan" : "all " + each.size() + " quarters";
        Forecast forecast = forecast(crossings, 0, each.size() - 1);
        periods.add(sum(all, each, forecast));
        demand.addAll(demand(all, forecast));
    }

    /** What may happen in a period, and what is bought for it, as the plan has it and at the dearer choices. */
    private record Forecast(Demand.Period period, PurchasesByLevel plan, PurchasesByLevel dearer) {
    }

    /** {@code null} without probabilities. */
    private Forecast forecast(Demand crossings, int firstQuarter, int lastQuarter) {
        if (crossings == null) {
            return null;
        }
        Demand.Period period = crossings.period(firstQuarter, lastQuarter);
        return new Forecast(period, PurchasesByLevel.of(period, prices, PriceBook.Choice::item), PurchasesByLevel.of(period, prices, PriceBook.Choice::upperItem));
    }

    /** Example: {@code Q4 only}, {@code Q1 to Q3}. */
    private String quartersOf(int from, int until) {
        return until - from == 1 ? quarters.get(from).name() + " only" : quarters.get(from).name() + " to " + quarters.get(until - 1).name();
    }

    private List<ItemDemand> demand(String label, Forecast forecast) {
        List<ItemDemand> demand = new ArrayList<>();
        if (forecast != null) {
            forecast.period.kinds().forEach((choice, kind) -> demand.add(new ItemDemand(label, choice.item(), choice.upperItem(),
                rounded(kind.expected(), EXPECTED_PLACES).doubleValue(), forecast.plan.of(demand.size()), forecast.dearer.of(demand.size()),
                orderQuantity(SharedShock.counts(kind.atNodes())))));
        }
        return demand;
    }

    private Integer orderQuantity(CountDistribution counts) {
        return settings.costOfShort() == null || settings.costOfSpare() == null ? null
            : counts.orderQuantity(settings.costOfShort().doubleValue(), settings.costOfSpare().doubleValue());
    }

    private BudgetPeriod quarter(int index, Forecast forecast) {
        FiscalCalendar.Quarter quarter = quarters.get(index);
        LocalDate from = quarter.from().isBefore(asOf) ? asOf : quarter.from();
        List<PlannedReplacement> named = lines.stream().filter(line -> quarter.contains(line.needOn())).toList();
        double years = rounded((ChronoUnit.DAYS.between(from, quarter.until()) + 1) / DAYS_PER_YEAR, EXPECTED_PLACES).doubleValue();
        double failures = BigDecimal.valueOf(machines).multiply(BigDecimal.valueOf(settings.failuresPerMachineYear()))
            .multiply(BigDecimal.valueOf(years)).setScale(EXPECTED_PLACES, RoundingMode.HALF_UP).doubleValue();
        BudgetPeriod certain = new BudgetPeriod(quarter.label(), from, quarter.until(), index, 1, years, named.size(),
            named.stream().map(PlannedReplacement::amount).reduce(ZERO, BigDecimal::add), Double.NaN, null, 0, isPriced(), null, null, failures,
            BigDecimal.valueOf(failures).multiply(PricedItem.meanCost(items)).setScale(2, RoundingMode.HALF_UP), null);
        return forecast == null ? certain : withProbabilities(certain, forecast,
            forecast.period.kinds().values().stream().map(kind -> rounded(kind.expected(), EXPECTED_PLACES)).reduce(BigDecimal.ZERO, BigDecimal::add),
            expectedAmount(forecast.period, PriceBook.Choice::item), expectedAmount(forecast.period, PriceBook.Choice::upperItem));
    }

    /** Means and named lines add up; quantiles do not, and are worked out for the whole time. */
    private BudgetPeriod sum(String label, List<BudgetPeriod> each, Forecast forecast) {
        BudgetPeriod last = each.get(each.size() - 1);
        BudgetPeriod certain = new BudgetPeriod(label, each.get(0).from(), last.until(), each.get(0).first(), each.size(),
            sumOf(each, BudgetPeriod::years).doubleValue(), each.stream().mapToInt(BudgetPeriod::named).sum(),
            total(each, BudgetPeriod::namedAmount), Double.NaN, null, 0, isPriced(), null, null,
            sumOf(each, BudgetPeriod::randomFailures).doubleValue(), total(each, BudgetPeriod::allowance), null);
        return forecast == null ? certain : withProbabilities(certain, forecast,
            sumOf(each, BudgetPeriod::expected), total(each, period -> period.cost().expected()), total(each, period -> period.dearerCost().expected()));
    }

    private static BigDecimal sumOf(List<BudgetPeriod> each, Function<BudgetPeriod, Double> figure) {
        return each.stream().map(figure).map(BigDecimal::valueOf).reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    private static BigDecimal total(List<BudgetPeriod> each, Function<BudgetPeriod, BigDecimal> figure) {
        return each.stream().map(figure).reduce(ZERO, BigDecimal::add);
    }

    private BudgetPeriod withProbabilities(BudgetPeriod p, Forecast forecast, BigDecimal expected, BigDecimal expectedAmount,
                                           BigDecimal expectedDearerAmount) {
        CountDistribution counts = forecast.period.counts();
        BudgetPeriod.Levels<Integer> quantiles = new BudgetPeriod.Levels<>(counts.quantile(0.5), counts.quantile(0.8), counts.quantile(0.9));
        return new BudgetPeriod(p.label(), p.from(), p.until(), p.first(), p.quarters(), p.years(), p.named(), p.namedAmount(), expected.doubleValue(),
            quantiles, forecast.period.independent().quantile(0.9), p.priced(), new BudgetPeriod.Cost(expectedAmount, forecast.plan.amounts()),
            new BudgetPeriod.Cost(expectedDearerAmount, forecast.dearer.amounts()), p.randomFailures(), p.allowance(), orderQuantity(counts));
    }

    private boolean isPriced() {
        return items.stream().allMatch(item -> item.price() != null);
    }

    private BigDecimal expectedAmount(Demand.Period period, Function<PriceBook.Choice, String> item) {
        return period.kinds().entrySet().stream().map(kind -> rounded(kind.getValue().expected(), EXPECTED_PLACES)
                .multiply(prices.costOfOne(item.apply(kind.getKey())))).reduce(BigDecimal.ZERO, BigDecimal::add)
            .setScale(2, RoundingMode.HALF_UP);
    }

    private static BigDecimal rounded(double value, int places) {
        return BigDecimal.valueOf(value).setScale(places, RoundingMode.HALF_UP);
    }
}
