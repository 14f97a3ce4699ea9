package org.wearledger.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.ReportPart;
import org.wearledger.intake.ReportReader;
import scala.Tuple2;

/** Reads some files to parcels, as its reader asks for them: never more is in memory than the parcels that are not yet full. */
final class ReadTask implements Iterator<Tuple2<Integer, Parcel>> {
    private final Iterator<ReportPart> parts;
    private final FieldMapping mapping;
    private final int tallyTarget;
    private final Parcel.Sorter sorter;
    private final IntakeTally.Counter counter = new IntakeTally.Counter();
    private Iterator<Tuple2<Integer, Parcel>> ready = Collections.emptyIterator();
    private ReportReader reader;
    private boolean ended;

    /** @param targets number of tasks that join, of which {@code tallyTarget} hands on what this one has to tell */
    ReadTask(List<ReportPart> parts, FieldMapping mapping, int targets, int tallyTarget) {
        this.parts = parts.iterator();
        this.mapping = mapping;
        this.tallyTarget = tallyTarget;
        sorter = new Parcel.Sorter(targets);
    }

    @Override
    public boolean hasNext() {
        while (!ready.hasNext() && !ended) {
            readOn();
        }
        return ready.hasNext();
    }

    @Override
    public Tuple2<Integer, Parcel> next() {
        hasNext();
        return ready.next();
    }

    private void readOn() {
        while (!sorter.hasFull()) {
            if (reader == null && !parts.hasNext()) {
                ended = true;
                List<Tuple2<Integer, Parcel>> last = sorter.rest();
                last.add(new Tuple2<>(tallyTarget, new Parcel(null, counter.tally())));
                ready = last.iterator();
                return;
            }
            reader = reader == null ? new ReportReader(parts.next(), mapping) : reader;
            if (reader.hasNext()) {
                ReportReader.Item item = reader.next();
                counter.add(item);
                item.outcome().values().forEach(sorter::add);
            } else {
                close();
            }
        }
        ready = sorter.full().iterator();
    }

    private void close() {
        try {
            reader.close();
            reader = null;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
