package org.wearledger.assess;

import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Rating;
import org.wearledger.model.SourcePlace;

/** Tells of the drives that no rating was found for, and which row of the ratings table may have been meant for them. */
public final class AssumedRatings {
    private AssumedRatings() {
    }

    /**
     * One note for each drive model and assumed rating, and one for each drive whose capacity misses its model's row by the ratio of two
     * units; none when every drive has a rating.
     *
     * @param drives in the order of their ids
     * @param ratings the rows of the ratings table that are used
     * @param places of those rows, in their order
     */
    public static List<Problem> notes(List<DriveAssessment> drives, List<Rating> ratings, List<SourcePlace> places) {
        Map<String, Integer> assumed = new TreeMap<>();
        Map<String, Drive> examples = new HashMap<>();
        Ratings table = Ratings.of(ratings);
        List<Problem> notes = new ArrayList<>();
        for (DriveAssessment drive : drives) {
            if (drive.wear().endurance() != null && drive.wear().endurance().assumed()) {
                String group = drive.id().model() + ", taken as " + drive.wear().endurance().ratedTerabytesWritten().stripTrailingZeros().toPlainString() + " TB";
                assumed.merge(group, 1, Integer::sum);
                examples.putIfAbsent(group, drive.latest().drive());
                Rating missed = table.missedByUnit(drive.latest().drive());
                if (missed != null) {
                    notes.add(unitOf(drive, missed));
                }
            }
        }
        NearRatings others = new NearRatings(ratings, places, drives.stream().map(drive -> drive.latest().drive()).toList());
        assumed.forEach((model, count) -> {
            String near = others.near(examples.get(model));
            notes.add(new Problem(ProblemKind.RATING_ASSUMED, SourcePlace.wholeFile("(ratings table)"), model,
                "no rating for " + count + (count == 1 ? " active drive" : " active drives") + (near.isEmpty() ? "" : "; near it, " + near),
                "a row of the ratings table for this model and capacity", "the rule of thumb of 0.6 TB written per GB stands in; "
                    + (near.isEmpty() ? "look up the maker's figure and add it" : "if that row is meant, name model and capacity as the reports do; else add one")));
        });
        return notes;
    }

    private static Problem unitOf(DriveAssessment drive, Rating missed) {
        return new Problem(ProblemKind.CAPACITY_DOUBTFUL, drive.latest().source(), drive.id().toString(), "the capacity is "
            + Ratings.gigabytes(drive.latest().drive().capacityBytes()).setScale(1, RoundingMode.HALF_UP).stripTrailingZeros().toPlainString() + " GB, where the ratings table has this model at "
            + missed.nominalCapacityGigabytes().stripTrailingZeros().toPlainString() + " GB: by their ratio another unit", "the capacity of the model's row",
            "check the unit of the capacity; until then an assumed rating stands in");
    }
}
