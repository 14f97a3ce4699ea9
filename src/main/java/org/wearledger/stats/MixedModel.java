package org.wearledger.stats;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealVector;
import org.wearledger.stats.RandomEffects.Estimate;

/**
 * Effects of several crossed factors on a value at once: y = mean + an effect of each factor's level + noise. Effects of a drawn factor are normal
 * and drawn towards 0 by how little is known of each; those of a free factor are not.
 *
 * <p>With theta the ratio of a factor's deviation to that of the noise, and Lambda their diagonal matrix, the system A = [Lambda Z'Z Lambda + I,
 * Lambda Z'1; 1'Z Lambda, n] gives the effects Lambda b and the restricted deviance log det A + f log(r^2 / f), r^2 = y'y - w'A^-1 w, f = n - 1 less
 * the levels, but one, of each free factor. The thetas minimise it (REML). sigma^2 = r^2 / f, and sigma^2 Lambda A^-1 Lambda is the covariance of
 * estimated less true effects, with the mean's own uncertainty. A free factor has theta 100, which draws by less than a ten-thousandth.
 *
 * <p>Bates, Maechler, Bolker and Walker, "Fitting Linear Mixed-Effects Models Using lme4", Journal of Statistical Software 67 (2015) no. 1, 3.4;
 * Henderson, "Best Linear Unbiased Estimation and Prediction under a Selection Model", Biometrics 31 (1975) 423-447.
 */
public final class MixedModel {
    private static final double MOST = 50;
    private static final double ACCURACY = 1e-5;

    /** How a factor's effects are taken. */
    public enum Kind {
        /** As its data say. */
        FREE(100),
        /** Of so few levels that it cannot be learned how far they differ: drawn a little, with a deviation of twice that of the noise. */
        VAGUE(2),
        /** Drawn towards 0, by a deviation that is learned. */
        DRAWN(Double.NaN);

        private final double theta;

        Kind(double theta) {
            this.theta = theta;
        }
    }

    /** @param levels how many, at least 2 */
    public record Factor(Kind kind, int levels) {
    }

    /** All that the fit needs of the values: counts and sums. They are exact, so neither order nor partition changes a bit. */
    public static final class Sums {
        /** Values are taken to this fraction, finer than any measurement here. */
        private static final double UNITS = 1L << 30;
        private final List<Factor> factors;
        private final int[] starts;
        private final int[][] together;
        private final long[] sums;
        private int count;
        private long squares;

        /** @param factors in the order of the levels that {@link #add} is given */
        public Sums(List<Factor> factors) {
            this.factors = List.copyOf(factors);
            starts = new int[factors.size() + 1];
            for (int f = 0; f < factors.size(); f++) {
                starts[f + 1] = starts[f] + factors.get(f).levels;
            }
            together = new int[starts[factors.size()]][starts[factors.size()]];
            sums = new long[starts[factors.size()] + 1];
        }

        /** @param y between -1,000 and 1,000; {@code levels} count from 0 */
        public void add(double y, int... levels) {
            long units = Math.round(y * UNITS);
            for (int f = 0; f < levels.length; f++) {
                int at = starts[f] + levels[f];
                sums[at] += units;
                for (int g = 0; g < levels.length; g++) {
                    together[at][starts[g] + levels[g]]++;
                }
            }
            sums[sums.length - 1] += units;
            squares += Math.round(y * y * UNITS);
            count++;
        }
    }

    private final Sums sums;
    private final double[] theta;
    private final double sigma;
    private final double[] solution;
    private final double[][] covariance;

    private MixedModel(Sums sums, double[] theta) {
        this.sums = sums;
        this.theta = theta;
        Solved solved = solve(sums, theta);
        sigma = Math.sqrt(solved.squares / freedom(sums));
        covariance = solved.system.getSolver().getInverse().getData();
        solution = new double[covariance.length];
        for (int i = 0; i < solution.length; i++) {
            double scale = scale(sums, theta, i);
            solution[i] = scale * solved.solution.getEntry(i);
            for (int j = 0; j < solution.length; j++) {
                covariance[i][j] *= sigma * sigma * scale * scale(sums, theta, j);
            }
        }
    }

    /**
     * The model by restricted maximum likelihood; empty with fewer values than free levels, or when all values are fitted exactly.
     *
     * @param awayFromZero multiplies the likelihood by each theta: no factor is then taken to have no effect at all, only because few levels show
     *     none. Chung, Rabe-Hesketh, Dorie, Gelman and Liu, "A Nondegenerate Penalized Likelihood Estimator", Psychometrika 78 (2013) 685-709; for
     *     factors of three levels or more
     */
    public static Optional<MixedModel> fit(Sums sums, boolean awayFromZero) {
        int[] drawn = IntStream.range(0, sums.factors.size()).filter(f -> sums.factors.get(f).kind == Kind.DRAWN).toArray();
        double[] all = sums.factors.stream().mapToDouble(factor -> factor.kind.theta).toArray();
        if (freedom(sums) < 1) {
            return Optional.empty();
        }
        double[] best = Minimum.upTo(MOST, drawn.length, ratios -> {
            double penalty = 0;
            for (int i = 0; i < drawn.length; i++) {
                all[drawn[i]] = ratios[i];
                penalty -= awayFromZero ? 2 * Math.log(Math.max(ratios[i], Double.MIN_NORMAL)) : 0;
            }
            return deviance(sums, all) + penalty;
        });
        for (int i = 0; i < drawn.length; i++) {
            all[drawn[i]] = best[i];
        }
        return solve(sums, all).squares > 0 ? Optional.of(new MixedModel(sums, all)) : Optional.empty();
    }

    /** The mean, all effects at 0. */
    Estimate mean() {
        return estimate(solution.length - 1);
    }

    /** Deviation of the noise. */
    double noise() {
        return sigma;
    }

    /** Deviation of a drawn factor's effects. */
    double deviation(int factor) {
        return theta[factor] * sigma;
    }

    /** The effect of one level, and the standard error of estimated less true. */
    public Estimate effect(int factor, int level) {
        return estimate(sums.starts[factor] + level);
    }

    private Estimate estimate(int at) {
        return new Estimate(solution[at], Math.sqrt(covariance[at][at]));
    }

    /** The effect of one level less the mean of all levels of its factor, each with its weight; the weights add up to 1. */
    public Estimate against(int factor, int level, double[] weights) {
        double difference = 0;
        double variance = 0;
        for (int i = 0; i < weights.length; i++) {
            double weight = (i == level ? 1 : 0) - weights[i];
            difference += weight * solution[sums.starts[factor] + i];
            for (int j = 0; j < weights.length; j++) {
                variance += weight * ((j == level ? 1 : 0) - weights[j]) * covariance[sums.starts[factor] + i][sums.starts[factor] + j];
            }
        }
        return new Estimate(difference, Math.sqrt(Math.max(0, variance)));
    }

    private static int freedom(Sums sums) {
        return sums.count - 1 - sums.factors.stream().filter(factor -> factor.kind == Kind.FREE).mapToInt(factor -> factor.levels - 1).sum();
    }

    private static double scale(Sums sums, double[] theta, int at) {
        int factor = 0;
        while (factor < theta.length && at >= sums.starts[factor + 1]) {
            factor++;
        }
        return factor == theta.length ? 1 : theta[factor];
    }

    /** @param squares r^2 */
    private record Solved(CholeskyDecomposition system, RealVector solution, double squares) {
    }

    private static Solved solve(Sums sums, double[] theta) {
        int size = sums.sums.length;
        double[] scales = new double[size];
        double[] right = new double[size];
        for (int i = 0; i < size; i++) {
            scales[i] = scale(sums, theta, i);
            right[i] = scales[i] * (sums.sums[i] / Sums.UNITS);
        }
        double[][] system = new double[size][size];
        for (int i = 0; i < size - 1; i++) {
            for (int j = 0; j < size - 1; j++) {
                system[i][j] = scales[i] * scales[j] * sums.together[i][j] + (i == j ? 1 : 0);
            }
            system[i][size - 1] = scales[i] * sums.together[i][i];
            system[size - 1][i] = system[i][size - 1];
        }
        system[size - 1][size - 1] = sums.count;
        CholeskyDecomposition cholesky = new CholeskyDecomposition(new Array2DRowRealMatrix(system, false), ACCURACY, 0);
        RealVector solution = cholesky.getSolver().solve(new ArrayRealVector(right, false));
        return new Solved(cholesky, solution, sums.squares / Sums.UNITS - solution.dotProduct(new ArrayRealVector(right, false)));
    }

    private static double deviance(Sums sums, double[] theta) {
        Solved solved = solve(sums, theta);
        double logDeterminant = 0;
        for (int i = 0; i < sums.sums.length; i++) {
            logDeterminant += 2 * Math.log(solved.system.getL().getEntry(i, i));
        }
        return logDeterminant + freedom(sums) * Math.log(Math.max(solved.squares, Double.MIN_NORMAL));
    }
}
