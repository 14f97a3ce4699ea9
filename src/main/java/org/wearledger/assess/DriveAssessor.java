package org.wearledger.assess;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Interval;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

/** Judges one drive by two measures: host writes against the rating, and the controller's own percentage used. */
public final class DriveAssessor {
    private static final int BYTES_TO_TERABYTES = 12;
    private static final double WATCH_DAYS = 4 * SweepSettings.DAYS_PER_QUARTER;

    private DriveAssessor() {
    }

    /**
     * Standing, worst first: urgent by the drive's own warning; past the rating by either measure; due when the probability
     * of crossing by either measure within lead time + one quarter of {@code asOf} reaches the one set; watch likewise within
     * four quarters; else within the rating. By the method of the straight line, due and watch go by its date instead. One
     * measure suffices for a standing, neither gives no verdict.
     *
     * @param model of the fleet; unused by the method of the straight line, then {@code null}
     * @param firstDriveOfMachine whether the machine's in-service date may stand for the drive's
     * @param inServiceOn the machine's, {@code null} when unknown
     */
    public static DriveAssessment assess(DriveHistory history, Ratings ratings, WearModel model, LocalDate asOf,
                                         SweepSettings settings, boolean firstDriveOfMachine, LocalDate inServiceOn) {
        List<HistoryPoint> written =
            history.points().stream().filter(point -> point.totalBytesWritten() != null).toList();
        BigInteger bytesWritten = written.isEmpty() ? null : written.get(written.size() - 1).totalBytesWritten();
        Drive drive = withKnownCapacity(history);
        Endurance endurance = ratings.enduranceFor(drive);
        int epochs = history.latest().epoch() + 1;
        Integer percentageUsed = history.latest().reading().health().percentageUsed();
        LocalDate firstSeenOn = LocalDate.ofInstant(history.first().reading().collectedAt(), ZoneOffset.UTC);

        WriteRates rates = written.isEmpty() ? WriteRates.NONE : WriteRates.of(written, firstSeenOn, firstDriveOfMachine ? inServiceOn : null,
            model == null ? PowerOnShare.ASSUMED : model.powerOn());
        Projection projection = bytesWritten == null ? new Projection.None("bytes written not reported")
            : endurance == null ? new Projection.None("neither a rating nor a capacity is known")
            : Projections.project(written, endurance.ratedTerabytesWritten().movePointRight(BYTES_TO_TERABYTES)
                .toBigInteger(), rates, noRateWords(written.size(), firstDriveOfMachine, inServiceOn));
        Double consumed = bytesWritten == null || endurance == null ? null
            : consumedPercent(bytesWritten, endurance.ratedTerabytesWritten());
        WarningSigns signs = WarningSigns.of(history);
        boolean pooled = settings.method() == ProjectionMethod.POOLED;
        LocalDate startOfService = startOfService(history, firstDriveOfMachine, inServiceOn);
        Forecasts forecasts = pooled ? new Forecasts(model, history, endurance, startOfService, asOf, settings) : null;
        Forecast ofRating = pooled ? forecasts.ofRating() : null;
        Forecast ofController = pooled ? forecasts.ofController() : null;
        WritingChange change = pooled ? forecasts.writingChange() : null;
        Double rate = rates.best();

        DriveAssessment silent = new DriveAssessment(history.id(), history.latest().reading(),
            new DriveAssessment.Seen(startOfService, history.first().reading().collectedAt(), history.points().size(), epochs),
            new DriveAssessment.Wear(bytesWritten, endurance, consumed, consumed == null ? null : remainingTerabytes(bytesWritten, endurance.ratedTerabytesWritten()),
                epochs > 1 ? null : impliedEnduranceTerabytes(bytesWritten, percentageUsed)),
            new DriveAssessment.Pace(rates.lately(), rates.overLife(),
                rate == null || drive.capacityBytes() == null || drive.capacityBytes() <= 0 ? null : rate / (drive.capacityBytes() / 1e9)),
            new DriveAssessment.Outlook(projection, ofRating, ofController), Standing.NO_VERDICT, "");
        DriveAssessment judged = with(silent, standing(signs, silent, lastPercentageUsed(history), asOf, settings), "");
        return with(judged, judged.standing(), Reasons.of(judged, signs, controllerCrossing(history), leftOut(history, change), doubts(history, ratings), asOf, settings));
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
     * The endurance that the controller's measure implies, in TB: written W over percentage used p, where the integer p
     * stands for anything from p - 1 to p + 1: from 100 W / (p + 1) to 100 W / (p - 1). Open above when p is 1; from 0
     * when p may stand for a {@linkplain Health#isUsedOpenAbove higher} one. {@code null} when p is 0 or either is not
     * reported. Not for histories whose counters went back: the two measures may then not cover the same writes.
     */
    static Interval impliedEnduranceTerabytes(BigInteger bytesWritten, Integer percentageUsed) {
        if (bytesWritten == null || percentageUsed == null || percentageUsed <= 0) {
            return null;
        }
        double hundredfold = bytesWritten.doubleValue() / 1e10;
        double low = Health.isUsedOpenAbove(percentageUsed) ? 0 : hundredfold / (percentageUsed + 1);
        double high = percentageUsed == 1 ? Double.POSITIVE_INFINITY : hundredfold / (percentageUsed - 1);
        return new Interval(low, high);
    }

    private static Standing standing(WarningSigns signs, DriveAssessment drive, Integer percentageUsed, LocalDate asOf,
                                     SweepSettings settings) {
        Double consumed = drive.wear().consumedPercent();
        if (!signs.urgent().isEmpty()) {
            return Standing.URGENT;
        }
        if (consumed != null && consumed >= 100 || percentageUsed != null && percentageUsed >= 100) {
            return Standing.PAST_RATING;
        }
        if (consumed == null && percentageUsed == null) {
            return Standing.NO_VERDICT;
        }
        boolean due;
        boolean watch;
        if (settings.method() == ProjectionMethod.POOLED) {
            // NaN, no forecast, compares false.
            due = drive.outlook().probabilityWithin(Forecast::withinLeadTime) >= settings.dueProbability();
            watch = drive.outlook().probabilityWithin(Forecast::within4Quarters) >= settings.watchProbability();
        } else {
            LocalDate date = drive.outlook().projection().dateOrNull();
            long daysAhead = date == null ? Long.MAX_VALUE : ChronoUnit.DAYS.between(asOf, date);
            due = daysAhead <= settings.leadTimeDays() + SweepSettings.DAYS_PER_QUARTER;
            watch = daysAhead <= WATCH_DAYS;
        }
        return due ? Standing.DUE : watch ? Standing.WATCH : Standing.WITHIN_RATING;
    }

    /** As last reported since the counters last went back: an estimate that only rises is not undone by a gap. */
    private static Integer lastPercentageUsed(DriveHistory history) {
        return history.points().stream().filter(p -> p.epoch() == history.latest().epoch())
            .map(p -> p.reading().health().percentageUsed()).filter(Objects::nonNull).reduce((a, b) -> b).orElse(null);
    }

    private static List<String> leftOut(DriveHistory history, WritingChange change) {
        List<String> clauses = new ArrayList<>();
        if (change != null) {
            clauses.add(change.inWords());
        }
        if (history.latest().totalBytesWritten() == null) {
            history.points().stream().filter(p -> p.totalBytesWritten() != null).reduce((a, b) -> b).ifPresent(p ->
                clauses.add("the latest report leaves out bytes written; they are as of " + on(p)));
        }
        if (history.latest().reading().health().percentageUsed() == null) {
            history.points().stream().filter(p -> p.reading().health().percentageUsed() != null).reduce((a, b) -> b).ifPresent(p ->
                clauses.add("the latest report leaves out percentage used; it was " + p.reading().health().percentageUsed()
                    + " % on " + on(p)));
        }
        return clauses;
    }

    private static List<ProblemKind> doubts(DriveHistory history, Ratings ratings) {
        return ratings.missedByUnit(withKnownCapacity(history)) == null ? history.doubts() : history.doubted(ProblemKind.CAPACITY_DOUBTFUL).doubts();
    }

    private static LocalDate on(HistoryPoint point) {
        return LocalDate.ofInstant(point.reading().collectedAt(), ZoneOffset.UTC);
    }

    /** The in-service date, where it is this drive's: the machine's first drive, and not seen before it. */
    static LocalDate startOfService(DriveHistory history, boolean firstDriveOfMachine, LocalDate inServiceOn) {
        LocalDate firstSeenOn = LocalDate.ofInstant(history.first().reading().collectedAt(), ZoneOffset.UTC);
        return firstDriveOfMachine && inServiceOn != null && !inServiceOn.isAfter(firstSeenOn) ? inServiceOn : null;
    }

    /** {@code "between D1 and D2"} for the readings between which the controller passed 100 %, {@code null} when it did not. */
    private static String controllerCrossing(DriveHistory history) {
        LocalDate below = null;
        for (HistoryPoint point : history.points()) {
            Integer used = point.reading().health().percentageUsed();
            LocalDate on = LocalDate.ofInstant(point.reading().collectedAt(), ZoneOffset.UTC);
            if (used != null && used >= 100) {
                return below == null ? "before the first reading, " + on : "between " + below + " and " + on;
            }
            below = used == null ? below : on;
        }
        return null;
    }

    /** A drive's past as the fleet's model learns from it: by bytes, else by percentage; {@code null} when neither can be read. */
    public static WearPast past(DriveHistory history, Ratings ratings, boolean firstDriveOfMachine, LocalDate inServiceOn) {
        LocalDate startOfService = startOfService(history, firstDriveOfMachine, inServiceOn);
        WearPast byBytes = WearPast.of(history, ratings.enduranceFor(withKnownCapacity(history)), startOfService);
        return byBytes != null ? byBytes : WearPast.ofPercentage(history, startOfService);
    }

    /** The same drive as its controller's forecasts are made; {@code null} when bytes or rating are not known, or no percentage is reported. */
    public static SelfCheck.Controlled controlled(DriveHistory history, Ratings ratings, boolean firstDriveOfMachine, LocalDate inServiceOn) {
        Endurance endurance = ratings.enduranceFor(withKnownCapacity(history));
        boolean reported = history.points().stream().anyMatch(point -> point.totalBytesWritten() != null)
            && history.points().stream().anyMatch(point -> point.reading().health().percentageUsed() != null);
        return endurance == null || !reported ? null : new SelfCheck.Controlled(history, endurance, startOfService(history, firstDriveOfMachine, inServiceOn));
    }

    private static String noRateWords(int readings, boolean firstDriveOfMachine, LocalDate inServiceOn) {
        String count = readings == 1 ? "one reading with bytes written" : "no two readings a week apart within the last year";
        return inServiceOn == null ? count + (readings == 1 ? ", no in-service date and no power-on hours" : " and no in-service date")
            : !firstDriveOfMachine ? count + ", and the machine's in-service date is not this drive's"
            : count + ", and the in-service date does not precede it";
    }

    /** The latest drive record, with the capacity that most reports give: one may leave it out, or be wrong. */
    private static Drive withKnownCapacity(DriveHistory history) {
        Drive latest = history.latest().reading().drive();
        return new Drive(latest.serial(), latest.model(), latest.firmware(), history.capacityBytes(), latest.attachment());
    }

    private static DriveAssessment with(DriveAssessment a, Standing standing, String reason) {
        return new DriveAssessment(a.id(), a.latest(), a.seen(), a.wear(), a.pace(), a.outlook(), standing, reason);
    }
}
