package org.wearledger.assess;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.WarningSign;

/** Puts a drive's standing into one plain sentence of clauses, without a final stop. */
final class Reasons {
    /** Further apart than this, in points of percentage, the two measures are both named. */
    private static final double MEASURES_DISAGREE_POINTS = 50;

    private static final double WORN_PERCENT = 50;
    private static final double LEAST_PROBABILITY = 0.01;
    private static final String BEYOND_EVIDENCE = " (beyond evidence)";

    private Reasons() {
    }

    /**
     * @param controllerCrossing when the controller passed 100 %, {@code null} when it did not
     * @param leftOut what the latest report leaves out that an earlier one had, and that its writing changed
     * @param doubts rules by which a figure is doubtful: the machine's own lines say so, not the data quality alone
     */
    static String of(DriveAssessment drive, WarningSigns signs, String controllerCrossing, List<String> leftOut, List<ProblemKind> doubts, LocalDate asOf, SweepSettings settings) {
        List<String> clauses = new ArrayList<>(signs.urgent().stream().map(WarningSign::words).toList());
        clauses.add(measures(drive));
        if (drive.outlook().projection() instanceof Projection.AlreadyPast past) {
            clauses.add(past.lastBelowOn() == null ? "the rating was passed before the first reading, " + past.seenOn()
                : "the rating was passed between " + past.lastBelowOn() + " and " + past.seenOn());
        }
        if (controllerCrossing != null) {
            clauses.add("the controller passed 100 % " + controllerCrossing);
        }
        if (drive.standing() != Standing.PAST_RATING) {
            addTime(drive, asOf, settings, clauses);
        }
        clauses.addAll(leftOut);
        clauses.addAll(signs.noted());
        doubts.stream().map(rule -> doubt(rule, drive)).forEach(clauses::add);
        if (drive.standing() == Standing.WITHIN_RATING && signs.noted().isEmpty() && doubts.isEmpty() && !isWorn(drive)) {
            clauses.add(signs.errorsReported() ? "no wear or error signal seen"
                : "no wear signal seen; warnings and media errors are not in its reports, so nothing is known of them");
        }
        if (drive.wear().consumedPercent() != null && drive.wear().endurance().assumed()) {
            clauses.add("the rating is assumed, 0.6 TB per GB of capacity");
        }
        if (drive.seen().epochs() > 1) {
            int resets = drive.seen().epochs() - 1;
            clauses.add("its counters went back " + (resets == 1 ? "once" : resets + " times")
                + " and the writes are added up");
        }
        return String.join("; ", clauses);
    }

    private static String doubt(ProblemKind rule, DriveAssessment drive) {
        return switch (rule) {
            case PERCENTAGE_USED_FELL -> "IN DOUBT: percentage used fell; is it what remains of the life? (" + rule.id() + ")";
            case FALL_DOUBTFUL -> "IN DOUBT: bytes written fell without a reset, and the largest figure stands (" + rule.id() + ")";
            case RESET_UNCONFIRMED -> "IN DOUBT: bytes written fell to near zero, and nothing else confirms a reset (" + rule.id() + ")";
            case INCREASE_DOUBTFUL -> "IN DOUBT: bytes written rose far faster than ever before (" + rule.id() + ")";
            case MEASURES_PARTED -> "IN DOUBT: bytes written and percentage used no longer grow together (" + rule.id() + ")";
            case COLUMN_DOUBTFUL -> "IN DOUBT: bytes written of many drives changed together, so the unit or column may have (" + rule.id() + ")";
            case CAPACITY_DOUBTFUL -> "IN DOUBT: the capacity, and with it the rating (" + rule.id() + ")";
            case WRITTEN_CONTRADICTS_USED -> "IN DOUBT: bytes written and percentage used cannot both be right (" + rule.id() + ")";
            case LATEST_REPORT_SET_ASIDE -> (drive.isPastRatingForGood() ? "" : "IN DOUBT: ") + "its latest report could not be believed, so these figures are older than what arrived (" + rule.id() + ")";
            default -> "IN DOUBT: the unit of the bytes written (" + rule.id() + ")";
        };
    }

    /** Far enough along by either measure that "no wear signal" would mislead, whatever the time left. */
    private static boolean isWorn(DriveAssessment drive) {
        return drive.wear().consumedPercent() != null && drive.wear().consumedPercent() >= WORN_PERCENT
            || drive.percentageUsed() != null && drive.percentageUsed() >= WORN_PERCENT;
    }

    private static String measures(DriveAssessment drive) {
        Double consumed = drive.wear().consumedPercent();
        Integer used = drive.percentageUsed();
        if (consumed == null) {
            String missing = drive.wear().bytesWritten() == null ? "bytes written are not reported"
                : "neither a rating nor a capacity is known";
            return used == null ? missing + ", and the controller reports no percentage used"
                : "the controller itself reports " + Health.usedInWords(used) + " used; " + missing
                    + ", so this rests on the controller alone";
        }
        boolean disagree = used != null && (consumed >= 100 != used >= 100
            || Math.abs(consumed - used) > MEASURES_DISAGREE_POINTS);
        if (disagree) {
            return format("%.1f %% of the rating is written; the controller itself reports %s used", consumed, Health.usedInWords(used));
        }
        return format("%.1f %% of the rating is written (%.1f of %s TB)", consumed, drive.terabytesWritten(),
            drive.wear().endurance().ratedTerabytesWritten().stripTrailingZeros().toPlainString())
            + (used != null && used >= 100 ? "; the controller itself reports " + Health.usedInWords(used) + " used" : "");
    }

    private static void addTime(DriveAssessment drive, LocalDate asOf, SweepSettings settings, List<String> clauses) {
        if (drive.outlook().ratingForecast() != null || drive.outlook().controllerForecast() != null) {
            Stream.of(chance("the rating is reached ", "the rating was ", drive.outlook().ratingForecast(), drive.standing(), asOf, settings),
                chance("the controller reaches 100 % ", "the controller's 100 % were ", drive.outlook().controllerForecast(), drive.standing(), asOf, settings)).filter(Objects::nonNull).forEach(clauses::add);
        } else if (drive.wear().consumedPercent() == null) {
            return;
        } else if (drive.outlook().projection() instanceof Projection.Reaches reaches) {
            clauses.add(format("at %.1f GB a day the rating %s about %s", drive.pace().gigabytesPerDay(),
                Forecast.isPassed(reaches.date(), asOf) ? "was probably passed already," : "is reached", Forecast.dateInWords(reaches.date(), asOf))
                + (reaches.beyondEvidence() ? BEYOND_EVIDENCE : ""));
        }
        if (drive.pace().gigabytesPerDay() == null && drive.outlook().projection() instanceof Projection.None none) {
            clauses.add("no write rate yet: " + none.basis());
        }
    }

    /** Only what lies near enough to matter, a chance of 1 % within two years; else {@code null}. */
    private static String chance(String reaches, String passed, Forecast forecast, Standing standing, LocalDate asOf, SweepSettings settings) {
        if (forecast == null || forecast.within8Quarters() < LEAST_PROBABILITY) {
            return null;
        }
        String chance = forecast.chanceInWords(standing, settings);
        return (Forecast.isPassed(forecast.p50On(), asOf) ? passed : reaches) + forecast.middleInWords(asOf) + ": " + chance;
    }

    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}
