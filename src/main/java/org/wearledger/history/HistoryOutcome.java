package org.wearledger.history;

import java.io.Serializable;
import java.util.List;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/**
 * One drive's history and what was found on the way. Readings in = {@code kept + setAside}; each reading set aside has
 * exactly one problem with {@link Effect#READING_SET_ASIDE}.
 *
 * @param history {@code null} when no reading was kept
 * @param stints where the drive was seen, also by readings set aside for their write counter; empty when no reading was kept
 * @param problems in {@link Problem}'s order
 * @param disbelieved those of the readings set aside whose data units written do not fit the drive's others
 */
public record HistoryOutcome(DriveHistory history, List<Stint> stints, List<Problem> problems, int kept, int setAside,
                             List<Reading> disbelieved)
    implements Serializable {
    public HistoryOutcome {
        stints = List.copyOf(stints);
        disbelieved = List.copyOf(disbelieved);
        problems = problems.stream().sorted().toList();
        long named = problems.stream().filter(p -> p.kind().effect() == Effect.READING_SET_ASIDE).count();
        if (named != setAside || kept != (history == null ? 0 : history.points().size())) {
            throw new IllegalArgumentException("sums do not hold: " + kept + " kept, " + setAside
                + " set aside, of which " + named + " named");
        }
    }
}
