package org.wearledger.stats;

import java.io.Serializable;
import java.util.Arrays;
import java.util.function.DoublePredicate;
import java.util.function.IntPredicate;

/**
 * One unit's increments: {@code increments[j]} over {@code durations[j]}, in time order. Both above 0: an increment below
 * the counter's resolution is floored by the caller, since a gamma density has no place for 0.
 */
public record Steps(double[] durations, double[] increments) implements Serializable {
    /** @throws IllegalArgumentException for lists of unlike length, or a duration or increment that is not above 0 */
    public Steps {
        if (durations.length != increments.length) {
            throw new IllegalArgumentException("as many durations as increments, not " + durations.length + " and "
                + increments.length);
        }
        durations = durations.clone();
        increments = increments.clone();
        for (int j = 0; j < durations.length; j++) {
            Checked.positive("duration", durations[j]);
            Checked.positive("increment", increments[j]);
        }
    }

    /** Number of steps; 0 for a unit that was seen once. */
    public int size() {
        return durations.length;
    }

    /** T = sum of the durations; 0 without steps. */
    public double totalDuration() {
        return Arrays.stream(durations).sum();
    }

    /** X = sum of the increments; 0 without steps. */
    public double totalIncrement() {
        return Arrays.stream(increments).sum();
    }

    /** The first n steps. */
    public Steps first(int n) {
        return new Steps(Arrays.copyOf(durations, n), Arrays.copyOf(increments, n));
    }

    /**
     * The same unit with idle steps joined to a neighbour: one whose increment is below {@code share} of what the unit's
     * mean rate makes of its duration is added to the step after it, the last to the one before. A gamma density all but
     * forbids an idle quarter, so that a few of them would pull the fitted shape, and every interval with it, far too wide;
     * joined, they still count in full as time without writes.
     */
    public Steps idleJoined(double share) {
        double rate = totalIncrement() / totalDuration();
        return joined(j -> increments[j] >= share * rate * durations[j], j -> true);
    }

    /** The same unit with steps joined until each has at least this increment; what is left over goes to the last. */
    public Steps joinedTo(double least) {
        return joined(j -> true, sum -> sum >= least);
    }

    private Steps joined(IntPredicate endsAt, DoublePredicate isEnough) {
        double[] joinedDurations = new double[size()];
        double[] joinedIncrements = new double[size()];
        int count = 0;
        double duration = 0;
        double increment = 0;
        for (int j = 0; j < size(); j++) {
            duration += durations[j];
            increment += increments[j];
            if (endsAt.test(j) && isEnough.test(increment)) {
                joinedDurations[count] = duration;
                joinedIncrements[count++] = increment;
                duration = 0;
                increment = 0;
            }
        }
        if (duration > 0) {
            count = Math.max(1, count);
            joinedDurations[count - 1] += duration;
            joinedIncrements[count - 1] += increment;
        }
        return new Steps(Arrays.copyOf(joinedDurations, count), Arrays.copyOf(joinedIncrements, count));
    }
}
