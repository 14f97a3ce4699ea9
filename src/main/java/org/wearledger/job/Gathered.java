package org.wearledger.job;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.storage.StorageLevel;
import org.wearledger.assess.DriveAssessor;
import org.wearledger.assess.Ratings;
import org.wearledger.assess.WearPast;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Placements;
import org.wearledger.history.Stint;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.PackedReading;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.Accounting;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import scala.Tuple2;

/** What a sweep and a backtest both begin with: files read, readings joined to drive histories, all of it counted. */
final class Gathered {
    private static final long BYTES_PER_PART = 16L << 20;
    private static final long HASH_MULTIPLIER = 0x9E3779B97F4A7C15L;

    /** One step through a file, its reading packed; {@code drive} and {@code reading} are {@code null} where there was none. */
    private record Packed(DriveId drive, byte[] reading, List<Problem> problems, int records, int filesRead) implements Serializable {
        static Packed of(ReportReader.Item item) {
            List<Reading> values = item.outcome().values();
            Reading reading = values.isEmpty() ? null : values.get(0);
            return new Packed(reading == null ? null : reading.drive().id(), reading == null ? null : PackedReading.pack(reading),
                item.outcome().problems(), item.records(), item.filesRead());
        }
    }

    /** What the driver must know of one partition of files. */
    private record IntakeTally(List<Problem> problems, long filesRead, long records, long readings) implements Serializable {
        static Iterator<IntakeTally> of(Iterator<Packed> items) {
            List<Problem> problems = new ArrayList<>();
            long filesRead = 0;
            long records = 0;
            long readings = 0;
            while (items.hasNext()) {
                Packed item = items.next();
                problems.addAll(item.problems());
                filesRead += item.filesRead();
                records += item.records();
                readings += item.reading() == null ? 0 : 1;
            }
            return List.of(new IntakeTally(problems, filesRead, records, readings)).iterator();
        }
    }

    /** What the driver must know of one drive's history. */
    private record Tally(List<Problem> problems, int kept, int setAside, List<Stint> stints) implements Serializable {
        static Tally of(HistoryOutcome drive) {
            return new Tally(drive.problems(), drive.kept(), drive.setAside(),
                drive.history() == null ? List.of() : Placements.stintsOf(drive.history()));
        }
    }

    /** Orders drives by a hash of their names, so that the first n are a sample that no order of files changes. */
    private record BySample() implements Comparator<WearPast>, Serializable {
        @Override
        public int compare(WearPast a, WearPast b) {
            int byHash = Long.compare(hash(a.id()), hash(b.id()));
            return byHash != 0 ? byHash : a.id().compareTo(b.id());
        }

        private static long hash(DriveId id) {
            return (id.model().hashCode() * 31L + id.serial().hashCode()) * HASH_MULTIPLIER;
        }
    }

    final JavaSparkContext spark;
    final FoundFiles found;
    final SideTableSet tables;
    final Accounting accounting;
    /** Of reports and histories; those of the side tables are {@link SideTableSet#problems()}. */
    final List<Problem> problems;
    /** Every reading, packed. */
    final JavaRDD<byte[]> readings;
    final JavaRDD<DriveHistory> histories;
    final Limits limits;
    final int parts;
    final Broadcast<Placements> placements;
    final Broadcast<Ratings> ratings;
    final Broadcast<Map<String, LocalDate>> inService;

    /** @param partitions {@code null} for as many as the size of the input asks for */
    Gathered(JavaSparkContext spark, SweepRequest request, Integer partitions) throws IOException {
        this.spark = spark;
        found = FoundFiles.find(request.reports());
        tables = SideTableSet.load(request, found);
        limits = limits(request);
        FieldMapping mapping = request.mapping() == null ? FieldMapping.none() : FieldMapping.load(Path.of(request.mapping()));
        // Small enough that a few parts fit in memory side by side, and no more of them than that: each costs its start.
        parts = partitions != null ? partitions : (int) Math.max(spark.defaultParallelism(), found.estimatedBytes() / BYTES_PER_PART);
        // On disk, not in memory: a large fleet's readings are read several times, but never all at once.
        JavaRDD<Packed> intake = spark.parallelize(found.reports(), parts).flatMap(file -> new ReportReader(file, mapping)).map(Packed::of)
            .persist(StorageLevel.DISK_ONLY());
        JavaRDD<Packed> withReading = intake.filter(item -> item.reading() != null);
        readings = withReading.map(Packed::reading);
        Limits shared = limits;
        JavaRDD<HistoryOutcome> drives = withReading.mapToPair(item -> new Tuple2<>(item.drive(), item.reading())).groupByKey(parts)
            .map(drive -> DriveHistories.build(drive._1(), unpacked(drive._2()), shared));
        histories = drives.filter(drive -> drive.history() != null).map(HistoryOutcome::history);

        spark.setJobDescription("reading reports");
        List<IntakeTally> intakeTallies = intake.mapPartitions(IntakeTally::of).collect();
        problems = new ArrayList<>();
        intakeTallies.forEach(tally -> problems.addAll(tally.problems()));
        spark.setJobDescription("joining histories");
        List<Tally> tallies = drives.map(Tally::of).collect();
        tallies.forEach(tally -> problems.addAll(tally.problems()));
        accounting = accounting(intakeTallies, tallies);
        placements = spark.broadcast(Placements.of(tallies.stream().flatMap(tally -> tally.stints().stream()).toList()));
        ratings = spark.broadcast(Ratings.of(tables.ratings().values()));
        Map<String, LocalDate> inServiceOn = new HashMap<>();
        for (InventoryEntry entry : tables.inventory().values()) {
            inServiceOn.put(DriveId.fold(entry.machineId()), entry.inServiceOn());
        }
        inService = spark.broadcast(inServiceOn);
    }

    private static Limits limits(SweepRequest request) {
        LocalDate asOf = request.settings().asOf();
        return new Limits(request.now(), asOf == null ? null
            : asOf.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().minusNanos(1));
    }

    private static Collection<Reading> unpacked(Iterable<byte[]> packed) {
        List<Reading> readings = new ArrayList<>();
        packed.forEach(reading -> readings.add(PackedReading.unpack(reading)));
        return readings;
    }

    /** Each side of each sum is counted where it arises, so that a sum that does not hold is seen. */
    private Accounting accounting(List<IntakeTally> intake, List<Tally> tallies) {
        Map<Effect, Long> counts = problems.stream().collect(Collectors.groupingBy(p -> p.kind().effect(), Collectors.counting()));
        long filesRefused = counts.getOrDefault(Effect.FILE_REFUSED, 0L);
        long recordsRefused = counts.getOrDefault(Effect.RECORD_REFUSED, 0L);
        long files = found.reports().size();
        return new Accounting(files, intake.stream().mapToLong(IntakeTally::filesRead).sum(), filesRefused,
            intake.stream().mapToLong(IntakeTally::records).sum(), recordsRefused,
            intake.stream().mapToLong(IntakeTally::readings).sum(),
            tallies.stream().mapToLong(Tally::kept).sum(), tallies.stream().mapToLong(Tally::setAside).sum(),
            found.passedOver().size(), tables.names().size());
    }

    /** The wear of up to {@code most} drives, the same ones whatever the partitions. */
    List<WearPast> sample(int most) {
        spark.setJobDescription("learning how the fleet writes");
        return pasts().takeOrdered(most, new BySample());
    }

    /** The wear of every drive whose bytes and rating are known. */
    JavaRDD<WearPast> pasts() {
        Broadcast<Ratings> sharedRatings = ratings;
        Broadcast<Placements> sharedPlacements = placements;
        Broadcast<Map<String, LocalDate>> sharedInService = inService;
        return histories.map(history -> DriveAssessor.past(history, sharedRatings.value(),
                sharedPlacements.value().firstDriveOf(history.id()), startOfService(history, sharedInService.value())))
            .filter(past -> past != null);
    }

    /** When the drive's first machine went into service: as its first report says, else as the inventory does. */
    static LocalDate startOfService(DriveHistory history, Map<String, LocalDate> inventory) {
        Machine first = history.first().reading().machine();
        return first.inServiceOn() != null ? first.inServiceOn() : inventory.get(DriveId.fold(first.id()));
    }
}
