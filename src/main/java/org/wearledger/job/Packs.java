package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.function.ToLongFunction;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SaveMode;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.storage.StorageLevel;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.Pseudonyms;
import org.wearledger.intake.ReportFile;
import org.wearledger.model.PackResult;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import scala.Tuple2;

/** Keeps normalised readings in Parquet, so that what was read once need not be parsed again. */
public final class Packs {
    /** Fewer, larger files than tasks: a column is read in long runs. */
    private static final long TEXT_BYTES_PER_FILE = 256L << 20;

    private static final String INVENTORY = "inventory.csv";

    private Packs() {
    }

    /**
     * Reads the reports and writes the pack into {@code folder}, which exists and is empty. Earlier packs among the reports are packed
     * again. Side tables go with it as they are; under pseudonyms not the inventory, which names machines.
     *
     * @throws InputRefusedException when an input is not there or cannot serve as what it is named for
     */
    public static PackResult write(SweepRequest request, Engine engine, Path folder) throws IOException {
        try (JavaSparkContext spark = Spark.open(engine.master())) {
            spark.sc().addSparkListener(new TaskProgress(engine.progress()));
            FoundFiles found = FoundFiles.find(request.reports());
            SideTableSet tables = SideTableSet.load(request, found);
            List<PackFolder> packs = load(found, request.pseudonyms());
            FieldMapping mapping = request.fieldMapping();
            JavaPairRDD<Integer, Parcel> all = Reports.files(spark, Reports.parts(() -> spark, found), mapping, 1, Reports.BYTES_PER_TASK);
            for (PackFolder pack : packs) {
                all = all.union(read(spark, pack, mapping, 1));
            }
            JavaRDD<Parcel> parcels = all.values().persist(StorageLevel.DISK_ONLY());
            spark.setJobDescription("reading reports");
            List<IntakeTally> tallies = DamagedPackException.told(
                () -> parcels.map(Parcel::tally).filter(tally -> tally != null).collect());
            requireWhole(packs, tallies);
            PackResult result = result(found, packs, tallies, mapping, copied(tables, request, folder));
            spark.setJobDescription("writing readings");
            JavaRDD<Row> rows = parcels.flatMap(parcel -> readings(parcel).iterator()).map(ReadingRows::row);
            int parts = (int) Math.max(1, result.readings() * Reports.TEXT_BYTES_PER_READING / TEXT_BYTES_PER_FILE);
            Dataset<Row> readings = session(spark).createDataFrame(rows, ReadingRows.SCHEMA);
            // In the order of the files pseudonyms would stand in the order of the names that they are for.
            Dataset<Row> ordered = request.pseudonyms().isNone() ? readings.coalesce(parts)
                : readings.repartitionByRange(parts, ReadingRows.ORDER).sortWithinPartitions(ReadingRows.ORDER);
            ordered.write().mode(SaveMode.ErrorIfExists).parquet(hadoopName(folder));
            List<String> passedOver = new ArrayList<>(found.passedOver());
            packs.forEach(pack -> passedOver.addAll(pack.contents().passedOver()));
            PackFolder.write(folder, PackFolder.Contents.of(request.version(), result.files(), result.filesRead(), result.records(), result.readings(),
                request.pseudonyms().files(passedOver).stream().sorted().toList()), result.problems());
            return result;
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static List<String> copied(SideTableSet tables, SweepRequest request, Path folder) throws IOException {
        List<String> copied = new ArrayList<>();
        for (Map.Entry<String, ReportFile> table : tables.files().entrySet()) {
            if (request.pseudonyms().isNone() || !table.getKey().equals(INVENTORY)) {
                Files.copy(Path.of(table.getValue().path()), folder.resolve(table.getKey()));
                copied.add(table.getKey());
            }
        }
        return copied;
    }

    private static PackResult result(FoundFiles found, List<PackFolder> packs, List<IntakeTally> tallies, FieldMapping mapping, List<String> tables) {
        List<FileSummary> files = new ArrayList<>(FileSummary.added(tallies.stream().flatMap(tally -> tally.files().stream()).toList()).values());
        List<Problem> problems = new ArrayList<>();
        tallies.forEach(tally -> problems.addAll(tally.problems()));
        files.forEach(file -> problems.addAll(file.problems(mapping)));
        packs.forEach(pack -> problems.addAll(pack.problems()));
        return new PackResult(found.reports().size() + inPacks(packs, PackFolder.Contents::filesFound),
            files.stream().filter(FileSummary::isReadToTheEnd).count() + inPacks(packs, PackFolder.Contents::filesRead),
            tallies.stream().mapToLong(IntakeTally::recordsOfFiles).sum() + inPacks(packs, PackFolder.Contents::records),
            tallies.stream().mapToLong(IntakeTally::readings).sum(), problems, tables);
    }

    /** A count added up over packs. */
    static long inPacks(List<PackFolder> packs, ToLongFunction<PackFolder.Contents> count) {
        return packs.stream().map(PackFolder::contents).mapToLong(count).sum();
    }

    /** @throws InputMissingException when one of them is of another form or damaged */
    static List<PackFolder> load(FoundFiles found, Pseudonyms names) throws IOException {
        List<PackFolder> packs = new ArrayList<>();
        for (ReportFile folder : found.packs()) {
            PackFolder pack = found.packs().size() == 1 ? PackFolder.read(folder) : PackFolder.read(folder).amongOthers();
            packs.add(new PackFolder(folder, pack.contents(), names.problems(pack.problems()), pack.place()));
        }
        return packs;
    }

    /** The readings, to be sent to {@code targets} tasks. */
    static JavaPairRDD<Integer, Parcel> read(JavaSparkContext spark, PackFolder pack, FieldMapping mapping, int targets) {
        // Spark takes the name for a pattern.
        String name = hadoopName(Path.of(pack.folder().path())).replaceAll("[\\[\\]{}*?]", "\\\\$0");
        ReportFile folder = pack.folder();
        String place = pack.place();
        JavaRDD<Row> rows = session(spark).read().schema(ReadingRows.SCHEMA).parquet(name).toJavaRDD();
        return JavaPairRDD.fromJavaRDD(rows.mapPartitionsWithIndex((number, some) -> task(some, folder, place, mapping, targets, number), false));
    }

    private static Iterator<Tuple2<Integer, Parcel>> task(Iterator<Row> rows, ReportFile pack, String place, FieldMapping mapping, int targets, int number) {
        return ReadTask.ofRows(rows, pack, place, mapping, targets, number);
    }

    /** @throws InputMissingException when packs do not hold the readings that they say */
    static void requireWhole(List<PackFolder> packs, List<IntakeTally> tallies) throws InputMissingException {
        for (PackFolder pack : packs) {
            long found = tallies.stream().mapToLong(tally -> tally.packed().getOrDefault(pack.folder().name(), 0L)).sum();
            if (found != pack.contents().readings()) {
                throw PackFolder.damaged(pack.folder(), "it says " + pack.contents().readings() + " readings and holds " + found);
            }
        }
    }

    private static List<Reading> readings(Parcel parcel) {
        List<Reading> readings = new ArrayList<>();
        parcel.unpack(Gathered.Wanted.ALL, readings);
        return readings;
    }

    /** As Spark's file systems call it: an address whose blanks and accents are written as %20 would be taken word for word. */
    private static String hadoopName(Path folder) {
        return new org.apache.hadoop.fs.Path(folder.resolve(PackFolder.READINGS).toUri()).toString();
    }

    private static SparkSession session(JavaSparkContext spark) {
        return SparkSession.builder().sparkContext(spark.sc()).config("spark.sql.datetime.java8API.enabled", true)
            .config("spark.sql.session.timeZone", "UTC").config("spark.sql.files.ignoreCorruptFiles", false).getOrCreate();
    }
}
