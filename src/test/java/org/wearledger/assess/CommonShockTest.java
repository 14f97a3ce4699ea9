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

    private static final long MILLIS_PER_QUARTER = 7_889_400_000L;

    /** One drive read three times from a day on: a step of one mean quarter, then one of the given length at the given change of the log rate. */
    private static WearPast threeReadings(LocalDate from, int serial, double quarters, double change) {
        long start = from.atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
        long second = start + MILLIS_PER_QUARTER;
        return new WearPast(new DriveId("KESTREL", "S" + serial), null, new long[] {start, second, second + Math.round(quarters * MILLIS_PER_QUARTER)},
            new double[] {0.1, 0.11, 0.11 + 0.01 * quarters * Math.exp(change)}, 1e-9, 0);
    }

    /**
     * Ten changes of 0, 0.1 .. 0.9: median 0.45, quartiles 0.225 and 0.675, standard error 1.2533 x 0.45 / 1.349 / sqrt(10) = 0.13221.
     * (4 x 0.04 + 0.45^2 - 0.13221^2) / 5 = 0.069004, and its root 0.26269. Ten equal changes of ln 2: (0.16 + 0.480453) / 5, root 0.35790.
     */
    @Test
    void onePairByHand() {
        LocalDate from = LocalDate.of(2024, 1, 5);
        assertThat(CommonShock.of(range(10, i -> threeReadings(from, i, 1, i / 10.0))).sigma()).isCloseTo(0.26269, within(1e-5));
        assertThat(CommonShock.of(range(10, i -> threeReadings(from, i, 1, Math.log(2)))).sigma()).isCloseTo(0.35790, within(1e-5));
    }

    private static List<WearPast> range(int drives, java.util.function.IntFunction<WearPast> drive) {
        return java.util.stream.IntStream.range(0, drives).mapToObj(drive).toList();
    }

    /** One reading a calendar quarter counts; a step may be one or two of them, give or take half a quarter. */
    @ParameterizedTest(name = "{0} quarters: {1} pairs")
    @CsvSource({"0.49, 0", "0.5, 1", "1, 1", "1.5, 1", "2, 1", "2.4, 1", "2.6, 0"})
    void stepsThatAreAboutOneOrTwoQuartersLong(double quarters, int pairs) {
        assertThat(CommonShock.of(range(10, i -> threeReadings(LocalDate.of(2024, 2, 20), i, quarters, 0.3))).pairs()).isEqualTo(pairs);
    }

    /**
     * Steps by the month are thinned to quarters, eight of them; by the half-year there are four, each of variance 1.25 + 0.25 for a walk of 1 a quarter. All
     * drives double from each step to the next: (0.16 + pairs x 0.480453 / variance) / (4 + pairs).
     */
    @ParameterizedTest(name = "every {0} months: {1} pairs")
    @CsvSource({"1, 7, 1", "3, 7, 1", "6, 3, 1.5"})
    void monthlyAndHalfYearlySweepsTellAsWell(int months, int pairs, double variance) {
        CommonShock shock = CommonShock.of(range(10, i -> doubling(i, months, Math.max(1, months / 3))));
        assertThat(shock.pairs()).isEqualTo(pairs);
        assertThat(shock.sigma()).isCloseTo(Math.sqrt((0.16 + pairs * 0.480453 / variance) / (4 + pairs)), within(1e-4));
    }

    /** Read in the middle of each month for two years from the end of 2021; what a mean quarter's writes are doubles after every so many quarters. */
    private static WearPast doubling(int serial, int months, int quarters) {
        long start = LocalDate.of(2021, 12, 15).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
        int readings = 24 / months + 1;
        long[] at = new long[readings];
        double[] wear = new double[readings];
        for (int i = 0; i < readings; i++) {
            at[i] = start + i * months * MILLIS_PER_QUARTER / 3;
            wear[i] = i == 0 ? 0.001 : wear[i - 1] + 1e-4 * months * Math.pow(2, (i - 1) * months / 3 / quarters);
        }
        return new WearPast(new DriveId("KESTREL", "S" + serial), null, at, wear, 1e-9, 0);
    }

    @Test
    void drivesReadEarlyAndLateInAQuarterMakeOnePair() {
        assertThat(CommonShock.of(range(10, i -> threeReadings(LocalDate.of(2024, i % 2 == 0 ? 1 : 3, 5), i, 1, 0.3))).pairs()).isEqualTo(1);
        assertThat(CommonShock.of(range(10, i -> threeReadings(LocalDate.of(2024, i % 2 == 0 ? 3 : 4, 5), i, 1, 0.3))).pairs()).as("five and five").isZero();
    }
}
