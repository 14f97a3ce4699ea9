package org.wearledger.assess;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.wearledger.model.BacktestCase;
import org.wearledger.model.Calibration;
import org.wearledger.model.Calibration.Measure;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SweepSettings;

/**
 * Do the sweep's own forecasts hold? Ranges made from past sweeps, with their knowledge only, against what came one and four quarters
 * later: of the writes, and of the controller's percentage.
 */
public final class SelfCheck {
    private static final List<Integer> HORIZONS = List.of(1, 4);
    private static final double LEVEL = 0.9;
    private static final int PERCENTAGE_AT_ITS_LIMIT = 255;
    /** What a whole number may stand for, as in a forecast. */
    private static final double[] WITHIN_ROUNDING = {-0.8, 0, 0.8};

    /**
     * A drive as its controller's forecasts are made.
     *
     * @param endurance known
     * @param startOfService {@code null} when unknown
     */
    public record Controlled(DriveHistory history, Endurance endurance, LocalDate startOfService) implements Serializable {
    }

    /** One range and whether it held. */
    private record Tried(Measure measure, int horizon, int quarter, boolean held) {
    }

    private SelfCheck() {
    }

    /** @param controlled histories of the fleet's drives, asked for only when there is something to check */
    public static Calibration of(Collection<WearPast> fleet, Supplier<Map<DriveId, Controlled>> controlled) {
        List<Backtest.Meeting> meetings = Backtest.meetings(fleet, HORIZONS);
        if (meetings.isEmpty()) {
            return new Calibration(List.of());
        }
        Map<DriveId, Controlled> histories = controlled.get();
        List<Tried> tried = meetings.parallelStream().flatMap(meeting -> tried(meeting, histories.get(meeting.past().id())).stream()).toList();
        List<Calibration.Check> checks = new ArrayList<>();
        for (Measure measure : Measure.values()) {
            List<Tried> own = tried.stream().filter(each -> each.measure == measure).toList();
            if (!own.isEmpty()) {
                HORIZONS.forEach(horizon -> checks.add(new Calibration.Check(measure, horizon, origins(own.stream().filter(each -> each.horizon == horizon).toList()))));
            }
        }
        return new Calibration(checks);
    }

    private static List<Calibration.Origin> origins(List<Tried> tried) {
        TreeMap<Integer, List<Tried>> byQuarter = tried.stream().collect(Collectors.groupingBy(Tried::quarter, TreeMap::new, Collectors.toList()));
        return byQuarter.values().stream().map(origin -> new Calibration.Origin(origin.size(), origin.stream().filter(Tried::held).count())).toList();
    }

    private static List<Tried> tried(Backtest.Meeting meeting, Controlled controlled) {
        List<Tried> tried = new ArrayList<>();
        tried.add(tried(Measure.WRITES, meeting, meeting.pit()));
        if (controlled != null) {
            ofController(meeting, controlled).ifPresent(pit -> tried.add(tried(Measure.CONTROLLER, meeting, pit)));
        }
        return tried;
    }

    private static Tried tried(Measure measure, Backtest.Meeting meeting, double pit) {
        return new Tried(measure, meeting.horizon(), meeting.origin().quarter(), BacktestCase.isWithin(pit, LEVEL));
    }

    /** The forecast's distribution function at the later percentage, the mean over what both whole numbers may stand for; empty where none is made. */
    private static Optional<Double> ofController(Backtest.Meeting meeting, Controlled drive) {
        List<HistoryPoint> points = drive.history.points();
        int base = indexAt(points, meeting.past().atMillis()[meeting.base()]);
        int target = indexAt(points, meeting.past().atMillis()[meeting.target()]);
        Integer used = points.get(target).reading().health().percentageUsed();
        if (used == null || used >= PERCENTAGE_AT_ITS_LIMIT || points.get(target).epoch() > 0) {
            return Optional.empty();
        }
        DriveHistory known = new DriveHistory(drive.history.id(), points.subList(0, base + 1));
        Forecasts forecasts = new Forecasts(meeting.origin().model(), known, drive.endurance, drive.startOfService, null, SweepSettings.withDefaults());
        double passed = Arrays.stream(WITHIN_ROUNDING).map(off -> forecasts.controllerPasses(used + off, meeting.quarters())).average().orElseThrow();
        return Double.isNaN(passed) ? Optional.empty() : Optional.of(1 - passed);
    }

    private static int indexAt(List<HistoryPoint> points, long millis) {
        int at = points.size() - 1;
        while (points.get(at).reading().collectedAt().toEpochMilli() > millis) {
            at--;
        }
        return at;
    }
}
