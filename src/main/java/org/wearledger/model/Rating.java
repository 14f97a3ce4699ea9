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
 */
public record Rating(String driveModel, BigDecimal nominalCapacityGigabytes, BigDecimal ratedTerabytesWritten,
                     BigDecimal warrantyYears, String source, LocalDate sourceDate) implements Serializable {
}
