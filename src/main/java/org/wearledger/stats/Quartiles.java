package org.wearledger.stats;

import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;
import org.apache.commons.statistics.descriptive.Quantile;

/**
 * The five-number summary of a sample.
 *
 * <p>Quantile p of the sorted x(1..n) lies at position h = (n - 1) p + 1 and is x(floor h) + (h - floor h)
 * (x(floor h + 1) - x(floor h)): definition 7 of Hyndman and Fan, "Sample Quantiles in Statistical Packages", The
 * American Statistician 50 (1996) 361-365. It is the one of spreadsheets' inclusive quartile, so that a reader can
 * check it there.
 *
 * <ul>
 *   <li>no value: size 0, all five NaN
 *   <li>one value: all five are that value
 *   <li>NaN or infinite value: {@link IllegalArgumentException}
 * </ul>
 */
public record Quartiles(int size, double least, double lower, double median, double upper, double most) {
    private static final Quantile INCLUSIVE = Quantile.withDefaults().with(EstimationMethod.HF7);

    /** The summary of values in any order, which are left as they are. */
    public static Quartiles of(double... values) {
        double[] checked = Checked.finite("values", values);
        if (checked.length == 0) {
            return new Quartiles(0, Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN);
        }
        double[] q = INCLUSIVE.evaluate(checked, 0, 0.25, 0.5, 0.75, 1);
        return new Quartiles(checked.length, q[0], q[1], q[2], q[3], q[4]);
    }

    /** Quantile p, 0 to 1, by the same definition; NaN for no value. */
    public static double quantile(double p, double... values) {
        double[] checked = Checked.finite("values", values);
        return checked.length == 0 ? Double.NaN : INCLUSIVE.evaluate(checked, p);
    }

    /** Quantile p of values that come more than once, each with how often; the same as of them all in a row. NaN for no value. */
    public static double quantile(double p, SortedMap<? extends Number, Integer> timesByValue) {
        TreeMap<Integer, Number> valueByRank = new TreeMap<>();
        int size = 0;
        for (Map.Entry<? extends Number, Integer> entry : timesByValue.entrySet()) {
            valueByRank.put(size, entry.getKey());
            size += entry.getValue();
        }
        return size == 0 ? Double.NaN : INCLUSIVE.evaluate(size, rank -> valueByRank.floorEntry(rank).getValue().doubleValue(), p);
    }
}
