package org.wearledger.stats;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * How many of several unlike events happen: the Poisson-binomial distribution, and mixtures of it.
 *
 * <p>Exact while the variance is below 400: one event is added after the other, P(k) becomes P(k)(1 - p) + P(k - 1) p. Above
 * that Edgeworth's series of two terms stands in, with the corrections for whole numbers (Kolassa and McCullagh, Annals of
 * Statistics 18 (1990) 981-985, from memory); its error is then below 1e-6. The rest is in Hong, Computational Statistics and
 * Data Analysis 59 (2013) 41-51. No event: 0 happen for certain.
 *
 * @param first the least count with a probability to speak of
 * @param probabilities of first, first + 1, ...
 */
public record CountDistribution(int first, double[] probabilities) {
    private static final double MOST_EXACT_VARIANCE = 400;
    /** Standard deviations beyond which a probability is below the accuracy of a double against 1. */
    private static final double REACH = 9;
    private static final double NEGLIGIBLE = 1e-13;
    /** So many of these add up to nothing, even over a million events. */
    private static final double VANISHING = 1e-22;

    /** Independent events; a probability that is not from 0 to 1 is refused. */
    public static CountDistribution of(double... eventProbabilities) {
        int certain = 0;
        double mean = 0;
        double variance = 0;
        double third = 0;
        double fourth = 0;
        double[] open = new double[eventProbabilities.length];
        int n = 0;
        for (double p : eventProbabilities) {
            if (!(p >= 0 && p <= 1)) {
                throw new IllegalArgumentException("a probability lies from 0 to 1, not " + p);
            }
            if (p == 1) {
                certain++;
            } else if (p > NEGLIGIBLE) {
                open[n++] = p;
                mean += p;
                variance += p * (1 - p);
                third += p * (1 - p) * (1 - 2 * p);
                fourth += p * (1 - p) * (1 - 6 * p * (1 - p));
            }
        }
        CountDistribution counts = variance >= MOST_EXACT_VARIANCE ? edgeworth(n, mean, variance, third, fourth)
            : exact(Arrays.copyOf(open, n), mean, variance);
        return new CountDistribution(counts.first + certain, counts.probabilities);
    }

    /** Where most events happen, those that do not are counted: fewer terms. */
    private static CountDistribution exact(double[] open, double mean, double variance) {
        int n = open.length;
        return mean <= n / 2.0 ? added(open, mean, variance) : added(Arrays.stream(open).map(p -> 1 - p).toArray(), n - mean, variance).outOf(n);
    }

    private static CountDistribution added(double[] open, double mean, double variance) {
        // Poisson-like tails reach further than normal ones, hence the constant.
        int most = (int) Math.min(open.length, Math.ceil(mean + REACH * Math.sqrt(variance) + 30));
        double[] counts = new double[most + 1];
        counts[0] = 1;
        // Only counts between these have a probability yet, or still, that matters.
        int least = 0;
        int last = 0;
        for (double p : open) {
            last = Math.min(last + 1, most);
            for (int k = last; k > least; k--) {
                counts[k] = counts[k] * (1 - p) + counts[k - 1] * p;
            }
            counts[least] *= 1 - p;
            while (counts[last] < VANISHING && last > least) {
                counts[last--] = 0;
            }
            while (counts[least] < VANISHING && least < last) {
                counts[least++] = 0;
            }
        }
        return new CountDistribution(least, Arrays.copyOfRange(counts, least, last + 1));
    }

    /** How many of n do not happen. */
    private CountDistribution outOf(int n) {
        double[] reversed = new double[probabilities.length];
        for (int k = 0; k < reversed.length; k++) {
            reversed[k] = probabilities[reversed.length - 1 - k];
        }
        return new CountDistribution(n - first - reversed.length + 1, reversed);
    }

    /** @param third the third cumulant, and {@code fourth} the fourth: sums over the events */
    private static CountDistribution edgeworth(int n, double mean, double variance, double third, double fourth) {
        // A whole number takes the place of a density over one unit: Sheppard's corrections.
        double spread = variance - 1.0 / 12;
        double deviation = Math.sqrt(spread);
        double skewness = third / (spread * deviation);
        double excess = (fourth + 1.0 / 120) / (spread * spread);
        NormalDistribution standard = NormalDistribution.of(0, 1);
        int least = (int) Math.max(0, Math.floor(mean - REACH * deviation));
        int most = (int) Math.min(n, Math.ceil(mean + REACH * deviation));
        double[] counts = new double[most - least + 1];
        double below = 0;
        for (int k = least; k <= most; k++) {
            double x = (k + 0.5 - mean) / deviation;
            double correction = skewness * (x * x - 1) / 6 + excess * x * (x * x - 3) / 24 + skewness * skewness * x * (x * x * (x * x - 10) + 15) / 72;
            double cdf = k == most ? 1 : Math.min(1, Math.max(below, standard.cumulativeProbability(x) - correction * standard.density(x)));
            counts[k - least] = cdf - below;
            below = cdf;
        }
        return new CountDistribution(least, counts);
    }

    /** The mixture; the weights add up to 1, one for each part. */
    static CountDistribution mixture(double[] weights, List<CountDistribution> parts) {
        int least = parts.stream().mapToInt(CountDistribution::first).min().orElseThrow();
        int most = parts.stream().mapToInt(part -> part.first + part.probabilities.length - 1).max().orElseThrow();
        double[] sum = new double[most - least + 1];
        for (int i = 0; i < weights.length; i++) {
            CountDistribution part = parts.get(i);
            for (int k = 0; k < part.probabilities.length; k++) {
                sum[part.first - least + k] += weights[i] * part.probabilities[k];
            }
        }
        return new CountDistribution(least, sum);
    }

    /** P(exactly count); 0 outside. */
    double probability(int count) {
        int k = count - first;
        return k < 0 || k >= probabilities.length ? 0 : probabilities[k];
    }

    /** P(at most count). */
    double cdf(int count) {
        double sum = 0;
        for (int k = 0; k < Math.min(count - first + 1, probabilities.length); k++) {
            sum += probabilities[k];
        }
        return Math.min(1, sum);
    }

    /** Sum of count x probability. */
    public double mean() {
        double sum = 0;
        for (int k = 0; k < probabilities.length; k++) {
            sum += (first + k) * probabilities[k];
        }
        return sum;
    }

    /** Sum of (count - mean)^2 x probability. */
    double variance() {
        double mean = mean();
        double sum = 0;
        for (int k = 0; k < probabilities.length; k++) {
            sum += (first + k - mean) * (first + k - mean) * probabilities[k];
        }
        return sum;
    }

    /** The smallest count with P(at most count) at least p, for p between 0 and 1. */
    public int quantile(double p) {
        double sum = 0;
        for (int k = 0; k < probabilities.length - 1; k++) {
            sum += probabilities[k];
            // Sums of many tiny terms: a hair below p is p.
            if (sum >= Checked.confidence(p) - 1e-12) {
                return first + k;
            }
        }
        return first + probabilities.length - 1;
    }

    /**
     * How many to have ready when each one short costs {@code costShort} and each one over {@code costOver}: the quantile at
     * costShort / (costShort + costOver), the newsvendor's choice (Arrow, Harris and Marschak, Econometrica 19 (1951) 250-272).
     */
    public int orderQuantity(double costShort, double costOver) {
        return quantile(Checked.positive("costShort", costShort) / (costShort + Checked.positive("costOver", costOver)));
    }
}
