package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveId;

/** What a point of the controller's percentage takes, where it is known how that wanders. */
class AmplificationTest {
    private static final int QUARTERS = 12;

    private static List<WearPast> fleet(int drives, double sigma, double trend) {
        var normal = NormalDistribution.of(0, 1).createSampler(new SplittableRandom(5)::nextLong);
        return IntStream.range(0, drives).mapToObj(i -> {
            long[] at = new long[QUARTERS];
            double[] wear = new double[QUARTERS];
            int[] used = new int[QUARTERS];
            double log = Math.log(100) + 0.5 * normal.sample();
            double percent = 0;
            for (int q = 0; q < QUARTERS; q++) {
                for (int part = 0; part < 20; part++) {
                    log += sigma * Math.sqrt(0.05) * normal.sample() + trend / 20;
                    percent += 0.03 / 20 * Math.exp(log);
                }
                at[q] = Math.round((q + 1) * WearPast.MILLIS_PER_QUARTER);
                wear[q] = 0.03 * (q + 1);
                used[q] = (int) percent;
            }
            return new WearPast(new DriveId("KESTREL", "S" + i), 0L, at, wear, 1e-9, used, false, new WearPast.PowerOn(0, 0, null));
        }).toList();
    }

    /** Found again within a fifth; a rise common to all, which is no wander, counts as one, so that ranges make room for it. */
    @ParameterizedTest(name = "wanders {0}, rises {1} a quarter: from {2} to {3}")
    @CsvSource({"0, 0, 0, 0.03", "0.1, 0, 0.08, 0.12", "0.2, 0, 0.16, 0.24", "0, 0.05, 0.09, 0.2"})
    void theWanderOfAFleetIsFoundAgain(double sigma, double trend, double least, double most) {
        assertThat(Amplification.of(fleet(400, sigma, trend)).sigma()).isBetween(least, most);
    }

    @Test
    void noDriveGivesWhatIsAssumedAndNoPercentageGivesNothing() {
        assertThat(Amplification.of(List.of()).sigma()).isCloseTo(0.1, within(1e-12));
        WearPast silent = new WearPast(new DriveId("KESTREL", "S"), null, new long[] {0}, new double[] {0.5}, 1e-9, 0);
        assertThat(Amplification.ASSUMED.now(silent)).isNull();
    }
}
