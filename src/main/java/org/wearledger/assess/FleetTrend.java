package org.wearledger.assess;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.TreeMap;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.TrendQuarter;
import org.wearledger.stats.Quartiles;

/**
 * How worn the fleet was, quarter by quarter. A drive counts in each calendar quarter from its first reading to its last, with its
 * latest reading up to the quarter's end: one quarter without a report leaves no gap. In the quarter of the as-of date those count
 * that are in a machine now and were read recently. Ratings are those of today, so that one measure holds for all quarters.
 *
 * <p>Sums of shares of the fleet are the same in any order. Consumed endurance goes in by tenths of a percent.
 */
public final class FleetTrend implements Serializable {
    private static final int TENTHS = 10;
    private static final double NINETIETH = 0.9;

    private static final class Quarter implements Serializable {
        private final TreeMap<Long, Integer> drivesByTenths = new TreeMap<>();
        private final HashSet<String> machinesPast = new HashSet<>();
    }

    private final TreeMap<LocalDate, Quarter> quarters = new TreeMap<>();
    private final LocalDate asOf;
    private final int recentDays;

    /** @param recentDays how old the latest reading of a drive may be at the as-of date */
    public FleetTrend(LocalDate asOf, int recentDays) {
        this.asOf = asOf;
        this.recentDays = recentDays;
    }

    /**
     * @param endurance {@code null} when not known; the drive then counts by its controller alone
     * @param isActive whether it is in a machine now
     */
    void add(DriveHistory history, Endurance endurance, boolean isActive) {
        LocalDate current = quarterOf(asOf);
        LocalDate end = lastQuarter(history, isActive);
        List<HistoryPoint> points = history.points();
        Double consumed = null;
        Integer used = null;
        int next = 0;
        for (LocalDate from = quarterOf(points.get(0).collectedOn()); !from.isAfter(end); from = from.plusMonths(3)) {
            LocalDate following = from.plusMonths(3);
            HistoryPoint written = null;
            for (; next < points.size() && points.get(next).collectedOn().isBefore(following); next++) {
                HistoryPoint point = points.get(next);
                written = point.totalBytesWritten() == null ? written : point;
                used = point.reading().health().percentageUsed() == null ? used : point.reading().health().percentageUsed();
            }
            if (written != null && endurance != null) {
                consumed = endurance.consumedPercent(written.totalBytesWritten());
            }
            if (from.isBefore(current) || isActive) {
                add(from, consumed, used, points.get(next - 1).reading().machine().id());
            }
        }
    }

    private LocalDate lastQuarter(DriveHistory history, boolean isActive) {
        LocalDate last = history.latest().collectedOn();
        return quarterOf(isActive && !last.isBefore(asOf.minusDays(recentDays)) ? asOf : last);
    }

    private void add(LocalDate from, Double consumed, Integer used, String machineId) {
        Quarter quarter = quarters.computeIfAbsent(from, unseen -> new Quarter());
        if (consumed != null) {
            quarter.drivesByTenths.merge(BigDecimal.valueOf(consumed * TENTHS).setScale(0, RoundingMode.HALF_UP).longValueExact(), 1, Integer::sum);
        }
        if (consumed != null && consumed >= 100 || used != null && used >= 100) {
            quarter.machinesPast.add(DriveId.fold(machineId));
        }
    }

    /** With the drives of another share of the fleet. */
    public void add(FleetTrend other) {
        other.quarters.forEach((from, theirs) -> {
            Quarter ours = quarters.computeIfAbsent(from, unseen -> new Quarter());
            theirs.drivesByTenths.forEach((tenths, drives) -> ours.drivesByTenths.merge(tenths, drives, Integer::sum));
            ours.machinesPast.addAll(theirs.machinesPast);
        });
    }

    /** In time order; percentiles by definition 7 of Hyndman and Fan, as {@link Quartiles}. */
    public List<TrendQuarter> quarters() {
        List<TrendQuarter> trend = new ArrayList<>();
        quarters.forEach((from, quarter) -> {
            int drives = quarter.drivesByTenths.values().stream().mapToInt(Integer::intValue).sum();
            trend.add(new TrendQuarter(from, drives, percent(0.5, quarter.drivesByTenths), percent(NINETIETH, quarter.drivesByTenths), quarter.machinesPast.size()));
        });
        return trend;
    }

    private static Double percent(double p, TreeMap<Long, Integer> drivesByTenths) {
        return drivesByTenths.isEmpty() ? null : (Double) (Quartiles.quantile(p, drivesByTenths) / TENTHS);
    }

    private static LocalDate quarterOf(LocalDate day) {
        return LocalDate.of(day.getYear(), day.getMonth().firstMonthOfQuarter(), 1);
    }
}
