package org.wearledger.model;

import java.io.Serializable;

/**
 * What the drives' latest readings say in the middle of the fleet, for a reader to see whether it can be: a wrong unit shows here
 * at a glance.
 *
 * @param drives with a reading that is kept, or that was set aside because its bytes written cannot be believed
 * @param inDoubt of those, whose figures are in doubt or were set aside so
 * @param withBytes of those, that report bytes written
 * @param unchecked of {@code withBytes}, that report neither percentage used nor write commands, against which a wrong unit would show
 * @param questioned the fields that most of the doubts put in question, with their headings and units where mapped; empty without a doubt
 * @param medianTerabytesWritten {@code null} where none reports it, as the other medians
 */
public record FleetGlance(long drives, long inDoubt, long withBytes, long unchecked, String questioned, Double medianTerabytesWritten, Double medianPercentageUsed,
                          Double medianPowerOnHours) implements Serializable {
    /** Of no drive. */
    public static FleetGlance none() {
        return new FleetGlance(0, 0, 0, 0, "", null, null, null);
    }
}
