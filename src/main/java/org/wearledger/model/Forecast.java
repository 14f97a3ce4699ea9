package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * When a drive reaches a threshold, as far as the fleet's past can tell.
 *
 * @param p10On the date by which it is reached with a probability of 10 %; {@code null} when that is more than ten years
 *     ahead
 * @param p50On likewise for 50 %
 * @param p90On likewise for 90 %
 * @param withinLeadTime probability of reaching it within the lead time and one quarter from the as-of date
 * @param within1Quarter probability of reaching it within one quarter from the as-of date; likewise the others
 * @param evidenceUntil three times the observed history ahead: what lies later is beyond evidence
 * @param basis what the forecast rests on
 * @param crossing the same for a budget to work with
 */
public record Forecast(LocalDate p10On, LocalDate p50On, LocalDate p90On, double withinLeadTime, double within1Quarter,
                       double within2Quarters, double within4Quarters, double within8Quarters, LocalDate evidenceUntil,
                       String basis, Crossing crossing) implements Serializable {
    /** Whether the date lies after {@code evidenceUntil}; false for {@code null}, which is no date. */
    public boolean isBeyondEvidence(LocalDate date) {
        return date != null && date.isAfter(evidenceUntil);
    }
}
