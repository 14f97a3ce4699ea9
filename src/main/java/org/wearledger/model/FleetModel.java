package org.wearledger.model;

import java.io.Serializable;

/**
 * The wear model as fitted, for the method page. Wear in fractions of the rated endurance, time in quarters.
 *
 * @param shapePerQuarter eta
 * @param betweenDrivesShape delta0
 * @param betweenDrivesRate gamma0
 * @param driftPerQuarter standard deviation of the log rate's walk
 * @param driftAssumed histories too short to learn drift from
 * @param drives how many drives the fit rests on
 * @param sharedShockPerQuarter standard deviation of the part of that walk which all drives share
 * @param shockPairs pairs of neighbouring quarters that it was learned from, beside the 0.2 that counts as four
 */
public record FleetModel(double shapePerQuarter, double betweenDrivesShape, double betweenDrivesRate,
                         double driftPerQuarter, boolean driftAssumed, int drives, double sharedShockPerQuarter,
                         int shockPairs) implements Serializable {
}
