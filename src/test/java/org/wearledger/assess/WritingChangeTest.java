package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveId;
import org.wearledger.stats.Drift;
import org.wearledger.stats.RandomRateGamma;

class WritingChangeTest {
    private static final int DRIVES = 500;
    private static final int SEEDS = 2;

    /** How a simulated fleet is written: rates lognormal between drives (log sd 0.8), 2 % of the quarters idle. */
    private record Fleet(int quarters, double variation, double drift, double season, double shock, double factor, int changedAt) {
        List<WearPast> drawn(long seed) {
            UniformRandomProvider random = new SplittableRandom(seed)::nextLong;
            var normal = NormalDistribution.of(0, 1).createSampler(random);
            double[] common = IntStream.range(0, quarters).mapToDouble(q -> shock * normal.sample() + season * Math.cos(Math.PI * q / 2)).toArray();
            double shape = 1 / (variation * variation);
            List<WearPast> pasts = new ArrayList<>();
            for (int i = 0; i < DRIVES; i++) {
                double log = Math.log(0.01) + 0.8 * normal.sample();
                long[] at = new long[quarters + 1];
                double[] wear = new double[quarters + 1];
                wear[0] = 0.1;
                for (int q = 0; q <= quarters; q++) {
                    at[q] = LocalDate.of(2020, 1, 5).plusMonths(3L * q).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
                    if (q < quarters) {
                        // One drive in ten changes, if any does.
                        double mean = Math.exp(log + common[q]) * (i % 10 == 0 && q >= changedAt ? factor : 1);
                        wear[q + 1] = wear[q] + (random.nextDouble() < 0.02 ? 0 : GammaDistribution.of(shape, mean / shape).createSampler(random).sample());
                        log += drift * normal.sample();
                    }
                }
                pasts.add(new WearPast(new DriveId("KESTREL", String.format(Locale.ROOT, "%05d", i)), null, at, wear, 1e-9, 0));
            }
            return pasts;
        }
    }

    /**
     * Share of drives marked, in 1,000: of those whose rate did not change by itself, and of those whose rate did, once and for good. The
     * truth differs from the model in all of them; a rate that drifts by 0.2 a quarter does change, only slowly.
     */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        steady, 8 quarters                    |  8 | 0.6 | 0   | 0   | 0    | 1   | 0 | 15 | 0
        steady, 16 quarters                   | 16 | 0.6 | 0   | 0   | 0    | 1   | 0 | 15 | 0
        bursty, 16 quarters                   | 16 | 1.0 | 0   | 0   | 0    | 1   | 0 | 15 | 0
        rates drift by 0.2 a quarter          | 16 | 0.6 | 0.2 | 0   | 0    | 1   | 0 | 15 | 0
        season of 40 %                        | 12 | 0.6 | 0   | 0.4 | 0    | 1   | 0 | 15 | 0
        shared shocks of 0.15                 | 12 | 0.6 | 0   | 0   | 0.15 | 1   | 0 | 15 | 0
        one in ten to a quarter, 12 quarters  | 12 | 0.6 | 0   | 0   | 0    | .25 | 6 | 8  | 100
        one in ten fivefold, 12 quarters      | 12 | 0.6 | 0   | 0   | 0    | 5   | 6 | 8  | 300
        one in ten fivefold, 8 quarters       |  8 | 0.6 | 0   | 0   | 0    | 5   | 4 | 8  | 200
        """)
    void fewAreMarkedThatDidNotChange(String what, int quarters, double variation, double drift, double season, double shock, double factor, int changedAt,
                                      double mostFalse, double leastTrue) {
        Fleet fleet = new Fleet(quarters, variation, drift, season, shock, factor, changedAt);
        long falsely = 0;
        long rightly = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            List<WearPast> pasts = fleet.drawn(3_000 + seed);
            WearModel model = WearModel.fit(pasts.stream().map(WearPast::asOfNow).toList());
            boolean[] marked = new boolean[DRIVES];
            IntStream.range(0, DRIVES).parallel().forEach(i -> marked[i] = WritingChange.of(model, pasts.get(i)) != null);
            falsely += IntStream.range(0, DRIVES).filter(i -> marked[i] && (factor == 1 || i % 10 != 0)).count();
            rightly += IntStream.range(0, DRIVES).filter(i -> marked[i] && factor != 1 && i % 10 == 0).count();
        }
        double none = SEEDS * DRIVES * (factor == 1 ? 1 : 0.9);
        double falseAlarms = 1_000 * falsely / none;
        double found = 1_000 * rightly / (SEEDS * DRIVES * 0.1);
        System.getLogger("calibration").log(System.Logger.Level.INFO, String.format(Locale.ROOT, "%s: %.1f of 1,000 marked falsely, %.0f rightly", what, falseAlarms, found));
        assertThat(falseAlarms).isLessThanOrEqualTo(mostFalse);
        assertThat(found).isGreaterThanOrEqualTo(leastTrue);
    }

    private static final WearModel MODEL = new WearModel(new RandomRateGamma(2.5, 3, 0.03), new Drift(0.1), Map.of(), false, 100);

    private static WearPast past(double[] increments, long... userChanges) {
        long[] at = new long[increments.length + 1];
        double[] wear = new double[at.length];
        for (int q = 0; q < at.length; q++) {
            at[q] = millis(LocalDate.of(2022, 1, 5).plusMonths(3L * q));
            wear[q] = q == 0 ? 0.1 : wear[q - 1] + increments[q - 1];
        }
        return new WearPast(new DriveId("KESTREL", "S1"), null, at, wear, 1e-9, 0, userChanges);
    }

    private static long millis(LocalDate day) {
        return day.atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
    }

    @Test
    void itIsSaidWhenAndByHowMuch() {
        double[] tenfold = {.01, .012, .011, .01, .1, .12, .11, .1};
        assertThat(WritingChange.of(MODEL, past(tenfold)).inWords())
            .isEqualTo("this machine's writing changed about 2023-01-05, to 10.0 times as much; if it has a new user, give the day as userSince");
        assertThat(WritingChange.of(MODEL, past(new double[] {.1, .12, .11, .1, .01, .012, .011, .01})).inWords()).contains("to 10 % of what it was;");
        assertThat(WritingChange.of(MODEL, past(tenfold, millis(LocalDate.of(2023, 2, 1))))).as("it is known already").isNull();
        assertThat(WritingChange.of(MODEL, past(tenfold, millis(LocalDate.of(2022, 2, 1))))).as("another change is").isNotNull();
    }

    @Test
    void oneBusyQuarterAndAShortPastShowNothing() {
        assertThat(WritingChange.of(MODEL, past(new double[] {.01, .012, .011, .01, .9, .012, .011, .01}))).isNull();
        assertThat(WritingChange.of(MODEL, past(new double[] {.01, .012, .3}))).isNull();
    }
}
