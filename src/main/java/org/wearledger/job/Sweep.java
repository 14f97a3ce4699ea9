package org.wearledger.job;

import java.io.IOException;
import java.io.Serializable;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.storage.StorageLevel;
import org.wearledger.assess.DriveAssessor;
import org.wearledger.assess.FleetComparison;
import org.wearledger.assess.MachineAssessor;
import org.wearledger.assess.Ratings;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Placements;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.Accounting;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;

/** One sweep, from report files to its result. */
public final class Sweep {
    /** A machine as its latest report names it. */
    private record Sighting(Machine machine, Instant at, SourcePlace source) implements Serializable {
        private static final Comparator<Sighting> ORDER =
            Comparator.comparing(Sighting::at).thenComparing(Sighting::source);

        static Sighting of(Reading reading) {
            return new Sighting(reading.machine(), reading.collectedAt(), reading.source());
        }

        Sighting later(Sighting other) {
            return ORDER.compare(this, other) >= 0 ? this : other;
        }
    }

    private Sweep() {
    }

    /**
     * Reads, joins and assesses.
     *
     * @param master a Spark master URL; {@code null} takes what spark-submit set, else every core of this machine
     * @param partitions how many parts to work in, {@code null} for Spark's choice; the result does not depend on it
     * @throws InputRefusedException when an input is not there or cannot serve as what it is named for
     */
    public static SweepResult run(SweepRequest request, String master, Integer partitions) throws IOException {
        try (JavaSparkContext spark = Spark.open(master)) {
            return run(spark, request, partitions == null ? spark.defaultParallelism() : partitions);
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static SweepResult run(JavaSparkContext spark, SweepRequest request, int partitions) throws IOException {
        FoundFiles found = FoundFiles.find(request.reports());
        SideTableSet tables = SideTableSet.load(request, found);
        Limits limits = limits(request);

        JavaRDD<Outcome<Reading>> intake = spark.parallelize(found.reports(), partitions).flatMap(ReportReader::new)
            .persist(StorageLevel.MEMORY_AND_DISK_SER());
        JavaRDD<Reading> readings = intake.flatMap(outcome -> outcome.values().iterator());
        JavaRDD<HistoryOutcome> drives = readings.keyBy(reading -> reading.drive().id()).groupByKey(partitions)
            .map(drive -> DriveHistories.build(drive._1(), collection(drive._2()), limits))
            .persist(StorageLevel.MEMORY_AND_DISK_SER());

        List<Problem> problems = new ArrayList<>(intake.flatMap(outcome -> outcome.problems().iterator()).collect());
        problems.addAll(drives.flatMap(drive -> drive.problems().iterator()).collect());
        Accounting accounting = accounting(found, tables, readings.count(), drives, problems);

        JavaRDD<DriveHistory> histories = drives.filter(drive -> drive.history() != null).map(HistoryOutcome::history);
        Placements placements = Placements.of(histories.flatMap(history -> Placements.stintsOf(history).iterator()).collect());
        Map<String, Sighting> machines = machines(readings, limits, partitions);
        LocalDate asOf = asOf(request.settings(), machines.values());

        List<DriveAssessment> active = asOf == null ? List.of()
            : activeDrives(spark, histories, placements, tables, asOf, request.settings());
        List<MachineAssessment> assessed = asOf == null && tables.inventory().values().isEmpty() ? List.of()
            : MachineAssessor.assess(active, map(machines, Sighting::machine), map(machines, Sighting::at),
                setAside(machines, problems), tables.inventory().values(), asOf, request.settings());

        problems.addAll(tables.problems());
        problems.addAll(placements.problems());
        problems.addAll(assumedRatings(active));
        problems.sort(null);
        return new SweepResult(request.version(), asOf, request.settings(), accounting, assessed,
            FleetComparison.models(assessed), FleetComparison.memoryBands(assessed), FleetComparison.memoryContrasts(assessed),
            problems, found.passedOver(), tables.names(), tables.ratings().values().size(),
            tables.inventory().values().size(), tables.prices().values().size());
    }

    private static Limits limits(SweepRequest request) {
        LocalDate asOf = request.settings().asOf();
        return new Limits(request.now(), asOf == null ? null
            : asOf.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().minusNanos(1));
    }

    private static Collection<Reading> collection(Iterable<Reading> readings) {
        List<Reading> list = new ArrayList<>();
        readings.forEach(list::add);
        return list;
    }

    private static Accounting accounting(FoundFiles found, SideTableSet tables, long readingsIn,
                                         JavaRDD<HistoryOutcome> drives, List<Problem> problems) {
        Map<Effect, Long> counts = problems.stream().collect(Collectors.groupingBy(p -> p.kind().effect(), Collectors.counting()));
        long filesRefused = counts.getOrDefault(Effect.FILE_REFUSED, 0L);
        long recordsRefused = counts.getOrDefault(Effect.RECORD_REFUSED, 0L);
        long files = found.reports().size();
        long kept = drives.map(drive -> (long) drive.kept()).fold(0L, Long::sum);
        long setAside = drives.map(drive -> (long) drive.setAside()).fold(0L, Long::sum);
        return new Accounting(files, files - filesRefused, filesRefused, readingsIn + recordsRefused, recordsRefused,
            readingsIn, kept, setAside, found.passedOver().size(), tables.names().size());
    }

    private static Map<String, Sighting> machines(JavaRDD<Reading> readings, Limits limits, int partitions) {
        JavaPairRDD<String, Sighting> sightings = readings
            .filter(reading -> !reading.collectedAt().isAfter(limits.now().plus(Limits.CLOCK_TOLERANCE))
                && (limits.asOfEnd() == null || !reading.collectedAt().isAfter(limits.asOfEnd())))
            .mapToPair(reading -> new scala.Tuple2<>(DriveId.fold(reading.machine().id()), Sighting.of(reading)));
        return sightings.reduceByKey(Sighting::later, partitions).collectAsMap();
    }

    /** The machines whose latest report a rule keeps out, with that rule. */
    private static Map<String, String> setAside(Map<String, Sighting> machines, List<Problem> problems) {
        Map<SourcePlace, String> rules = new HashMap<>();
        problems.stream().filter(problem -> problem.kind().effect() == Effect.READING_SET_ASIDE)
            .forEach(problem -> rules.put(problem.source(), problem.kind().id()));
        Map<String, String> latest = new HashMap<>();
        machines.forEach((id, sighting) -> {
            if (rules.containsKey(sighting.source())) {
                latest.put(id, rules.get(sighting.source()));
            }
        });
        return latest;
    }

    private static <T> Map<String, T> map(Map<String, Sighting> machines, java.util.function.Function<Sighting, T> value) {
        Map<String, T> mapped = new HashMap<>();
        machines.forEach((id, sighting) -> mapped.put(id, value.apply(sighting)));
        return mapped;
    }

    /** The date set, else that of the latest report, else {@code null}. */
    private static LocalDate asOf(SweepSettings settings, Collection<Sighting> sightings) {
        return settings.asOf() != null ? settings.asOf() : sightings.stream().map(Sighting::at).max(Comparator.naturalOrder())
            .map(latest -> LocalDate.ofInstant(latest, ZoneOffset.UTC)).orElse(null);
    }

    private static List<DriveAssessment> activeDrives(JavaSparkContext spark, JavaRDD<DriveHistory> histories,
                                                      Placements placements, SideTableSet tables, LocalDate asOf,
                                                      SweepSettings settings) {
        Map<String, LocalDate> inService = new HashMap<>();
        for (InventoryEntry entry : tables.inventory().values()) {
            inService.put(DriveId.fold(entry.machineId()), entry.inServiceOn());
        }
        Broadcast<Placements> sharedPlacements = spark.broadcast(placements);
        Broadcast<Map<String, LocalDate>> sharedInService = spark.broadcast(inService);
        Broadcast<Ratings> sharedRatings = spark.broadcast(Ratings.of(tables.ratings().values()));
        return histories
            .filter(h -> sharedPlacements.value().isActive(h.id(), DriveId.fold(h.latest().reading().machine().id())))
            .map(h -> DriveAssessor.assess(h, sharedRatings.value(), asOf, settings,
                sharedPlacements.value().firstDriveOf(h.id()), startOfService(h, sharedInService.value())))
            .collect().stream().sorted(Comparator.comparing(DriveAssessment::id)).toList();
    }

    /** When the drive's first machine went into service: as its first report says, else as the inventory does. */
    private static LocalDate startOfService(DriveHistory history, Map<String, LocalDate> inventory) {
        Machine first = history.first().reading().machine();
        return first.inServiceOn() != null ? first.inServiceOn() : inventory.get(DriveId.fold(first.id()));
    }

    /** One note for each drive model and capacity that no rating was found for. */
    private static List<Problem> assumedRatings(List<DriveAssessment> drives) {
        Map<String, Integer> assumed = new TreeMap<>();
        for (DriveAssessment drive : drives) {
            if (drive.endurance() != null && drive.endurance().assumed()) {
                assumed.merge(drive.latest().drive().model() + " at "
                    + Math.round(drive.latest().drive().capacityBytes() / 1e9) + " GB, taken as "
                    + drive.endurance().ratedTerabytesWritten().stripTrailingZeros().toPlainString() + " TB", 1, Integer::sum);
            }
        }
        List<Problem> notes = new ArrayList<>();
        assumed.forEach((model, count) -> notes.add(new Problem(ProblemKind.RATING_ASSUMED, SourcePlace.wholeFile("ratings"),
            model, "no rating for " + count + " active drive(s)", "a row of the ratings table for this model and capacity",
            "the rule of thumb of 0.6 TB written per GB stands in; look up the maker's figure and add it")));
        return notes;
    }
}
