package org.wearledger.stats;

import org.apache.commons.numbers.gamma.RegularizedGamma;

/**
 * A gamma process fitted to one unit alone: X(t) ~ Gamma(shape c t, rate u), mean c t / u. The baseline that pooling is
 * held against: from few steps it is far too sure of itself.
 *
 * <p>Van Noortwijk, "A survey of the application of gamma processes in maintenance", Reliability Engineering and System
 * Safety 94 (2009) 2-21, section 5.2 (moments).
 *
 * @param shapePerTime c
 * @param rate u, in the units of the increments
 */
public record GammaProcess(double shapePerTime, double rate) {
    private static final double MOST_SHAPE = 1e6;

    /** @throws IllegalArgumentException when either is not a number above 0 */
    public GammaProcess {
        Checked.positive("shapePerTime", shapePerTime);
        Checked.positive("rate", rate);
    }

    /**
     * By moments: c / u = X / T = m, and X / u (1 - sum D^2 / T^2) = sum (d - m D)^2. Steps that lie exactly on a line, or
     * fewer than two, have no variance to tell c by: c T is then a million.
     */
    public static GammaProcess byMoments(Steps steps) {
        double time = steps.totalDuration();
        double mean = steps.totalIncrement() / time;
        double squares = 0;
        double deviations = 0;
        for (int j = 0; j < steps.size(); j++) {
            double duration = steps.durations()[j];
            squares += duration * duration;
            deviations += Math.pow(steps.increments()[j] - mean * duration, 2);
        }
        double inverseRate = deviations / (steps.totalIncrement() * (1 - squares / (time * time)));
        double shape = steps.size() < 2 || !(inverseRate > 0) ? MOST_SHAPE / time : Math.min(mean / inverseRate, MOST_SHAPE / time);
        return new GammaProcess(shape, shape / mean);
    }

    /** P(T &lt;= t) for the first passage of a level that lies {@code remaining} further on: Q(c t, u remaining). */
    public double probabilityOfReaching(double time, double remaining) {
        if (remaining <= 0) {
            return 1;
        }
        return time <= 0 ? 0 : RegularizedGamma.Q.value(shapePerTime * time, rate * remaining);
    }

    /** P(increment over {@code time} &lt;= x). */
    public double cdf(double time, double x) {
        return x <= 0 ? 0 : RegularizedGamma.P.value(shapePerTime * time, rate * x);
    }
}
