package org.wearledger.job;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.storage.StorageLevel;
import org.wearledger.intake.FileSplits;
import org.wearledger.intake.Mappings;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.ReportPart;
import scala.Tuple2;

/** Report files to batches of packed readings, sorted by drive. */
final class Reports {
    /** Small enough that a few parts fit in memory side by side, and no more of them than that: each costs its start. */
    static final long BYTES_PER_TASK = 16L << 20;
    static final long TEXT_BYTES_PER_READING = 1_000;
    /** To open a file costs about as much as to read this much of it. */
    private static final long BYTES_PER_OPENING = 1L << 14;
    /** Read and joined before a second task has begun. */
    private static final long BYTES_OF_A_SMALL_INPUT = 2L << 20;
    private static final long UNPACKED_BYTES_PER_GZIP_BYTE = 8;

    /** What one task reads. */
    private record Work(List<ReportPart> parts, int number) implements Serializable {
    }

    private Reports() {
    }

    /**
     * Reads all that was found: a small input here, while the session may still be opening, any other in tasks.
     *
     * @param partitions {@code null} for as many as the size of the input asks for
     * @return every batch once, those of one drive in the same partition
     */
    static JavaRDD<ReadingBatch> read(Session session, Inputs inputs, Integer partitions) {
        Mappings mappings = inputs.mappings();
        List<ReportPart> parts = parts(session::spark, inputs);
        long[] bytes = parts.stream().mapToLong(Reports::estimatedBytes).toArray();
        long inFiles = Arrays.stream(bytes).sum();
        long packed = inputs.inPacks(PackFolder.Contents::readings) * TEXT_BYTES_PER_READING;
        boolean small = partitions == null && inFiles + packed < BYTES_OF_A_SMALL_INPUT;
        List<Tuple2<Integer, ReadingBatch>> readHere = small ? here(parts, mappings) : List.of();
        JavaSparkContext spark = session.spark();
        int bySize = small ? 1 : (int) Math.max(spark.defaultParallelism(), (inFiles + packed) / BYTES_PER_TASK);
        int tasks = partitions != null ? partitions : bySize;
        JavaPairRDD<Integer, ReadingBatch> batches = small ? spark.parallelizePairs(readHere, 1)
            : files(spark, work(parts, bytes, Math.max(1, inFiles / tasks)), mappings, tasks);
        for (PackFolder pack : inputs.packs()) {
            batches = batches.union(Packs.read(spark, pack, mappings.pseudonyms(), tasks));
        }
        // What one task joins need not be sorted to it; a shuffle would also keep what was read.
        return tasks == 1 ? batches.values().coalesce(1).persist(StorageLevel.MEMORY_AND_DISK())
            : batches.partitionBy(new HashPartitioner(tasks)).values();
    }

    private static List<Tuple2<Integer, ReadingBatch>> here(List<ReportPart> parts, Mappings mappings) {
        List<Tuple2<Integer, ReadingBatch>> read = new ArrayList<>();
        ReadTask.ofFiles(parts, mappings, 1, 0).forEachRemaining(read::add);
        return read;
    }

    /** @param session is asked for when there are files to be cut */
    static List<ReportPart> parts(Supplier<JavaSparkContext> session, Inputs inputs) {
        return FileSplits.of(inputs.found().reports(), inputs.mappings(), toCount -> {
            JavaSparkContext spark = session.get();
            spark.setJobDescription("counting lines");
            return spark.parallelize(toCount, toCount.size()).map(FileSplits::count).collect();
        });
    }

    /** In the order of the files, to be sent to {@code targets} tasks. */
    static JavaPairRDD<Integer, ReadingBatch> files(JavaSparkContext spark, List<ReportPart> parts, Mappings mappings, int targets, long bytesPerTask) {
        return files(spark, work(parts, parts.stream().mapToLong(Reports::estimatedBytes).toArray(), bytesPerTask), mappings, targets);
    }

    private static JavaPairRDD<Integer, ReadingBatch> files(JavaSparkContext spark, List<Work> work, Mappings mappings, int targets) {
        if (work.isEmpty()) {
            return JavaPairRDD.fromJavaRDD(spark.emptyRDD());
        }
        return spark.parallelize(work, work.size()).mapPartitionsToPair(mine ->
            mine.hasNext() ? task(mine.next(), mappings, targets) : Collections.emptyIterator());
    }

    private static ReadTask task(Work work, Mappings mappings, int targets) {
        return ReadTask.ofFiles(work.parts, mappings, targets, work.number);
    }

    /** Neighbours together until they are as large as a task should be. */
    private static List<Work> work(List<ReportPart> parts, long[] bytes, long bytesPerTask) {
        List<Work> work = new ArrayList<>();
        List<ReportPart> next = new ArrayList<>();
        long filled = 0;
        for (int i = 0; i < parts.size(); i++) {
            next.add(parts.get(i));
            filled += bytes[i];
            if (filled >= bytesPerTask || i == parts.size() - 1) {
                work.add(new Work(List.copyOf(next), work.size()));
                next.clear();
                filled = 0;
            }
        }
        return work;
    }

    /** Of the text, as far as the file's size tells; a file that is gone counts its opening; reading it says so. */
    private static long estimatedBytes(ReportPart part) {
        if (part.toByte() != Long.MAX_VALUE) {
            return part.toByte() - part.fromByte();
        }
        try {
            long bytes = Files.size(Path.of(part.file().path())) - part.fromByte();
            return BYTES_PER_OPENING + bytes * (part.file().name().toLowerCase(Locale.ROOT).endsWith(".gz") ? UNPACKED_BYTES_PER_GZIP_BYTE : 1);
        } catch (IOException e) {
            return BYTES_PER_OPENING;
        }
    }
}
