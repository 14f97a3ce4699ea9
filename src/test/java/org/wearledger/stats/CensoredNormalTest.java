package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class CensoredNormalTest {
    /** Ozone of May, June and July where reported: R's {@code airquality} (New York State Department of Conservation, 1973). */
    private static final int[][] OZONE = {{41, 36, 12, 18, 28, 23, 19, 8, 7, 16, 11, 14, 18, 14, 34, 6, 30, 11, 1, 11, 4, 32, 23, 45, 115, 37},
        {29, 71, 39, 23, 21, 37, 20, 12, 13},
        {135, 49, 32, 64, 40, 77, 97, 97, 85, 10, 27, 7, 48, 35, 61, 79, 63, 16, 80, 108, 20, 52, 82, 50, 64, 59}};

    /** As if read in steps of 20, and not above 100. */
    private static Bounds inSteps(int ozone) {
        int step = ozone / 20;
        return new Bounds(step == 0 ? Double.NEGATIVE_INFINITY : Math.log(20 * step), step >= 5 ? Double.POSITIVE_INFINITY : Math.log(20 * (step + 1)));
    }

    /**
     * R 4.2.2, survival 3.5-3: {@code a <- subset(airquality, !is.na(Ozone) & Month < 8); p <- floor(a$Ozone / 20);
     * l <- ifelse(p == 0, NA, log(20 * p)); h <- ifelse(p >= 5, NA, log(20 * (p + 1)));
     * m <- survreg(Surv(l, h, type = "interval2") ~ factor(Month) - 1, a, dist = "gaussian")}. Its standard errors hold sigma's uncertainty too.
     */
    @Test
    void valuesKnownByTheirBounds() {
        Map<String, List<Bounds>> months = new TreeMap<>();
        for (int month = 0; month < OZONE.length; month++) {
            for (int ozone : OZONE[month]) {
                months.computeIfAbsent("month " + (month + 5), name -> new ArrayList<>()).add(inSteps(ozone));
            }
        }
        CensoredNormal fit = CensoredNormal.of(months, 0);
        assertThat(fit.means().values()).extracting(RandomEffects.Estimate::mean).usingElementComparator((a, b) -> Math.abs(a - b) < 1e-5 ? 0 : 1)
            .containsExactly(2.906434603, 3.261410689, 3.960196413);
        assertThat(fit.deviation()).isCloseTo(0.6533485276, within(1e-5));
        assertThat(fit.means().values()).extracting(RandomEffects.Estimate::deviation).usingElementComparator((a, b) -> Math.abs(a - b) < 7e-3 ? 0 : 1)
            .containsExactly(0.1554852925, 0.2332868187, 0.1320620036);
    }

    @Test
    void aValueThatIsOnlyBoundedFarAwaySaysNothing() {
        List<Bounds> known = List.of(new Bounds(0.9, 1.1), new Bounds(1.9, 2.1), new Bounds(2.9, 3.1));
        List<Bounds> more = new ArrayList<>(known);
        for (int i = 0; i < 20; i++) {
            more.add(new Bounds(-10, Double.POSITIVE_INFINITY));
        }
        RandomEffects.Estimate alone = CensoredNormal.of(Map.of("a", known), 0).means().get("a");
        RandomEffects.Estimate with = CensoredNormal.of(Map.of("a", more), 0).means().get("a");
        assertThat(with.mean()).isCloseTo(alone.mean(), within(1e-6));
        assertThat(with.deviation()).isCloseTo(alone.deviation(), within(1e-6));
    }

    /** One value fits all three; by a deviation of 0 nothing could be said of how sure that is. */
    @Test
    void boundsThatLeaveRoomForOneValueStillHaveAnInterval() {
        RandomEffects.Estimate mean = CensoredNormal.of(Map.of("a", List.of(new Bounds(0.9, 1.1), new Bounds(0.8, 1.2), new Bounds(0.95, 1.3))), 0.1).means().get("a");
        assertThat(mean.mean()).isBetween(0.95, 1.1);
        assertThat(mean.deviation()).isBetween(0.05, 0.15);
    }

    @Test
    void aGroupThatNothingBoundsIsRefused() {
        assertThatThrownBy(() -> CensoredNormal.of(Map.of("a", List.of(new Bounds(1, Double.POSITIVE_INFINITY))), 0))
            .hasMessage("a group with no value that is bounded on both sides");
    }
}
