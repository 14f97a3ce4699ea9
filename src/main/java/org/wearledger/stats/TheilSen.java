package org.wearledger.stats;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.statistics.descriptive.Median;

/**
 * A straight line through points (t, y) that up to 29 % of wild points cannot carry away.
 *
 * <p>slope b = median of (y[j] - y[i]) / (t[j] - t[i]) over the N pairs with unlike t.
 *
 * <ul>
 *   <li>no point, one point, or all t equal: {@link #fit} is empty, there is no slope
 *   <li>two points with unlike t: the line through them, without an interval
 *   <li>equal t: the pair is left out of the slopes and of Kendall's S
 *   <li>NaN or infinite value, or arrays of unlike length: {@link IllegalArgumentException}
 * </ul>
 *
 * <p>Theil, "A rank-invariant method of linear and polynomial regression analysis", Proc. Kon. Ned. Akad. v. Wetensch. A
 * 53 (1950) 386-392; Sen, "Estimates of the Regression Coefficient Based on Kendall's Tau", Journal of the American
 * Statistical Association 63 (1968) 1379-1389. Time and memory grow with n squared: 500 points make 124,750 slopes.
 */
public final class TheilSen {
    // With a copy: by default the library reorders the array in place.
    private static final Median MEDIAN = Median.withDefaults().withCopy(true);

    private final double[] risingSlopes;
    private final double slope;
    private final double interceptOfMedians;
    private final double medianOfIntercepts;
    private final long kendallS;
    private final double varianceOfS;

    private TheilSen(double[] t, double[] y, double[] risingSlopes) {
        this.risingSlopes = risingSlopes;
        slope = MEDIAN.evaluate(risingSlopes);
        interceptOfMedians = MEDIAN.evaluate(y) - slope * MEDIAN.evaluate(t);
        medianOfIntercepts = MEDIAN.evaluate(IntStream.range(0, t.length).mapToDouble(i -> y[i] - slope * t[i]).toArray());
        kendallS = Arrays.stream(risingSlopes).mapToLong(each -> (long) Math.signum(each)).sum();
        varianceOfS = varianceOfS(t);
    }

    /** The line through the points {@code (t[i], y[i])}, in any order; empty when no two t differ. */
    public static Optional<TheilSen> fit(double[] t, double[] y) {
        if (t.length != y.length) {
            throw new IllegalArgumentException("t and y must be of one length, not " + t.length + " and " + y.length);
        }
        double[] times = Checked.finite("t", t);
        double[] values = Checked.finite("y", y);
        double[] slopes = risingSlopes(times, values);
        return slopes.length == 0 ? Optional.empty() : Optional.of(new TheilSen(times, values, slopes));
    }

    /** The median slope b, in units of y for one unit of t. */
    public double slope() {
        return slope;
    }

    /** median(y) - b median(t): the line passes through the point of the medians (Conover's choice). */
    public double interceptOfMedians() {
        return interceptOfMedians;
    }

    /** median of (y[i] - b t[i]): half of the points lie above the line and half below. */
    public double medianOfIntercepts() {
        return medianOfIntercepts;
    }

    /** Kendall's S: pairs that rise less pairs that fall. */
    public long kendallS() {
        return kendallS;
    }

    /**
     * Variance of S when y does not depend on t: [n (n - 1) (2 n + 5) - sum of u (u - 1) (2 u + 5)] / 18 over the groups
     * of u equal t. Equal y are not corrected for, as in Sen (1968): the wider interval is the safe side.
     */
    public double varianceOfS() {
        return varianceOfS;
    }

    /**
     * Confidence interval of the slope.
     *
     * <p>With z the two-sided normal quantile and C = z sqrt(Var S), the M-th slope from below and from above, M =
     * floor((N - C) / 2): the slopes for which S of the residuals stays within C (Sen 1968, large samples),
     * rounded outwards. Empty when M is 0: at 95 % with fewer than six points.
     */
    public Optional<Bounds> slopeInterval(double confidence) {
        double c = Checked.twoSidedZ(confidence) * Math.sqrt(varianceOfS);
        int fromEachEnd = (int) Math.floor((risingSlopes.length - c) / 2);
        return fromEachEnd < 1 ? Optional.empty()
            : Optional.of(new Bounds(risingSlopes[fromEachEnd - 1], risingSlopes[risingSlopes.length - fromEachEnd]));
    }

    private static double[] risingSlopes(double[] t, double[] y) {
        double[] slopes = new double[Math.multiplyExact(t.length, Math.max(0, t.length - 1)) / 2];
        int count = 0;
        for (int i = 0; i < t.length; i++) {
            for (int j = i + 1; j < t.length; j++) {
                if (t[i] != t[j]) {
                    slopes[count++] = (y[j] - y[i]) / (t[j] - t[i]);
                }
            }
        }
        Arrays.sort(slopes, 0, count);
        return Arrays.copyOf(slopes, count);
    }

    private static double varianceOfS(double[] t) {
        double sum = kendallTerm(t.length);
        double[] rising = t.clone();
        Arrays.sort(rising);
        for (int from = 0, to; from < rising.length; from = to) {
            to = from + 1;
            while (to < rising.length && rising[to] == rising[from]) {
                to++;
            }
            sum -= kendallTerm(to - from);
        }
        return sum / 18;
    }

    private static double kendallTerm(double n) {
        return n * (n - 1) * (2 * n + 5);
    }
}
