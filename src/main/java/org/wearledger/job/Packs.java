package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SaveMode;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.storage.StorageLevel;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.Pseudonyms;
import org.wearledger.intake.ReportFile;
import org.wearledger.model.PackResult;
import scala.Tuple2;

/** Keeps normalised readings in Parquet, so that what was read once need not be parsed again. */
public final class Packs {
    /** Fewer, larger files than tasks: a column is read in long runs. */
    private static final long TEXT_BYTES_PER_FILE = 256L << 20;

    private static final Set<String> OF_MACHINES = Set.of("inventory.csv", "repairs.csv");

    /** It changes from day to day, and is that of no quarter. */
    private static final String NOT_PACKED = "decisions.csv";

    private Packs() {
    }

    /**
     * Reads the reports and writes the pack into {@code folder}, which exists and is empty. Earlier packs among the reports are packed
     * again. Side tables go with it as they are, and the mapping that they are read by; under pseudonyms not those that name machines.
     *
     * @throws InputRefusedException when an input is not there or cannot serve as what it is named for
     */
    public static PackResult write(SweepRequest request, Engine engine, Path folder) throws IOException {
        try (JavaSparkContext spark = Spark.open(engine.master())) {
            spark.sc().addSparkListener(new TaskProgress(engine.progress()));
            Inputs inputs = Inputs.of(request);
            JavaPairRDD<Integer, ReadingBatch> all = Reports.files(spark, Reports.parts(() -> spark, inputs), inputs.mappings(), 1, Reports.BYTES_PER_TASK);
            for (PackFolder pack : inputs.packs()) {
                all = all.union(read(spark, pack, request.pseudonyms(), 1));
            }
            JavaRDD<ReadingBatch> batches = all.values().persist(StorageLevel.DISK_ONLY());
            spark.setJobDescription("reading reports");
            List<IntakeTally> tallies = DamagedPackException.told(
                () -> batches.map(ReadingBatch::tally).filter(tally -> tally != null).collect());
            inputs.requireWhole(tallies);
            Inputs.Read read = inputs.read(tallies);
            PackResult result = new PackResult(read.filesFound(), read.filesRead(), read.records(), read.readings(), read.problems(), copied(inputs, folder));
            spark.setJobDescription("writing readings");
            JavaRDD<Row> rows = batches.flatMap(batch -> batch.unpacked(KeptHistories.Wanted.ALL).iterator()).map(ReadingRows::row);
            int parts = (int) Math.max(1, result.readings() * Reports.TEXT_BYTES_PER_READING / TEXT_BYTES_PER_FILE);
            Dataset<Row> readings = session(spark).createDataFrame(rows, ReadingRows.SCHEMA);
            // In the order of the files pseudonyms would stand in the order of the names that they are for.
            Dataset<Row> ordered = request.pseudonyms().isNone() ? readings.coalesce(parts)
                : readings.repartitionByRange(parts, ReadingRows.ORDER).sortWithinPartitions(ReadingRows.ORDER);
            ordered.write().mode(SaveMode.ErrorIfExists).parquet(hadoopName(folder));
            PackFolder.write(folder, PackFolder.Contents.of(request.version(), result.files(), result.filesRead(), result.records(), result.readings(),
                inputs.passedOver()), result.problems());
            return result;
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static List<String> copied(Inputs inputs, Path folder) throws IOException {
        List<String> copied = new ArrayList<>();
        for (Map.Entry<String, ReportFile> table : inputs.tables().files().entrySet()) {
            if (!table.getKey().equals(NOT_PACKED) && (inputs.request().pseudonyms().isNone() || !OF_MACHINES.contains(table.getKey()))) {
                Files.copy(Path.of(table.getValue().path()), folder.resolve(table.getKey()));
                copied.add(table.getKey());
            }
        }
        Set<Path> mappings = inputs.tables().files().entrySet().stream().filter(table -> OF_MACHINES.contains(table.getKey()) && copied.contains(table.getKey()))
            .map(table -> inputs.mappings().place(table.getValue().name())).collect(Collectors.toSet());
        if (mappings.size() > 1) {
            throw new InputMissingException("inventory.csv and repairs.csv are not read by the same mapping, and a pack holds one for both; "
                + "give one mapping the columns of both under \"inventory\" and \"repairs\", or leave one of the tables out");
        }
        for (Path mapping : mappings.stream().filter(Objects::nonNull).toList()) {
            Files.copy(mapping, folder.resolve(FoundFiles.MAPPING_FILE));
        }
        return copied;
    }

    /** The readings, to be sent to {@code targets} tasks. */
    static JavaPairRDD<Integer, ReadingBatch> read(JavaSparkContext spark, PackFolder pack, Pseudonyms pseudonyms, int targets) {
        // Spark takes the name for a pattern.
        String name = hadoopName(Path.of(pack.folder().path())).replaceAll("[\\[\\]{}*?]", "\\\\$0");
        ReportFile folder = pack.folder();
        String place = pack.place();
        JavaRDD<Row> rows = session(spark).read().schema(ReadingRows.SCHEMA).parquet(name).toJavaRDD();
        return JavaPairRDD.fromJavaRDD(rows.mapPartitionsWithIndex((number, some) -> task(some, folder, place, pseudonyms, targets, number), false));
    }

    private static Iterator<Tuple2<Integer, ReadingBatch>> task(Iterator<Row> rows, ReportFile pack, String place, Pseudonyms pseudonyms, int targets, int number) {
        return ReadTask.ofRows(rows, pack, place, pseudonyms, targets, number);
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
