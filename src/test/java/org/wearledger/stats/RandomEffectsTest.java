package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.stats.RandomEffects.Estimate;

class RandomEffectsTest {
    /**
     * Thirteen vaccine trials, cases and others in the vaccinated and the control group (Colditz et al., JAMA 271 (1994)
     * 698-702; {@code dat.bcg} of R's metadat), as log risk ratios.
     */
    private static final int[][] TRIALS = {{4, 119, 11, 128}, {6, 300, 29, 274}, {3, 228, 11, 209}, {62, 13536, 248, 12619},
        {33, 5036, 47, 5761}, {180, 1361, 372, 1079}, {8, 2537, 10, 619}, {505, 87886, 499, 87892}, {29, 7470, 45, 7232},
        {17, 1699, 65, 1600}, {186, 50448, 141, 27197}, {5, 2493, 3, 2338}, {27, 16886, 29, 17825}};

    private static Map<String, Estimate> trials() {
        Map<String, Estimate> trials = new TreeMap<>();
        for (int i = 0; i < TRIALS.length; i++) {
            double a = TRIALS[i][0];
            double n1 = a + TRIALS[i][1];
            double c = TRIALS[i][2];
            double n2 = c + TRIALS[i][3];
            trials.put("trial " + i, new Estimate(Math.log(a / n1 / (c / n2)), Math.sqrt(1 / a - 1 / n1 + 1 / c - 1 / n2)));
        }
        return trials;
    }

    /**
     * R 4.2.2, metafor 3.8-1: {@code d <- escalc("RR", ai=tpos, bi=tneg, ci=cpos, di=cneg, data=dat.bcg);
     * r <- rma(yi, vi, data=d, method="DL"); c(r$b, r$se, r$tau2)}.
     */
    @Test
    void thirteenVaccineTrials() {
        RandomEffects effects = RandomEffects.of(trials());
        assertThat(effects.mean()).isCloseTo(-0.714117222073, within(1e-11));
        assertThat(effects.meanDeviation()).isCloseTo(0.178742089535, within(1e-11));
        assertThat(effects.between()).isCloseTo(0.308760262862, within(1e-11));
    }

    /** The same, {@code blup(r)}: columns pred and se of the first, the fifth and the eighth trial. */
    @ParameterizedTest(name = "trial {0}")
    @CsvSource({"0, -0.79939097318587, 0.4085231743553", "4, -0.28819042950961, 0.2111196285801", "7, 0.00275444027673, 0.0625821132268"})
    void eachTrialIsDrawnTowardsTheMean(int trial, double mean, double deviation) {
        Estimate drawn = RandomEffects.of(trials()).shrunk(trials().get("trial " + trial));
        assertThat(drawn.mean()).isCloseTo(mean, within(1e-11));
        assertThat(drawn.deviation()).isCloseTo(deviation, within(1e-11));
    }

    @Test
    void aVagueGroupIsDrawnFurtherThanASharpOne() {
        RandomEffects effects = RandomEffects.of(trials());
        Estimate vague = effects.shrunk(new Estimate(0.5, 1.5));
        Estimate sharp = effects.shrunk(new Estimate(0.5, 0.1));
        assertThat(vague.mean()).isLessThan(-0.3);
        assertThat(sharp.mean()).isGreaterThan(0.45);
        assertThat(vague.deviation()).isLessThan(1.5);
    }

    @Test
    void groupsThatDoNotDifferAllGetTheCommonMean() {
        RandomEffects effects = RandomEffects.of(Map.of("a", new Estimate(1, 0.5), "b", new Estimate(1.1, 0.5)));
        assertThat(effects.between()).isZero();
        assertThat(effects.shrunk(new Estimate(1.1, 0.5)).mean()).isCloseTo(1.05, within(1e-12));
        assertThat(RandomEffects.of(Map.of("a", new Estimate(2, 0.5))).shrunk(new Estimate(2, 0.5))).isEqualTo(new Estimate(2, 0.5));
    }

    /** Five models of 12 drives: true means scatter by 0.2, a model's mean is known within 0.23. Nominal 95 %, over 4,000 fleets. */
    @Test
    void intervalsOfFewGroupsHoldWhatTheySay() {
        SplittableRandom random = new SplittableRandom(5);
        int drawn = 0;
        int cautious = 0;
        int all = 0;
        for (int fleet = 0; fleet < 4_000; fleet++) {
            Map<String, Estimate> groups = new TreeMap<>();
            Map<String, Double> truth = new TreeMap<>();
            for (int i = 0; i < 5; i++) {
                truth.put("model " + i, 0.2 * random.nextGaussian());
                groups.put("model " + i, new Estimate(truth.get("model " + i) + 0.23 * random.nextGaussian(), 0.23));
            }
            RandomEffects effects = RandomEffects.of(groups);
            for (Map.Entry<String, Estimate> group : groups.entrySet()) {
                all++;
                drawn += holds(effects.shrunk(group.getValue()).bounds95(), truth.get(group.getKey())) ? 1 : 0;
                cautious += holds(effects.cautious(group.getValue()).bounds95(), truth.get(group.getKey())) ? 1 : 0;
            }
        }
        System.out.printf("intervals of models, nominal 95 %%: drawn by the plain formula %.1f %%, with what is not known of tau^2 %.1f %%%n", 100.0 * drawn / all, 100.0 * cautious / all);
        assertThat(drawn / (double) all).isLessThan(0.90);
        assertThat(cautious / (double) all).isBetween(0.93, 0.98);
    }

    private static boolean holds(Bounds bounds, double truth) {
        return bounds.low() <= truth && truth <= bounds.high();
    }
}
