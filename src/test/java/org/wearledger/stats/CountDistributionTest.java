package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.BinomialDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CountDistributionTest {
    /** Worked by hand, (1 - .1)(1 - .2)(1 - .3) = .504 and so on; the longer ones by full enumeration of the 2^n outcomes. */
    @Test
    void countsOfAFewEventsAreExact() {
        assertProbabilities(CountDistribution.of(0.1, 0.2, 0.3), 0.504, 0.398, 0.092, 0.006);
        assertProbabilities(CountDistribution.of(0.02, 0.05, 0.1, 0.2, 0.4, 0.8), 0.0804384, 0.4103016, 0.381916, 0.114052,
            0.012756, 0.0005296, 0.0000064);
        assertProbabilities(CountDistribution.of(0.5, 0.5, 0.5, 0.5), 1 / 16.0, 4 / 16.0, 6 / 16.0, 4 / 16.0, 1 / 16.0);
        CountDistribution ten = CountDistribution.of(0.9, 0.8, 0.95, 0.5, 0.3, 0.1, 0.05, 0.02, 0.01, 0.6);
        assertThat(ten.probability(0)).isCloseTo(1.1613294e-4, within(1e-10));
        assertThat(ten.probability(4)).isCloseTo(0.35601684698, within(1e-10));
        assertThat(ten.cdf(6)).isCloseTo(0.98689832243, within(1e-10));
        assertThat(ten.mean()).isCloseTo(4.23, within(1e-10));
        assertThat(ten.variance()).isCloseTo(1.1645, within(1e-10));
    }

    private static void assertProbabilities(CountDistribution counts, double... expected) {
        for (int k = 0; k < expected.length; k++) {
            assertThat(counts.probability(k)).as("P(%d)", k).isCloseTo(expected[k], within(1e-10));
        }
        assertThat(counts.probability(expected.length)).isZero();
        assertThat(counts.probability(-1)).isZero();
    }

    @Test
    void certainAndImpossibleEventsOnlyShift() {
        assertProbabilities(CountDistribution.of(0, 0), 1);
        assertProbabilities(CountDistribution.of(), 1);
        CountDistribution two = CountDistribution.of(1, 1, 0, 0.25);
        assertThat(two.probability(2)).isEqualTo(0.75);
        assertThat(two.probability(3)).isEqualTo(0.25);
        assertThatThrownBy(() -> CountDistribution.of(0.5, Double.NaN)).hasMessage("a probability lies from 0 to 1, not NaN");
    }

    /**
     * scipy 1.17.1: {@code i = arange(n); d = poisson_binom(p0 + 0.2*(i/(n-1))**2); d.cdf(count)}, and for the quantiles the first
     * count whose cdf reaches them. The first case has a variance of 360 and is summed exactly, the others take the series.
     */
    @ParameterizedTest(name = "{0} events from {1}: at most {2}")
    @CsvSource({"6000, 0.002, 412, 0.5124499805416971, 1e-10", "20000, 0.0005, 1250, 0.003211974432999541, 1e-6",
        "20000, 0.0005, 1300, 0.10584200466750046, 1e-6", "20000, 0.0005, 1400, 0.9510791063810637, 1e-6"})
    void manyUnlikeEvents(int events, double least, int count, double cdf, double accuracy) {
        assertThat(CountDistribution.of(rising(events, least)).cdf(count)).isCloseTo(cdf, within(accuracy));
    }

    private static double[] rising(int events, double least) {
        return IntStream.range(0, events).mapToDouble(i -> least + 0.2 * Math.pow(i / (events - 1.0), 2)).toArray();
    }

    @ParameterizedTest
    @CsvSource({"0.5, 412", "0.8, 428", "0.9, 437"})
    void quantilesOfManyUnlikeEvents(double level, int count) {
        assertThat(CountDistribution.of(rising(6_000, 0.002)).quantile(level)).isEqualTo(count);
    }

    /** Above a variance of 400 a series takes over: against a library's exact binomial. */
    @Test
    void manyEventsAreNearlyExact() {
        double[] p = new double[20_000];
        Arrays.fill(p, 0.03);
        CountDistribution counts = CountDistribution.of(p);
        BinomialDistribution exact = new BinomialDistribution(null, p.length, 0.03);
        for (int k : new int[] {530, 570, 600, 631, 640, 660}) {
            assertThat(counts.cdf(k)).as("at most %d", k).isCloseTo(exact.cumulativeProbability(k), within(1e-6));
        }
        assertThat(counts.quantile(0.9)).isEqualTo(exact.inverseCumulativeProbability(0.9));
    }

    @Test
    void theLeastCountThatSufficesIsTheQuantile() {
        CountDistribution four = CountDistribution.of(0.5, 0.5, 0.5, 0.5);
        assertThat(four.quantile(11 / 16.0)).isEqualTo(2);
        assertThat(four.quantile(11 / 16.0 + 1e-9)).isEqualTo(3);
        // One short costs three times as much as one over: the quantile at 3/4.
        assertThat(four.orderQuantity(30, 10)).isEqualTo(3);
        assertThat(four.orderQuantity(10, 30)).isEqualTo(1);
    }

    /** A million seeded draws: the shock first, then each event by itself. */
    @Test
    void theMixtureIsThatOfAMillionDraws() {
        double[] tilt = IntStream.range(0, 30).mapToDouble(i -> -3 + i * 0.1).toArray();
        CountDistribution mixed = SharedShock.counts(node -> CountDistribution.of(given(tilt, SharedShock.node(node))));
        int draws = 1_000_000;
        SplittableRandom random = new SplittableRandom(20250106);
        var normal = NormalDistribution.of(0, 1).createSampler(random::nextLong);
        int[] seen = new int[31];
        for (int d = 0; d < draws; d++) {
            double[] p = given(tilt, normal.sample());
            int count = 0;
            for (double each : p) {
                count += random.nextDouble() < each ? 1 : 0;
            }
            seen[count]++;
        }
        double below = 0;
        for (int k = 0; k < 25; k++) {
            below += seen[k] / (double) draws;
            double error = Math.sqrt(mixed.cdf(k) * (1 - mixed.cdf(k)) / draws);
            assertThat(below).as("at most %d", k).isCloseTo(mixed.cdf(k), within(3 * error + 1e-9));
        }
    }

    private static double[] given(double[] tilt, double shock) {
        return Arrays.stream(tilt).map(t -> 1 / (1 + Math.exp(-t - 0.6 * shock))).toArray();
    }

    @Test
    void aSharedShockWidensTheTail() {
        double[] tilt = new double[400];
        Arrays.fill(tilt, -4.15);
        CountDistribution apart = CountDistribution.of(given(tilt, 0));
        CountDistribution together = SharedShock.counts(node -> CountDistribution.of(given(tilt, 1.2 * SharedShock.node(node))));
        assertThat(together.quantile(0.9)).isGreaterThan(apart.quantile(0.9) + 3);
    }

    /** Two kinds at 87.50 and 962.00, certain counts and coin flips: sums by hand. */
    @Test
    void amountsAreExactToTheCent() {
        long[] costs = {8_750, 96_200};
        AmountDistribution amounts = SharedShock.amounts(costs, List.of(same(CountDistribution.of(1, 0.5)), same(CountDistribution.of(0.5))));
        assertThat(amounts.quantile(0.25)).isEqualTo(8_750);
        assertThat(amounts.quantile(0.5)).isEqualTo(17_500);
        assertThat(amounts.quantile(0.75)).isEqualTo(104_950);
        assertThat(amounts.quantile(0.76)).isEqualTo(113_700);
        assertThat(amounts.mean()).isCloseTo(8_750 + 4_375 + 48_100, within(1e-6));
    }

    private static List<CountDistribution> same(CountDistribution counts) {
        return IntStream.range(0, SharedShock.nodes()).mapToObj(i -> counts).toList();
    }

    @Test
    void aWideGridRoundsByLittle() {
        double[] p = new double[3_000];
        Arrays.fill(p, 0.5);
        AmountDistribution amounts = SharedShock.amounts(new long[] {8_751, 96_203}, List.of(same(CountDistribution.of(p)), same(CountDistribution.of(p))));
        double mean = 1_500 * (8_751.0 + 96_203);
        assertThat(amounts.mean() / mean).isCloseTo(1, within(1e-4));
        double deviation = Math.sqrt(750 * (8_751.0 * 8_751 + 96_203.0 * 96_203));
        assertThat(amounts.quantile(0.9)).isCloseTo(Math.round(mean + 1.2816 * deviation), within(100_000L));
    }

    /** The sums of {@link #amountsAreExactToTheCent}: 0, 1 or 2 of one, 0 or 1 of the other. */
    @Test
    void anAmountIsMadeUpOfWholeNumbersWhileItIsExact() {
        long[] costs = {8_750, 96_200};
        List<List<CountDistribution>> counts = List.of(same(CountDistribution.of(1, 0.5)), same(CountDistribution.of(0.5)));
        assertThat(SharedShock.countsAt(17_500, costs, counts)).containsExactly(2, 0);
        assertThat(SharedShock.countsAt(104_950, costs, counts)).containsExactly(1, 1);
        assertThat(SharedShock.countsAt(4, new long[] {1, 2}, List.of(same(CountDistribution.of(0.9, 0.9, 0.1, 0.1)), same(CountDistribution.of(0.9, 0.1)))))
            .as("of 4 and 0, 2 and 1, 0 and 2 the likeliest").containsExactly(2, 1);
    }

    /** The quantile at a new price is what the numbers cost at it, up to the grid: 3,000 of one kind, 3,000 of another, with a shared shock. */
    @ParameterizedTest
    @ValueSource(doubles = {0.5, 0.8, 0.9})
    void beyondThatTheNumbersFollowTheQuantileWhenAPriceChanges(double level) {
        double[] tilt = new double[3_000];
        Arrays.fill(tilt, -1);
        List<CountDistribution> some = IntStream.range(0, SharedShock.nodes()).mapToObj(node -> CountDistribution.of(given(tilt, SharedShock.node(node)))).toList();
        double[] coins = new double[3_000];
        Arrays.fill(coins, 0.5);
        List<List<CountDistribution>> counts = List.of(some, same(CountDistribution.of(coins)));
        long[] costs = {8_751, 96_203};
        long amount = SharedShock.amounts(costs, counts).quantile(level);
        double[] numbers = SharedShock.countsAt(amount, costs, counts);
        assertThat(numbers[0] * 8_751 + numbers[1] * 96_203).isCloseTo(amount, within(1.0));
        double repriced = SharedShock.amounts(new long[] {13_000, 96_203}, counts).quantile(level);
        assertThat((numbers[0] * 13_000 + numbers[1] * 96_203) / repriced).isCloseTo(1, within(1e-3));
        double inProportion = amount * SharedShock.amounts(new long[] {13_000, 96_203}, counts).mean() / SharedShock.amounts(costs, counts).mean();
        assertThat(Math.abs(inProportion / repriced - 1)).as("the quantile's share of the mean, by contrast").isGreaterThan(1e-3);
    }
}
