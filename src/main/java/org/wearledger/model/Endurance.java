package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;

/**
 * The rated endurance used for a drive and where it comes from.
 *
 * @param assumed true when no ratings row matched and the rule of thumb of 0.6 TB written per GB stands in
 * @param warrantyYears of the drive, {@code null} when not known
 * @param source what to print as the rating's source
 */
public record Endurance(BigDecimal ratedTerabytesWritten, boolean assumed, BigDecimal warrantyYears, String source) implements Serializable {
    private static final int BYTES_TO_TERABYTES = 12;

    /** 100 x bytes / (rated x 10^12), exact before the last rounding. Example: 1,171,875,000 data units of 600 TB are 100. */
    public double consumedPercent(BigInteger bytesWritten) {
        return new BigDecimal(bytesWritten).movePointLeft(BYTES_TO_TERABYTES - 2).divide(ratedTerabytesWritten, MathContext.DECIMAL128).doubleValue();
    }

    /** Rated less written; below 0 once that is passed. */
    public double remainingTerabytes(BigInteger bytesWritten) {
        return ratedTerabytesWritten.subtract(new BigDecimal(bytesWritten).movePointLeft(BYTES_TO_TERABYTES)).doubleValue();
    }
}
