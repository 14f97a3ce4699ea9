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
}
