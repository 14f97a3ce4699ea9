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
import java.util.function.Function;
import java.util.function.LongPredicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.wearledger.assess.DriveAssessor;
import org.wearledger.assess.Ratings;
import org.wearledger.assess.SelfCheck;
import org.wearledger.assess.UserChanges;
import org.wearledger.assess.WearPast;
import org.wearledger.history.ColumnChanges;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Placements;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.QuestionedFields;
import org.wearledger.model.Accounting;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;

/** What a sweep and a backtest both begin with: files read, readings joined to drive histories, all of it counted. */
final class Gathered {
    private static final double SAMPLE_MARGIN = 1.5;

    /** Orders drives by a hash of their names, so that the first n are a sample that no order of files changes. */
    private record BySample() implements Comparator<WearPast>, Serializable {
        @Override
        public int compare(WearPast a, WearPast b) {
            int byHash = Long.compare(Parcel.hash(a.id()), Parcel.hash(b.id()));
            return byHash != 0 ? byHash : a.id().compareTo(b.id());
        }
    }

    /** Which drives, by their hash. */
    interface Wanted extends LongPredicate, Serializable {
        Wanted ALL = hash -> true;
    }

    private final JavaRDD<Parcel> parcels;
    private final List<PackFolder> packs;
    private final Session session;
    final JavaSparkContext spark;
    private final FoundFiles found;
    /** Files that are no reports, by name. */
    final List<String> passedOver;
    final SideTableSet tables;
    final Accounting accounting;
    /** Of reports and histories; those of the side tables are {@link SideTableSet#problems()}. */
    final List<Problem> problems;
    /** The latest reading of each machine, by its folded id. */
    final Map<String, Sighting> machines;
    /** Drives that have a history. */
    final long drives;
    final Limits limits;
    final Broadcast<Placements> placements;
    private final Broadcast<ColumnChanges> changes;
    final Broadcast<Ratings> ratings;
    final Broadcast<Map<String, LocalDate>> inService;
    /** As the inventory tells it; {@code null} when it tells none. */
    private final Broadcast<Map<String, LocalDate>> userSince;

    /** @param partitions {@code null} for as many as the size of the input asks for */
    Gathered(Session session, SweepRequest request, Integer partitions) throws IOException {
        this(session, request, FoundFiles.find(request.reports()), partitions, null);
    }

    /** The same reports under other limits: nothing is read again. */
    Gathered under(SweepRequest request) throws IOException {
        return new Gathered(session, request, found, null, parcels);
    }

    /** @param alreadyRead {@code null} when the files are still to be read */
    private Gathered(Session session, SweepRequest request, FoundFiles found, Integer partitions, JavaRDD<Parcel> alreadyRead) throws IOException {
        this.session = session;
        this.found = found;
        tables = SideTableSet.load(request, found);
        limits = request.limits();
        FieldMapping mapping = request.fieldMapping();
        packs = Packs.load(found, request.pseudonyms());
        parcels = alreadyRead != null ? alreadyRead : Reports.read(session, found, packs, mapping, partitions);
        spark = session.spark();
        Limits shared = limits;
        spark.setJobDescription("reading reports");
        JoinTally joined = JoinTally.added(DamagedPackException.told(
            () -> parcels.mapPartitions(some -> List.of(DriveJoin.tally(some, shared)).iterator()).collect()));
        Packs.requireWhole(packs, joined.intake());
        Map<String, FileSummary> files = FileSummary.added(joined.intake().stream().flatMap(tally -> tally.files().stream()).toList());
        QuestionedFields fields = new QuestionedFields(mapping, files.values());
        problems = new ArrayList<>(fields.withHeadings(joined.problems()));
        joined.intake().forEach(tally -> problems.addAll(tally.problems()));
        files.values().forEach(file -> problems.addAll(file.problems(mapping)));
        packs.forEach(pack -> problems.addAll(pack.problems()));
        passedOver = new ArrayList<>(found.passedOver());
        packs.forEach(pack -> passedOver.addAll(pack.contents().passedOver()));
        passedOver.sort(null);
        accounting = accounting(joined, files.values());
        drives = joined.drives();
        machines = Sighting.ofPacked(joined.sightings(), limits);
        changes = spark.broadcast(ColumnChanges.of(joined.steps()));
        if (!changes.value().isEmpty()) {
            problems.addAll(fields.withHeadings(outcomes(Wanted.ALL).flatMap(outcome -> ColumnChanges.problems(outcome).iterator()).collect()));
        }
        placements = spark.broadcast(Placements.of(joined.stints(), tables.drivesReplacedOn(limits)));
        problems.addAll(MissingColumns.problems(problems, joined, placements.value(), mapping.filesReadUnder(files.values())));
        ratings = spark.broadcast(Ratings.of(tables.ratings().values()));
        Map<String, LocalDate> inServiceOn = new HashMap<>();
        for (InventoryEntry entry : tables.inventory().values()) {
            inServiceOn.put(DriveId.fold(entry.machineId()), entry.inServiceOn());
        }
        inService = spark.broadcast(inServiceOn);
        Map<String, LocalDate> users = new HashMap<>();
        tables.inventory().values().stream().filter(entry -> entry.userSince() != null).forEach(entry -> users.put(DriveId.fold(entry.machineId()), entry.userSince()));
        userSince = users.isEmpty() ? null : spark.broadcast(users);
    }

    /** The histories of the wanted drives, built anew each time: they take several times the room of packed readings. */
    JavaRDD<DriveHistory> histories(Wanted wanted) {
        JavaRDD<DriveHistory> histories = outcomes(wanted).filter(outcome -> outcome.history() != null).map(HistoryOutcome::history);
        Broadcast<Map<String, LocalDate>> sharedUsers = userSince;
        return sharedUsers == null ? histories
            : histories.map(history -> UserChanges.told(history, sharedUsers.value().get(DriveId.fold(history.latest().reading().machine().id()))));
    }

    private JavaRDD<HistoryOutcome> outcomes(Wanted wanted) {
        Limits shared = limits;
        Broadcast<ColumnChanges> sharedChanges = changes;
        return parcels.mapPartitions(some -> DriveJoin.judged(some, wanted, shared, sharedChanges.value()));
    }

    /** Each side of each sum is counted where it arises, so that a sum that does not hold is seen. */
    private Accounting accounting(JoinTally joined, Collection<FileSummary> files) {
        Map<Effect, Long> counts = Stream.concat(problems.stream(), tables.problems().stream()).collect(Collectors.groupingBy(p -> p.kind().effect(), Collectors.summingLong(Problem::count)));
        long readings = joined.intake().stream().mapToLong(IntakeTally::readings).sum();
        return new Accounting(found.reports().size() + Packs.inPacks(packs, PackFolder.Contents::filesFound),
            files.stream().filter(FileSummary::isReadToTheEnd).count() + Packs.inPacks(packs, PackFolder.Contents::filesRead), counts.getOrDefault(Effect.FILE_READ_IN_PART, 0L), counts.getOrDefault(Effect.FILE_REFUSED, 0L),
            joined.intake().stream().mapToLong(IntakeTally::recordsOfFiles).sum() + Packs.inPacks(packs, PackFolder.Contents::records),
            counts.getOrDefault(Effect.RECORD_REFUSED, 0L), readings, joined.kept(), joined.setAside(), passedOver.size(), tables.names().size(),
            tables.rows(), tables.rowsRead(), counts.getOrDefault(Effect.ROW_REFUSED, 0L));
    }

    /** The wear of up to {@code most} drives by bytes, the same ones whatever the partitions; where none is known by bytes, by the controller's percentage. */
    List<WearPast> sample(int most) {
        spark.setJobDescription("learning how the fleet writes");
        List<WearPast> byBytes = sample(most, false);
        return byBytes.isEmpty() ? sample(most, true) : byBytes;
    }

    private List<WearPast> sample(int most, boolean byPercentage) {
        // Drives with a low hash are enough when enough of them turn out to have a past; to build the others would be for nothing.
        double share = SAMPLE_MARGIN * most / Math.max(1, drives);
        if (share < 1) {
            long below = Long.MIN_VALUE + (long) (share * Math.pow(2, 63)) * 2;
            List<WearPast> sample = pasts(hash -> hash < below).filter(past -> past.byPercentage() == byPercentage).takeOrdered(most, new BySample());
            if (sample.size() == most) {
                return sample;
            }
        }
        return pasts(Wanted.ALL).filter(past -> past.byPercentage() == byPercentage).takeOrdered(most, new BySample());
    }

    /** The wear of every wanted drive: by bytes where they and a rating are known, else by the controller's percentage. */
    JavaRDD<WearPast> pasts(Wanted wanted) {
        Broadcast<Ratings> sharedRatings = ratings;
        Broadcast<Placements> sharedPlacements = placements;
        Broadcast<Map<String, LocalDate>> sharedInService = inService;
        return histories(wanted).map(history -> DriveAssessor.past(history, sharedRatings.value(),
                sharedPlacements.value().firstDriveOf(history.id()), startOfService(history, sharedInService.value())))
            .filter(past -> past != null);
    }

    /** Of the wanted drives those whose controller's forecasts can be checked. */
    Map<DriveId, SelfCheck.Controlled> controlled(Collection<WearPast> wanted) {
        Set<DriveId> ids = wanted.stream().map(WearPast::id).collect(Collectors.toCollection(HashSet::new));
        Set<Long> hashes = ids.stream().map(Parcel::hash).collect(Collectors.toCollection(HashSet::new));
        Broadcast<Ratings> sharedRatings = ratings;
        Broadcast<Placements> sharedPlacements = placements;
        Broadcast<Map<String, LocalDate>> sharedInService = inService;
        spark.setJobDescription("checking earlier forecasts");
        return histories(hashes::contains).filter(history -> ids.contains(history.id())).map(history -> DriveAssessor.controlled(history, sharedRatings.value(),
                sharedPlacements.value().firstDriveOf(history.id()), startOfService(history, sharedInService.value())))
            .filter(drive -> drive != null).collect().stream().collect(Collectors.toMap(drive -> drive.history().id(), Function.identity()));
    }

    /** When the drive's first machine went into service: as its first report says, else as the inventory does. */
    static LocalDate startOfService(DriveHistory history, Map<String, LocalDate> inventory) {
        Machine first = history.first().reading().machine();
        return first.inServiceOn() != null ? first.inServiceOn() : inventory.get(DriveId.fold(first.id()));
    }
}
