package org.wearledger.assess;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
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
            List<NearRatings.Row> near = others.near(examples.get(model));
            notes.add(Problem.of(Finding.NO_RATING, SourcePlace.wholeFile("(ratings table)"), model).with(Fact.COUNT, count)
                .with(Fact.PLACE, near.stream().map(row -> row.place().place()).toList()).with(Fact.NEAR, near.stream().map(row -> row.rating().driveModel()).toList())
                .with(Fact.GIGABYTES, near.stream().map(row -> row.rating().nominalCapacityGigabytes().stripTrailingZeros().toPlainString()).toList()));
        });
        return notes;
    }

    private static Problem unitOf(DriveAssessment drive, Rating missed) {
        return Problem.of(Finding.CAPACITY_NOT_RATED, drive.latest().source(), drive.id().toString()).with(Fact.CAPACITY_BYTES, drive.latest().drive().capacityBytes())
            .with(Fact.GIGABYTES, missed.nominalCapacityGigabytes().stripTrailingZeros().toPlainString());
    }
}
