package org.wearledger.model;

import java.io.Serializable;
import java.util.Map;

/**
 * The active drives of one drive model.
 *
 * @param gigabytesPerDay spread of the drives' write rates
 * @param consumedPercentPerYear spread of rate x 365.25 / rated endurance, which compares models of unlike capacity
 * @param comparison how far this model can be told from the rest of the fleet, in words
 */
public record ModelSummary(String driveModel, int drives, Map<Standing, Integer> standings, Spread consumedPercent,
                           Spread gigabytesPerDay, Spread consumedPercentPerYear, int ratingsAssumed,
                           String comparison) implements Serializable {
    public ModelSummary {
        standings = Map.copyOf(standings);
    }
}
