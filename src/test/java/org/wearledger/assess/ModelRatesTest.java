package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.LogNormalDistribution;
import org.junit.jupiter.api.Test;

class ModelRatesTest {
    /** Drives whose wear per year scatters by a factor of about two around a typical value. */
    private static double[] drives(long seed, int n, double typical) {
        var sampler = LogNormalDistribution.of(Math.log(typical), 0.7).createSampler(new SplittableRandom(seed)::nextLong);
        return java.util.stream.IntStream.range(0, n).mapToDouble(i -> sampler.sample()).toArray();
    }

    @Test
    void modelsFarApartFormGroupsAndTheirIntervalsHoldTheTruth() {
        Map<String, ModelRates.Rate> rates = ModelRates.of(Map.of("FAST", drives(1, 200, 12), "FAST TOO", drives(2, 200, 11),
            "SLOW", drives(3, 200, 3)));
        assertThat(rates.get("FAST").group()).isEqualTo(1);
        assertThat(rates.get("FAST TOO").group()).isEqualTo(1);
        assertThat(rates.get("SLOW").group()).isEqualTo(2);
        assertThat(rates.get("FAST").interval95().low()).isLessThan(12);
        assertThat(rates.get("FAST").interval95().high()).isGreaterThan(12);
        assertThat(rates.get("SLOW").percentPerYear()).isCloseTo(3, within(0.4));
    }

    @Test
    void threeDrivesDoNotMakeALeague() {
        Map<String, double[]> fleet = new TreeMap<>();
        for (int i = 0; i < 8; i++) {
            fleet.put("MODEL " + i, drives(10 + i, 30, 4));
        }
        fleet.put("RARE", new double[] {14, 15, 16});
        Map<String, ModelRates.Rate> rates = ModelRates.of(fleet);
        assertThat(rates.get("RARE").percentPerYear()).as("drawn towards the fleet's 4 %% a year").isLessThan(13);
        assertThat(rates.get("RARE").interval95().high() / rates.get("RARE").interval95().low()).isGreaterThan(1.5);
    }

    @Test
    void oneDriveOrNoneStillGivesAnAnswer() {
        assertThat(ModelRates.of(Map.of())).isEmpty();
        assertThat(ModelRates.of(Map.of("NONE", new double[0]))).isEmpty();
        ModelRates.Rate one = ModelRates.of(Map.of("ONE", new double[] {5})).get("ONE");
        assertThat(one.percentPerYear()).isCloseTo(5, within(1e-9));
        assertThat(one.interval95().high()).isGreaterThan(20);
        assertThat(ModelRates.of(Map.of("IDLE", new double[] {0, 0})).get("IDLE").percentPerYear()).isCloseTo(0.01, within(1e-9));
    }
}
