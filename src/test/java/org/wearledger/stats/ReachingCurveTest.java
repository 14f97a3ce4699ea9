package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReachingCurveTest {
    /** The outside figures are those of the regularised incomplete beta function in Commons Numbers, which RateBelief asks at every point. */
    @Test
    void theCurveAgreesWithTheFunctionAtRandomPlaces() {
        SplittableRandom random = new SplittableRandom(20250106);
        for (int i = 0; i < 5_000; i++) {
            double shape = 0.5 * Math.pow(2_000, random.nextDouble());
            double etaTau = 0.3 * Math.pow(3_000, random.nextDouble());
            double rate = Math.exp(random.nextDouble(-3, 3));
            double remaining = rate * etaTau / shape * Math.exp(random.nextDouble(-4, 4));
            assertThat(new ReachingCurve(shape, etaTau).at(Math.log(rate / remaining))).as("shape %s, eta tau %s, rate %s, remaining %s", shape, etaTau, rate, remaining)
                .isEqualTo(new RateBelief(shape, rate).probabilityOfReaching(etaTau, 1, remaining), within(1e-5));
        }
    }

    /** I(x; 1, 1) = x and I(x; 2, 1) = x^2 (NIST Digital Library of Mathematical Functions, 8.17), at x = 1 / (1 + e^-z). */
    @ParameterizedTest
    @CsvSource({"1, 1, 0, 0.5", "1, 1, 1.0986122886681098, 0.75", "2, 1, 0, 0.25", "2, 1, -1.0986122886681098, 0.0625"})
    void closedForms(double shape, double etaTau, double z, double probability) {
        assertThat(new ReachingCurve(shape, etaTau).at(z)).isEqualTo(probability, within(1e-5));
    }

    @Test
    void nothingRemainsOrNothingIsKnownToCome() {
        ReachingCurve curve = new ReachingCurve(3, 2);
        assertThat(curve.at(Double.POSITIVE_INFINITY)).isOne();
        assertThat(curve.at(Double.NEGATIVE_INFINITY)).isZero();
        assertThat(curve.at(60)).isEqualTo(1, within(1e-12));
        assertThat(curve.at(-60)).isBetween(0.0, 1e-12);
    }
}
