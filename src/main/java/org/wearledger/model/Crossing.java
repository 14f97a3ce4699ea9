package org.wearledger.model;

import java.io.Serializable;
import java.time.Instant;
import java.util.List;

/**
 * What a forecast rests on, as far as a budget needs it: the belief about the drive's rate, and the wear still to go, both in
 * fractions of the rated endurance.
 *
 * @param beliefShape delta of the gamma belief about the inverse scale of the drive's increments, at its latest reading
 * @param beliefRate gamma of that belief
 * @param remaining equally likely values of the wear still to go: one for the rating, several for a rounded percentage
 * @param readAt the latest reading that it rests on
 */
public record Crossing(double beliefShape, double beliefRate, List<Double> remaining, Instant readAt)
    implements Serializable {
    public Crossing {
        remaining = List.copyOf(remaining);
    }
}
