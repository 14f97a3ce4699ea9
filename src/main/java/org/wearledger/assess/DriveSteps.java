package org.wearledger.assess;

import java.io.Serializable;
import org.wearledger.model.DriveId;
import org.wearledger.stats.Steps;

/**
 * One drive's wear as increments, in fractions of its rated endurance over quarters of a year.
 *
 * @param id its model is the family that it is pooled with
 * @param startsInService the first step reaches back to the in-service date
 */
record DriveSteps(DriveId id, Steps steps, boolean startsInService) implements Serializable {
    /** Below this share of the drive's own mean, a quarter is idle. */
    private static final double IDLE_SHARE = 0.02;

    DriveSteps {
        steps = steps.idleJoined(IDLE_SHARE);
    }
}
