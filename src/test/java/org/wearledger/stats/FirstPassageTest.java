package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.numbers.gamma.Digamma;
import org.apache.commons.numbers.gamma.Trigamma;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Days of a first passage against a plain search for the root, and the functions that its beliefs are widened by against a library. */
class FirstPassageTest {
    private static final double MILLIS_PER_QUARTER = 91.3125 * 86_400_000;

    private int values;

    @Test
    void daysAreThoseOfASearchForTheRootAndTakeFewValues() {
        Random random = new Random(20261128);
        int dates = 0;
        for (int drive = 0; drive < 3_000; drive++) {
            RateBelief belief = new RateBelief(0.3 + 60 * random.nextDouble() * random.nextDouble(), Math.exp(6 * random.nextDouble() - 6));
            double eta = 0.3 + 8 * random.nextDouble();
            Drift drift = new Drift(0.4 * random.nextDouble());
            double[] remaining = random.nextBoolean() ? new double[] {random.nextDouble()} : random.doubles(5, 0, 1).toArray();
            DoubleUnaryOperator by = t -> {
                RateBelief ahead = t <= 0 ? belief : drift.ahead(belief, t);
                double sum = 0;
                for (double left : remaining) {
                    sum += ahead.probabilityOfReaching(eta, t, left);
                }
                return sum / remaining.length;
            };
            Instant from = Instant.ofEpochSecond(1_700_000_000L + random.nextInt(100_000_000));
            FirstPassage passage = new FirstPassage(t -> {
                values++;
                return by.applyAsDouble(t);
            }, 40);
            for (double horizon : new double[] {1.9, 1, 2, 4, 8}) {
                assertThat(passage.by(horizon)).isEqualTo(by.applyAsDouble(horizon));
            }
            for (double p : new double[] {0.1, 0.5, 0.8, 0.9}) {
                assertThat(passage.dateOf(p, from, MILLIS_PER_QUARTER)).as("drive %s, p %s", drive, p).isEqualTo(searched(by, p, from));
                dates++;
            }
        }
        assertThat((double) values / dates).as("values for each day, those of five horizons among them").isLessThan(5);
    }

    private static LocalDate searched(DoubleUnaryOperator by, double p, Instant from) {
        if (by.applyAsDouble(40) < p) {
            return null;
        }
        double time = new BrentSolver(1e-14, 1e-4, 1e-15).solve(1_000, t -> by.applyAsDouble(t) - p, 0, 40);
        return LocalDate.ofInstant(from.plusMillis(Math.round(time * MILLIS_PER_QUARTER)), ZoneOffset.UTC);
    }

    @Test
    void stepsAndLevelStretchesEndToo() {
        assertThat(new FirstPassage(t -> t < 3 ? 0 : 1, 40).timeOf(0.5, 0, 0.01)).isCloseTo(3, within(0.01));
        assertThat(new FirstPassage(t -> t < 3 ? 0.2 : t < 9 ? 0.5 : 0.7, 40).timeOf(0.6, 0, 0.01)).isCloseTo(9, within(0.01));
        assertThat(new FirstPassage(t -> 0.3, 40).timeOf(0.6, 0, 0.01)).as("never").isInfinite();
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-4, 0.02, 0.3, 1, 1.5, 4.25, 9.99, 10, 37, 1_000, 1e6})
    void polygammaFunctionsAreTheLibrarys(double x) {
        assertThat(Polygamma.trigamma(x) / Trigamma.value(x)).as("whose series of three terms ends 3e-12 from it").isCloseTo(1, within(4e-12));
        assertThat(Polygamma.digamma(x)).isCloseTo(Digamma.value(x), within(1e-13 * Math.max(1, Math.abs(Digamma.value(x)))));
        assertThat(Polygamma.inverseTrigamma(Polygamma.trigamma(x)) / x).isCloseTo(1, within(2e-13));
    }

    /** Abramowitz and Stegun 6.3.2, 6.3.3, 6.4.2, 6.4.4. */
    @Test
    void polygammaFunctionsHaveTheirClosedForms() {
        double euler = 0.57721566490153286;
        assertThat(Polygamma.digamma(1)).isCloseTo(-euler, within(1e-15));
        assertThat(Polygamma.digamma(0.5)).isCloseTo(-euler - 2 * Math.log(2), within(1e-14));
        assertThat(Polygamma.trigamma(1)).isCloseTo(Math.PI * Math.PI / 6, within(1e-14));
        assertThat(Polygamma.trigamma(0.5)).isCloseTo(Math.PI * Math.PI / 2, within(1e-14));
    }
}
