package org.wearledger.assess;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Reading;
import org.wearledger.stats.Discount;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Steps;

/** Days on which a drive's machine got a new user, and what its past is worth after them. */
public final class UserChanges {
    /** Of a drive's distance from the fleet: the machine and its place stay, the person does not. Assumed, since no data at hand tell it. */
    static final double CARRIED = 0.5;

    private UserChanges() {
    }

    /**
     * The history with the day that the inventory tells, where its latest report tells none.
     *
     * @param userSince {@code null} when the inventory does not tell it either
     */
    public static DriveHistory told(DriveHistory history, LocalDate userSince) {
        HistoryPoint latest = history.latest();
        Reading r = latest.reading();
        if (userSince == null || r.machine().userSince() != null) {
            return history;
        }
        List<HistoryPoint> points = new ArrayList<>(history.points());
        Reading told = new Reading(r.source(), r.collectedAt(), r.machine().usedSince(userSince), r.drive(), r.health());
        points.set(points.size() - 1, new HistoryPoint(told, latest.epoch(), latest.totalBytesWritten()));
        return new DriveHistory(history.id(), points, history.doubts());
    }

    /**
     * The belief about a drive after its steps, discounted at each change of user. A step in which the user changed counts for whoever had
     * the longer part of it.
     *
     * @param lastMillis when the last step ended
     * @param untilMillis later changes are not known yet
     */
    static RateBelief beliefAfter(WearModel model, WearPast past, Steps steps, long lastMillis, long untilMillis) {
        RateBelief population = model.familyPrior(past.id().model());
        RateBelief belief = population;
        int from = 0;
        for (long change : past.userChanges()) {
            if (change <= untilMillis) {
                int to = firstStepAfter(change, steps, lastMillis);
                belief = Discount.of(learned(model, belief, steps, from, to), population, CARRIED);
                from = to;
            }
        }
        return learned(model, belief, steps, from, steps.size());
    }

    private static RateBelief learned(WearModel model, RateBelief belief, Steps steps, int from, int to) {
        return model.drift().after(belief, model.population().eta(),
            new Steps(Arrays.copyOfRange(steps.durations(), from, to), Arrays.copyOfRange(steps.increments(), from, to)));
    }

    /** The number of the first step whose middle is not before the moment; that of all steps when there is none. */
    private static int firstStepAfter(long millis, Steps steps, long lastMillis) {
        int step = steps.size();
        double end = lastMillis;
        while (step > 0 && end - steps.durations()[step - 1] * WearPast.MILLIS_PER_QUARTER / 2 >= millis) {
            end -= steps.durations()[--step] * WearPast.MILLIS_PER_QUARTER;
        }
        return step;
    }
}
