package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.stats.EventRates.Exposure;

class EventRatesTest {
    /**
     * R 4: with {@code k <- c(3, 18, 40, 0); t <- c(120, 900, 700, 15); m <- sum(k) / sum(t)} the shape is where
     * {@code sum(dnbinom(k, size = a, mu = m * t, log = TRUE))} is highest, {@code optimize(.., c(log(.5), log(1000)), tol = 1e-10)}: 5.108305. Rates are
     * {@code (a + k) / (a / m + t)}, intervals {@code qgamma(c(.025, .975), a + k, a / m + t)}.
     */
    @Test
    void eachGroupIsDrawnTowardsAll() {
        List<Exposure> groups = List.of(new Exposure(3, 120), new Exposure(18, 900), new Exposure(40, 700), new Exposure(0, 15));
        EventRates rates = EventRates.of(groups);
        double[][] expected = {{0.03056352, 0.01328524, 0.05491606}, {0.022107, 0.01403066, 0.03198984}, {0.05336407, 0.03894005, 0.07002549}, {0.03186843, 0.01050698, 0.06486937}};
        for (int i = 0; i < expected.length; i++) {
            assertThat(rates.rate(groups.get(i))).isCloseTo(expected[i][0], within(1e-6));
            assertThat(rates.bounds(groups.get(i), 0.95).low()).isCloseTo(expected[i][1], within(1e-5));
            assertThat(rates.bounds(groups.get(i), 0.95).high()).isCloseTo(expected[i][2], within(1e-5));
        }
    }

    @Test
    void withoutEventsEveryRateIsZero() {
        EventRates rates = EventRates.of(List.of(new Exposure(0, 12)));
        assertThat(rates.rate(new Exposure(0, 12))).isZero();
        assertThat(rates.bounds(new Exposure(0, 12), 0.95)).isEqualTo(new Bounds(0, 0));
    }
}
