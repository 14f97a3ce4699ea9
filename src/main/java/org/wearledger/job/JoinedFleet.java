package org.wearledger.job;

import java.io.IOException;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.spark.TaskContext;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.storage.StorageLevel;
import org.apache.spark.util.CollectionAccumulator;
import org.wearledger.assess.SelfCheck;
import org.wearledger.assess.WearModel;
import org.wearledger.assess.WearPast;
import org.wearledger.history.ColumnChanges;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.SweepSettings;

/** The fleet's drive histories, each built once and kept in its task's share, and what was found on the way. */
final class JoinedFleet {
    private static final double SAMPLE_MARGIN = 1.5;

    /** Orders drives by a hash of their names, so that the first n are a sample that no order of files changes. */
    private record BySample() implements Comparator<WearPast>, Serializable {
        @Override
        public int compare(WearPast a, WearPast b) {
            int byHash = Long.compare(ReadingBatch.hash(a.id()), ReadingBatch.hash(b.id()));
            return byHash != 0 ? byHash : a.id().compareTo(b.id());
        }
    }

    /** What the join of one share found. A share that is joined again, as when its task was lost, finds the same. */
    private record Found(int share, JoinFindings findings) implements Serializable {
    }

    private final JavaSparkContext spark;
    private final JavaRDD<ReadingBatch> readings;
    private final JavaRDD<KeptHistories> kept;
    final FleetFindings findings;
    private final Broadcast<FleetFacts> facts;

    private JoinedFleet(JavaSparkContext spark, JavaRDD<ReadingBatch> readings, JavaRDD<KeptHistories> kept, FleetFindings findings) {
        this.spark = spark;
        this.readings = readings;
        this.kept = kept;
        this.findings = findings;
        facts = spark.broadcast(FleetFacts.of(findings.placements(), findings.inputs().tables()));
    }

    /** @param partitions {@code null} for as many as the size of the input asks for */
    static JoinedFleet of(Session session, Inputs inputs, Integer partitions) throws IOException {
        // A small input is read while the session opens.
        JavaRDD<ReadingBatch> readings = Reports.read(session, inputs, partitions);
        return joined(session.spark(), readings, inputs);
    }

    /** The same reports under the limits of another request: nothing is read again. */
    JoinedFleet under(SweepRequest request) throws IOException {
        return joined(spark, readings, findings.inputs().under(request));
    }

    private static JoinedFleet joined(JavaSparkContext spark, JavaRDD<ReadingBatch> readings, Inputs inputs) throws IOException {
        Limits limits = inputs.limits();
        CollectionAccumulator<Found> found = spark.sc().collectionAccumulator();
        JavaRDD<KeptHistories> kept = readings.mapPartitions(batches -> {
            KeptHistories.Writer histories = new KeptHistories.Writer();
            JoinFindings findings = Joining.findings(batches, limits, outcome -> histories.add(outcome.history()));
            found.add(new Found(TaskContext.getPartitionId(), findings));
            return List.of(histories.written()).iterator();
        }).persist(StorageLevel.MEMORY_AND_DISK());
        spark.setJobDescription("reading reports");
        DamagedPackException.told(kept::count);
        Map<Integer, JoinFindings> byShare = new TreeMap<>();
        found.value().forEach(each -> byShare.put(each.share, each.findings));
        JoinFindings joined = JoinFindings.added(byShare.values());
        inputs.requireWhole(joined.intake);
        FleetFindings findings = FleetFindings.of(inputs, joined, changes -> outcomes(readings, KeptHistories.Wanted.ALL, limits, changes)
            .flatMap(outcome -> ColumnChanges.problems(outcome).iterator()).collect());
        return new JoinedFleet(spark, readings, findings.changes().isEmpty() ? kept : judged(kept, readings, limits, findings.changes()), findings);
    }

    /** Anew, as the changes of a whole fleet's columns let the histories stand. */
    private static JavaRDD<KeptHistories> judged(JavaRDD<KeptHistories> kept, JavaRDD<ReadingBatch> readings, Limits limits, ColumnChanges changes) {
        kept.unpersist();
        return readings.mapPartitions(batches -> {
            KeptHistories.Writer histories = new KeptHistories.Writer();
            Joining.outcomes(batches, KeptHistories.Wanted.ALL, limits, outcome -> histories.add(changes.judged(outcome).history()));
            return List.of(histories.written()).iterator();
        }).persist(StorageLevel.MEMORY_AND_DISK());
    }

    private static JavaRDD<HistoryOutcome> outcomes(JavaRDD<ReadingBatch> readings, KeptHistories.Wanted wanted, Limits limits, ColumnChanges changes) {
        return readings.mapPartitions(batches -> {
            List<HistoryOutcome> outcomes = new ArrayList<>();
            Joining.outcomes(batches, wanted, limits, outcome -> outcomes.add(changes.judged(outcome)));
            return outcomes.iterator();
        });
    }

    private JavaRDD<DriveHistory> histories(KeptHistories.Wanted wanted) {
        Broadcast<FleetFacts> shared = facts;
        return kept.flatMap(share -> share.of(wanted).iterator()).map(history -> shared.value().completed(history));
    }

    private static KeptHistories.Wanted ofDrives(Collection<DriveId> ids) {
        HashSet<Long> hashes = ids.stream().map(ReadingBatch::hash).collect(Collectors.toCollection(HashSet::new));
        return hashes::contains;
    }

    /** Of these drives, with all that their readings say. */
    Map<DriveId, DriveHistory> wholeHistories(Set<DriveId> ids) {
        Map<DriveId, DriveHistory> histories = new HashMap<>();
        outcomes(readings, ofDrives(ids), findings.inputs().limits(), findings.changes()).collect().stream().map(HistoryOutcome::history)
            .filter(history -> history != null && ids.contains(history.id())).forEach(history -> histories.put(history.id(), facts.value().completed(history)));
        return histories;
    }

    /** The wear of up to {@code most} drives by bytes, the same ones whatever the partitions; where none is known by bytes, by the controller's percentage. */
    List<WearPast> sample(int most) {
        spark.setJobDescription("learning how the fleet writes");
        List<WearPast> byBytes = sample(most, false);
        return byBytes.isEmpty() ? sample(most, true) : byBytes;
    }

    private List<WearPast> sample(int most, boolean byPercentage) {
        // Drives with a low hash are enough when enough of them turn out to have a past; to look at the others would be for nothing.
        double share = SAMPLE_MARGIN * most / Math.max(1, findings.joined().drives);
        if (share < 1) {
            long below = Long.MIN_VALUE + (long) (share * Math.pow(2, 63)) * 2;
            List<WearPast> sample = pasts(hash -> hash < below, byPercentage).takeOrdered(most, new BySample());
            if (sample.size() == most) {
                return sample;
            }
        }
        return pasts(KeptHistories.Wanted.ALL, byPercentage).takeOrdered(most, new BySample());
    }

    /** How many drives have a past by bytes and a rating. */
    long drivesByBytes() {
        return pasts(KeptHistories.Wanted.ALL, false).count();
    }

    private JavaRDD<WearPast> pasts(KeptHistories.Wanted wanted, boolean byPercentage) {
        Broadcast<FleetFacts> shared = facts;
        return histories(wanted).map(history -> shared.value().assessor(history).past()).filter(past -> past != null && past.byPercentage() == byPercentage);
    }

    /** Of the wanted drives those whose controller's forecasts can be checked. */
    Map<DriveId, SelfCheck.Controlled> controlled(Collection<WearPast> wanted) {
        HashSet<DriveId> ids = wanted.stream().map(WearPast::id).collect(Collectors.toCollection(HashSet::new));
        Broadcast<FleetFacts> shared = facts;
        spark.setJobDescription("checking earlier forecasts");
        return histories(ofDrives(ids)).filter(history -> ids.contains(history.id())).map(history -> shared.value().assessor(history).controlled())
            .filter(drive -> drive != null).collect().stream().collect(Collectors.toMap(drive -> drive.history().id(), Function.identity()));
    }

    /** Of every drive that is in a machine now, and of those that came in for repair, by id. */
    List<DriveAssessment> assessments(WearModel model, LocalDate asOf, SweepSettings settings) {
        Broadcast<FleetFacts> shared = facts;
        HashSet<DriveId> repaired = new HashSet<>(findings.repaired().drives().values());
        // The model travels in the task itself: it is a few numbers and one for each drive model.
        spark.setJobDescription("assessing drives");
        return histories(KeptHistories.Wanted.ALL).filter(history -> shared.value().isActive(history) || repaired.contains(history.id())).map(history -> shared.value().assessor(history).assess(model, asOf, settings))
            .mapPartitions(assessed -> List.of(PackedAssessments.pack(assessed)).iterator()).collect()
            .parallelStream().flatMap(share -> PackedAssessments.unpack(share).stream()).sorted(Comparator.comparing(DriveAssessment::id)).toList();
    }
}
