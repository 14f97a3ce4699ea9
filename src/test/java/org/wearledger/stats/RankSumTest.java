package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RankSumTest {
    // Hollander and Wolfe, Nonparametric Statistical Methods (1973) 69 f., permeability; also in R's wilcox.test help.
    private static final double[] AT_TERM = {0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46};
    private static final double[] EARLY = {1.15, 0.88, 0.90, 0.74, 1.21};

    @Test
    void reproducesThePermeabilityExample() {
        RankSum ranks = RankSum.compare(AT_TERM, EARLY).orElseThrow();
        assertThat(ranks.u()).isEqualTo(35);
        assertThat(ranks.twoSidedP()).isEqualTo(0.254412, within(5e-7));
    }

    @Test
    void reproducesTheShiftOfThePermeabilityExample() {
        RankSum ranks = RankSum.compare(AT_TERM, EARLY).orElseThrow();
        assertThat(ranks.shift()).isEqualTo(0.305, within(1e-12));
        assertBounds(ranks.shiftInterval(0.95).orElseThrow(), -0.15, 0.76);
        assertBounds(ranks.shiftInterval(0.90).orElseThrow(), -0.08, 0.72);
    }

    /**
     * Ozone in New York, May against August 1973, with many ties. R 4.2.2: {@code a <- airquality;
     * wilcox.test(a$Ozone[a$Month==5], a$Ozone[a$Month==8], exact=FALSE, conf.int=TRUE)}: W, p-value, and the estimate, which R's
     * search leaves at -31.99996.
     */
    @Test
    void reproducesTheTiedOzoneExample() {
        double[] may = {41, 36, 12, 18, 28, 23, 19, 8, 7, 16, 11, 14, 18, 14, 34, 6, 30, 11, 1, 11, 4, 32, 23, 45, 115, 37};
        double[] august = {39, 9, 16, 78, 35, 66, 122, 89, 110, 44, 28, 65, 22, 59, 23, 31, 44, 21, 9, 45, 168, 73, 76, 118, 84, 85};
        RankSum ranks = RankSum.compare(may, august).orElseThrow();
        assertThat(ranks.u()).isEqualTo(127.5);
        assertThat(ranks.twoSidedP()).isEqualTo(1.208078308e-4, within(1e-13));
        assertThat(ranks.shift()).isEqualTo(-32);
    }

    @Test
    void isEmptyWhenASampleIs() {
        assertThat(RankSum.compare(new double[0], EARLY)).isEmpty();
        assertThat(RankSum.compare(EARLY, new double[0])).isEmpty();
    }

    @Test
    void oneAgainstOneHasAShiftAndNothingMore() {
        RankSum ranks = RankSum.compare(new double[] {5}, new double[] {2}).orElseThrow();
        assertThat(ranks.shift()).isEqualTo(3);
        assertThat(ranks.twoSidedP()).isEqualTo(1);
        assertThat(ranks.shiftInterval(0.95)).isEmpty();
    }

    @Test
    void fourAgainstFourIsTheFewestWithAnIntervalAt95Percent() {
        // By hand: complete separation has probability 1 / 20 for three against three, 1 / 70 for four against four.
        RankSum three = RankSum.compare(new double[] {4, 5, 6}, new double[] {1, 2, 3}).orElseThrow();
        assertThat(three.twoSidedP()).isEqualTo(0.1, within(1e-12));
        assertThat(three.shiftInterval(0.95)).isEmpty();
        RankSum four = RankSum.compare(new double[] {5, 6, 7, 8}, new double[] {1, 2, 3, 4}).orElseThrow();
        assertThat(four.twoSidedP()).isEqualTo(2.0 / 70, within(1e-12));
        assertThat(four.shiftInterval(0.95)).contains(new Bounds(1, 7));
    }

    @Test
    void oneValueThroughoutCannotBeToldApart() {
        RankSum ranks = RankSum.compare(new double[] {2, 2, 2}, new double[] {2, 2}).orElseThrow();
        assertThat(ranks.twoSidedP()).isEqualTo(1);
        assertThat(ranks.shift()).isZero();
    }

    @Test
    void equalPairsCountHalfAndTakeTheNormalApproximation() {
        // By hand: U = 1.5 + 2 + 2 = 5.5 of 6 pairs; variance 6 / 12 x (6 - (6 + 6) / 20) = 2.7 with two tied pairs.
        RankSum ranks = RankSum.compare(new double[] {2, 3, 3}, new double[] {1, 2}).orElseThrow();
        assertThat(ranks.u()).isEqualTo(5.5);
        // z = (5.5 - 3 - 0.5) / sqrt(2.7) = 1.21716; P(|Z| > z) = 0.2235
        assertThat(ranks.twoSidedP()).isEqualTo(0.2235, within(5e-4));
    }

    @Test
    void equalValuesWidenTheIntervalToTheNormalOne() {
        // By hand, six against six at 95 %: exact k = 6 (P(U <= 5) = 0.0206), normal k = floor(18 - 1.96 x 6.245) = 5.
        double[] a = {1, 2, 3, 4, 5, 6};
        RankSum withEqual = RankSum.compare(a, new double[] {1, 2.5, 3.25, 7, 9, 10}).orElseThrow();
        assertThat(withEqual.shiftInterval(0.95)).contains(new Bounds(-7, 2.75));
        RankSum without = RankSum.compare(a, new double[] {1.25, 2.5, 3.25, 7, 9, 10}).orElseThrow();
        assertThat(without.shiftInterval(0.95)).contains(new Bounds(-6, 2.5));
    }

    @Test
    void followsShiftScaleAndExchange() {
        Random random = new Random(1963);
        double[] a = random.doubles(30).toArray();
        double[] b = random.doubles(41).toArray();
        RankSum ranks = RankSum.compare(a, b).orElseThrow();
        RankSum moved = RankSum.compare(Arrays.stream(a).map(x -> 2 * x + 10).toArray(),
            Arrays.stream(b).map(x -> 2 * x + 7).toArray()).orElseThrow();
        assertThat(moved.shift()).isEqualTo(2 * ranks.shift() + 3, within(1e-12));
        RankSum exchanged = RankSum.compare(b, a).orElseThrow();
        assertThat(exchanged.shift()).isEqualTo(-ranks.shift());
        assertThat(exchanged.twoSidedP()).isEqualTo(ranks.twoSidedP(), within(1e-12));
        Bounds bounds = ranks.shiftInterval(0.95).orElseThrow();
        assertThat(exchanged.shiftInterval(0.95)).contains(new Bounds(-bounds.high(), -bounds.low()));
    }

    @Test
    void findsTheShiftThatTheFullTableOfDifferencesGives() {
        Random random = new Random(2001);
        double[] a = random.ints(120, -9, 9).asDoubleStream().toArray();
        double[] b = random.doubles(77, -5, 5).toArray();
        double[] differences = Arrays.stream(a).flatMap(x -> Arrays.stream(b).map(y -> x - y)).sorted().toArray();
        double middle = (differences[differences.length / 2 - 1] + differences[differences.length / 2]) / 2;
        assertThat(RankSum.compare(a, b).orElseThrow().shift()).isEqualTo(middle);
    }

    @Test
    void exactAndNormalIntervalsMeet() {
        // The same samples just under and just over the limit of the exact case: the interval hardly moves.
        Random random = new Random(7);
        double[] b = random.doubles(49).toArray();
        double[] a = random.doubles(49).map(x -> x + 0.5).toArray();
        double[] oneMore = Arrays.copyOf(a, 50);
        oneMore[49] = 1;
        Bounds exact = RankSum.compare(a, b).orElseThrow().shiftInterval(0.95).orElseThrow();
        Bounds normal = RankSum.compare(oneMore, b).orElseThrow().shiftInterval(0.95).orElseThrow();
        assertThat(normal.low()).isEqualTo(exact.low(), within(0.02));
        assertThat(normal.high()).isEqualTo(exact.high(), within(0.02));
    }

    @Test
    void copesWithThousands() {
        Random random = new Random(11);
        double[] a = random.doubles(20_000).map(x -> x + 0.25).toArray();
        double[] b = random.doubles(20_000).toArray();
        RankSum ranks = RankSum.compare(a, b).orElseThrow();
        Bounds bounds = ranks.shiftInterval(0.95).orElseThrow();
        assertThat(ranks.shift()).isEqualTo(0.25, within(0.01)).isBetween(bounds.low(), bounds.high());
        assertThat(bounds.high() - bounds.low()).isLessThan(0.02);
        assertThat(ranks.twoSidedP()).isLessThan(1e-9);
    }

    @Test
    void refusesWhatIsNoNumberAndSaysWhere() {
        assertThatThrownBy(() -> RankSum.compare(new double[] {1, Double.NaN}, EARLY))
            .isInstanceOf(IllegalArgumentException.class).hasMessage("a[1] must be finite, not NaN");
        assertThatThrownBy(() -> RankSum.compare(EARLY, new double[] {Double.NEGATIVE_INFINITY}))
            .isInstanceOf(IllegalArgumentException.class).hasMessage("b[0] must be finite, not -Infinity");
        RankSum ranks = RankSum.compare(AT_TERM, EARLY).orElseThrow();
        assertThatThrownBy(() -> ranks.shiftInterval(1)).isInstanceOf(IllegalArgumentException.class)
            .hasMessageContaining("1.0");
    }

    private static void assertBounds(Bounds bounds, double low, double high) {
        assertThat(bounds.low()).isEqualTo(low, within(1e-12));
        assertThat(bounds.high()).isEqualTo(high, within(1e-12));
    }
}
