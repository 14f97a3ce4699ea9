package org.wearledger.model;

import java.time.LocalDate;
import java.util.Locale;

/** Dates and chances in the words that reasons, summary and page share, so that none is more exact than it can be. */
public final class ForecastWords {
    private static final int LENGTH_OF_MONTH = "2026-04".length();

    private ForecastWords() {
    }

    /**
     * The day up to a year ahead, later than that the month: no projection knows more. Examples as of 2025-03-31: {@code 2026-03-31},
     * and {@code 2026-04} for the day after. The month, too, when {@code asOf} is {@code null}.
     */
    public static String date(LocalDate date, LocalDate asOf) {
        boolean farAhead = asOf == null || date.isAfter(asOf.plusYears(1));
        return farAhead ? date.toString().substring(0, LENGTH_OF_MONTH) : date.toString();
    }

    /** In whole percent, never as certain: {@code "below 1 %"}, {@code "above 99 %"}. */
    public static String probability(double p) {
        return p < 0.01 ? "below 1 %" : p > 0.99 ? "above 99 %" : String.format(Locale.ROOT, "%.0f %%", 100 * p);
    }

    /**
     * Example: {@code as likely as not by 2025-06-12}. A date before {@code asOf}, as an old report gives it, reads
     * {@code probably passed already, about 2025-03-03}.
     */
    public static String middle(Forecast forecast, LocalDate asOf) {
        LocalDate middle = forecast.p50On();
        return middle == null ? "as likely as not only more than ten years ahead"
            : (isPassed(middle, asOf) ? "probably passed already, about " : "as likely as not by ") + date(middle, asOf)
                + (forecast.isBeyondEvidence(middle) ? " (beyond evidence)" : "");
    }

    /** Whether the date lies before the as-of date; false without one of them. */
    public static boolean isPassed(LocalDate date, LocalDate asOf) {
        return date != null && asOf != null && date.isBefore(asOf);
    }

    /**
     * Example: {@code within 4 quarters with a probability of 12 %}. For {@code due} and {@code watch} the chance that decides between
     * them goes first: {@code within 121 days (lead time and one quarter) with a probability of 38 % (due from 50 %), within 4 quarters
     * of above 99 %}.
     */
    public static String chance(Forecast forecast, Standing standing, SweepSettings settings) {
        String ofYear = probability(forecast.within4Quarters());
        return standing != Standing.DUE && standing != Standing.WATCH ? "within 4 quarters with a probability of " + ofYear
            : "within " + (long) (settings.leadTimeDays() + SweepSettings.DAYS_PER_QUARTER) + " days (lead time and one quarter) with a probability of "
                + probability(forecast.withinLeadTime()) + " (due from " + probability(settings.dueProbability()) + "), within 4 quarters of " + ofYear;
    }
}
