package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TheilSenTest {
    @Test
    void slopesByHandAndOfTheWorkedExample() {
        assertThat(TheilSen.slope(new double[] {1, 2, 3, 4, 10, 12, 18}, new double[] {9, 15, 19, 20, 45, 55, 78}))
            .as("Sen, Journal of the American Statistical Association 63 (1968) 1379-1389").hasValue(4);
        assertThat(TheilSen.slope(new double[] {1, 2, 3, 4, 5, 6, 7}, new double[] {1, 2, 3, 4, 5, 16, 7})).as("one wild point").hasValue(1);
        assertThat(TheilSen.slope(new double[] {1, 3}, new double[] {5, 9})).as("two points").hasValue(2);
        assertThat(TheilSen.slope(new double[] {1, 1, 2}, new double[] {0, 2, 4})).as("equal times: slopes 4 and 2 alone").hasValue(3);
        assertThat(TheilSen.slope(new double[] {1, 2, 3}, new double[] {5, 5, 5})).as("constant").hasValue(0);
    }

    @Test
    void hasNoSlopeWithoutTwoTimes() {
        assertThat(TheilSen.slope(new double[0], new double[0])).isEmpty();
        assertThat(TheilSen.slope(new double[] {1}, new double[] {2})).isEmpty();
        assertThat(TheilSen.slope(new double[] {3, 3, 3}, new double[] {1, 2, 3})).isEmpty();
    }

    @Test
    void followsShiftScaleAndOrder() {
        Random random = new Random(1968);
        double[] t = random.doubles(301, 0, 900).toArray();
        double[] y = Arrays.stream(t).map(each -> 0.02 * each + random.nextGaussian()).toArray();
        double slope = TheilSen.slope(t, y).orElseThrow();
        assertThat(TheilSen.slope(Arrays.stream(t).map(each -> each + 100).toArray(), Arrays.stream(y).map(each -> -3 * each + 7).toArray()).orElseThrow())
            .isEqualTo(-3 * slope, within(1e-9));
        assertThat(TheilSen.slope(reversed(t), reversed(y))).hasValue(slope);
    }

    @Test
    void refusesWhatIsNoNumberAndSaysWhere() {
        assertThatThrownBy(() -> TheilSen.slope(new double[] {1, Double.NaN}, new double[] {1, 2}))
            .isInstanceOf(IllegalArgumentException.class).hasMessage("t[1] must be finite, not NaN");
        assertThatThrownBy(() -> TheilSen.slope(new double[] {1, 2}, new double[] {Double.POSITIVE_INFINITY, 2}))
            .isInstanceOf(IllegalArgumentException.class).hasMessage("y[0] must be finite, not Infinity");
        assertThatThrownBy(() -> TheilSen.slope(new double[2], new double[3]))
            .isInstanceOf(IllegalArgumentException.class).hasMessageContaining("2 and 3");
    }

    private static double[] reversed(double[] values) {
        return IntStream.range(0, values.length).mapToDouble(i -> values[values.length - 1 - i]).toArray();
    }
}
