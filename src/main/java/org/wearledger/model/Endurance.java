package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;

/**
 * The rated endurance used for a drive and where it comes from.
 *
 * @param assumed true when no ratings row matched and the rule of thumb of 0.6 TB written per GB stands in
 * @param warrantyYears of the drive, {@code null} when not known
 * @param source what to print as the rating's source
 */
public record Endurance(BigDecimal ratedTerabytesWritten, boolean assumed, BigDecimal warrantyYears, String source) implements Serializable {
}
