package org.wearledger.stats;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.apache.commons.statistics.descriptive.Median;

/**
 * The slope of a straight line through points (t, y) that up to 29 % of wild points cannot carry away: the median of
 * (y[j] - y[i]) / (t[j] - t[i]) over the pairs with unlike t.
 *
 * <p>Theil, "A rank-invariant method of linear and polynomial regression analysis", Proc. Kon. Ned. Akad. v. Wetensch. A
 * 53 (1950) 386-392; Sen, "Estimates of the Regression Coefficient Based on Kendall's Tau", Journal of the American
 * Statistical Association 63 (1968) 1379-1389. Time and memory grow with n squared: 500 points make 124,750 slopes.
 */
public final class TheilSen {
    private static final Median MEDIAN = Median.withDefaults();

    private TheilSen() {
    }

    /**
     * In units of y for one unit of t, of points in any order; empty when no two t differ.
     *
     * @throws IllegalArgumentException for arrays of unlike length, and for a value that is NaN or infinite
     */
    public static OptionalDouble slope(double[] t, double[] y) {
        if (t.length != y.length) {
            throw new IllegalArgumentException("t and y must be of one length, not " + t.length + " and " + y.length);
        }
        Checked.finite("t", t);
        Checked.finite("y", y);
        double[] slopes = new double[Math.multiplyExact(t.length, Math.max(0, t.length - 1)) / 2];
        int count = 0;
        for (int i = 0; i < t.length; i++) {
            for (int j = i + 1; j < t.length; j++) {
                if (t[i] != t[j]) {
                    slopes[count++] = (y[j] - y[i]) / (t[j] - t[i]);
                }
            }
        }
        return count == 0 ? OptionalDouble.empty() : OptionalDouble.of(MEDIAN.evaluate(Arrays.copyOf(slopes, count)));
    }
}
