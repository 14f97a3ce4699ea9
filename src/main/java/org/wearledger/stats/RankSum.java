package org.wearledger.stats;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.statistics.inference.AlternativeHypothesis;
import org.apache.commons.statistics.inference.MannWhitneyUTest;
import org.apache.commons.statistics.inference.PValueMethod;

/**
 * Whether and by how much sample a lies above sample b, by ranks: the Mann-Whitney test, the Hodges-Lehmann shift and
 * its distribution-free interval.
 *
 * <p>U = number of pairs with a[i] &gt; b[j], an equal pair counted half. p values are exact when both samples are smaller
 * than 50 and no two values are equal, else by the normal approximation with correction for continuity and ties.
 *
 * <ul>
 *   <li>either sample empty: {@link #compare} is empty
 *   <li>all values equal: p = 1, shift 0
 *   <li>samples too small for a confidence: no interval, such as 3 against 3 at 95 %
 *   <li>NaN or infinite value: {@link IllegalArgumentException}
 * </ul>
 *
 * <p>Mann and Whitney, Annals of Mathematical Statistics 18 (1947) 50-60; Hodges and Lehmann, Annals of Mathematical
 * Statistics 34 (1963) 598-611; Hollander and Wolfe, Nonparametric Statistical Methods, 2nd ed. (1999), 4.1 to 4.3. The
 * n m differences are never stored: one of given rank is found by bisection, so that samples of thousands need no
 * thinning.
 */
public final class RankSum {
    private static final int EXACT_BELOW = 50;

    private final double[] risingA;
    private final double[] risingB;
    private final double u;
    private final boolean exact;

    private RankSum(double[] risingA, double[] risingB) {
        this.risingA = risingA;
        this.risingB = risingB;
        u = MannWhitneyUTest.withDefaults().statistic(risingA, risingB);
        exact = risingA.length < EXACT_BELOW && risingB.length < EXACT_BELOW && !hasEqualValues();
    }

    /** The comparison of two samples, in any order; empty when one of them is. */
    public static Optional<RankSum> compare(double[] a, double[] b) {
        double[] risingA = Checked.finite("a", a);
        double[] risingB = Checked.finite("b", b);
        Arrays.sort(risingA);
        Arrays.sort(risingB);
        return risingA.length == 0 || risingB.length == 0 ? Optional.empty()
            : Optional.of(new RankSum(risingA, risingB));
    }

    /** Mann-Whitney U of a; statistics packages also call it W. */
    double u() {
        return u;
    }

    /** p value against "a and b do not differ". */
    public double twoSidedP() {
        return p(AlternativeHypothesis.TWO_SIDED);
    }

    /** Hodges-Lehmann estimate of how far a lies above b: the median of all a[i] - b[j]. */
    public double shift() {
        long pairs = pairs();
        double upperMiddle = difference(pairs / 2 + 1);
        return pairs % 2 == 1 ? upperMiddle : (difference(pairs / 2) + upperMiddle) / 2;
    }

    /**
     * Confidence interval of the shift: the k-th of the rising differences a[i] - b[j] from below and from above.
     *
     * <p>Exact case: k is the largest with P(U at most k - 1) at most (1 - confidence) / 2. Otherwise k = floor(n m / 2 -
     * z sqrt(n m (n + m + 1) / 12)), without tie correction; both err to the wide side. Empty when k is 0.
     */
    public Optional<Bounds> shiftInterval(double confidence) {
        long k = exact ? exactRank((1 - Checked.confidence(confidence)) / 2) : normalRank(Checked.twoSidedZ(confidence));
        return k < 1 ? Optional.empty() : Optional.of(new Bounds(difference(k), difference(pairs() - k + 1)));
    }

    private long pairs() {
        return (long) risingA.length * risingB.length;
    }

    private double p(AlternativeHypothesis alternative) {
        if (risingA[0] == risingB[risingB.length - 1] && risingB[0] == risingA[risingA.length - 1]) {
            return 1; // one value throughout: U has no variance to divide by
        }
        return MannWhitneyUTest.withDefaults().with(alternative)
            .with(exact ? PValueMethod.EXACT : PValueMethod.ASYMPTOTIC).test(risingA, risingB).getPValue();
    }

    private boolean hasEqualValues() {
        double[] all = Arrays.copyOf(risingA, risingA.length + risingB.length);
        System.arraycopy(risingB, 0, all, risingA.length, risingB.length);
        return Arrays.stream(all).distinct().count() < all.length;
    }

    private long normalRank(double z) {
        double deviation = Math.sqrt(pairs() * (risingA.length + risingB.length + 1.0) / 12);
        return (long) Math.floor(pairs() / 2.0 - z * deviation);
    }

    private long exactRank(double tail) {
        double[] ways = waysToReach(risingA.length, risingB.length);
        double total = Arrays.stream(ways).sum();
        int k = 0;
        for (double below = ways[0]; below <= tail * total; below += ways[k]) {
            k++;
        }
        return k;
    }

    /** Element u: in how many ways n of n + m ranks give U = u. */
    private static double[] waysToReach(int n, int m) {
        double[][] ways = new double[n + 1][n * m + 1];
        ways[0][0] = 1;
        for (int rank = 1; rank <= n + m; rank++) {
            for (int chosen = Math.min(n, rank); chosen >= 1; chosen--) {
                // The chosen-th smallest of a at this rank lies above rank - chosen values of b.
                for (int above = rank - chosen, u = n * m; above <= m && u >= above; u--) {
                    ways[chosen][u] += ways[chosen - 1][u - above];
                }
            }
        }
        return ways[n];
    }

    /** The rank-th smallest a[i] - b[j], rank from 1, by bisection over the doubles in their order. */
    private double difference(long rank) {
        long low = orderedBits(risingA[0] - risingB[risingB.length - 1]);
        long high = orderedBits(risingA[risingA.length - 1] - risingB[0]);
        while (low < high) {
            long middle = (low & high) + ((low ^ high) >> 1); // rounds down without overflow
            if (differencesUpTo(fromOrderedBits(middle)) >= rank) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return fromOrderedBits(low) + 0.0; // + 0.0 turns a negative zero into zero
    }

    private long differencesUpTo(double limit) {
        long count = 0;
        int qualifying = 0; // a larger b lowers every difference, so this never goes back
        for (double each : risingB) {
            while (qualifying < risingA.length && risingA[qualifying] - each <= limit) {
                qualifying++;
            }
            count += qualifying;
        }
        return count;
    }

    private static long orderedBits(double value) {
        long bits = Double.doubleToLongBits(value);
        return bits < 0 ? Long.MIN_VALUE - bits : bits;
    }

    private static double fromOrderedBits(long ordered) {
        return Double.longBitsToDouble(ordered < 0 ? Long.MIN_VALUE - ordered : ordered);
    }
}
