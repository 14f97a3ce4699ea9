package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** No fleet stops a sweep: fleets of 1 to 200 drives, of kinds that a likelihood finds hard. {@code -Dfits=N} draws another number of each kind. */
class RobustFitTest {
    private static final int FLEETS_OF_A_KIND = Integer.getInteger("fits", 60);
    private static final RandomRateGamma GUESS = new RandomRateGamma(2.5, 3, 0.012);
    private static final double HALF_A_DATA_UNIT = 256_000 / 300e12;

    /** How a drive's increments come about. */
    enum Kind {
        ORDINARY((random, drive, step) -> drive * -Math.log(random.nextDouble())),
        CONSTANT_RATES((random, drive, step) -> drive),
        PROPORTIONAL_TO_A_COMMON_PATH((random, drive, step) -> drive * (1 + step % 3)),
        ZERO_WRITERS((random, drive, step) -> drive < 0.01 ? HALF_A_DATA_UNIT : drive * random.nextDouble()),
        ONE_GIANT((random, drive, step) -> drive * random.nextDouble()),
        ALL_EQUAL((random, drive, step) -> 0.01),
        ROUNDED_TO_WHOLE_PERCENT((random, drive, step) -> Math.max(0.005, Math.rint(100 * drive * random.nextDouble()) / 100));

        private interface Increment {
            double of(SplittableRandom random, double drive, int step);
        }

        private final Increment increment;

        Kind(Increment increment) {
            this.increment = increment;
        }

        List<Steps> fleet(SplittableRandom random) {
            int drives = 1 + random.nextInt(random.nextInt(4) > 0 ? 10 : 200);
            int most = 1 + random.nextInt(12);
            boolean even = random.nextBoolean();
            return IntStream.range(0, drives).mapToObj(i -> {
                double drive = this == ONE_GIANT && i == 0 ? 1e6 : 0.01 * Math.exp(2 * random.nextDouble() - 1);
                int steps = even ? most : 1 + random.nextInt(most);
                double[] durations = IntStream.range(0, steps).mapToDouble(j -> even ? 1 : 0.02 + 3 * random.nextDouble()).toArray();
                return new Steps(durations, IntStream.range(0, steps).mapToDouble(j -> Math.max(HALF_A_DATA_UNIT, durations[j] * increment.of(random, drive, j))).toArray());
            }).toList();
        }
    }

    @ParameterizedTest
    @EnumSource
    void everyFleetIsFitted(Kind kind) {
        SoftAssertions softly = new SoftAssertions();
        SplittableRandom seeds = new SplittableRandom(kind.name().hashCode());
        for (int fleet = 0; fleet < FLEETS_OF_A_KIND; fleet++) {
            List<Steps> units = kind.fleet(seeds.split());
            RandomRateGamma fit = RandomRateGamma.fitNear(units, GUESS);
            softly.assertThat(fit.eta()).as("%s %d: shape", kind, fleet).isBetween(0.049, 1_001.0);
            softly.assertThat(fit.delta0()).as("%s %d: between drives", kind, fleet).isBetween(0.049, 1_001.0);
            softly.assertThat(fit.gamma0()).as("%s %d: rate", kind, fleet).isPositive().isFinite();
            List<Steps> shuffled = new ArrayList<>(units);
            Collections.shuffle(shuffled, new Random(fleet));
            softly.assertThat(RandomRateGamma.fitNear(shuffled, GUESS)).as("%s %d: in another order", kind, fleet).isEqualTo(fit);
        }
        softly.assertAll();
    }

    @Test
    void aFleetOfOneStepADriveKeepsTheShapeThatWasGuessed() {
        List<Steps> units = Kind.ORDINARY.fleet(new SplittableRandom(1)).stream().map(unit -> unit.first(1)).toList();
        assertThat(RandomRateGamma.fitNear(units, GUESS).eta()).isEqualTo(2.5);
    }

    /** At the limit, and without a change of sign, a search gives the best that it saw. */
    @Test
    void everySearchEnds() {
        DoubleUnaryOperator noise = x -> (x < 0.3 ? -1 : 1) * (1 + Math.abs(Math.sin(1e6 * x)));
        assertThat(Root.between(0, 1, 1e-300, 1e-300, noise)).isBetween(0.0, 1.0);
        assertThat(Root.between(0, 1, 1e-14, 1e-14, x -> x + 1)).as("no root: the end nearer to one").isZero();
        double[] low = {-1, -1};
        double[] high = {1, 1};
        assertThat(Maximum.near(new double[] {0, 0}, low, high, 1e-12, p -> p[0] + p[1])).as("the best lies at the bounds").satisfies(p ->
            assertThat(Arrays.stream(p).sum()).isGreaterThan(1.99));
        assertThat(Maximum.near(new double[] {0, 0}, low, high, 0, p -> Math.sin(1e9 * p[0]) + p[1])).hasSize(2);
        assertThat(Maximum.near(new double[] {0, 0}, low, high, 0, p -> Double.NaN)).containsExactly(0, 0);
    }
}
