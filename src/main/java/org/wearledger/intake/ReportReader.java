package org.wearledger.intake;

import java.io.Closeable;
import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.MappedField;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * The readings and problems of one report file, or of a part of it, record by record. The content decides the format (gzip by its
 * magic number, JSON by its first bracket, CSV by its header); the ending only settles whether JSON is one object a line.
 *
 * <p>Every record gives either one reading or one problem that refuses the record; what concerns the file follows in the summary.
 */
public final class ReportReader implements Iterator<ReportReader.Item>, Closeable {
    /**
     * What one step through the file gave: a record, good or refused; or, once and last, the summary.
     *
     * @param outcome of the record; empty beside the summary
     * @param summary {@code null} but in the last item
     */
    public record Item(Outcome<Reading> outcome, FileSummary summary) implements Serializable {
    }

    /** Of a file, or a part of it, from its beginning: no honest export begins like that, and what goes on so has no end. */
    static final int MOST_RECORDS_WITHOUT_READING = 1_000_000;

    private final ReportPart part;
    private final FieldMapping mapping;
    private final List<Problem> notes = new ArrayList<>();
    private final Map<String, Long> unknownFields = new TreeMap<>();
    /** Of a mapped file. */
    private final Set<String> othersMet = new HashSet<>();
    private long fieldsMet;
    private long mappedMet;
    private final RawFields mapped = new RawFields();
    private final Set<Long> memoryBytes = new TreeSet<>();
    private final PageFiles pages;
    private final ShareCheck shares;
    private RecordSource records;
    private boolean gzipped;
    private String likelyEncoding;
    /** Of a JSON file in which each object is a record. */
    private String jsonHead;
    /** Whether a record names a machine or a drive. */
    private boolean anyNamed;
    private long recordsSeen;
    private long readings;
    private Long unread;
    private Item ready;
    /** Why a part of a file cannot be opened. */
    private IOException fault;
    private boolean ended;

    /**
     * Opens the file. One that cannot be opened gives no record, and a summary that refuses it; no exception.
     *
     * @param mapping how the file names its fields; {@link FieldMapping#none()} for their own names
     */
    public ReportReader(ReportPart part, FieldMapping mapping) {
        this.part = part;
        this.mapping = mapping;
        shares = new ShareCheck(mapping);
        pages = new PageFiles(part.file());
        try {
            records = open();
        } catch (IOException e) {
            if (!part.isWhole()) {
                // Other parts may give readings: the file is not refused, and a problem says that this part's records are missing.
                fault = e;
            } else if (Files.isDirectory(Path.of(part.file().path()))) {
                refuseFile(ofFile(Finding.FOLDER_UNREADABLE));
            } else if (part.file().isUndecodable()) {
                refuseFile(ofFile(Finding.FILE_NAME_GARBLED));
            } else {
                refuseFile(ofFile(Finding.UNREADABLE).with(Fact.TEXT, IoWords.of(e)));
            }
        }
    }

    @Override
    public boolean hasNext() {
        if (ready == null && !ended) {
            ready = readOn();
        }
        return ready != null;
    }

    @Override
    public Item next() {
        if (!hasNext()) {
            throw new NoSuchElementException(part.file().name());
        }
        Item item = ready;
        ready = null;
        return item;
    }

    @Override
    public void close() throws IOException {
        if (records != null) {
            records.close();
        }
    }

    private Item readOn() {
        if (fault != null) {
            IOException before = fault;
            fault = null;
            return stop(part.file().hasEnding(".csv") ? ProblemKind.BROKEN_CSV : ProblemKind.BROKEN_JSON, before);
        }
        if (records == null) {
            return summary();
        }
        if (readings == 0 && recordsSeen >= MOST_RECORDS_WITHOUT_READING) {
            closeQuietly();
            unread = RecordSource.NOT_KNOWN;
            return summary();
        }
        try {
            RawRecord raw = records.next();
            return raw == null ? summary() : new Item(told(outcome(raw)), null);
        } catch (IOException e) {
            ProblemKind kind = gzipped ? ProblemKind.BROKEN_COMPRESSION
                : records instanceof CsvRecords ? ProblemKind.BROKEN_CSV : ProblemKind.BROKEN_JSON;
            closeQuietly();
            return stop(kind, e);
        }
    }

    private Item stop(ProblemKind kind, IOException e) {
        unread = RecordSource.NOT_KNOWN;
        recordsSeen++;
        return new Item(mapping.pseudonyms().of(problem(Problem.of(Finding.READING_STOPPED, SourcePlace.record(part.file().name(), part.linesBefore() + recordsSeen), "").under(kind)
            .with(Fact.TEXT, IoWords.of(e)))), null);
    }

    private Set<String> namesMet() {
        Set<String> met = new TreeSet<>(othersMet);
        mapping.mappedNames().forEach((name, place) -> {
            if ((mappedMet & 1L << place) != 0) {
                met.add(name);
            }
        });
        ReportField.ALL.stream().filter(field -> (fieldsMet & field.bit()) != 0).forEach(field -> met.add(field.dotted()));
        return met;
    }

    private Outcome<Reading> outcome(RawRecord raw) {
        recordsSeen++;
        if (!mapping.isNone()) {
            fieldsMet |= raw.values().present();
            mappedMet |= raw.values().mappedPresent();
            othersMet.addAll(raw.values().others().keySet());
        }
        RawRecord record = pages.filled(mapping.apply(raw, mapped));
        if (record.problem() != null) {
            return problem(record.problem());
        }
        anyNamed |= record.values().has(ReportField.MACHINE_ID) || record.values().has(ReportField.SERIAL);
        for (String name : record.values().others().keySet()) {
            unknownFields.merge(name, 1L, Long::sum);
        }
        Outcome<Reading> parsed = ReadingParser.parse(record);
        for (Reading reading : parsed.values()) {
            readings++;
            if (!mapping.isNone()) {
                shares.add(reading.health());
            }
            if (reading.machine().memoryBytes() != null) {
                memoryBytes.add(reading.machine().memoryBytes());
            }
        }
        return parsed;
    }

    /** Under the names that may go out, and about the headings of the mapping. */
    private Outcome<Reading> told(Outcome<Reading> read) {
        return mapping.pseudonyms().of(read.problems().isEmpty() ? read : new Outcome<>(read.values(), read.problems().stream().map(this::explained).toList()));
    }

    private Problem explained(Problem problem) {
        return problem.finding() == Finding.GARBLED ? problem.with(Fact.FORMAT, likelyEncoding) : mapping.isNone() ? problem : mapping.explained(problem);
    }

    private Item summary() {
        ended = true;
        closeQuietly();
        List<String> inner = anyNamed || jsonHead == null || !part.isWhole() ? List.of() : JsonRecords.seemToLieIn(jsonHead);
        if (!inner.isEmpty()) {
            refuseFile(ofFile(Finding.RECORDS_INSIDE).with(Fact.FORMAT, String.join(" or ", inner)).with(Fact.NAMES, inner.get(0)));
        }
        return new Item(Outcome.empty(), new FileSummary(part.file().name(), recordsSeen, readings, unread, notes, unknownFields, namesMet(), memoryBytes, pages.named(), shares.inPercent(), likelyEncoding));
    }

    private void closeQuietly() {
        unread = RecordSource.unread(unread, records == null ? null : records.unread());
        try {
            close();
        } catch (IOException e) {
            // Closing a file that was only read loses nothing.
            ended |= records == null;
        }
        records = null;
    }

    /** Before its first record; told once for the file. */
    private void refuseFile(Problem problem) {
        if (part.isFirst()) {
            notes.add(problem);
        }
    }

    private Problem ofFile(Finding finding) {
        return Problem.of(finding, SourcePlace.wholeFile(part.file().name()), "");
    }

    private void refuse(ForeignFile foreign) {
        refuseFile(ofFile(Finding.FOREIGN).with(Fact.SLIP, foreign.sign()).with(Fact.TEXT, foreign.text()).with(Fact.LINE, foreign.line()).with(Fact.FORMAT, likelyEncoding));
    }

    private static Outcome<Reading> problem(Problem problem) {
        return new Outcome<>(List.of(), List.of(problem));
    }

    private RecordSource open() throws IOException {
        ReportText text = ReportText.open(part, mapping.form().charset());
        gzipped = text.isGzipped();
        likelyEncoding = text.likelyEncoding();
        RecordSource opened = null;
        try {
            ForeignFile zeros = ForeignFile.ofZeroBytes(text.head());
            if (zeros != null) {
                refuse(zeros);
                return null;
            }
            ReportFormat format = ReportFormat.of(part.file(), text.head());
            opened = switch (format) {
                case EMPTY -> {
                    refuseFile(ofFile(text.head().isEmpty() ? Finding.EMPTY_FILE : Finding.BLANK_FILE).with(Fact.COUNT, text.head().length()));
                    yield null;
                }
                case JSON_LINES, JSON_SEQUENCE -> json(text, format);
                case CSV -> csv(text);
            };
            return opened;
        } finally {
            if (opened == null) {
                text.close();
            }
        }
    }

    private RecordSource json(ReportText text, ReportFormat format) throws IOException {
        if (part.file().hasEnding(".csv")) {
            noteFormat("JSON", ".csv");
        }
        String name = part.file().name();
        if (mapping.form().hasRecordsInside()) {
            return new InnerSource(name, text.reader(), mapping.form(), mapping.emptyFields());
        }
        jsonHead = text.head();
        FlatJson json = new FlatJson(mapping.form().elements(), mapping.emptyFields());
        return format == ReportFormat.JSON_LINES ? JsonRecords.lines(name, text.utf8(), text.bufferBytes(), part.linesBefore(), json)
            : JsonRecords.sequence(name, text.reader(), json);
    }

    /** {@code null} when the header tells that no reading can come of it. */
    private RecordSource csv(ReportText text) throws IOException {
        CsvHeader header = CsvHeader.of(text.head());
        if (mapping.isNone() && !header.line().contains("drive.") && !header.line().contains("machine.")) {
            refuse(ForeignFile.of(text.head()));
            return null;
        }
        String name = part.file().name();
        if (!part.file().hasEnding(".csv")) {
            noteFormat("CSV", name.substring(name.lastIndexOf('.') + 1));
        }
        CsvRecords csv = part.isFirst() ? new CsvRecords(name, text.reader(), header, mapping::isRead, mapping.emptyFields())
            : new CsvRecords(name, text.reader(), header, mapping::isRead, mapping.emptyFields(), part.linesBefore());
        List<MappedField> missing = mapping.missing(csv.columns());
        ForeignFile sideTable = missing.isEmpty() ? null : ForeignFile.ofSideTable(csv.columns());
        if (sideTable != null) {
            refuse(sideTable);
            return null;
        }
        if (!missing.isEmpty()) {
            String fitting = mapping.isNone() ? null : Encodings.fitting(part, columns -> mapping.missing(columns).isEmpty());
            boolean garbled = Headings.isGarbled(header.line()) && (fitting == null || likelyEncoding != null);
            refuseFile(ofFile(garbled ? Finding.HEADER_GARBLED : mapping.isNone() ? Finding.HEADER_LACKS : Finding.HEADER_LACKS_MAPPED).about(missing)
                .with(Fact.FORMAT, garbled ? likelyEncoding : fitting).with(Fact.MET, fitting == null ? Headings.listed(csv.columns()) : Headings.quoted(String.join(", ", csv.columns()))).with(Fact.NEAR, mapping.nearestOf(csv.columns())));
            return null;
        }
        return csv;
    }

    /** Once for the file. */
    private void noteFormat(String found, String ending) {
        if (part.isFirst()) {
            notes.add(ofFile(Finding.OTHER_FORMAT).with(Fact.NAMES, found).with(Fact.TEXT, ending.toLowerCase(Locale.ROOT)));
        }
    }
}
