package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.model.Crossing;
import org.wearledger.model.FleetModel;
import org.wearledger.stats.SharedShock;

/** A drive known well (0.1 of its rating a quarter) in a fleet whose rates wander, most of it together. */
class CrossingCurveTest {
    private static final double[] SHOCKS = IntStream.range(0, SharedShock.nodes()).mapToDouble(SharedShock::node).toArray();

    private static CrossingCurve curve(double sigma, double sigmaShared, Double... remaining) {
        return new CrossingCurve(new FleetModel(2.5, 3, 0.03, sigma, false, 100, sigmaShared, 4),
            new Crossing(3 + 2.5 * 20, 0.03 + 2.0, List.of(remaining), Fleets.READ));
    }

    /**
     * Law of total probability: the mean over the shock is the chance that knows nothing of it, whatever part is
     * shared; nearly so, since the belief about a rate is a gamma distribution and the shock is a normal one of its logarithm.
     */
    @ParameterizedTest(name = "a shared part of {0} in 0.2")
    @ValueSource(doubles = {0.05, 0.1, 0.19})
    void theMeanOverTheShockIsTheChanceWithoutIt(double sigmaShared) {
        CrossingCurve curve = curve(0.2, sigmaShared, 0.4);
        for (int quarters = 1; quarters <= 8; quarters++) {
            LocalDate day = Fleets.AS_OF.plusMonths(3L * quarters);
            assertThat(SharedShock.mean(curve.by(day, SHOCKS))).as("after %d quarters", quarters).isCloseTo(curve.by(day), within(0.01));
        }
    }

    /** When all wear faster, each is likelier to cross; a shock that is all there is to the drift leaves the drive none of its own. */
    @Test
    void aLargerShockMakesCrossingLikelier() {
        double[] chances = curve(0.2, 0.3, 0.4).by(Fleets.AS_OF.plusMonths(9), SHOCKS);
        assertThat(chances).isSorted();
        assertThat(chances[0]).isLessThan(0.01);
        assertThat(chances[SHOCKS.length - 1]).isGreaterThan(0.99);
    }

    @Test
    void nothingIsCrossedByTheDayBeforeTheReading() {
        CrossingCurve curve = curve(0.2, 0.1, 0.001);
        assertThat(curve.by(Fleets.AS_OF.minusDays(1))).isZero();
        assertThat(curve.by(Fleets.AS_OF.minusDays(1), SHOCKS)).containsOnly(0);
    }

    /** A rounded percentage stands for several amounts still to go, each as likely. */
    @Test
    void ofSeveralAmountsToGoEachIsAsLikely() {
        LocalDate day = Fleets.AS_OF.plusMonths(12);
        double mean = (curve(0.2, 0.1, 0.3).by(day) + curve(0.2, 0.1, 0.5).by(day)) / 2;
        assertThat(curve(0.2, 0.1, 0.3, 0.5).by(day)).isCloseTo(mean, within(1e-12));
    }

    @Test
    void aDayIsTheOneOfThatChanceAndNoneIsMoreThanTenYearsAhead() {
        CrossingCurve near = curve(0.2, 0.1, 0.4);
        assertThat(near.by(near.day(0.3))).isCloseTo(0.3, within(0.01));
        assertThat(curve(0.2, 0.1, 40.0).day(0.1)).isNull();
    }
}
