package org.wearledger.model;

import java.io.Serializable;

/**
 * The active drives in machines of one model, or at one site.
 *
 * @param gigabytesPerHour median of written / power-on hours; NaN when none tells
 * @param perHour gigabytes written per power-on hour
 * @param perDay gigabytes written per day, where need be over the age that the hours tell
 * @param wear percent of the rated endurance consumed per year; adjusted for capacity and drive model too
 */
public record ComparedGroup(String name, int drives, double gigabytesPerHour, ModelFactor perHour, ModelFactor perDay, ModelFactor wear)
    implements Serializable {
    /** By hours where they were compared, else by days. */
    public ModelFactor best() {
        return perHour.separation() == Separation.NOT_COMPARED ? perDay : perHour;
    }

    /** More or less than the typical only where hours and days both say so, if both were compared: else what the other says. */
    public Separation separation() {
        Separation byBest = best().separation();
        boolean isToBeAgreed = byBest.standsOut() && perDay.separation() != Separation.NOT_COMPARED && perDay.separation() != byBest;
        return !isToBeAgreed ? byBest : perDay.separation().standsOut() ? Separation.CANNOT_BE_SEPARATED : perDay.separation();
    }
}
