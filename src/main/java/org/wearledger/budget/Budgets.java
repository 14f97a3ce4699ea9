package org.wearledger.budget;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings.RateSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.DriveId;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Funding;
import org.wearledger.model.ItemDemand;
import org.wearledger.model.ItemOrder;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Outcome;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;
import org.wearledger.model.Repair;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.CountDistribution;
import org.wearledger.stats.SharedShock;

/** Draws up the budget of a sweep. */
public final class Budgets {
    private static final int QUARTERS_PER_YEAR = 4;
    private static final BigDecimal ZERO = BigDecimal.ZERO.setScale(2);
    private static final int EXPECTED_PLACES = 4;
    private static final int FEWEST_FITTED = 10;

    private final LocalDate asOf;
    private final BudgetSettings settings;
    private final PriceBook prices;
    private final List<FiscalCalendar.Quarter> quarters;
    private final List<Candidate> candidates;
    private final List<PlannedReplacement> lines;
    private final List<ItemOrder> orders;
    private final Funds funds;
    private final Spending spending;
    private final List<PricedItem> items;
    private final int machines;

    private Budgets(List<MachineAssessment> machines, FleetModel fleet, BudgetFacts facts, LocalDate asOf, SweepSettings sweep, BudgetSettings settings) {
        this.asOf = asOf;
        this.settings = settings;
        this.machines = machines.size();
        prices = new PriceBook(facts.prices());
        quarters = FiscalCalendar.of(settings).from(asOf, settings.quarters());
        LocalDate horizon = quarters.get(quarters.size() - 1).until();
        candidates = machines.parallelStream().flatMap(machine -> Candidate.of(machine, fleet, prices, asOf, horizon, settings).stream()).toList();
        lines = new LinesOfPlan(prices, facts, quarters, asOf, sweep, settings).of(candidates);
        List<String> labels = quarters.stream().map(FiscalCalendar.Quarter::label).toList();
        orders = Orders.of(lines, labels, prices);
        funds = new Funds(lines, orders, quarters, quarters.stream().map(this::years).toList(), prices, settings);
        spending = new Spending(facts);
        items = items();
    }

    /**
     * Names the replacements of the quarters planned, and says by probability how many come and what they cost; see
     * {@code notebooks-free-docs/budget.md}. Without prices every amount is 0 and no quantile of the cost is given.
     *
     * @param machines by machine id; the random failures are allowed for on all of them
     * @param fleet {@code null} by the method of the straight line: then lines only, no probabilities
     */
    public static Budget of(List<MachineAssessment> machines, FleetModel fleet, BudgetFacts facts, LocalDate asOf, SweepSettings sweep, BudgetSettings settings) {
        Budgets budgets = new Budgets(machines, fleet, facts, asOf, sweep, settings);
        List<BudgetPeriod> periods = new ArrayList<>();
        List<ItemDemand> demand = new ArrayList<>();
        budgets.fill(periods, demand, fleet != null);
        return new Budget(settings, sweep.leadTimeDays(), budgets.prices.currency(), budgets.lines, periods, demand, budgets.orders,
            new CentreShares(budgets.funds, budgets.lines, machines).of(periods), budgets.items, budgets.machines, fleet == null ? Double.NaN : fleet.sharedShockPerQuarter());
    }

    /** The same with nothing decided, and no claim. */
    public static Budget of(List<MachineAssessment> machines, FleetModel fleet, List<Price> priceList, LocalDate asOf, SweepSettings sweep, BudgetSettings settings) {
        return of(machines, fleet, BudgetFacts.of(priceList), asOf, sweep, settings);
    }

    /**
     * The prices that a machine can call for, with an exchange rate or in the currency of most of them, as they are ordered; and what is wrong with the others.
     *
     * @param places where each of them stands, in their order
     */
    public static Outcome<Price> usable(List<Price> prices, List<SourcePlace> places) {
        return UsablePrices.of(prices, places);
    }

    /** The same settings with the share of machines that repairs tell, where nobody gave it and ten boards or machines were fitted. */
    public static BudgetSettings learned(BudgetSettings settings, List<Repair> repairs, LocalDate asOf) {
        List<Repair> fitted = repairs.stream().filter(repair -> asOf != null && !repair.date().isAfter(asOf) && repair.action() != null
            && (repair.reason() == Repair.Reason.WORN || repair.reason() == Repair.Reason.DEAD_DRIVE)).toList();
        long boards = fitted.stream().filter(repair -> Price.isBoard(repair.action())).count();
        long machines = fitted.stream().filter(repair -> DriveId.fold(repair.action()).startsWith(DriveId.fold(PriceBook.MACHINE))).count();
        return settings.money().machineShareFrom() != RateSource.ASSUMED || boards + machines < FEWEST_FITTED ? settings
            : settings.with(settings.money().withMachineShare(rounded((double) machines / (boards + machines)), RateSource.LEARNED));
    }

    private List<PricedItem> items() {
        Map<String, Integer> machinesByItem = new TreeMap<>();
        for (Candidate candidate : candidates) {
            machinesByItem.merge(candidate.choice().item(), 1, Integer::sum);
            machinesByItem.merge(candidate.choice().upperItem(), 0, Integer::sum);
        }
        lines.stream().map(line -> line.repair().machineItem()).filter(Objects::nonNull).forEach(machine -> machinesByItem.merge(machine, 0, Integer::sum));
        return machinesByItem.entrySet().stream()
            .map(item -> new PricedItem(item.getKey(), prices.price(item.getKey()), item.getValue())).toList();
    }

    private void fill(List<BudgetPeriod> periods, List<ItemDemand> demand, boolean withProbabilities) {
        Demand crossings = withProbabilities ? new Demand(candidates, quarters.stream().map(FiscalCalendar.Quarter::until).toList()) : null;
        for (int i = 0; i < quarters.size(); i++) {
            Forecast forecast = forecast(crossings, i, i);
            List<ItemDemand> own = demand(quarters.get(i).label(), forecast, i, i);
            periods.add(quarter(i, forecast, own));
            demand.addAll(own);
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
                sum(label, each, from, until - 1, crossings, periods, demand);
            }
            from = until;
        }
        sum(each.size() == 1 ? "the whole plan" : "all " + each.size() + " quarters", each, 0, each.size() - 1, crossings, periods, demand);
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

    private List<ItemDemand> demand(String label, Forecast forecast, int first, int last) {
        List<ItemDemand> demand = new ArrayList<>();
        if (forecast != null) {
            LocalDate from = quarters.get(first).from();
            LocalDate until = quarters.get(last).until();
            Map<PriceBook.Choice, Long> named = lines.stream().filter(line -> !line.needOn().isBefore(from) && !line.needOn().isAfter(until))
                .collect(Collectors.groupingBy(line -> new PriceBook.Choice(line.repair().item(), line.repair().upperItem()), Collectors.counting()));
            forecast.period.kinds().forEach((choice, kind) -> {
                long lines = named.getOrDefault(choice, 0L);
                BudgetPeriod.Levels<Double> bought = forecast.plan.of(demand.size());
                BudgetPeriod.Levels<Double> dearer = forecast.dearer.of(demand.size());
                double further = rounded(kind.further());
                demand.add(new ItemDemand(label, choice.item(), choice.upperItem(), rounded(kind.expected()), bought, dearer, further,
                    rounded(bought.p80() - lines - further), rounded(dearer.p90() - lines), orderQuantity(SharedShock.counts(kind.atNodes()))));
            });
        }
        return demand;
    }

    private Integer orderQuantity(CountDistribution counts) {
        return settings.costOfShort() == null || settings.costOfSpare() == null ? null
            : counts.orderQuantity(settings.costOfShort().doubleValue(), settings.costOfSpare().doubleValue());
    }

    /** What is left of it. */
    private double years(FiscalCalendar.Quarter quarter) {
        LocalDate from = quarter.from().isBefore(asOf) ? asOf : quarter.from();
        return rounded((ChronoUnit.DAYS.between(from, quarter.until()) + 1) / LinesOfPlan.DAYS_PER_YEAR);
    }

    private BudgetPeriod quarter(int index, Forecast forecast, List<ItemDemand> demand) {
        FiscalCalendar.Quarter quarter = quarters.get(index);
        LocalDate from = quarter.from().isBefore(asOf) ? asOf : quarter.from();
        double years = years(quarter);
        double failures = BigDecimal.valueOf(machines).multiply(BigDecimal.valueOf(settings.failuresPerMachineYear()))
            .multiply(BigDecimal.valueOf(years)).setScale(EXPECTED_PLACES, RoundingMode.HALF_UP).doubleValue();
        BigDecimal allowance = BigDecimal.valueOf(failures).multiply(PricedItem.meanCost(items)).setScale(2, RoundingMode.HALF_UP);
        BudgetPeriod certain = new BudgetPeriod(quarter.label(), from, quarter.until(), index, 1, years, funds.bought(index, index).size(), Double.NaN, null, 0, isPriced(), null, null,
            failures, null, funds.quarter(index, allowance, isPriced() ? demand : List.of(), isPriced()), spending.in(quarter.label(), quarter.from(), quarter.until()));
        return forecast == null ? certain : withProbabilities(certain, forecast,
            forecast.period.kinds().values().stream().map(kind -> BigDecimal.valueOf(rounded(kind.expected()))).reduce(BigDecimal.ZERO, BigDecimal::add),
            expectedAmount(forecast.period, PriceBook.Choice::item), expectedAmount(forecast.period, PriceBook.Choice::upperItem));
    }

    /** Means and money add up; quantiles do not, and are worked out for the whole time. */
    private void sum(String label, List<BudgetPeriod> quarters, int first, int last, Demand crossings, List<BudgetPeriod> periods, List<ItemDemand> demand) {
        List<BudgetPeriod> each = quarters.subList(first, last + 1);
        Forecast forecast = forecast(crossings, first, last);
        List<ItemDemand> own = demand(label, forecast, first, last);
        List<Funding> years = periods.stream().filter(period -> !period.isOneQuarter()).map(BudgetPeriod::funding).toList();
        // The whole is what its years are.
        BigDecimal relief = !isPriced() ? ZERO : !years.isEmpty() && last == quarters.size() - 1 && first == 0 ? years.stream().map(Funding::relief).reduce(ZERO, BigDecimal::add)
            : funds.relief(own, each.stream().map(period -> demand.stream().filter(row -> row.period().equals(period.label())).toList()).toList());
        Funding together = each.stream().map(BudgetPeriod::funding).reduce(Funding.NONE, Funding::plus);
        BudgetPeriod certain = new BudgetPeriod(label, each.get(0).from(), each.get(each.size() - 1).until(), first, each.size(),
            sumOf(each, BudgetPeriod::years).doubleValue(), each.stream().mapToInt(BudgetPeriod::named).sum(), Double.NaN, null, 0, isPriced(), null, null,
            sumOf(each, BudgetPeriod::randomFailures).doubleValue(), null, together.together(relief, funds.worst(first, last, together.failures().add(together.putOff()), isPriced() ? own : List.of())), spent(each));
        periods.add(forecast == null ? certain : withProbabilities(certain, forecast,
            sumOf(each, BudgetPeriod::expected), total(each, period -> period.cost().expected()), total(each, period -> period.dearerCost().expected())));
        demand.addAll(own);
    }

    private static BigDecimal spent(List<BudgetPeriod> each) {
        return each.stream().map(BudgetPeriod::spent).filter(Objects::nonNull).reduce(BigDecimal::add).orElse(null);
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
        return new BudgetPeriod(p.label(), p.from(), p.until(), p.first(), p.quarters(), p.years(), p.named(), expected.doubleValue(),
            quantiles, forecast.period.independent().quantile(0.9), p.priced(), new BudgetPeriod.Cost(expectedAmount, forecast.plan.amounts()),
            new BudgetPeriod.Cost(expectedDearerAmount, forecast.dearer.amounts()), p.randomFailures(), orderQuantity(counts), p.funding(), p.spent());
    }

    private boolean isPriced() {
        return lines.stream().allMatch(line -> prices.price(line.item()) != null && prices.price(line.upperItem()) != null);
    }

    private BigDecimal expectedAmount(Demand.Period period, Function<PriceBook.Choice, String> item) {
        return period.kinds().entrySet().stream().map(kind -> BigDecimal.valueOf(rounded(kind.getValue().expected()))
                .multiply(prices.costOfOne(item.apply(kind.getKey())))).reduce(BigDecimal.ZERO, BigDecimal::add)
            .setScale(2, RoundingMode.HALF_UP);
    }

    /** To the decimals that the workbook shows. */
    private static double rounded(double value) {
        return BigDecimal.valueOf(value).setScale(EXPECTED_PLACES, RoundingMode.HALF_UP).doubleValue();
    }
}
