package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.CoarseIncrement;
import org.wearledger.stats.FirstPassage;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Steps;

/**
 * One drive's forecasts for two thresholds: its rated endurance, and the 100 % of the controller's own estimate.
 *
 * <p>A controller's whole number p stands for anything from p - 1 to p + 1; its forecast is the mean over five values in
 * that range. Where bytes are reported the drive's rate is theirs, and the writes left until 100 % are the points to go times the writes
 * that a point takes by its {@link Amplification}; below 5 % that is too coarse, and none is made. Where bytes are not reported, the rise
 * of p is learned from, as a fleet without bytes is fitted.
 */
final class Forecasts {
    private static final double MOST_QUARTERS = 40;
    private static final double EVIDENCE_FACTOR = 3;
    private static final int LEAST_PERCENTAGE = 5;
    private static final double MOST_QUARTERS_OF_AMPLIFICATION = 16;
    private static final double[] WITHIN_ROUNDING = {-0.8, -0.4, 0, 0.4, 0.8};
    /** The middles of five equally likely parts of a standard normal variable, with its variance. */
    private static final double[] EQUALLY_LIKELY = {-1.4634, -0.5988, 0, 0.5988, 1.4634};

    private final WearModel model;
    private final DriveHistory history;
    private final LocalDate startOfService;
    private final LocalDate asOf;
    private final SweepSettings settings;
    /** {@code null} where bytes are not reported. */
    private final HistoryPoint latest;
    /** The drive's own past; {@code null} when bytes or rating are not known. */
    private final WearPast own;
    /** What is believed after it; {@code null} also when no time is known over which it was written. */
    private final RateBelief belief;

    /**
     * @param endurance {@code null} when not known
     * @param startOfService of the drive, {@code null} when not known
     */
    Forecasts(WearModel model, DriveHistory history, Endurance endurance, LocalDate startOfService, LocalDate asOf, SweepSettings settings) {
        this.model = model;
        this.history = history;
        this.startOfService = startOfService;
        this.asOf = asOf;
        this.settings = settings;
        latest = latestWritten();
        own = WearPast.of(history, endurance, startOfService);
        Steps steps = own == null ? null : model.steps(own);
        belief = steps == null || steps.size() == 0 ? null : beliefAfter(own, steps);
    }

    private RateBelief beliefAfter(WearPast past, Steps steps) {
        return UserChanges.beliefAfter(model, past, steps, past.atMillis()[past.atMillis().length - 1], knownUntil());
    }

    /** {@code null} when the readings do not show one clearly. */
    WritingChange writingChange() {
        return own == null ? null : WritingChange.of(model, own);
    }

    /** {@code null} when bytes, rating or the drive's pace are not known, or the rating is passed. */
    Forecast ofRating(Double consumedPercent) {
        double remaining = own == null || belief == null ? 0 : 1 - consumedPercent / 100;
        return remaining <= 0 ? null : forecast(belief, new double[] {remaining}, latest, observedQuarters(own), basis(own));
    }

    /** {@code null} when the percentage used or the drive's pace is not known, it is too coarse, or at 100 already. */
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
        return !isForecastByWrites(used) ? Double.NaN : model.probabilityOfReaching(belief, quarters, remainingUntil(level, used));
    }

    private boolean isForecastByWrites(Integer used) {
        return belief != null && used != null && used >= LEAST_PERCENTAGE && used < 100 && history.latest().epoch() == 0 && latest == history.latest()
            // Of readings within a day the past has the first, which may say too little.
            && model.amplification().now(own) != null;
    }

    /** Writes until the controller's percentage is {@code level}: points to go times what a point takes, the slower the fewer points to go. */
    private double[] remainingUntil(double level, int used) {
        Amplification.Now now = model.amplification().now(own);
        double quarters = Math.min(MOST_QUARTERS_OF_AMPLIFICATION, Math.max(0, level - used) * Math.exp(now.log() + belief.meanLog()) / model.population().eta());
        double deviation = Math.sqrt(now.variance() + model.amplification().varianceAhead(quarters));
        return IntStream.range(0, WITHIN_ROUNDING.length).mapToDouble(i ->
            Math.max(0, level - used - WITHIN_ROUNDING[i]) * Math.exp(now.log() - deviation * EQUALLY_LIKELY[i])).toArray();
    }

    private Forecast ofControllerAlone(int used) {
        WearPast past = WearPast.ofPercentage(history, startOfService);
        Steps steps = model.steps(past);
        if (steps.size() == 0) {
            return null;
        }
        RateBelief belief = steps.size() > 1 ? beliefAfter(past, steps) : afterRise(past, steps);
        double[] remaining = Arrays.stream(WITHIN_ROUNDING).map(off -> (100 - Math.max(0, used + off)) / 100).toArray();
        return forecast(belief, remaining, history.latest(), observedQuarters(past), "pooled model, from the controller's percentage alone");
    }

    /** One rise, known within a point either way. */
    private RateBelief afterRise(WearPast past, Steps step) {
        int last = past.wear().length - 1;
        double rise = past.wear()[last] - (last == 0 || past.startMillis() != null ? 0 : past.wear()[0]);
        double scale = step.totalIncrement() / Math.max(rise, past.leastIncrement());
        RateBelief mean = CoarseIncrement.learn(model.familyPrior(history.id().model()), model.population().eta(), step.totalDuration(),
            scale * Math.max(0, rise - 0.01), scale * (rise + 0.01));
        return model.drift().lately(mean, step.totalDuration());
    }

    private Forecast forecast(RateBelief now, double[] remaining, HistoryPoint latest, double observedQuarters, String basis) {
        Instant latestAt = latest.reading().collectedAt();
        double since = Math.max(0, WearPast.quarters(latestAt.toEpochMilli(),
            asOf.atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli()));
        double leadTime = 1 + settings.leadTimeDays() / SweepSettings.DAYS_PER_QUARTER;
        FirstPassage passage = new FirstPassage(quarters -> model.probabilityOfReaching(now, quarters, remaining), MOST_QUARTERS);
        double withinLeadTime = passage.by(since + leadTime);
        double[] within = DoubleStream.of(1, 2, 4, 8).map(quarters -> passage.by(since + quarters)).toArray();
        return new Forecast(date(passage, latestAt, 0.1), date(passage, latestAt, 0.5), date(passage, latestAt, 0.9), withinLeadTime, within[0], within[1], within[2], within[3],
            day(latestAt, EVIDENCE_FACTOR * observedQuarters), basis,
            new Crossing(now.shape(), now.rate(), Arrays.stream(remaining).boxed().toList(), latestAt));
    }

    private static LocalDate date(FirstPassage passage, Instant latestAt, double p) {
        return passage.dateOf(p, latestAt, WearPast.MILLIS_PER_QUARTER);
    }

    private static LocalDate day(Instant from, double quarters) {
        return LocalDate.ofInstant(from.plusMillis(Math.round(quarters * WearPast.MILLIS_PER_QUARTER)), ZoneOffset.UTC);
    }

    private static double observedQuarters(WearPast own) {
        return own.isAgeInferred() ? 0 : own.steps().totalDuration();
    }

    private String basis(WearPast own) {
        int steps = model.steps(own).size();
        return own.isAgeInferred() ? String.format(Locale.ROOT, "pooled model, one reading, age inferred from power-on hours: about %.1f years", model.powerOn().inferredQuarters(own) / 4)
            : "pooled model, " + steps + (steps == 1 ? " step" : " steps") + " of this drive"
                + (own.startMillis() == null ? "" : " since it went into service");
    }

    private long knownUntil() {
        return asOf == null ? history.latest().reading().collectedAt().toEpochMilli() : asOf.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli() - 1;
    }

    private HistoryPoint latestWritten() {
        return history.points().stream().filter(p -> p.totalBytesWritten() != null).reduce((a, b) -> b).orElse(null);
    }
}
