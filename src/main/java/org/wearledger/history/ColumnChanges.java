package org.wearledger.history;

import java.io.Serializable;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.wearledger.history.FleetSteps.Batch;
import org.wearledger.history.FleetSteps.Steps;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;

/**
 * Reports in which bytes written of many drives fell, or jumped by one ratio: their unit or column changed. Drives that were reset
 * are few and come one by one. A file with few drives is judged together with the others of its month.
 */
public final class ColumnChanges implements Serializable {
    private static final int FEWEST_STEPS_OF_A_FILE = 8;
    private static final long FEWEST_ODD = 3;
    private static final double LEAST_SHARE_ODD = 0.1;
    private static final double LOW_SHARE = 0.2;
    private static final double MIDDLE_SHARE = 0.5;
    /** Falls by one unit lie within half of each other; those of a column that is no total do not. */
    private static final int MOST_SPREAD_BINS = 41;
    private static final double NEAR = 0.015;

    /**
     * What changed.
     *
     * @param drives that can be compared
     * @param changed of these those that fell, or that jumped
     * @param ratio the middle one
     * @param mixed whether the ratios differ, as when a column holds what was written since the last report
     * @param unit the two units whose ratio is near; {@code null} when none is
     */
    private record Change(long drives, long changed, double ratio, boolean mixed, NearUnits unit) implements Serializable {
        Problem problem(Reading reading, String subject) {
            boolean fell = ratio < 1;
            Finding alike = fell ? Finding.COLUMN_FELL : Finding.COLUMN_JUMPED;
            Finding unequal = fell ? Finding.COLUMN_FELL_UNEQUALLY : Finding.COLUMN_JUMPED_UNEQUALLY;
            Finding finding = mixed ? unequal : alike;
            Problem problem = Problem.of(finding, reading.source(), subject).with(Fact.COUNT, changed).with(Fact.OF, drives).with(Fact.RATIO, ratio);
            return unit == null ? problem
                : problem.with(Fact.UNIT, fell ? unit.larger() : unit.smaller()).with(Fact.OTHER_UNIT, fell ? unit.smaller() : unit.larger());
        }
    }

    private final HashMap<Batch, Change> changes = new HashMap<>();

    private ColumnChanges() {
    }

    /** Found in the steps of a whole fleet. */
    public static ColumnChanges of(FleetSteps fleet) {
        ColumnChanges found = new ColumnChanges();
        Map<Integer, Steps> small = new HashMap<>();
        fleet.batches().forEach((batch, steps) -> {
            if (isLarge(steps)) {
                change(steps).ifPresent(change -> found.changes.put(batch, change));
            } else {
                small.computeIfAbsent(batch.month(), month -> new Steps()).add(steps);
            }
        });
        Map<Integer, Change> ofMonth = new HashMap<>();
        small.forEach((month, steps) -> change(steps).ifPresent(change -> ofMonth.put(month, change)));
        fleet.batches().forEach((batch, steps) -> {
            if (!isLarge(steps) && ofMonth.containsKey(batch.month())) {
                found.changes.put(batch, ofMonth.get(batch.month()));
            }
        });
        return found;
    }

    private static boolean isLarge(Steps steps) {
        return steps.count() >= FEWEST_STEPS_OF_A_FILE;
    }

    private static Optional<Change> change(Steps steps) {
        if (steps.odd() >= FEWEST_ODD && steps.odd() >= LEAST_SHARE_ODD * steps.count()) {
            boolean spread = quantile(steps.ratios(), 1 - LOW_SHARE) - quantile(steps.ratios(), LOW_SHARE) > MOST_SPREAD_BINS;
            double ratio = Math.exp(quantile(steps.ratios(), MIDDLE_SHARE) / FleetSteps.BINS_PER_UNIT);
            NearUnits unit = spread ? null : unit(Math.exp(quantile(steps.ratios(), LOW_SHARE) / FleetSteps.BINS_PER_UNIT));
            return Optional.of(new Change(steps.count(), steps.odd(), ratio, spread, unit));
        }
        long grown = steps.growths().values().stream().mapToLong(Long::longValue).sum();
        return UnitJump.of(steps.growths()).map(ratio -> new Change(steps.count(), grown, ratio, false, unit(ratio)));
    }

    /** The two units whose ratio is near; {@code null} when none is. */
    private static NearUnits unit(double ratio) {
        double logarithm = Math.log(Math.min(ratio, 1 / ratio));
        return Arrays.stream(NearUnits.values()).filter(unit -> Math.abs(logarithm + unit.logarithm()) < NEAR).findFirst().orElse(null);
    }

    /** The bin below which the share of the counts lies. */
    private static int quantile(TreeMap<Integer, Long> bins, double share) {
        long all = bins.values().stream().mapToLong(Long::longValue).sum();
        long below = 0;
        for (Map.Entry<Integer, Long> bin : bins.entrySet()) {
            below += bin.getValue();
            if (below >= share * all) {
                return bin.getKey();
            }
        }
        return bins.lastKey();
    }

    /** Whether nothing was found. */
    public boolean isEmpty() {
        return changes.isEmpty();
    }

    private Optional<Problem> problem(DriveHistory history) {
        return history.points().stream().map(point -> point.reading()).filter(isChanged()).findFirst()
            .map(reading -> changes.get(Batch.of(reading)).problem(reading, history.id().toString()));
    }

    /** The outcome, its history in doubt and told so where it has such a reading. */
    public HistoryOutcome judged(HistoryOutcome outcome) {
        Optional<Problem> problem = outcome.history() == null ? Optional.empty() : problem(outcome.history());
        return problem.isEmpty() ? outcome : new HistoryOutcome(outcome.history().doubted(ProblemKind.COLUMN_DOUBTFUL), outcome.stints(),
            Stream.concat(outcome.problems().stream(), problem.stream()).toList(), outcome.kept(), outcome.setAside(), outcome.disbelieved());
    }

    /** What was added to the outcome's problems. */
    public static List<Problem> problems(HistoryOutcome judged) {
        return judged.problems().stream().filter(problem -> problem.kind() == ProblemKind.COLUMN_DOUBTFUL).toList();
    }

    private Predicate<Reading> isChanged() {
        return reading -> reading.health().dataUnitsWritten() != null && changes.containsKey(Batch.of(reading));
    }
}
