package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;

/**
 * What one drive's history says at its latest reading. Components that could not be worked out are {@code null};
 * {@code reason} then says why.
 *
 * @param latest the latest kept reading
 * @param signs what the drive itself reports of failing; empty where its standing is not urgent
 */
public record DriveAssessment(DriveId id, Reading latest, Seen seen, Wear wear, Pace pace, Outlook outlook, Standing standing, String reason,
                              List<WarningSign> signs)
    implements Serializable {
    public DriveAssessment {
        signs = List.copyOf(signs);
    }

    /** One that reports no sign of failing. */
    public DriveAssessment(DriveId id, Reading latest, Seen seen, Wear wear, Pace pace, Outlook outlook, Standing standing, String reason) {
        this(id, latest, seen, wear, pace, outlook, standing, reason, List.of());
    }

    /**
     * How much of its life is known.
     *
     * @param inServiceOn when this drive went into service, {@code null} when not known
     * @param firstCollectedAt when the earliest kept reading was collected
     * @param readings number of kept readings
     * @param epochs number of counter epochs, 1 when no counter ever went back
     */
    public record Seen(LocalDate inServiceOn, Instant firstCollectedAt, int readings, int epochs) implements Serializable {
    }

    /**
     * What it has written, and of what.
     *
     * @param bytesWritten host bytes over all epochs
     * @param endurance rating used; {@code null} when neither a rating nor a capacity is known
     * @param consumedPercent 100 x bytes written / rated endurance
     * @param remainingTerabytes rated less written; negative past the rating
     * @param impliedEnduranceTerabytes written / percentage used, with the integer taken as plus or minus one
     */
    public record Wear(BigInteger bytesWritten, Endurance endurance, Double consumedPercent, Double remainingTerabytes,
                       Interval impliedEnduranceTerabytes) implements Serializable {
    }

    /**
     * How fast it writes.
     *
     * @param gigabytesPerDayLately Theil-Sen slope over the last year of readings, decimal GB a day
     * @param gigabytesPerDayOverLife written / days since the drive went into service; for a drive with one reading and no such date, over the
     *     age that its hours under power tell
     * @param driveWritesPerDay gigabytesPerDayLately (else over life) / capacity
     */
    public record Pace(Double gigabytesPerDayLately, Double gigabytesPerDayOverLife, Double driveWritesPerDay) implements Serializable {
        /** The rate used for comparisons: lately when known, else over life, else {@code null}. */
        public Double gigabytesPerDay() {
            return gigabytesPerDayLately != null ? gigabytesPerDayLately : gigabytesPerDayOverLife;
        }
    }

    /**
     * When it reaches its limits.
     *
     * @param projection the straight line, the baseline
     * @param ratingForecast when the rated endurance is reached; {@code null} when none can or need be made
     * @param controllerForecast when the controller's own estimate reaches 100 %; {@code null} as before
     */
    public record Outlook(Projection projection, Forecast ratingForecast, Forecast controllerForecast) implements Serializable {
        /** The larger probability of crossing either limit, {@code NaN} without a forecast. */
        public double probabilityWithin(ToDoubleFunction<Forecast> horizon) {
            return Stream.of(ratingForecast, controllerForecast).filter(Objects::nonNull).mapToDouble(horizon).max().orElse(Double.NaN);
        }
    }

    /** The same, its standing explained. */
    public DriveAssessment because(String why) {
        return new DriveAssessment(id, latest, seen, wear, pace, outlook, standing, why, signs);
    }

    private static final double MEASURES_DISAGREE_POINTS = 50;
    private static final double MEASURES_DISAGREE_FACTOR = 1.5;
    private static final BigDecimal MONTHS_PER_YEAR = BigDecimal.valueOf(12);

    /** The controller's own estimate at the latest reading, 0 to 255; {@code null} when not reported. */
    public Integer percentageUsed() {
        return latest.health().percentageUsed();
    }

    /** In-service date + warranty years of its rating, to the whole month; {@code null} when either is not known. Example: 2022-01-06 + 2.5 years is 2024-07-06. */
    public LocalDate warrantyEndsOn() {
        return seen.inServiceOn == null || wear.endurance == null || wear.endurance.warrantyYears() == null ? null
            : seen.inServiceOn.plusMonths(wear.endurance.warrantyYears().multiply(MONTHS_PER_YEAR).setScale(0, RoundingMode.HALF_UP).longValue());
    }

    /** Written so far in decimal terabytes, {@code null} when not reported. Example: 1,953,125 data units is 1.0. */
    public Double terabytesWritten() {
        return wear.bytesWritten == null ? null : wear.bytesWritten.doubleValue() / 1e12;
    }

    /**
     * The two measures disagree when one is at least 1.5 times the other, and just one of them stands at 100 % or more or they lie more
     * than 50 points apart: 103 % against 97 % is agreement, and so is 3 % against 1 %. With one of them alone there is nothing to compare,
     * nor is more written a contradiction to a percentage used that may stand for a {@linkplain Health#isUsedOpenAbove higher} one.
     */
    public boolean measuresDisagree() {
        Integer used = percentageUsed();
        Double consumedPercent = wear.consumedPercent;
        return consumedPercent != null && used != null && !(consumedPercent > used && Health.isUsedOpenAbove(used))
            && Math.max(consumedPercent, used) >= MEASURES_DISAGREE_FACTOR * Math.min(consumedPercent, used)
            && (consumedPercent >= 100 != used >= 100 || Math.abs(consumedPercent - used) > MEASURES_DISAGREE_POINTS);
    }

    /** Past its rating with two readings or more that bear each other out: what a counter has reached no later report takes back. */
    public boolean isPastRatingForGood() {
        return standing == Standing.PAST_RATING && seen.readings > 1;
    }
}
