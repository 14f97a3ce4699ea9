package org.wearledger.stats;

import java.util.Comparator;
import java.util.stream.IntStream;

/** Holm's correction for asking several questions of the same data. */
public final class Holm {
    private Holm() {
    }

    /**
     * The adjusted p values, in the order given.
     *
     * <p>With p(1) to p(m) in rising order, adjusted p(i) = min(1, max over j up to i of (m - j + 1) p(j)). Holm, "A
     * Simple Sequentially Rejective Multiple Test Procedure", Scandinavian Journal of Statistics 6 (1979) 65-70.
     *
     * <ul>
     *   <li>no value: an empty array
     *   <li>one value: unchanged
     *   <li>a value that is NaN or outside 0 to 1: {@link IllegalArgumentException}
     * </ul>
     */
    public static double[] adjust(double... pValues) {
        for (double p : pValues) {
            if (!(p >= 0 && p <= 1)) {
                throw new IllegalArgumentException("a p value lies between 0 and 1, not " + p);
            }
        }
        int[] rising = IntStream.range(0, pValues.length).boxed()
            .sorted(Comparator.comparingDouble(i -> pValues[i])).mapToInt(i -> i).toArray();
        double[] adjusted = new double[pValues.length];
        double largest = 0;
        for (int rank = 0; rank < rising.length; rank++) {
            largest = Math.max(largest, Math.min(1, (rising.length - rank) * pValues[rising[rank]]));
            adjusted[rising[rank]] = largest;
        }
        return adjusted;
    }
}
