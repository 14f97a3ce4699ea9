package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveId;

class CommonShockTest {
    /** Drives whose quarterly increments scatter by themselves and share a random walk of the log rate. */
    private static List<WearPast> fleet(long seed, int drives, int quarters, double sigma) {
        SplittableRandom random = new SplittableRandom(seed);
        var normal = NormalDistribution.of(0, 1).createSampler(random::nextLong);
        var own = GammaDistribution.of(2.5, 0.02).createSampler(random::nextLong);
        double[] shared = new double[quarters];
        for (int q = 1; q < quarters; q++) {
            shared[q] = shared[q - 1] + sigma * normal.sample();
        }
        List<WearPast> fleet = new ArrayList<>();
        for (int i = 0; i < drives; i++) {
            long[] at = new long[quarters];
            double[] wear = new double[quarters];
            for (int q = 0; q < quarters; q++) {
                at[q] = LocalDate.of(2010, 1, 5).plusMonths(3L * q).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
                wear[q] = (q == 0 ? 0.1 : wear[q - 1]) + own.sample() * Math.exp(shared[q]);
            }
            fleet.add(new WearPast(new DriveId("KESTREL", "S" + i), null, at, wear, 1e-9, 0));
        }
        return fleet;
    }

    @ParameterizedTest(name = "sigma {0}")
    @CsvSource({"0.05, 0.03", "0.2, 0.04", "0.4, 0.08"})
    void alongPastTellsTheShock(double sigma, double tolerance) {
        CommonShock shock = CommonShock.of(fleet(3, 400, 60, sigma));
        assertThat(shock.pairs()).isEqualTo(58);
        assertThat(shock.sigma()).isCloseTo(sigma, within(tolerance));
    }

    @Test
    void withoutAPastItIsTheStatedDefault() {
        assertThat(CommonShock.of(List.of())).isEqualTo(new CommonShock(0.2, 0));
        assertThat(CommonShock.of(fleet(3, 9, 12, 0.5))).as("nine drives say nothing").isEqualTo(new CommonShock(0.2, 0));
        assertThat(CommonShock.of(fleet(3, 400, 4, 0)).sigma()).as("two pairs beside a default that counts as four").isBetween(0.12, 0.18);
    }

    @Test
    void theOrderOfTheDrivesChangesNoDigit() {
        List<WearPast> fleet = fleet(5, 40, 8, 0.2);
        CommonShock expected = CommonShock.of(fleet);
        Collections.shuffle(fleet, new Random(1));
        assertThat(CommonShock.of(fleet)).isEqualTo(expected);
    }
}
