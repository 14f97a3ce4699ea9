package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;

/**
 * A maker's rating of one drive model at one capacity, as a {@code ratings} row gives it. {@code warrantyYears} and
 * {@code sourceDate} may be {@code null}.
 *
 * @param nominalCapacityGigabytes decimal gigabytes, as printed on the drive
 * @param ratedTerabytesWritten decimal terabytes of host writes (JEDEC JESD218: TBW)
 * @param source where the figure stands, for the reader
 * @param inField how many such drives are in use, those that never came in too; {@code null} when not known
 */
public record Rating(String driveModel, BigDecimal nominalCapacityGigabytes, BigDecimal ratedTerabytesWritten,
                     BigDecimal warrantyYears, String source, LocalDate sourceDate, Long inField) implements Serializable {
    /** One that does not tell how many are in use. */
    public Rating(String driveModel, BigDecimal nominalCapacityGigabytes, BigDecimal ratedTerabytesWritten, BigDecimal warrantyYears, String source,
                  LocalDate sourceDate) {
        this(driveModel, nominalCapacityGigabytes, ratedTerabytesWritten, warrantyYears, source, sourceDate, null);
    }
}
