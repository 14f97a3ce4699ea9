package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.io.Reader;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/** The {@link InnerRecords} of a text, up to its end or to where its JSON is broken. */
final class InnerSource implements RecordSource {
    private final String file;
    private final ExportForm form;
    private final Reader text;
    private final InnerRecords records;
    private JsonProcessingException fault;
    private long number;
    private boolean ended;
    private Long unread;

    InnerSource(String file, Reader text, ExportForm form, RawFields fields) throws IOException {
        this.file = file;
        this.form = form;
        this.text = text;
        records = new InnerRecords(FlatJson.FACTORY.createParser(text), new FlatJson(form.elements(), fields), form);
    }

    @Override
    public RawRecord next() throws IOException {
        if (ended) {
            return null;
        }
        InnerRecords.Found found = found();
        ended = found == null;
        if (found == null && fault == null) {
            return null;
        }
        unread = found == null && number > 0 ? (Long) RecordSource.NOT_KNOWN : null;
        SourcePlace place = SourcePlace.record(file, ++number);
        return found == null ? RawRecord.broken(JsonRecords.broken(place, fault, 0).with(Fact.UNREAD, unread)) : record(place, found);
    }

    private InnerRecords.Found found() throws IOException {
        try {
            return fault == null ? records.next() : records.rest();
        } catch (JsonProcessingException e) {
            fault = e;
            return records.rest();
        }
    }

    private RawRecord record(SourcePlace place, InnerRecords.Found found) {
        if (found instanceof InnerRecords.Fields fields) {
            return RawRecord.of(place, fields.values());
        }
        if (found instanceof InnerRecords.Other other) {
            return RawRecord.broken(Problem.of(Finding.NO_OBJECT, place, "").with(Fact.NAMES, JsonRecords.type(other.token())));
        }
        if (found instanceof InnerRecords.Twice twice) {
            return RawRecord.broken(Problem.of(Finding.FIELD_TWICE, place, "").with(Fact.TEXT, twice.name()));
        }
        return found instanceof InnerRecords.Late late ? RawRecord.broken(Problem.of(Finding.RECORDS_LATE, place, "").with(Fact.TEXT, late.name()))
            : RawRecord.broken(Problem.of(Finding.RECORDS_ABSENT, place, "").with(Fact.FORMAT, ExportForm.pointer(form.records())));
    }

    @Override
    public Long unread() {
        return unread;
    }

    @Override
    public void close() throws IOException {
        text.close();
    }
}
