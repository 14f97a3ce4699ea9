package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * Wear in percent of the rating that is not exceeded on a day in one case of ten, in one of two,
 * and in nine of ten.
 *
 * @param lowPercent 100 x total written / rated, as the others
 */
public record BandPoint(LocalDate on, double lowPercent, double middlePercent, double highPercent) implements Serializable {
}
