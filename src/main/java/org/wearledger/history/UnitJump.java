package org.wearledger.history;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.wearledger.history.FleetSteps.Growth;

/**
 * Tells totals that all jumped by the ratio of two near units from a fleet that writes more or less than it did. By a
 * unit every total jumps alike; by a change of pace those jump most that grow most. Each cause is scored by the squared distances
 * of what it says from what came, in units of a drive's usual scatter, none counted for more than 3 of them.
 */
final class UnitJump {
    /** A step's scatter as a share of its usual growth, and what rounding adds; of simulated and real fleets, wide. */
    private static final double SCATTER = 0.35;
    private static final double ROUNDING = 0.01;
    private static final double MOST_DISTANCE = 9;
    /** How much better than no change, and than any common pace, a unit must be. */
    private static final double BETTER_THAN_NONE = 25;
    private static final double BETTER_THAN_PACE = 1;
    /** A jump by MiB for MB is as small as a busy quarter. */
    private static final List<NearUnits> UNITS = Arrays.stream(NearUnits.values()).filter(unit -> unit != NearUnits.MEBIBYTE).toList();
    /** No whole fleet was seen to write more than twice, or less than a tenth, of what it did; one that does is worth a look. */
    private static final double[] PACES = {0.1, 0.3, 0.5, 0.7, 1.3, 1.6, 2};

    private UnitJump() {
    }

    /** The factor by which all jumped, below 1 for a fall; empty when a change of pace says it as well. */
    static Optional<Double> of(TreeMap<Growth, Long> growths) {
        double bestOfPace = score(growths, usual -> 0);
        double none = bestOfPace;
        for (double pace : PACES) {
            bestOfPace = Math.min(bestOfPace, score(growths, usual -> Math.log1p(pace * Math.expm1(usual)) - usual));
        }
        double best = Double.MAX_VALUE;
        double jump = 0;
        for (NearUnits unit : UNITS) {
            for (double logarithm : new double[] {unit.logarithm(), -unit.logarithm()}) {
                double score = score(growths, usual -> logarithm);
                if (score < best) {
                    best = score;
                    jump = logarithm;
                }
            }
        }
        return best + BETTER_THAN_NONE <= none && best + BETTER_THAN_PACE <= bestOfPace ? Optional.of(Math.exp(jump)) : Optional.empty();
    }

    /** @param said growth beyond the usual one, both logarithms */
    private static double score(TreeMap<Growth, Long> growths, ToDoubleFunction<Double> said) {
        double sum = 0;
        for (Map.Entry<Growth, Long> counted : growths.entrySet()) {
            double usual = counted.getKey().usual() / FleetSteps.BINS_PER_UNIT;
            double distance = (counted.getKey().beyond() / FleetSteps.BINS_PER_UNIT - said.applyAsDouble(usual)) / (SCATTER * usual + ROUNDING);
            sum += counted.getValue() * Math.min(MOST_DISTANCE, distance * distance);
        }
        return sum;
    }
}
