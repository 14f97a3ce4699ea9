package org.wearledger.report;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.Standing;

/** A drive's figures in the words of somebody who owns a computer and knows none of ours. */
final class OwnersWords {
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);
    private static final DateTimeFormatter DAY_OF_YEAR = DateTimeFormatter.ofPattern("d MMMM", Locale.ENGLISH);
    private static final DateTimeFormatter MONTH = DateTimeFormatter.ofPattern("MMMM uuuu", Locale.ENGLISH);
    private static final int MONTHS_TOLD_APART = 24;
    private static final double GIGABYTES_PER_TERABYTE = 1000;
    private static final double BYTES_PER_GIGABYTE = 1e9;
    private static final long MOST_YEARS = 10;
    private static final String TOO_LITTLE = "Too little is known for a date.";

    private OwnersWords() {
    }

    /** Example: {@code 6 January 2025}. */
    static String day(LocalDate day) {
        return DAY.format(day);
    }

    /** Example: {@code Velkan D2, 256 GB}. */
    static String name(DriveAssessment drive) {
        Long capacity = drive.latest().drive().capacityBytes();
        return drive.latest().drive().model() + (capacity == null ? "" : ", " + Math.round(capacity / BYTES_PER_GIGABYTE) + " GB");
    }

    /** Whether an assumed rating gives way: the controller says that the drive is further worn, or no less. */
    static boolean isOverAssumedRating(DriveAssessment drive) {
        return drive.wear().endurance() != null && drive.wear().endurance().assumed() && drive.percentageUsed() != null
            && drive.wear().consumedPercent() != null && drive.percentageUsed() >= drive.wear().consumedPercent();
    }

    /** Whether its standing rests on the controller's own estimate. */
    static boolean isByOwnEstimate(DriveAssessment drive) {
        Double consumed = drive.wear().consumedPercent();
        return isOverAssumedRating(drive) || drive.percentageUsed() != null && drive.percentageUsed() >= 100 && (consumed == null || consumed < 100)
            || drive.outlook().controllerForecast() != null && MachineLines.deciding(drive) == drive.outlook().controllerForecast();
    }

    /** {@code null} when it is not reported. */
    static String written(DriveAssessment drive) {
        if (drive.terabytesWritten() == null) {
            return null;
        }
        String written = "It has written " + terabytes(drive.terabytesWritten()) + " so far.";
        Endurance endurance = drive.wear().endurance();
        if (endurance == null || isOverAssumedRating(drive)) {
            return written;
        }
        String rated = terabytes(endurance.ratedTerabytesWritten().doubleValue()) + ".";
        return written + (endurance.assumed() ? " Its maker's rating is not known; drives of its size are usually rated for " : " Its maker rates it for ") + rated;
    }

    private static String terabytes(double terabytes) {
        if (terabytes < 1) {
            return Wording.number(terabytes * GIGABYTES_PER_TERABYTE, 0) + " GB";
        }
        return Wording.number(terabytes, terabytes < 10 ? 1 : 0) + " TB";
    }

    /** {@code null} when it is not reported. */
    static String used(DriveAssessment drive) {
        return drive.percentageUsed() == null ? null : "By its own estimate " + Health.usedInWords(drive.percentageUsed()) + " of its life is used.";
    }

    /** Whether its figures contradict each other, or could not be believed: nothing is said of its time then. Both past 100 % agree in what counts. */
    static boolean isInDoubt(DriveAssessment drive, DrivesToCheck doubts) {
        return !(isWritten(drive) && isUsedUp(drive)) && (doubts.contains(drive) || drive.measuresDisagree() && !isOverAssumedRating(drive));
    }

    private static boolean isWritten(DriveAssessment drive) {
        return drive.wear().consumedPercent() != null && drive.wear().consumedPercent() >= 100;
    }

    private static boolean isUsedUp(DriveAssessment drive) {
        return drive.percentageUsed() != null && drive.percentageUsed() >= 100;
    }

    /** Whether it is more than that too little is known. */
    static boolean isTimeKnown(DriveAssessment drive, DrivesToCheck doubts, LocalDate asOf) {
        return drive != null && !isInDoubt(drive, doubts) && (isWritten(drive) || isUsedUp(drive) || !isTooLittle(forecast(drive), asOf));
    }

    /** Of the limit that decides; {@code null} without any. */
    static Forecast forecast(DriveAssessment drive) {
        return isByOwnEstimate(drive) && drive.outlook().controllerForecast() != null ? drive.outlook().controllerForecast() : MachineLines.deciding(drive);
    }

    /** Whether the middle of its range has passed. */
    static boolean isProbablyReached(DriveAssessment drive, LocalDate asOf) {
        return forecast(drive) != null && Forecast.isPassed(forecast(drive).p50On(), asOf);
    }

    private static boolean isTooLittle(Forecast forecast, LocalDate asOf) {
        return forecast == null || isFarAhead(forecast) && yearsOfEvidence(forecast, asOf) < 1;
    }

    private static boolean isFarAhead(Forecast forecast) {
        return forecast.p10On() == null || forecast.isBeyondEvidence(forecast.p10On());
    }

    private static long yearsOfEvidence(Forecast forecast, LocalDate asOf) {
        return Math.min(MOST_YEARS, ChronoUnit.YEARS.between(asOf, forecast.evidenceUntil()));
    }

    private static boolean isEndKnown(Forecast forecast) {
        return forecast.p90On() != null && !forecast.isBeyondEvidence(forecast.p90On());
    }

    /** What writing is held against. */
    static String limit(DriveAssessment drive) {
        return drive.wear().endurance() != null && drive.wear().endurance().assumed() ? "what drives of its size are usually rated for" : "what it is rated for";
    }

    /** Of any drive what is known of its time. */
    static String when(DriveAssessment drive, DrivesToCheck doubts, LocalDate asOf) {
        if (drive.standing() == Standing.URGENT) {
            return "It may fail at any time.";
        }
        return isInDoubt(drive, doubts) ? "Its figures are to be checked before a date is given." : when(drive, asOf);
    }

    /** When it reaches the limit that decides, as a range, and no more than its past can bear. */
    static String when(DriveAssessment drive, LocalDate asOf) {
        if (isWritten(drive) || isUsedUp(drive)) {
            return "How long it goes on nobody can say.";
        }
        Forecast forecast = forecast(drive);
        if (isTooLittle(forecast, asOf)) {
            return TOO_LITTLE;
        }
        boolean byWrites = forecast == drive.outlook().ratingForecast();
        String range = range(forecast, asOf);
        if (isFarAhead(forecast)) {
            return "Used as before, " + (byWrites ? "it is not likely to write " + limit(drive) : "its own estimate is not likely to reach 100 %") + " " + range + ".";
        }
        if (Forecast.isPassed(forecast.p50On(), asOf)) {
            return "Used as before, " + (byWrites ? "it has probably written " + limit(drive) : "its own estimate is probably at 100 %") + " already: since a day " + range
                + (isEndKnown(forecast) ? " (8 chances in 10)." : " (9 chances in 10).");
        }
        String reaches = byWrites ? "it will have written " + limit(drive) : "its own estimate will reach 100 %";
        boolean isFromNow = Forecast.isPassed(forecast.p10On(), asOf);
        if (!isEndKnown(forecast) && isFromNow) {
            return "Used as before, " + reaches + " soon, or in some years: more is not known.";
        }
        if (!isEndKnown(forecast)) {
            return "Used as before, " + reaches.replace("will ", "will not ") + " " + range.replace("not ", "") + " (9 chances in 10).";
        }
        return "Used as before, " + reaches + " " + range + (isFromNow ? " (9 chances in 10)." : " (8 chances in 10).");
    }

    /** The time alone, where any is known. Examples: {@code between 23 April and 11 May 2024}, {@code not before 2028}. */
    static String range(Forecast forecast, LocalDate asOf) {
        if (isFarAhead(forecast)) {
            return "within " + Wording.count(yearsOfEvidence(forecast, asOf), "year");
        }
        if (Forecast.isPassed(forecast.p50On(), asOf) && !isEndKnown(forecast)) {
            return "after " + day(forecast.p10On());
        }
        if (Forecast.isPassed(forecast.p50On(), asOf)) {
            boolean oneYear = forecast.p10On().getYear() == forecast.p90On().getYear();
            return "between " + (oneYear ? DAY_OF_YEAR.format(forecast.p10On()) : day(forecast.p10On())) + " and " + day(forecast.p90On());
        }
        boolean isFromNow = Forecast.isPassed(forecast.p10On(), asOf);
        if (!isEndKnown(forecast)) {
            return isFromNow ? "from now on, no end known" : "not before " + about(forecast.p10On(), asOf);
        }
        String until = about(forecast.p90On(), asOf);
        String from = about(forecast.p10On(), asOf);
        if (isFromNow) {
            return "by " + until;
        }
        return from.equals(until) ? "in " + from : "between " + from + " and " + until;
    }

    /** The month, in some years the year: no projection knows more. */
    private static String about(LocalDate date, LocalDate asOf) {
        return ChronoUnit.MONTHS.between(asOf, date) < MONTHS_TOLD_APART ? MONTH.format(date) : Integer.toString(date.getYear());
    }
}
