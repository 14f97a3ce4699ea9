package org.wearledger.model;

import java.io.Serializable;
import java.util.List;
import java.util.Map;

/**
 * The active drives of one drive model.
 *
 * @param gigabytesPerDay spread of the drives' write rates
 * @param consumedPercentPerYear spread of rate x 365.25 / rated endurance, which compares models of unlike capacity
 * @param typicalPercentPerYear geometric mean of the same, drawn towards the fleet's the more the fewer the drives; NaN without
 *     a drive of known rate and rating
 * @param typicalInterval95 its 95 % interval
 * @param group models of one group cannot be separated from its highest; 1 wears fastest, 0 for no figure
 * @param ratingsAssumed drives judged by the rule of thumb
 * @param medianPercentageUsed of the controllers' own estimate; NaN when none reports it
 * @param capacitiesGigabytes rounded, smallest first; empty when none reports it
 * @param atEqualCapacity percent of the rated endurance consumed per year, adjusted for capacity, memory, site and machine model
 * @param implied endurance by the controllers' estimate; {@code null} with too few drives that tell
 * @param againstRest how surely this model differs from the rest of the fleet
 */
public record ModelSummary(String driveModel, int drives, Map<Standing, Integer> standings, Spread consumedPercent,
                           Spread gigabytesPerDay, Spread consumedPercentPerYear, double typicalPercentPerYear,
                           Interval typicalInterval95, int group, int ratingsAssumed, double medianPercentageUsed,
                           List<Long> capacitiesGigabytes, ModelFactor atEqualCapacity, ImpliedRating implied, AgainstRest againstRest) implements Serializable {
    public ModelSummary {
        standings = Map.copyOf(standings);
        capacitiesGigabytes = List.copyOf(capacitiesGigabytes);
    }
}
