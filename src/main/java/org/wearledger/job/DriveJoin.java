package org.wearledger.job;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.wearledger.history.ColumnChanges;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.FleetSteps;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Stint;
import org.wearledger.intake.PackedReading;
import org.wearledger.model.DriveId;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/** Joins the readings that came to one task to the histories of its drives. All of a drive's readings come to the same task. */
final class DriveJoin {
    private DriveJoin() {
    }

    static JoinTally tally(Iterator<Parcel> parcels, Limits limits) {
        return tally(parcels, limits, outcome -> { });
    }

    /** @param also is shown each drive's outcome */
    static JoinTally tally(Iterator<Parcel> parcels, Limits limits, Consumer<HistoryOutcome> also) {
        List<IntakeTally> intake = new ArrayList<>();
        List<Reading> readings = new ArrayList<>();
        parcels.forEachRemaining(parcel -> {
            parcel.unpack(Gathered.Wanted.ALL, readings);
            intake.addAll(parcel.tally() == null ? List.of() : List.of(parcel.tally()));
        });
        List<byte[]> sightings = Sighting.latest(readings, limits).values().stream().map(PackedReading::pack).toList();
        List<Problem> problems = new ArrayList<>();
        List<Stint> stints = new ArrayList<>();
        List<LateMeasure> late = new ArrayList<>();
        FleetSteps steps = new FleetSteps();
        long kept = 0;
        long setAside = 0;
        long drives = 0;
        for (Iterator<HistoryOutcome> outcomes = outcomes(readings, limits); outcomes.hasNext();) {
            HistoryOutcome outcome = outcomes.next();
            also.accept(outcome);
            steps.add(outcome);
            problems.addAll(outcome.problems());
            stints.addAll(outcome.stints());
            late.addAll(outcome.history() == null ? List.of() : LateMeasure.of(outcome.history()));
            kept += outcome.kept();
            setAside += outcome.setAside();
            drives += outcome.history() == null ? 0 : 1;
        }
        return new JoinTally(intake, problems, kept, setAside, drives, stints, late, sightings, steps);
    }

    /** Outcomes as the changes of a whole fleet's columns let them stand. */
    static Iterator<HistoryOutcome> judged(Iterator<Parcel> parcels, Gathered.Wanted wanted, Limits limits, ColumnChanges changes) {
        List<Reading> readings = new ArrayList<>();
        parcels.forEachRemaining(parcel -> parcel.unpack(wanted, readings));
        List<HistoryOutcome> judged = new ArrayList<>();
        outcomes(readings, limits).forEachRemaining(outcome -> judged.add(changes.judged(outcome)));
        return judged.iterator();
    }

    private static Iterator<HistoryOutcome> outcomes(List<Reading> readings, Limits limits) {
        Map<DriveId, List<Reading>> byDrive = new TreeMap<>();
        readings.forEach(reading -> byDrive.computeIfAbsent(reading.drive().id(), id -> new ArrayList<>()).add(reading));
        Iterator<Map.Entry<DriveId, List<Reading>>> drives = byDrive.entrySet().iterator();
        return new Iterator<>() {
            @Override
            public boolean hasNext() {
                return drives.hasNext();
            }

            @Override
            public HistoryOutcome next() {
                Map.Entry<DriveId, List<Reading>> drive = drives.next();
                return DriveHistories.build(drive.getKey(), drive.getValue(), limits);
            }
        };
    }
}
