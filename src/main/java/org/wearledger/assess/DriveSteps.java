package org.wearledger.assess;

import java.io.Serializable;
import org.wearledger.model.DriveId;
import org.wearledger.stats.Steps;

/**
 * One drive of a fleet to be fitted: its increments of wear, in fractions of the rated endurance over quarters, idle ones
 * joined to their neighbours.
 *
 * @param id its model is the family that it is pooled with
 */
record DriveSteps(DriveId id, Steps steps) implements Serializable {
    /** Below this share of the drive's own mean, a quarter is idle. */
    private static final double IDLE_SHARE = 0.02;

    DriveSteps {
        steps = steps.idleJoined(IDLE_SHARE);
    }
}
