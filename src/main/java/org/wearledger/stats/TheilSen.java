package org.wearledger.stats;

import java.util.Arrays;

/** Temporary stand-in until the stats package arrives: median of the slopes between all pairs with distinct x. */
public final class TheilSen {
    private TheilSen() {
    }

    public static double slope(double[] x, double[] y) {
        double[] slopes = new double[x.length * (x.length - 1) / 2];
        int n = 0;
        for (int i = 0; i < x.length; i++) {
            for (int j = i + 1; j < x.length; j++) {
                if (x[i] != x[j]) {
                    slopes[n++] = (y[j] - y[i]) / (x[j] - x[i]);
                }
            }
        }
        double[] sorted = Arrays.copyOf(slopes, n);
        Arrays.sort(sorted);
        return (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
    }
}
