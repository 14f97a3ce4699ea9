package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveId;
import org.wearledger.stats.GammaProcess;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Scores;
import org.wearledger.stats.Steps;

/**
 * Do the stated intervals hold where the truth is known, and known to differ from the model? Between drives the rate is
 * lognormal (log sd 0.8), the model says inverse gamma; 2 % of the quarters are idle, the model knows no idleness.
 * {@code -Dcalibration.fleets=N} draws another number of fleets.
 */
class ForecastCalibrationTest {
    private static final int DRIVES = 400;
    private static final int SEEDS = Integer.getInteger("calibration.fleets", 2);
    private static final double WITHIN_QUARTER_SHAPE = 1 / 0.36; // CV 0.6
    private static final double FLOOR = 1e-9;

    private record Tally(int n, int below, int above, double crps, double crpsAlone) {
        double coverage() {
            return 1 - (below + above) / (double) n;
        }
    }

    @ParameterizedTest(name = "drift {0}, {1} readings, horizon {2}")
    @CsvSource({
        "0, 2, 1, .88, .98", "0, 2, 4, .88, .98", "0, 4, 1, .88, .98", "0, 4, 4, .88, .98",
        "0, 8, 1, .88, .98", "0, 8, 4, .88, .98", "0, 16, 1, .88, .98", "0, 16, 4, .88, .98",
        "0.2, 16, 1, .87, 1", "0.2, 16, 4, .87, 1", "0.2, 16, 8, .87, 1"})
    void ninetyPercentIntervalsHold(double drift, int readings, int horizon, double least, double most) {
        Tally tally = IntStream.range(0, SEEDS).mapToObj(seed -> fleet(1_000 + seed, drift, readings, horizon))
            .reduce((a, b) -> new Tally(a.n + b.n, a.below + b.below, a.above + b.above, a.crps + b.crps, a.crpsAlone + b.crpsAlone))
            .orElseThrow();
        System.getLogger("calibration").log(System.Logger.Level.INFO, String.format(Locale.ROOT,
            "drift %.1f readings %2d horizon %d: coverage %.3f (slower %.3f, faster %.3f) CRPS / per-drive gamma %.3f", drift,
            readings, horizon, tally.coverage(), tally.below / (double) tally.n, tally.above / (double) tally.n,
            tally.crps / tally.crpsAlone));
        assertThat(tally.coverage()).isBetween(least, most);
        assertThat(tally.above / (double) tally.n).as("wore faster than the upper bound").isLessThanOrEqualTo(0.08);
        if (drift > 0 && horizon == 8) {
            assertThat(tally.crps / tally.crpsAlone).isLessThanOrEqualTo(0.95);
        }
    }

    private static Tally fleet(long seed, double drift, int readings, int horizon) {
        UniformRandomProvider random = new SplittableRandom(seed)::nextLong;
        var normal = NormalDistribution.of(0, 1).createSampler(random);
        List<DriveSteps> pasts = new ArrayList<>();
        double[] futures = new double[DRIVES];
        for (int i = 0; i < DRIVES; i++) {
            double logRate = Math.log(0.01) + 0.8 * normal.sample();
            double[] past = new double[readings];
            for (int q = 0; q < readings + horizon; q++) {
                double mean = Math.exp(logRate);
                double d = random.nextDouble() < 0.02 ? 0
                    : GammaDistribution.of(WITHIN_QUARTER_SHAPE, mean / WITHIN_QUARTER_SHAPE).createSampler(random).sample();
                if (q < readings) {
                    past[q] = Math.max(d, FLOOR);
                } else {
                    futures[i] += d;
                }
                logRate += drift * normal.sample();
            }
            double[] quarters = new double[readings];
            Arrays.fill(quarters, 1);
            pasts.add(new DriveSteps(new DriveId("KESTREL", String.format(Locale.ROOT, "%05d", i)), new Steps(quarters, past)));
        }
        WearModel model = WearModel.fit(pasts);
        int below = 0;
        int above = 0;
        double crps = 0;
        double crpsAlone = 0;
        for (int i = 0; i < DRIVES; i++) {
            RateBelief now = model.drift().after(model.familyPrior("KESTREL"), model.population().eta(), pasts.get(i).steps());
            RateBelief ahead = model.drift().ahead(now, horizon);
            double eta = model.population().eta();
            below += futures[i] < ahead.quantile(eta, horizon, 0.05) ? 1 : 0;
            above += futures[i] > ahead.quantile(eta, horizon, 0.95) ? 1 : 0;
            crps += ahead.crps(eta, horizon, futures[i]);
            GammaProcess alone = GammaProcess.byMoments(pasts.get(i).steps());
            crpsAlone += Scores.crpsOfGamma(alone.shapePerTime() * horizon, alone.rate(), futures[i]);
        }
        return new Tally(DRIVES, below, above, crps, crpsAlone);
    }
}
