package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;

/**
 * All that is known of one machine, for its user.
 *
 * @param planned its lines of the plan
 * @param work what to do for it
 * @param refusals problems of its reports that name no drive
 */
public record MachineStory(String version, LocalDate asOf, MachineAssessment machine, List<DriveStory> drives,
                           List<PlannedReplacement> planned, List<WorkItem> work, List<Problem> refusals) implements Serializable {
    public MachineStory {
        drives = List.copyOf(drives);
        planned = List.copyOf(planned);
        work = List.copyOf(work);
        refusals = List.copyOf(refusals);
    }

    /**
     * One of its drives, active or taken out.
     *
     * @param band where its wear goes, from the as-of date on; empty without a forecast
     * @param problems of its readings
     */
    public record DriveStory(DriveAssessment drive, DriveHistory history, List<BandPoint> band, List<Problem> problems)
        implements Serializable {
        public DriveStory {
            band = List.copyOf(band);
            problems = List.copyOf(problems);
        }
    }
}
