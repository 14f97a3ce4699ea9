package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;

/**
 * What drives of one model endure by the controllers' own estimate, against their rating: written / percentage used, over the rated endurance.
 *
 * @param drives behind it
 * @param rated the rating that most of them have
 * @param ofRated 1 when the rating fits, 0.5 when the drives last half of it
 * @param interval95 of {@code ofRated}, whether controllers round up or down
 */
public record ImpliedRating(int drives, Endurance rated, double ofRated, Interval interval95) implements Serializable {
    private static final double LEAST_DIFFERENCE = 1.25;

    /** The drives last less than four fifths of their rating for certain, or more than five quarters of it. */
    public boolean contradictsRating() {
        return interval95.high() < 1 / LEAST_DIFFERENCE || interval95.low() > LEAST_DIFFERENCE;
    }

    /** The drives last four fifths of their rating, or more, for certain. */
    public boolean lastsItsRating() {
        return interval95.low() >= 1 / LEAST_DIFFERENCE;
    }

    /** The best estimate is as far from the rating, for certain or not. */
    public boolean differsFromRating() {
        return ofRated < 1 / LEAST_DIFFERENCE || ofRated > LEAST_DIFFERENCE;
    }

    /** The rating that fits, in whole TB; below 10 TB to a tenth. */
    public BigDecimal fittingTerabytes() {
        BigDecimal exact = BigDecimal.valueOf(ofRated).multiply(rated.ratedTerabytesWritten());
        return exact.setScale(exact.compareTo(BigDecimal.TEN) < 0 ? 1 : 0, java.math.RoundingMode.HALF_UP);
    }
}
