package org.wearledger.assess;

import java.math.BigInteger;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
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

    private final DriveHistory history;
    private final boolean firstDriveOfMachine;
    private final LocalDate inServiceOn;
    /** As its latest report has it, with the capacity that most reports give: one may leave it out, or be wrong. */
    private final Drive drive;
    private final Endurance endurance;
    private final LocalDate startOfService;
    private final List<ProblemKind> doubts;

    /**
     * @param firstDriveOfMachine whether the machine's in-service date may stand for the drive's
     * @param inServiceOn the machine's, {@code null} when unknown
     */
    public DriveAssessor(DriveHistory history, Ratings ratings, boolean firstDriveOfMachine, LocalDate inServiceOn) {
        this.history = history;
        this.firstDriveOfMachine = firstDriveOfMachine;
        this.inServiceOn = inServiceOn;
        Drive latest = history.latest().reading().drive();
        drive = new Drive(latest.serial(), latest.model(), latest.firmware(), history.capacityBytes(), latest.attachment());
        endurance = ratings.enduranceFor(drive);
        boolean known = firstDriveOfMachine && inServiceOn != null && !inServiceOn.isAfter(history.first().collectedOn());
        startOfService = known ? inServiceOn : null;
        doubts = ratings.missedByUnit(drive) == null ? history.doubts() : history.doubted(ProblemKind.CAPACITY_DOUBTFUL).doubts();
    }

    /**
     * Standing, worst first: urgent by the drive's own warning; past the rating by either measure; due when the probability
     * of crossing by either measure within lead time + one quarter of {@code asOf} reaches the one set; watch the same within
     * four quarters; else within the rating. By the method of the straight line, due and watch go by its date instead. One
     * measure suffices for a standing, neither gives no verdict.
     *
     * @param model of the fleet; unused by the method of the straight line, then {@code null}
     */
    public DriveAssessment assess(WearModel model, LocalDate asOf, SweepSettings settings) {
        List<HistoryPoint> written = history.points().stream().filter(point -> point.totalBytesWritten() != null).toList();
        WriteRates rates = written.isEmpty() ? WriteRates.NONE : WriteRates.of(written, history.first().collectedOn(), firstDriveOfMachine ? inServiceOn : null,
            model == null ? PowerOnShare.ASSUMED : model.powerOn());
        DriveAssessment.Wear wear = wear(written);
        Forecasts forecasts = settings.method() == ProjectionMethod.POOLED ? new Forecasts(model, history, endurance, startOfService, asOf, settings) : null;
        DriveAssessment.Outlook outlook = new DriveAssessment.Outlook(projection(written, rates), forecasts == null ? null : forecasts.ofRating(wear.consumedPercent()),
            forecasts == null ? null : forecasts.ofController());
        WarningSigns signs = WarningSigns.of(history);
        DriveAssessment judged = new DriveAssessment(history.id(), history.latest().reading(),
            new DriveAssessment.Seen(startOfService, history.first().reading().collectedAt(), history.points().size(), epochs()), wear,
            new DriveAssessment.Pace(rates.lately(), rates.overLife(), driveWritesPerDay(rates.best())),
            outlook, standing(signs, wear.consumedPercent(), outlook, asOf, settings), "", signs.urgent());
        WritingChange change = forecasts == null ? null : forecasts.writingChange();
        return judged.because(Reasons.of(judged, signs, controllerCrossing(), leftOut(change), doubts, asOf, settings));
    }

    private int epochs() {
        return history.latest().epoch() + 1;
    }

    private DriveAssessment.Wear wear(List<HistoryPoint> written) {
        BigInteger bytesWritten = written.isEmpty() ? null : written.get(written.size() - 1).totalBytesWritten();
        Interval implied = epochs() > 1 ? null : impliedEnduranceTerabytes(bytesWritten, history.latest().reading().health().percentageUsed());
        if (bytesWritten == null || endurance == null) {
            return new DriveAssessment.Wear(bytesWritten, endurance, null, null, implied);
        }
        return new DriveAssessment.Wear(bytesWritten, endurance, endurance.consumedPercent(bytesWritten), endurance.remainingTerabytes(bytesWritten), implied);
    }

    private Projection projection(List<HistoryPoint> written, WriteRates rates) {
        if (written.isEmpty()) {
            return new Projection.None("bytes written not reported");
        }
        if (endurance == null) {
            return new Projection.None("neither a rating nor a capacity is known");
        }
        BigInteger ratedBytes = endurance.ratedTerabytesWritten().movePointRight(BYTES_TO_TERABYTES).toBigInteger();
        return Projections.project(written, ratedBytes, rates, noRateWords(written.size()));
    }

    private Double driveWritesPerDay(Double gigabytesPerDay) {
        Long capacity = drive.capacityBytes();
        return gigabytesPerDay == null || capacity == null || capacity <= 0 ? null : gigabytesPerDay / (capacity / 1e9);
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

    private Standing standing(WarningSigns signs, Double consumed, DriveAssessment.Outlook outlook, LocalDate asOf, SweepSettings settings) {
        Integer percentageUsed = lastPercentageUsed();
        if (!signs.urgent().isEmpty()) {
            return Standing.URGENT;
        }
        if (consumed != null && consumed >= 100 || percentageUsed != null && percentageUsed >= 100) {
            return Standing.PAST_RATING;
        }
        if (consumed == null && percentageUsed == null) {
            return Standing.NO_VERDICT;
        }
        return settings.method() == ProjectionMethod.POOLED ? byProbability(outlook, settings) : byDate(outlook.projection().dateOrNull(), asOf, settings);
    }

    private static Standing byProbability(DriveAssessment.Outlook outlook, SweepSettings settings) {
        // NaN, no forecast, compares false.
        if (outlook.probabilityWithin(Forecast::withinLeadTime) >= settings.dueProbability()) {
            return Standing.DUE;
        }
        return outlook.probabilityWithin(Forecast::within4Quarters) >= settings.watchProbability() ? Standing.WATCH : Standing.WITHIN_RATING;
    }

    private static Standing byDate(LocalDate reached, LocalDate asOf, SweepSettings settings) {
        long daysAhead = reached == null ? Long.MAX_VALUE : ChronoUnit.DAYS.between(asOf, reached);
        if (daysAhead <= settings.leadTimeDays() + SweepSettings.DAYS_PER_QUARTER) {
            return Standing.DUE;
        }
        return daysAhead <= WATCH_DAYS ? Standing.WATCH : Standing.WITHIN_RATING;
    }

    /** As last reported since the counters last went back: an estimate that only rises is not undone by a gap. */
    private Integer lastPercentageUsed() {
        HistoryPoint last = last(p -> p.epoch() == history.latest().epoch() && p.reading().health().percentageUsed() != null);
        return last == null ? null : last.reading().health().percentageUsed();
    }

    /** {@code null} for none. */
    private HistoryPoint last(Predicate<HistoryPoint> which) {
        for (int i = history.points().size() - 1; i >= 0; i--) {
            if (which.test(history.points().get(i))) {
                return history.points().get(i);
            }
        }
        return null;
    }

    private List<String> leftOut(WritingChange change) {
        List<String> clauses = new ArrayList<>();
        if (change != null) {
            clauses.add(change.inWords());
        }
        HistoryPoint written = last(p -> p.totalBytesWritten() != null);
        if (written != null && written != history.latest()) {
            clauses.add("the latest report leaves out bytes written; they are as of " + written.collectedOn());
        }
        HistoryPoint used = last(p -> p.reading().health().percentageUsed() != null);
        if (used != null && used != history.latest()) {
            clauses.add("the latest report leaves out percentage used; it was " + used.reading().health().percentageUsed() + " % on " + used.collectedOn());
        }
        return clauses;
    }

    /** {@code "between D1 and D2"} for the readings between which the controller passed 100 %, {@code null} when it did not. */
    private String controllerCrossing() {
        LocalDate below = null;
        for (HistoryPoint point : history.points()) {
            Integer used = point.reading().health().percentageUsed();
            LocalDate on = point.collectedOn();
            if (used != null && used >= 100) {
                return below == null ? "before the first reading, " + on : "between " + below + " and " + on;
            }
            below = used == null ? below : on;
        }
        return null;
    }

    /** The drive's past as the fleet's model learns from it: by bytes, else by percentage; {@code null} when neither can be read. */
    public WearPast past() {
        WearPast byBytes = WearPast.of(history, endurance, startOfService);
        return byBytes != null ? byBytes : WearPast.ofPercentage(history, startOfService);
    }

    /** Counts the drive in each quarter of its past. */
    public void addTo(FleetTrend trend, boolean isActive) {
        trend.add(history, endurance, isActive);
    }

    /** The drive as its controller's forecasts are made; {@code null} when bytes or rating are not known, or no percentage is reported. */
    public SelfCheck.Controlled controlled() {
        boolean reported = last(p -> p.totalBytesWritten() != null) != null && last(p -> p.reading().health().percentageUsed() != null) != null;
        return endurance == null || !reported ? null : new SelfCheck.Controlled(history, endurance, startOfService);
    }

    private String noRateWords(int readings) {
        String count = readings == 1 ? "one reading with bytes written" : "no two readings a week apart within the last year";
        if (inServiceOn == null) {
            return count + (readings == 1 ? ", no in-service date and no power-on hours" : " and no in-service date");
        }
        return count + (firstDriveOfMachine ? ", and the in-service date does not precede it" : ", and the machine's in-service date is not this drive's");
    }
}
