package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FileSplits;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.ReportPart;

/** Report files to parcels of packed readings, sorted by drive. */
final class Reports {
    /** Small enough that a few parts fit in memory side by side, and no more of them than that: each costs its start. */
    private static final long BYTES_PER_TASK = 16L << 20;
    /** To open a file costs about as much as to read this much of it. */
    private static final long BYTES_PER_OPENING = 1L << 14;
    private static final long UNPACKED_BYTES_PER_GZIP_BYTE = 8;

    /** What one task reads. */
    private record Work(List<ReportPart> parts, int number) implements java.io.Serializable {
    }

    private Reports() {
    }

    /** @param partitions {@code null} for as many as the size of the input asks for */
    static JavaRDD<Parcel> read(JavaSparkContext spark, FoundFiles found, FieldMapping mapping, Integer partitions) {
        spark.setJobDescription("counting lines");
        List<ReportPart> parts = FileSplits.of(found.reports(),
            toCount -> spark.parallelize(toCount, toCount.size()).map(FileSplits::count).collect());
        long[] bytes = parts.stream().mapToLong(Reports::estimatedBytes).toArray();
        long all = java.util.Arrays.stream(bytes).sum();
        int tasks = partitions != null ? partitions : (int) Math.max(spark.defaultParallelism(), all / BYTES_PER_TASK);
        List<Work> work = work(parts, bytes, Math.max(1, all / tasks));
        JavaPairRDD<Integer, Parcel> parcels = spark.parallelize(work, work.size())
            .mapPartitionsToPair(mine -> mine.hasNext() ? task(mine.next(), mapping, tasks) : java.util.Collections.emptyIterator());
        return parcels.partitionBy(new HashPartitioner(tasks)).values();
    }

    private static ReadTask task(Work work, FieldMapping mapping, int targets) {
        return new ReadTask(work.parts, mapping, targets, work.number % targets);
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

    /** Of the text, as far as the file's size tells; a file that is gone, which is told when it is read, counts its opening. */
    private static long estimatedBytes(ReportPart part) {
        if (part.toByte() != Long.MAX_VALUE) {
            return part.toByte() - part.fromByte();
        }
        try {
            long bytes = Files.size(Path.of(part.file().path())) - part.fromByte();
            return BYTES_PER_OPENING + bytes * (part.file().name().endsWith(".gz") ? UNPACKED_BYTES_PER_GZIP_BYTE : 1);
        } catch (IOException e) {
            return BYTES_PER_OPENING;
        }
    }
}
