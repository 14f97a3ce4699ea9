package org.wearledger.model;

import java.io.Serializable;
import java.util.Locale;

/**
 * One past forecast of one drive and what came.
 *
 * @param originQuarter 4 x year + quarter (0 to 3) of the sweep that was forecast from
 * @param horizonQuarters how far ahead
 * @param pit the forecast's distribution function at what came: uniform on 0 to 1 if the forecasts are right
 * @param crps its continuous ranked probability score, in fractions of the rated endurance
 * @param wasBelow the drive was below its rating at the origin
 * @param crossingProbability forecast probability that it would not be at the horizon
 * @param crossed whether it was not
 */
public record BacktestCase(Method method, int originQuarter, int horizonQuarters, double pit, double crps, boolean wasBelow,
                           double crossingProbability, boolean crossed) implements Serializable {
    /** What made the forecast. */
    public enum Method {
        /** The pooled wear model. */
        POOLED,
        /** A gamma process fitted to the drive alone. */
        DRIVE_ALONE,
        /** The drive's average so far, with a normal error. */
        LIFETIME_AVERAGE;

        /** The outputs' words, such as {@code drive alone}. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }

    /** What came lay within the forecast's central interval of this level. */
    public boolean isWithin(double level) {
        return isWithin(pit, level);
    }

    /** The same, by the forecast's distribution function at what came. */
    public static boolean isWithin(double pit, double level) {
        return !isBelow(pit, level) && !isAbove(pit, level);
    }

    /** The drive wore less than the interval's lower end: a replacement planned too early. */
    public boolean wasSlower(double level) {
        return isBelow(pit, level);
    }

    /** The costly miss: the drive wore faster than the interval's upper end. */
    public boolean wasFaster(double level) {
        return isAbove(pit, level);
    }

    private static boolean isBelow(double pit, double level) {
        return pit < (1 - level) / 2;
    }

    private static boolean isAbove(double pit, double level) {
        return pit > (1 + level) / 2;
    }
}
