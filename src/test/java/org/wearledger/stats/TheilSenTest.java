package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TheilSenTest {
    // Sen, Journal of the American Statistical Association 63 (1968) 1379-1389, worked example.
    private static final double[] SEN_T = {1, 2, 3, 4, 10, 12, 18};
    private static final double[] SEN_Y = {9, 15, 19, 20, 45, 55, 78};

    @Test
    void reproducesSensExample() {
        TheilSen line = TheilSen.fit(SEN_T, SEN_Y).orElseThrow();
        assertThat(line.slope()).isEqualTo(4);
        assertThat(line.interceptOfMedians()).isEqualTo(4);
        assertThat(line.medianOfIntercepts()).isEqualTo(6);
        assertThat(line.kendallS()).isEqualTo(21);
        assertThat(line.varianceOfS()).isEqualTo(133.0 / 3, within(1e-12));
    }

    @Test
    void reproducesSensIntervals() {
        TheilSen line = TheilSen.fit(SEN_T, SEN_Y).orElseThrow();
        assertThat(line.slopeInterval(0.93)).contains(new Bounds(26.0 / 7, 35.0 / 8));
        assertThat(line.slopeInterval(0.90)).contains(new Bounds(3.75, 46.0 / 11));
    }

    @Test
    void oneWildPointDoesNotMoveTheLine() {
        TheilSen line = TheilSen.fit(new double[] {1, 2, 3, 4, 5, 6, 7}, new double[] {1, 2, 3, 4, 5, 16, 7}).orElseThrow();
        assertThat(line.slope()).isEqualTo(1);
        assertThat(line.interceptOfMedians()).isZero();
        assertThat(line.medianOfIntercepts()).isZero();
    }

    @Test
    void hasNoSlopeWithoutTwoTimes() {
        assertThat(TheilSen.fit(new double[0], new double[0])).isEmpty();
        assertThat(TheilSen.fit(new double[] {1}, new double[] {2})).isEmpty();
        assertThat(TheilSen.fit(new double[] {3, 3, 3}, new double[] {1, 2, 3})).isEmpty();
    }

    @Test
    void twoPointsGiveTheirLineAndNoInterval() {
        TheilSen line = TheilSen.fit(new double[] {1, 3}, new double[] {5, 9}).orElseThrow();
        assertThat(line.slope()).isEqualTo(2);
        assertThat(line.interceptOfMedians()).isEqualTo(3);
        assertThat(line.slopeInterval(0.95)).isEmpty();
    }

    @Test
    void constantValuesGiveASlopeOfZeroWithAnIntervalOfZero() {
        TheilSen line = TheilSen.fit(SEN_T, new double[] {5, 5, 5, 5, 5, 5, 5}).orElseThrow();
        assertThat(line.slope()).isZero();
        assertThat(line.kendallS()).isZero();
        assertThat(line.slopeInterval(0.95)).contains(new Bounds(0, 0));
    }

    @Test
    void equalTimesAreLeftOutAndLessenTheVariance() {
        // By hand: t 1 1 2 leaves two slopes, 4 and 2; [3 x 2 x 11 - 2 x 1 x 9] / 18 = 48 / 18.
        TheilSen line = TheilSen.fit(new double[] {1, 1, 2}, new double[] {0, 2, 4}).orElseThrow();
        assertThat(line.slope()).isEqualTo(3);
        assertThat(line.kendallS()).isEqualTo(2);
        assertThat(line.varianceOfS()).isEqualTo(48.0 / 18, within(1e-12));
    }

    @Test
    void sixPointsAreTheFewestWithAnIntervalAt95Percent() {
        double[] t = {1, 2, 3, 4, 5, 6};
        double[] y = {1, 3, 4, 8, 9, 13};
        assertThat(TheilSen.fit(t, y).orElseThrow().slopeInterval(0.95)).isPresent();
        assertThat(TheilSen.fit(Arrays.copyOf(t, 5), Arrays.copyOf(y, 5)).orElseThrow().slopeInterval(0.95)).isEmpty();
    }

    @Test
    void followsShiftScaleAndOrder() {
        Random random = new Random(1968);
        double[] t = random.doubles(301, 0, 900).toArray();
        double[] y = Arrays.stream(t).map(each -> 0.02 * each + random.nextGaussian()).toArray();
        TheilSen line = TheilSen.fit(t, y).orElseThrow();
        TheilSen moved = TheilSen.fit(Arrays.stream(t).map(each -> each + 100).toArray(),
            Arrays.stream(y).map(each -> -3 * each + 7).toArray()).orElseThrow();
        assertThat(moved.slope()).isEqualTo(-3 * line.slope(), within(1e-9));
        assertThat(moved.kendallS()).isEqualTo(-line.kendallS());
        assertThat(moved.slopeInterval(0.95).orElseThrow().low())
            .isEqualTo(-3 * line.slopeInterval(0.95).orElseThrow().high(), within(1e-9));
        TheilSen reversed = TheilSen.fit(reversed(t), reversed(y)).orElseThrow();
        assertThat(reversed.slope()).isEqualTo(line.slope());
        assertThat(reversed.medianOfIntercepts()).isEqualTo(line.medianOfIntercepts());
    }

    @Test
    void refusesWhatIsNoNumberAndSaysWhere() {
        assertThatThrownBy(() -> TheilSen.fit(new double[] {1, Double.NaN}, new double[] {1, 2}))
            .isInstanceOf(IllegalArgumentException.class).hasMessage("t[1] must be finite, not NaN");
        assertThatThrownBy(() -> TheilSen.fit(new double[] {1, 2}, new double[] {Double.POSITIVE_INFINITY, 2}))
            .isInstanceOf(IllegalArgumentException.class).hasMessage("y[0] must be finite, not Infinity");
        assertThatThrownBy(() -> TheilSen.fit(new double[2], new double[3]))
            .isInstanceOf(IllegalArgumentException.class).hasMessageContaining("2 and 3");
        TheilSen line = TheilSen.fit(SEN_T, SEN_Y).orElseThrow();
        assertThatThrownBy(() -> line.slopeInterval(Double.NaN)).isInstanceOf(IllegalArgumentException.class)
            .hasMessageContaining("NaN");
        assertThatThrownBy(() -> line.slopeInterval(95)).isInstanceOf(IllegalArgumentException.class)
            .hasMessageContaining("95");
    }

    private static double[] reversed(double[] values) {
        return IntStream.range(0, values.length).mapToDouble(i -> values[values.length - 1 - i]).toArray();
    }
}
