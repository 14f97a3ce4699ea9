package org.wearledger.job;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.history.FleetSteps;
import org.wearledger.history.Stint;
import org.wearledger.model.Problem;

/**
 * What a task that joined readings has to tell.
 *
 * @param intake tallies of reading that came to it
 * @param problems of histories
 * @param drives that have a history
 * @param stints of those drives
 * @param late measures that its drives came to report later
 * @param steps of their data units written
 * @param sightings the latest reading of each machine among its drives, packed
 */
record JoinTally(List<IntakeTally> intake, List<Problem> problems, long kept, long setAside, long drives, List<Stint> stints,
                 List<LateMeasure> late, List<byte[]> sightings, FleetSteps steps) implements Serializable {

    /** Totals of many. */
    static JoinTally added(List<JoinTally> tallies) {
        List<IntakeTally> intake = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        List<Stint> stints = new ArrayList<>();
        List<LateMeasure> late = new ArrayList<>();
        List<byte[]> sightings = new ArrayList<>();
        tallies.forEach(tally -> {
            intake.addAll(tally.intake);
            problems.addAll(tally.problems);
            stints.addAll(tally.stints);
            late.addAll(tally.late);
            sightings.addAll(tally.sightings);
        });
        return new JoinTally(intake, problems, tallies.stream().mapToLong(JoinTally::kept).sum(), tallies.stream().mapToLong(JoinTally::setAside).sum(),
            tallies.stream().mapToLong(JoinTally::drives).sum(), stints, late, sightings,
            FleetSteps.added(tallies.stream().map(JoinTally::steps).toList()));
    }
}
