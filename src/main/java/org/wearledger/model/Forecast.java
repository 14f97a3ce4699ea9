package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.Locale;

/**
 * When a drive reaches a threshold, as far as the fleet's past can tell.
 *
 * @param p10On the date by which it is reached with a probability of 10 %; {@code null} when that is more than ten years
 *     ahead
 * @param p50On the same for 50 %
 * @param p90On the same for 90 %
 * @param withinLeadTime probability of reaching it within the lead time and one quarter from the as-of date
 * @param within1Quarter probability of reaching it within one quarter from the as-of date, as the others
 * @param evidenceUntil three times the observed history ahead: what lies later is beyond evidence
 * @param basis what the forecast rests on
 * @param crossing the same for a budget to work with
 */
public record Forecast(LocalDate p10On, LocalDate p50On, LocalDate p90On, double withinLeadTime, double within1Quarter,
                       double within2Quarters, double within4Quarters, double within8Quarters, LocalDate evidenceUntil,
                       String basis, Crossing crossing) implements Serializable {
    private static final int LENGTH_OF_MONTH = "2026-04".length();

    /** Whether the date lies after {@code evidenceUntil}; false for {@code null}, which is no date. */
    public boolean isBeyondEvidence(LocalDate date) {
        return date != null && date.isAfter(evidenceUntil);
    }

    /**
     * The day up to a year ahead, later than that the month: no projection knows more. Examples as of 2025-03-31: {@code 2026-03-31},
     * and {@code 2026-04} for the day after. The month, too, when {@code asOf} is {@code null}.
     */
    public static String dateInWords(LocalDate date, LocalDate asOf) {
        boolean farAhead = asOf == null || date.isAfter(asOf.plusYears(1));
        return farAhead ? date.toString().substring(0, LENGTH_OF_MONTH) : date.toString();
    }

    /** In whole percent, never as certain: {@code "below 1 %"}, {@code "above 99 %"}. */
    public static String probabilityInWords(double p) {
        return p < 0.01 ? "below 1 %" : p > 0.99 ? "above 99 %" : String.format(Locale.ROOT, "%.0f %%", 100 * p);
    }

    /**
     * Example: {@code around 2025-06-12}. A date before {@code asOf}, as an old report gives it, reads
     * {@code probably passed already, about 2025-03-03}.
     */
    public String middleInWords(LocalDate asOf) {
        LocalDate middle = p50On;
        return middle == null ? "more than ten years ahead"
            : (isPassed(middle, asOf) ? "probably passed already, about " : "around ") + dateInWords(middle, asOf)
                + (isBeyondEvidence(middle) ? " (beyond evidence)" : "");
    }

    /** Whether the date lies before the as-of date; false without one of them. */
    public static boolean isPassed(LocalDate date, LocalDate asOf) {
        return date != null && asOf != null && date.isBefore(asOf);
    }

    /**
     * Example: {@code the chance within a year is 12 %}. For {@code due} and {@code watch} the chance that decides between them goes
     * first: {@code the chance within 121 days is 38 % (due from 50 %), within a year above 99 % (watch from 10 %)}.
     */
    public String chanceInWords(Standing standing, SweepSettings settings) {
        String ofYear = probabilityInWords(within4Quarters);
        return standing != Standing.DUE && standing != Standing.WATCH ? "the chance within a year is " + ofYear
            : "the chance within " + (long) (settings.leadTimeDays() + SweepSettings.DAYS_PER_QUARTER) + " days is " + probabilityInWords(withinLeadTime)
                + " (due from " + probabilityInWords(settings.dueProbability()) + "), within a year " + ofYear
                + (standing == Standing.WATCH ? " (watch from " + probabilityInWords(settings.watchProbability()) + ")" : "");
    }
}
