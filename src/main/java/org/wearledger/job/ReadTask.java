package org.wearledger.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.sql.Row;
import org.wearledger.intake.Mappings;
import org.wearledger.intake.Pseudonyms;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.ReportPart;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.Reading;
import scala.Tuple2;

/** Reads to batches of readings, as its reader asks for them: never more is in memory than the batches that are not yet full. */
final class ReadTask implements Iterator<Tuple2<Integer, ReadingBatch>> {
    /** Something to be read, step by step. */
    private interface Source {
        /** Reads one record or one file's end; false when there is nothing more. */
        boolean step(ReadingBatch.Sorter readings, IntakeTally.Counter counter);
    }

    private final Source source;
    private final int tallyTarget;
    private final ReadingBatch.Sorter sorter;
    private final IntakeTally.Counter counter = new IntakeTally.Counter();
    private Iterator<Tuple2<Integer, ReadingBatch>> ready = Collections.emptyIterator();
    private boolean ended;

    private ReadTask(Source source, int targets, int number) {
        this.source = source;
        sorter = new ReadingBatch.Sorter(targets);
        tallyTarget = number % targets;
    }

    /**
     * Reads report files.
     *
     * @param targets number of tasks that join; one of them hands on what this one, the {@code number}th, has to tell
     */
    static ReadTask ofFiles(List<ReportPart> parts, Mappings mappings, int targets, int number) {
        Iterator<ReportPart> left = parts.iterator();
        return new ReadTask(new Source() {
            private ReportReader reader;

            @Override
            public boolean step(ReadingBatch.Sorter readings, IntakeTally.Counter counter) {
                if (reader == null && !left.hasNext()) {
                    return false;
                }
                if (reader == null) {
                    ReportPart part = left.next();
                    reader = new ReportReader(part, mappings.of(part.file().name()));
                }
                if (reader.hasNext()) {
                    ReportReader.Item item = reader.next();
                    counter.add(item);
                    item.outcome().values().forEach(readings::add);
                } else {
                    close(reader);
                    reader = null;
                }
                return true;
            }
        }, targets, number);
    }

    /**
     * Reads rows of a pack; otherwise as {@link #ofFiles}.
     *
     * @param place is put before the names of the files that the readings came from
     *
     * @throws DamagedPackException from its steps, when a row cannot be read
     */
    static ReadTask ofRows(Iterator<Row> rows, ReportFile pack, String place, Pseudonyms pseudonyms, int targets, int number) {
        return new ReadTask((readings, counter) -> {
            Reading reading;
            try {
                if (!rows.hasNext()) {
                    return false;
                }
                reading = placed(ReadingRows.reading(rows.next()), place, pseudonyms);
            } catch (Exception e) {
                // Of any kind: Scala declares none.
                throw new DamagedPackException(pack, e);
            }
            readings.add(reading);
            counter.addPacked(pack.name());
            return true;
        }, targets, number);
    }

    private static Reading placed(Reading reading, String place, Pseudonyms pseudonyms) {
        Reading there = place.isEmpty() ? reading : new Reading(reading.source().within(place), reading.collectedAt(), reading.machine(), reading.drive(), reading.health());
        return pseudonyms.of(there);
    }

    @Override
    public boolean hasNext() {
        while (!ready.hasNext() && !ended) {
            readOn();
        }
        return ready.hasNext();
    }

    @Override
    public Tuple2<Integer, ReadingBatch> next() {
        hasNext();
        return ready.next();
    }

    private void readOn() {
        while (!sorter.hasFull()) {
            if (!source.step(sorter, counter)) {
                ended = true;
                List<Tuple2<Integer, ReadingBatch>> last = sorter.rest();
                last.add(new Tuple2<>(tallyTarget, new ReadingBatch(null, counter.tally())));
                ready = last.iterator();
                return;
            }
        }
        ready = sorter.full().iterator();
    }

    private static void close(ReportReader reader) {
        try {
            reader.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
