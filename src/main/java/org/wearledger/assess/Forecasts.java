package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.CoarseIncrement;
import org.wearledger.stats.FirstPassage;
import org.wearledger.stats.RateBelief;

/**
 * One drive's forecasts for two thresholds: its rated endurance, and the 100 % of the controller's own estimate.
 *
 * <p>A controller's whole number p stands for anything from p - 1 to p + 1; its forecast is the mean over five values in
 * that range. Where bytes are reported the drive's rate is theirs, and the writes left until 100 % are W (100 - p) / p;
 * below 5 % that quotient is too coarse, and none is made. Where bytes are not reported, the rise of p between two bounds
 * is all there is to learn from, and the fleet's spread of write wear stands in for that of the controller's estimate.
 */
final class Forecasts {
    private static final double MOST_QUARTERS = 40;
    private static final double EVIDENCE_FACTOR = 3;
    private static final int LEAST_PERCENTAGE = 5;
    private static final double[] WITHIN_ROUNDING = {-0.8, -0.4, 0, 0.4, 0.8};

    private final WearModel model;
    private final DriveHistory history;
    private final Endurance endurance;
    private final LocalDate startOfService;
    private final LocalDate asOf;
    private final SweepSettings settings;
    /** {@code null} where bytes are not reported. */
    private final HistoryPoint latest;
    /** The drive's own past and what is believed after it; {@code null} when bytes or rating are not known. */
    private final WearPast own;
    private final RateBelief belief;

    /**
     * @param endurance {@code null} when not known
     * @param startOfService of the drive, {@code null} when not known
     */
    Forecasts(WearModel model, DriveHistory history, Endurance endurance, LocalDate startOfService, LocalDate asOf, SweepSettings settings) {
        this.model = model;
        this.history = history;
        this.endurance = endurance;
        this.startOfService = startOfService;
        this.asOf = asOf;
        this.settings = settings;
        latest = latestWritten();
        own = WearPast.of(history, endurance, startOfService);
        belief = own == null ? null : UserChanges.beliefAfter(model, own, own.stepsForForecast(), own.atMillis()[own.atMillis().length - 1], knownUntil());
    }

    /** {@code null} when the readings do not show one clearly. */
    WritingChange writingChange() {
        return own == null ? null : WritingChange.of(model, own);
    }

    /** {@code null} when bytes or rating are not known, or the rating is passed. */
    Forecast ofRating() {
        double remaining = own == null ? 0 : 1 - consumed();
        return remaining <= 0 ? null : forecast(belief, new double[] {remaining}, latest, observedQuarters(own), basis(own));
    }

    /** {@code null} when the percentage used is not known, too coarse, or at 100 already. */
    Forecast ofController() {
        Integer used = history.latest().reading().health().percentageUsed();
        if (used == null || used >= 100) {
            return null;
        }
        if (own == null) {
            return ofControllerAlone(used);
        }
        if (!isForecastByWrites(used)) {
            return null;
        }
        return forecast(belief, remainingUntil(100, used), latest, observedQuarters(own), basis(own) + ", and the controller's " + used + " %, give or take 1");
    }

    /** The chance that the controller's percentage passes {@code level} within so many quarters of the latest reading; {@code NaN} where bytes and it are not forecast together. */
    double controllerPasses(double level, double quarters) {
        Integer used = history.latest().reading().health().percentageUsed();
        return own == null || !isForecastByWrites(used) ? Double.NaN : model.probabilityOfReaching(belief, quarters, remainingUntil(level, used));
    }

    private boolean isForecastByWrites(Integer used) {
        return used != null && used >= LEAST_PERCENTAGE && used < 100 && history.latest().epoch() == 0 && latest == history.latest();
    }

    /** Writes until the controller's percentage is {@code level}, for each of the values that {@code used} may stand for. */
    private double[] remainingUntil(double level, int used) {
        double written = consumed();
        return Arrays.stream(WITHIN_ROUNDING).map(off -> used + off).map(p -> written * (level - p) / p).toArray();
    }

    private Forecast ofControllerAlone(int used) {
        HistoryPoint latest = history.latest();
        List<HistoryPoint> reported = history.points().stream()
            .filter(p -> p.epoch() == latest.epoch() && p.reading().health().percentageUsed() != null).toList();
        HistoryPoint first = reported.get(0);
        Instant from = startOfService != null && latest.epoch() == 0 ? startOfService.atStartOfDay(ZoneOffset.UTC).toInstant()
            : first.reading().collectedAt();
        double elapsed = WearPast.quarters(from.toEpochMilli(), latest.reading().collectedAt().toEpochMilli());
        int before = startOfService != null && latest.epoch() == 0 ? 0 : first.reading().health().percentageUsed();
        double rise = Math.max(0, used - before);
        RateBelief prior = model.familyPrior(history.id().model());
        RateBelief belief = elapsed <= 0 ? prior : CoarseIncrement.learn(prior, model.population().eta(), elapsed,
            Math.max(0, rise - 1) / 100, used == Health.USED_AT_ITS_LIMIT ? Double.POSITIVE_INFINITY : (rise + 1) / 100);
        double[] remaining = Arrays.stream(WITHIN_ROUNDING).map(off -> (100 - Math.max(0, used + off)) / 100).toArray();
        return forecast(belief, remaining, latest, Math.max(0, elapsed), "pooled model, from the controller's percentage alone");
    }

    private Forecast forecast(RateBelief now, double[] remaining, HistoryPoint latest, double observedQuarters, String basis) {
        Instant latestAt = latest.reading().collectedAt();
        double since = Math.max(0, WearPast.quarters(latestAt.toEpochMilli(),
            asOf.atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli()));
        double leadTime = 1 + settings.leadTimeDays() / SweepSettings.DAYS_PER_QUARTER;
        return new Forecast(date(now, remaining, latestAt, 0.1), date(now, remaining, latestAt, 0.5),
            date(now, remaining, latestAt, 0.9), model.probabilityOfReaching(now, since + leadTime, remaining),
            model.probabilityOfReaching(now, since + 1, remaining), model.probabilityOfReaching(now, since + 2, remaining),
            model.probabilityOfReaching(now, since + 4, remaining), model.probabilityOfReaching(now, since + 8, remaining),
            day(latestAt, EVIDENCE_FACTOR * observedQuarters), basis,
            new Crossing(now.shape(), now.rate(), Arrays.stream(remaining).boxed().toList(), latestAt));
    }

    private LocalDate date(RateBelief now, double[] remaining, Instant latestAt, double p) {
        double quarters = FirstPassage.timeOf(t -> model.probabilityOfReaching(now, t, remaining), p, MOST_QUARTERS);
        return Double.isInfinite(quarters) ? null : day(latestAt, quarters);
    }

    private static LocalDate day(Instant from, double quarters) {
        return LocalDate.ofInstant(from.plusMillis(Math.round(quarters * WearPast.MILLIS_PER_QUARTER)), ZoneOffset.UTC);
    }

    private static double observedQuarters(WearPast own) {
        return own.isAgeInferred() ? 0 : own.steps().totalDuration();
    }

    private static String basis(WearPast own) {
        int steps = own.stepsForForecast().size();
        return steps == 0 ? "pooled model, from the fleet alone: one reading and no in-service date"
            : own.isAgeInferred() ? "pooled model, one reading, age inferred from power-on hours (a lower bound)"
            : "pooled model, " + steps + (steps == 1 ? " step" : " steps") + " of this drive"
                + (own.startMillis() == null ? "" : " since it went into service");
    }

    private long knownUntil() {
        return asOf == null ? history.latest().reading().collectedAt().toEpochMilli() : asOf.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli() - 1;
    }

    private HistoryPoint latestWritten() {
        return history.points().stream().filter(p -> p.totalBytesWritten() != null).reduce((a, b) -> b).orElse(null);
    }

    private double consumed() {
        return DriveAssessor.consumedPercent(latest.totalBytesWritten(), endurance.ratedTerabytesWritten()) / 100;
    }
}
