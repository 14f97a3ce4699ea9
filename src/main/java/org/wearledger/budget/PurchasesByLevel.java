package org.wearledger.budget;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.wearledger.model.BudgetPeriod.Levels;
import org.wearledger.stats.AmountDistribution;
import org.wearledger.stats.SharedShock;

/**
 * What a period's replacements cost at each stated probability, as the purchases that cost it: a workbook prices those anew.
 *
 * @param numbers of each kind, in their order
 * @param amounts their cost
 */
record PurchasesByLevel(Levels<double[]> numbers, Levels<BigDecimal> amounts) {
    private static final int NUMBER_PLACES = 4;

    /** Where a price is missing, each kind's mean share of the number that is not exceeded stands in. */
    static PurchasesByLevel of(Demand.Period period, PriceBook prices, Function<PriceBook.Choice, String> item) {
        List<String> items = period.kinds().keySet().stream().map(item).toList();
        List<BigDecimal> costs = items.stream().map(prices::costOfOne).toList();
        Levels<double[]> numbers = items.stream().allMatch(each -> prices.price(each) != null) ? byCost(period, costs) : byCount(period);
        return new PurchasesByLevel(numbers, new Levels<>(cost(numbers.p50(), costs), cost(numbers.p80(), costs), cost(numbers.p90(), costs)));
    }

    private static Levels<double[]> byCost(Demand.Period period, List<BigDecimal> costs) {
        long[] cents = costs.stream().mapToLong(cost -> cost.movePointRight(2).longValueExact()).toArray();
        var atNodes = period.kinds().values().stream().map(Demand.Period.Kind::atNodes).toList();
        AmountDistribution amounts = SharedShock.amounts(cents, atNodes);
        return levels(p -> SharedShock.countsAt(amounts.quantile(p), cents, atNodes));
    }

    private static Levels<double[]> byCount(Demand.Period period) {
        double[] means = period.kinds().values().stream().mapToDouble(Demand.Period.Kind::expected).toArray();
        double all = IntStream.range(0, means.length).mapToDouble(k -> means[k]).sum();
        return levels(p -> IntStream.range(0, means.length).mapToDouble(k -> all == 0 ? 0 : period.counts().quantile(p) * means[k] / all).toArray());
    }

    private static Levels<double[]> levels(DoubleFunction<double[]> at) {
        return new Levels<>(rounded(at.apply(0.5)), rounded(at.apply(0.8)), rounded(at.apply(0.9)));
    }

    private static double[] rounded(double[] numbers) {
        return IntStream.range(0, numbers.length)
            .mapToDouble(k -> BigDecimal.valueOf(numbers[k]).setScale(NUMBER_PLACES, RoundingMode.HALF_UP).doubleValue()).toArray();
    }

    private static BigDecimal cost(double[] numbers, List<BigDecimal> costs) {
        return IntStream.range(0, numbers.length).mapToObj(k -> BigDecimal.valueOf(numbers[k]).multiply(costs.get(k)))
            .reduce(BigDecimal.ZERO, BigDecimal::add).setScale(2, RoundingMode.HALF_UP);
    }

    /** Of the kind at its place in their order. */
    Levels<Double> of(int kind) {
        return new Levels<>(numbers.p50()[kind], numbers.p80()[kind], numbers.p90()[kind]);
    }
}
