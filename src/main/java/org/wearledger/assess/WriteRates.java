package org.wearledger.assess;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.TheilSen;

/**
 * How fast a drive is written, in decimal GB a day.
 *
 * @param lately Theil-Sen slope, never below 0, over the readings of the 365 days up to the latest that reports writes, of more than two a
 *     day the last of each;
 *     {@code null} when they span less than a week
 * @param latelyReadings readings that {@code lately} rests on
 * @param overLife written / days from in-service date to that latest reading; where the date is unknown, less than one day before, or later
 *     than the first reading, from the day that the only reading's hours under power tell; {@code null} without either
 * @param lifeStartsOn start of {@code overLife}, {@code null} with it
 * @param ageInferred from hours under power
 */
record WriteRates(Double lately, int latelyReadings, Double overLife, LocalDate lifeStartsOn, boolean ageInferred) {
    static final WriteRates NONE = new WriteRates(null, 0, null, null, false);
    static final Duration LATELY = Duration.ofDays(365);

    /** Two exports of one afternoon say nothing of a quarter. */
    static final Duration LEAST_SPAN = Duration.ofDays(7);

    /** Two a day. */
    private static final int MOST_POINTS = 732;
    private static final double BYTES_PER_GIGABYTE = 1e9;
    private static final double MILLIS_PER_DAY = 86_400_000;

    /**
     * @param written points with a total, in time order, at least one
     * @param startOfService {@code null} when unknown
     * @param shares which part of the day machines run
     */
    static WriteRates of(List<HistoryPoint> written, LocalDate firstSeenOn, LocalDate startOfService, PowerOnShare shares) {
        HistoryPoint latest = written.get(written.size() - 1);
        Instant since = latest.reading().collectedAt().minus(LATELY);
        List<HistoryPoint> recent = fewer(written.stream().filter(p -> !p.reading().collectedAt().isBefore(since)).toList());
        Duration span = Duration.between(recent.get(0).reading().collectedAt(), latest.reading().collectedAt());
        Double lately = span.compareTo(LEAST_SPAN) < 0 ? null : slope(recent);
        LocalDate latestOn = latest.reading().collectedOn();
        boolean known = startOfService != null && !startOfService.isAfter(firstSeenOn) && startOfService.isBefore(latestOn);
        LocalDate inferred = lately == null && written.size() == 1 ? inferredStart(latest, latestOn, shares) : null;
        LocalDate start = known ? startOfService : inferred;
        Double overLife = start == null ? null : latest.totalBytesWritten().doubleValue() / BYTES_PER_GIGABYTE / ChronoUnit.DAYS.between(start, latestOn);
        return new WriteRates(lately, recent.size(), overLife, start, start != null && !known);
    }

    /** The last of each day where there are many: hourly reports would make 38 million slopes a drive. */
    private static List<HistoryPoint> fewer(List<HistoryPoint> recent) {
        if (recent.size() <= MOST_POINTS) {
            return recent;
        }
        Map<LocalDate, HistoryPoint> lastOfDay = new TreeMap<>();
        recent.forEach(point -> lastOfDay.put(point.reading().collectedOn(), point));
        return List.copyOf(lastOfDay.values());
    }

    private static LocalDate inferredStart(HistoryPoint only, LocalDate on, PowerOnShare shares) {
        double quarters = shares.quarters(WearPast.powerOnQuarters(only), only.reading().machine().model());
        return quarters < WearPast.LEAST_QUARTERS ? null : on.minusDays(Math.round(quarters * SweepSettings.DAYS_PER_QUARTER));
    }

    private static double slope(List<HistoryPoint> points) {
        HistoryPoint first = points.get(0);
        double[] days = points.stream().mapToDouble(p -> Duration.between(first.reading().collectedAt(),
            p.reading().collectedAt()).toMillis() / MILLIS_PER_DAY).toArray();
        // Differences first: a double holds the increase exactly enough where it might not hold the total.
        double[] gigabytes = points.stream().mapToDouble(p -> p.totalBytesWritten()
            .subtract(first.totalBytesWritten()).doubleValue() / BYTES_PER_GIGABYTE).toArray();
        return Math.max(0, TheilSen.slope(days, gigabytes).orElse(0));
    }

    /** Lately when known, else over life, else {@code null}. */
    Double best() {
        return lately != null ? lately : overLife;
    }

    String basis() {
        if (lately != null) {
            return "straight line, Theil-Sen over " + latelyReadings + " readings of the last year";
        }
        return ageInferred ? "straight line, average over an age inferred from power-on hours" : "straight line, average since in service";
    }
}
