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
 */
public record FleetModel(double shapePerQuarter, double betweenDrivesShape, double betweenDrivesRate,
                         double driftPerQuarter, boolean driftAssumed, int drives) implements Serializable {
}
