package org.wearledger.stats;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/**
 * The distribution function of a time, worked out where it is asked for and kept, so that its inverse needs few values more.
 *
 * <p>The log of the time is taken as a function of the logit of the probability, nearly a straight line, and joined through the three
 * nearest known points (inverse quadratic interpolation). Not for several threads.
 */
public final class FirstPassage {
    private static final int MOST_EVALUATIONS = 100;
    private static final double SAME = 1e-12;
    private static final double CAUTION = 3;
    private static final double TIME_ACCURACY = 1e-4;
    private static final double NEAR_A_MARK = 3 * TIME_ACCURACY;
    private static final double RELATIVE_ACCURACY = 1e-14;
    private static final long MILLIS_PER_DAY = 86_400_000;
    /** Times are rounded to whole ones. */
    private static final double HALF_A_MILLI = 0.5;

    private final DoubleUnaryOperator probabilityBy;
    private final double most;
    private double[] times = new double[16];
    private double[] probabilities = new double[16];
    private int known = 1;

    /**
     * @param probabilityBy rises in time from 0
     * @param most later times are not looked for
     */
    public FirstPassage(DoubleUnaryOperator probabilityBy, double most) {
        this.probabilityBy = probabilityBy;
        this.most = most;
    }

    /** P(T at most {@code time}). */
    public double by(double time) {
        return probabilities[knownAt(time)];
    }

    /** Where the time stands among those known, worked out if it is not yet. */
    private int knownAt(double time) {
        int at = Arrays.binarySearch(times, 0, known, time);
        if (at >= 0) {
            return at;
        }
        at = -at - 1;
        if (known == times.length) {
            times = Arrays.copyOf(times, 2 * known);
            probabilities = Arrays.copyOf(probabilities, 2 * known);
        }
        System.arraycopy(times, at, times, at + 1, known - at);
        System.arraycopy(probabilities, at, probabilities, at + 1, known - at);
        times[at] = time;
        probabilities[at] = probabilityBy.applyAsDouble(time);
        known++;
        return at;
    }

    /**
     * The day, in UTC, on which the probability reaches p; {@code null} when that is not within {@code most}. Within minutes of a midnight it
     * is the day that a search to a ten-thousandth of the unit ends in, so that dates are those that former versions gave.
     *
     * @param from where the time begins
     * @param millisPerUnit of the time
     */
    public LocalDate dateOf(double p, Instant from, double millisPerUnit) {
        double sinceMidnight = Math.floorMod(from.toEpochMilli(), MILLIS_PER_DAY) + HALF_A_MILLI;
        double midnight = -sinceMidnight / millisPerUnit;
        double day = MILLIS_PER_DAY / millisPerUnit;
        double time = timeOf(p, midnight, day);
        if (toMark(time, midnight, day) < NEAR_A_MARK) {
            time = Root.between(0, most, RELATIVE_ACCURACY, TIME_ACCURACY, t -> probabilityBy.applyAsDouble(t) - p);
        }
        return Double.isInfinite(time) ? null : LocalDate.ofInstant(from.plusMillis(Math.round(time * millisPerUnit)), ZoneOffset.UTC);
    }

    /**
     * The time at which the probability reaches p, near enough to tell between which two of the marks {@code mark + k unit}, k any whole
     * number, it lies. Positive infinity when p is not reached within {@code most}.
     */
    double timeOf(double p, double mark, double unit) {
        if (by(most) < p) {
            return Double.POSITIVE_INFINITY;
        }
        double logit = logit(p);
        int above = knownAt(most);
        while (above > 1 && probabilities[above - 1] >= p) {
            above--;
        }
        double time = times[above];
        for (int i = 0; i < MOST_EVALUATIONS && probabilities[above] > p; i++) {
            double low = times[above - 1];
            double high = times[above];
            time = between(low, high, i % 4 == 3 ? Double.NaN : interpolated(above, logit));
            // Between two known points each guess is far nearer than the one before.
            boolean near = low > 0 && CAUTION * Math.min(time - low, high - time) < Math.min(toMark(time, mark, unit), time / 4);
            if (near || high - low < SAME * high) {
                return time;
            }
            int at = knownAt(time);
            above = probabilities[at] < p ? at + 1 : at;
            time = times[above];
        }
        return time;
    }

    private static double toMark(double time, double mark, double unit) {
        double past = (time - mark) / unit;
        return unit * Math.abs(past - Math.rint(past));
    }

    /** The middle where the guess does not lie between them. */
    private static double between(double low, double high, double guess) {
        if (guess > low && guess < high) {
            return guess;
        }
        return low == 0 ? high / 4 : Math.sqrt(low * high);
    }

    /** By the points on both sides and the nearer of the next two; NaN where they do not tell. */
    private double interpolated(int above, double logit) {
        int first = Math.max(1, above - 1);
        boolean later = above + 1 < known && (first < 2 || times[above + 1] - times[above] < times[first] - times[first - 1]);
        int third = later ? above + 1 : first - 1;
        if (first == above) {
            // Nothing is known between 0 and the point above: along the line through the next two.
            return third < 1 ? Double.NaN : Math.exp(line(above, third, logit));
        }
        double line = line(first, above, logit);
        double x2 = third < 1 ? Double.NaN : logit(probabilities[third]);
        double bend = (Math.log(times[third]) - line(first, above, x2)) / ((x2 - logit(probabilities[first])) * (x2 - logit(probabilities[above])));
        double curve = line + bend * (logit - logit(probabilities[first])) * (logit - logit(probabilities[above]));
        return Math.exp(curve > Math.log(times[first]) && curve < Math.log(times[above]) ? curve : line);
    }

    /** Through two points; NaN where a probability is 0 or 1 to a double. */
    private double line(int one, int other, double logit) {
        double x0 = logit(probabilities[one]);
        double x1 = logit(probabilities[other]);
        double y0 = Math.log(times[one]);
        return Double.isInfinite(x0) || Double.isInfinite(x1) ? Double.NaN : y0 + (logit - x0) * (Math.log(times[other]) - y0) / (x1 - x0);
    }

    private static double logit(double p) {
        return Math.log(p / (1 - p));
    }
}
