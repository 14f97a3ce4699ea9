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

    /**
     * Two drives at 1 and e^2 % a year: the mean of their logarithms is 1, their deviation sqrt(2), the standard error 1, hence
     * e^(1 - 1.96) to e^(1 + 1.96). A second such model with a hundredfold wear shares the deviation and stands in a group of its own.
     */
    @Test
    void twoDrivesByHand() {
        double[] two = {1, Math.exp(2)};
        ModelRates.Rate alone = ModelRates.of(Map.of("ONE", two)).get("ONE");
        assertThat(alone.percentPerYear()).isCloseTo(Math.E, within(1e-9));
        assertThat(alone.interval95().low()).isCloseTo(0.38290, within(1e-4));
        assertThat(alone.interval95().high()).isCloseTo(19.2974, within(1e-2));
        Map<String, ModelRates.Rate> both = ModelRates.of(Map.of("A", two, "Z", new double[] {100, 100 * Math.exp(2)}));
        assertThat(both.get("Z").group()).as("from the highest down").isEqualTo(1);
        assertThat(both.get("A").group()).isEqualTo(2);
        assertThat(both.get("Z").percentPerYear()).as("drawn towards the fleet's").isBetween(100.0, 271.83);
    }

    /** With one drive a model there is no scatter to learn from: a factor of e^(1.96 x 0.8) either way stands in. */
    @Test
    void withoutScatterTheStatedDeviationStandsIn() {
        ModelRates.Rate one = ModelRates.of(Map.of("ONE", new double[] {5})).get("ONE");
        assertThat(one.interval95().high() / one.percentPerYear()).isCloseTo(Math.exp(1.96 * 0.8), within(0.01));
        ModelRates.Rate equal = ModelRates.of(Map.of("ONE", new double[] {5, 5, 5, 5})).get("ONE");
        assertThat(equal.interval95().high() / equal.percentPerYear()).isCloseTo(Math.exp(1.96 * 0.4), within(0.01));
    }
}
