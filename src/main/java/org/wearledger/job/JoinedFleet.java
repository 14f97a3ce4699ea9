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
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.spark.TaskContext;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.storage.StorageLevel;
import org.apache.spark.util.CollectionAccumulator;
import org.wearledger.assess.DriveAssessor;
import org.wearledger.assess.FleetTrend;
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
import org.wearledger.model.TrendQuarter;

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
    /** Where one task joins all; {@code null} for a larger fleet. To ask it here spares a small sweep a job for each question. */
    private final KeptHistories here;
    final FleetFindings findings;
    private final FleetFacts facts;
    private Broadcast<FleetFacts> handed;

    private JoinedFleet(JavaSparkContext spark, JavaRDD<ReadingBatch> readings, JavaRDD<KeptHistories> kept, KeptHistories here, FleetFindings findings) {
        this.spark = spark;
        this.readings = readings;
        this.kept = kept;
        this.here = here;
        this.findings = findings;
        facts = FleetFacts.of(findings.placements(), findings.inputs().tables());
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
        KeptHistories here = DamagedPackException.told(() -> kept(kept));
        Map<Integer, JoinFindings> byShare = new TreeMap<>();
        found.value().forEach(each -> byShare.put(each.share, each.findings));
        JoinFindings joined = JoinFindings.added(byShare.values());
        inputs.requireWhole(joined.intake);
        FleetFindings findings = FleetFindings.of(inputs, joined, changes -> outcomes(readings, KeptHistories.Wanted.ALL, limits, changes)
            .flatMap(outcome -> ColumnChanges.problems(outcome).iterator()).collect());
        if (findings.changes().isEmpty()) {
            return new JoinedFleet(spark, readings, kept, here, findings);
        }
        JavaRDD<KeptHistories> judged = judged(kept, readings, limits, findings.changes());
        return new JoinedFleet(spark, readings, judged, here == null ? null : judged.first(), findings);
    }

    /** Joins; a single share comes here. */
    private static KeptHistories kept(JavaRDD<KeptHistories> shares) {
        if (shares.getNumPartitions() == 1) {
            return shares.first();
        }
        shares.count();
        return null;
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

    /** A question to one history, that answers {@code null} where there is nothing to say. */
    private interface Asked<T> extends Serializable {
        T of(DriveHistory history, FleetFacts facts);
    }

    private <T> JavaRDD<T> answers(KeptHistories.Wanted wanted, Asked<T> asked) {
        Broadcast<FleetFacts> shared = handed();
        return kept.flatMap(share -> share.of(wanted).iterator()).map(history -> asked.of(shared.value().completed(history), shared.value())).filter(Objects::nonNull);
    }

    private <T> Stream<T> answersHere(KeptHistories.Wanted wanted, Asked<T> asked) {
        return here.of(wanted).stream().map(history -> asked.of(facts.completed(history), facts)).filter(Objects::nonNull);
    }

    private static KeptHistories.Wanted ofDrives(Collection<DriveId> ids) {
        HashSet<Long> hashes = ids.stream().map(ReadingBatch::hash).collect(Collectors.toCollection(HashSet::new));
        return hashes::contains;
    }

    /** Of these drives, with all that their readings say. */
    Map<DriveId, DriveHistory> wholeHistories(Set<DriveId> ids) {
        Map<DriveId, DriveHistory> histories = new HashMap<>();
        outcomes(readings, ofDrives(ids), findings.inputs().limits(), findings.changes()).collect().stream().map(HistoryOutcome::history)
            .filter(history -> history != null && ids.contains(history.id())).forEach(history -> histories.put(history.id(), facts.completed(history)));
        return histories;
    }

    /** The wear of up to {@code most} drives by bytes, the same ones whatever the partitions; where none is known by bytes, by the controller's percentage. */
    List<WearPast> sample(int most) {
        spark.setJobDescription("learning how the fleet writes");
        List<WearPast> byBytes = sample(most, false);
        return byBytes.isEmpty() ? sample(most, true) : byBytes;
    }

    private List<WearPast> sample(int most, boolean byPercentage) {
        // Sample by hash; look at the others only if too few of those have a past.
        double share = SAMPLE_MARGIN * most / Math.max(1, findings.joined().drives);
        if (share < 1) {
            long below = Long.MIN_VALUE + (long) (share * Math.pow(2, 63)) * 2;
            List<WearPast> sample = first(most, hash -> hash < below, byPercentage);
            if (sample.size() == most) {
                return sample;
            }
        }
        return first(most, KeptHistories.Wanted.ALL, byPercentage);
    }

    private List<WearPast> first(int most, KeptHistories.Wanted wanted, boolean byPercentage) {
        return here != null ? answersHere(wanted, past(byPercentage)).sorted(new BySample()).limit(most).toList()
            : answers(wanted, past(byPercentage)).takeOrdered(most, new BySample());
    }

    /** How many drives have a past by bytes and a rating. */
    long drivesByBytes() {
        return here != null ? answersHere(KeptHistories.Wanted.ALL, past(false)).count() : answers(KeptHistories.Wanted.ALL, past(false)).count();
    }

    private static Asked<WearPast> past(boolean byPercentage) {
        return (history, known) -> {
            WearPast past = known.assessor(history).past();
            return past != null && past.byPercentage() == byPercentage ? past : null;
        };
    }

    /** Of the wanted drives those whose controller's forecasts can be checked. */
    Map<DriveId, SelfCheck.Controlled> controlled(Collection<WearPast> wanted) {
        HashSet<DriveId> ids = wanted.stream().map(WearPast::id).collect(Collectors.toCollection(HashSet::new));
        Asked<SelfCheck.Controlled> controlled = (history, known) -> ids.contains(history.id()) ? known.assessor(history).controlled() : null;
        spark.setJobDescription("checking earlier forecasts");
        Stream<SelfCheck.Controlled> drives = here != null ? answersHere(ofDrives(ids), controlled) : answers(ofDrives(ids), controlled).collect().stream();
        return drives.collect(Collectors.toMap(drive -> drive.history().id(), Function.identity()));
    }

    /**
     * @param drives every drive that is in a machine now, and those that came in for repair, by id
     * @param trend of all drives
     */
    record Assessed(List<DriveAssessment> drives, List<TrendQuarter> trend) {
    }

    private record PackedShare(byte[] assessments, FleetTrend trend) implements Serializable {
    }

    /** One question to all histories. */
    Assessed assessed(WearModel model, LocalDate asOf, SweepSettings settings) {
        HashSet<DriveId> repaired = new HashSet<>(findings.repaired().drives().values());
        Judge judge = (history, known, trend) -> {
            DriveAssessor assessor = known.assessor(history);
            assessor.addTo(trend, known.isActive(history));
            // The model travels in the task itself: it is a few numbers and one for each drive model.
            return known.isActive(history) || repaired.contains(history.id()) ? assessor.assess(model, asOf, settings) : null;
        };
        int recentDays = settings.recentDays();
        FleetTrend trend = new FleetTrend(asOf, recentDays);
        spark.setJobDescription("assessing drives");
        Stream<DriveAssessment> drives;
        if (here != null) {
            drives = assess(here, facts, judge, trend);
        } else {
            Broadcast<FleetFacts> shared = handed();
            List<PackedShare> shares = kept.map(share -> {
                FleetTrend own = new FleetTrend(asOf, recentDays);
                return new PackedShare(PackedAssessments.pack(assess(share, shared.value(), judge, own).iterator()), own);
            }).collect();
            shares.forEach(share -> trend.add(share.trend));
            drives = shares.parallelStream().flatMap(share -> PackedAssessments.unpack(share.assessments).stream());
        }
        List<DriveAssessment> byId = drives.sorted(Comparator.comparing(DriveAssessment::id)).toList();
        return new Assessed(byId, trend.quarters());
    }

    /** Gives {@code null} for a drive that is not assessed. */
    private interface Judge extends Serializable {
        DriveAssessment of(DriveHistory history, FleetFacts known, FleetTrend trend);
    }

    private static Stream<DriveAssessment> assess(KeptHistories share, FleetFacts known, Judge judge, FleetTrend trend) {
        return share.of(KeptHistories.Wanted.ALL).stream().map(history -> judge.of(known.completed(history), known, trend)).filter(Objects::nonNull);
    }

    private Broadcast<FleetFacts> handed() {
        handed = handed == null ? spark.broadcast(facts) : handed;
        return handed;
    }
}
