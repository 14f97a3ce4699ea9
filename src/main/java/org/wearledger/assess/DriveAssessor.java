package org.wearledger.assess;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Endurance;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Interval;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

/** Judges one drive by two clocks: host writes against the rating, and the controller's own percentage used. */
public final class DriveAssessor {
    private static final int BYTES_TO_TERABYTES = 12;
    private static final double WATCH_DAYS = 4 * SweepSettings.DAYS_PER_QUARTER;
    /** The specification's 255 means "255 or more". */
    private static final int PERCENTAGE_USED_CEILING = 255;

    private DriveAssessor() {
    }

    /**
     * Standing, worst first: urgent by the drive's own warning; past the rating by either clock; due when the projected
     * date is at most lead time + one quarter after {@code asOf}; watch when at most one year; else within the rating.
     * One clock suffices for a standing, neither gives no verdict. The percentage used is not projected.
     *
     * @param firstDriveOfMachine whether the machine's in-service date may stand for the drive's
     * @param inServiceOn the machine's, {@code null} when unknown
     */
    public static DriveAssessment assess(DriveHistory history, Ratings ratings, LocalDate asOf, SweepSettings settings,
                                         boolean firstDriveOfMachine, LocalDate inServiceOn) {
        List<HistoryPoint> written =
            history.points().stream().filter(point -> point.totalBytesWritten() != null).toList();
        BigInteger bytesWritten = written.isEmpty() ? null : written.get(written.size() - 1).totalBytesWritten();
        Drive drive = withKnownCapacity(history);
        Endurance endurance = ratings.enduranceFor(drive);
        int epochs = history.latest().epoch() + 1;
        Integer percentageUsed = history.latest().reading().health().percentageUsed();
        LocalDate firstSeenOn = LocalDate.ofInstant(history.first().reading().collectedAt(), ZoneOffset.UTC);

        WriteRates rates = written.isEmpty() ? new WriteRates(null, 0, null, null)
            : WriteRates.of(written, firstSeenOn, firstDriveOfMachine ? inServiceOn : null);
        Projection projection = bytesWritten == null ? new Projection.None("bytes written not reported")
            : endurance == null ? new Projection.None("neither a rating nor a capacity is known")
            : Projections.project(written, endurance.ratedTerabytesWritten().movePointRight(BYTES_TO_TERABYTES)
                .toBigInteger(), rates, noRateWords(written.size(), firstDriveOfMachine, inServiceOn));
        Double consumed = bytesWritten == null || endurance == null ? null
            : consumedPercent(bytesWritten, endurance.ratedTerabytesWritten());
        WarningSigns signs = WarningSigns.of(history);
        Standing standing = standing(signs, consumed, percentageUsed, projection, asOf, settings);
        Double rate = rates.best();

        DriveAssessment silent = new DriveAssessment(history.id(), history.latest().reading(),
            history.first().reading().collectedAt(), history.points().size(), epochs, bytesWritten, endurance, consumed,
            consumed == null ? null : remainingTerabytes(bytesWritten, endurance.ratedTerabytesWritten()),
            epochs > 1 ? null : impliedEnduranceTerabytes(bytesWritten, percentageUsed), rates.lately(),
            rates.overLife(),
            rate == null || drive.capacityBytes() == null || drive.capacityBytes() <= 0 ? null
                : rate / (drive.capacityBytes() / 1e9),
            projection, standing, "");
        return withReason(silent, Reasons.of(silent, signs));
    }

    /** 100 x bytes / (rated x 10^12), exact before the last rounding. Example: 1,171,875,000 units of 600 TB is 100. */
    static double consumedPercent(BigInteger bytesWritten, BigDecimal ratedTerabytes) {
        return new BigDecimal(bytesWritten).movePointLeft(BYTES_TO_TERABYTES - 2)
            .divide(ratedTerabytes, MathContext.DECIMAL128).doubleValue();
    }

    private static double remainingTerabytes(BigInteger bytesWritten, BigDecimal ratedTerabytes) {
        return ratedTerabytes.subtract(new BigDecimal(bytesWritten).movePointLeft(BYTES_TO_TERABYTES)).doubleValue();
    }

    /**
     * The endurance that the controller's clock implies, in TB: written W over percentage used p, where the integer p
     * stands for anything from p - 1 to p + 1: from 100 W / (p + 1) to 100 W / (p - 1). Open above when p is 1; from 0
     * when p is 255, which means "255 or more"; {@code null} when p is 0 or either is not reported. Not for histories
     * whose counters went back: the two clocks may then not cover the same writes.
     */
    static Interval impliedEnduranceTerabytes(BigInteger bytesWritten, Integer percentageUsed) {
        if (bytesWritten == null || percentageUsed == null || percentageUsed <= 0) {
            return null;
        }
        double hundredfold = bytesWritten.doubleValue() / 1e10;
        double low = percentageUsed >= PERCENTAGE_USED_CEILING ? 0 : hundredfold / (percentageUsed + 1);
        double high = percentageUsed == 1 ? Double.POSITIVE_INFINITY : hundredfold / (percentageUsed - 1);
        return new Interval(low, high);
    }

    private static Standing standing(WarningSigns signs, Double consumed, Integer percentageUsed,
                                     Projection projection, LocalDate asOf, SweepSettings settings) {
        if (!signs.urgent().isEmpty()) {
            return Standing.URGENT;
        }
        if (consumed != null && consumed >= 100 || percentageUsed != null && percentageUsed >= 100) {
            return Standing.PAST_RATING;
        }
        if (consumed == null && percentageUsed == null) {
            return Standing.NO_VERDICT;
        }
        if (projection.dateOrNull() != null) {
            long daysAhead = ChronoUnit.DAYS.between(asOf, projection.dateOrNull());
            if (daysAhead <= settings.leadTimeDays() + SweepSettings.DAYS_PER_QUARTER) {
                return Standing.DUE;
            }
            if (daysAhead <= WATCH_DAYS) {
                return Standing.WATCH;
            }
        }
        return Standing.WITHIN_RATING;
    }

    private static String noRateWords(int readings, boolean firstDriveOfMachine, LocalDate inServiceOn) {
        String count = readings == 1 ? "one reading" : "fewer than two readings within a year";
        return inServiceOn == null ? count + " and no in-service date"
            : !firstDriveOfMachine ? count + ", and the machine's in-service date is not this drive's"
            : count + ", and the in-service date does not precede it";
    }

    /** The latest drive record, with the last reported capacity: a report may leave it out. */
    private static Drive withKnownCapacity(DriveHistory history) {
        Drive latest = history.latest().reading().drive();
        Long capacityBytes = history.points().stream().map(point -> point.reading().drive().capacityBytes())
            .filter(Objects::nonNull).reduce((earlier, later) -> later).orElse(null);
        return new Drive(latest.serial(), latest.model(), latest.firmware(), capacityBytes, latest.attachment());
    }

    private static DriveAssessment withReason(DriveAssessment a, String reason) {
        return new DriveAssessment(a.id(), a.latest(), a.firstCollectedAt(), a.readings(), a.epochs(), a.bytesWritten(),
            a.endurance(), a.consumedPercent(), a.remainingTerabytes(), a.impliedEnduranceTerabytes(),
            a.gigabytesPerDayLately(), a.gigabytesPerDayOverLife(), a.driveWritesPerDay(), a.projection(),
            a.standing(), reason);
    }
}
