package org.wearledger.assess;

import java.io.Serializable;
import java.util.Arrays;
import java.util.Collection;
import java.util.Objects;
import java.util.stream.DoubleStream;

/**
 * How far the writes that a point of the controller's percentage takes wander: a controller writes more or less of its own beside what it is sent.
 *
 * <p>Two figures describe a drive: writes per point over its life, W / p, and over the last year, dW / dp. The logarithm is taken for a random walk of
 * variance sigma^2 a quarter. Against its value now, the mean over the last T quarters then has the variance sigma^2 T / 3, and means over T and over the
 * last y of them differ by one of sigma^2 (T - y)^2 / (3 T). Rounding adds 1 / (3 p^2) to the first figure and 1 / (6 dp^2) to the second: p stands for
 * anything within a point, the same way at both ends.
 *
 * @param sigma of the logarithm, a quarter
 */
record Amplification(double sigma) implements Serializable {
    /** Where no drive tells. */
    static final Amplification ASSUMED = new Amplification(0.1);
    /** The assumed counts as the wander of so many quarters: about that of ten drives. */
    private static final double ASSUMED_QUARTERS = 10;
    private static final int LEAST_PERCENTAGE = 5;
    private static final int LEAST_RISE = 2;
    private static final int LEAST_RISE_TO_LEARN = 5;
    private static final double LAST_YEAR_QUARTERS = 4.5;
    private static final double UNKNOWN_LIFE_QUARTERS = 8;

    /** Logarithm of the writes that a point takes now, as a fraction of the rating, with its variance. */
    record Now(double log, double variance) {
    }

    private record Told(double life, double lifeError, double lifeQuarters, double recent, double recentError, double recentQuarters, int rise) {
        static Told of(WearPast past) {
            int last = past.used().length - 1;
            if (past.byPercentage() || past.used()[last] < LEAST_PERCENTAGE || past.used()[last] >= 100 || !(past.wear()[last] > 0)) {
                return null;
            }
            int used = past.used()[last];
            double life = Math.log(past.wear()[last] / used);
            int from = last;
            for (int i = last - 1; i >= 0 && WearPast.quarters(past.atMillis()[i], past.atMillis()[last]) <= LAST_YEAR_QUARTERS; i--) {
                from = past.used()[i] == WearPast.NOT_REPORTED ? from : i;
            }
            int rise = used - past.used()[from];
            double written = past.wear()[last] - past.wear()[from];
            double quarters = WearPast.quarters(past.atMillis()[from], past.atMillis()[last]);
            boolean known = rise >= LEAST_RISE && written > 0;
            double lifeQuarters = past.startMillis() != null ? WearPast.quarters(past.startMillis(), past.atMillis()[last])
                : known ? Math.max(quarters, past.wear()[last] / written * quarters) : UNKNOWN_LIFE_QUARTERS;
            return new Told(life, 1 / (3.0 * used * used), lifeQuarters, known ? Math.log(written / rise) : Double.NaN, 1 / (6.0 * rise * rise), quarters,
                known ? rise : 0);
        }

        double wander() {
            return (lifeQuarters - recentQuarters) * (lifeQuarters - recentQuarters) / (3 * lifeQuarters);
        }
    }

    /** Of this fleet; the order of the drives changes no digit. */
    static Amplification of(Collection<WearPast> fleet) {
        Told[] telling = fleet.stream().map(Told::of).filter(Objects::nonNull).filter(told -> told.rise >= LEAST_RISE_TO_LEARN).toArray(Told[]::new);
        double squares = sum(Arrays.stream(telling).mapToDouble(told -> (told.recent - told.life) * (told.recent - told.life) - told.lifeError - told.recentError));
        double quarters = sum(Arrays.stream(telling).mapToDouble(Told::wander));
        double assumed = ASSUMED_QUARTERS * ASSUMED.sigma * ASSUMED.sigma;
        return new Amplification(Math.sqrt((Math.max(0, squares) + assumed) / (quarters + ASSUMED_QUARTERS)));
    }

    private static double sum(DoubleStream values) {
        double sum = 0;
        for (double value : values.sorted().toArray()) {
            sum += value;
        }
        return sum;
    }

    /** Both figures, each weighted by the inverse of its variance; {@code null} below 5 %. */
    Now now(WearPast past) {
        Told told = Told.of(past);
        if (told == null) {
            return null;
        }
        double ofLife = told.lifeError + sigma * sigma * told.lifeQuarters / 3;
        if (told.rise == 0) {
            return new Now(told.life, ofLife);
        }
        double ofYear = told.recentError + sigma * sigma * told.recentQuarters / 3;
        return new Now((told.life / ofLife + told.recent / ofYear) / (1 / ofLife + 1 / ofYear), 1 / (1 / ofLife + 1 / ofYear));
    }

    /** Variance of the mean over so many quarters ahead against the value now. */
    double varianceAhead(double quarters) {
        return sigma * sigma * quarters / 3;
    }
}
