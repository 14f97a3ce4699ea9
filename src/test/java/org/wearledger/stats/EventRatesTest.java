package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.wearledger.stats.EventRates.Exposure;

class EventRatesTest {
    /**
     * R 4: with {@code k <- c(3, 18, 40, 0); t <- c(120, 900, 700, 15); m <- sum(k) / sum(t)} the shape is where
     * {@code sum(dnbinom(k, size = a, mu = m * t, log = TRUE))} is highest, {@code optimize(.., c(log(.5), log(1000)), tol = 1e-10)}: 5.108305. Rates are
     * {@code (a + k) / (a / m + t)}, intervals {@code qgamma(c(.025, .975), .5 + k, .5 / m + t)}.
     */
    @Test
    void eachGroupIsDrawnTowardsAll() {
        List<Exposure> groups = List.of(new Exposure(3, 120), new Exposure(18, 900), new Exposure(40, 700), new Exposure(0, 15));
        EventRates rates = EventRates.of(groups);
        double[][] expected = {{0.03056352, 0.00629508, 0.05965060}, {0.022107, 0.01208987, 0.03044557}, {0.05336407, 0.04060255, 0.07545519}, {0.03186843, 0.00001680, 0.08596271}};
        for (int i = 0; i < expected.length; i++) {
            assertThat(rates.rate(groups.get(i))).isCloseTo(expected[i][0], within(1e-6));
            assertThat(rates.bounds(groups.get(i), 0.95).low()).isCloseTo(expected[i][1], within(1e-5));
            assertThat(rates.bounds(groups.get(i), 0.95).high()).isCloseTo(expected[i][2], within(1e-5));
        }
    }

    /**
     * Ten groups, whose true rates are gamma distributed about 0.02 with a deviation of half of that, each seen for 300 in the mean; 400 draws. R's {@code qbinom(1e-3, 4000, .95)} is
     * 3757. With the learned shape taken as known about 3,200 would be held.
     */
    @Test
    void intervalsHoldTheTruth() {
        Random random = new Random(5);
        int held = 0;
        for (int draw = 0; draw < 400; draw++) {
            double[] truth = new double[10];
            List<Exposure> groups = new ArrayList<>();
            for (int i = 0; i < 10; i++) {
                truth[i] = 0.02 / 4 * sumOfExponentials(random, 4);
                double time = 150 * sumOfExponentials(random, 2);
                groups.add(new Exposure(events(random, truth[i] * time), time));
            }
            EventRates rates = EventRates.of(groups);
            for (int i = 0; i < 10; i++) {
                Bounds bounds = rates.bounds(groups.get(i), 0.95);
                held += bounds.low() <= truth[i] && truth[i] <= bounds.high() ? 1 : 0;
            }
        }
        assertThat(held).isBetween(3757, 4000);
    }

    private static double sumOfExponentials(Random random, int terms) {
        return IntStream.range(0, terms).mapToDouble(i -> -Math.log(1 - random.nextDouble())).sum();
    }

    /** Poisson: as many exponential waits as fit. */
    private static int events(Random random, double mean) {
        int events = -1;
        for (double sum = 0; sum <= mean; events++) {
            sum += sumOfExponentials(random, 1);
        }
        return events;
    }

    @Test
    void withoutEventsEveryRateIsZero() {
        EventRates rates = EventRates.of(List.of(new Exposure(0, 12)));
        assertThat(rates.rate(new Exposure(0, 12))).isZero();
        assertThat(rates.bounds(new Exposure(0, 12), 0.95)).isEqualTo(new Bounds(0, 0));
    }
}
