package org.wearledger.stats;

import java.io.Serializable;
import java.util.Arrays;

/**
 * One unit's increments: {@code increments[j]} over {@code durations[j]}, in time order. Both above 0: an increment below
 * the counter's resolution is floored by the caller, since a gamma density has no place for 0.
 */
public record Steps(double[] durations, double[] increments) implements Serializable {
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

    public int size() {
        return durations.length;
    }

    public double totalDuration() {
        return Arrays.stream(durations).sum();
    }

    public double totalIncrement() {
        return Arrays.stream(increments).sum();
    }

    /** The first n steps. */
    public Steps first(int n) {
        return new Steps(Arrays.copyOf(durations, n), Arrays.copyOf(increments, n));
    }
}
