package org.wearledger.intake;

import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.Closeable;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Queue;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.zip.GZIPInputStream;
import org.apache.commons.io.ByteOrderMark;
import org.apache.commons.io.input.BOMInputStream;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * The readings and problems of one report file, record by record. The content decides the format (gzip by its magic
 * number, JSON by its first bracket, CSV by its header); the ending only settles whether JSON is one object a line.
 * Text is UTF-8, or UTF-16 with a byte order mark.
 *
 * <p>Every record gives either one reading or one problem that refuses the record; a file that gives no reading ends
 * with exactly one problem that refuses the file.
 */
public final class ReportReader implements Iterator<ReportReader.Item>, Closeable {
    /**
     * What one step through the file gave.
     *
     * @param records 1 for a record, good or refused; 0 for what concerns the whole file
     * @param filesRead 1 once, at the end of a file that gave a reading
     */
    public record Item(Outcome<Reading> outcome, int records, int filesRead) implements Serializable {
    }

    private static final int SNIFF_CHARACTERS = 1 << 16;

    private final ReportFile file;
    private final FieldMapping mapping;
    private final Queue<Item> ready = new ArrayDeque<>();
    private final Map<String, Long> unknownFields = new TreeMap<>();
    /** Of a mapped file, the names that its records have. */
    private final Set<String> met = new TreeSet<>();
    private RecordSource records;
    private boolean gzipped;
    private long recordsSeen;
    private long readings;
    private boolean ended;

    public ReportReader(ReportFile file) {
        this(file, FieldMapping.none());
    }

    public ReportReader(ReportFile file, FieldMapping mapping) {
        this.file = file;
        this.mapping = mapping;
        try {
            records = open();
        } catch (IOException e) {
            refuseFile(ProblemKind.FILE_UNREADABLE, "the file cannot be read: " + e, "a readable report file",
                "check the file and its permissions, or collect it again");
        }
    }

    @Override
    public boolean hasNext() {
        while (ready.isEmpty() && !ended) {
            readOn();
        }
        return !ready.isEmpty();
    }

    @Override
    public Item next() {
        if (!hasNext()) {
            throw new NoSuchElementException(file.name());
        }
        return ready.remove();
    }

    @Override
    public void close() throws IOException {
        if (records != null) {
            records.close();
        }
    }

    private void readOn() {
        try {
            RawRecord next = records.next();
            if (next != null && !mapping.isNone()) {
                met.addAll(next.fields().keySet());
            }
            RawRecord raw = next == null ? null : mapping.apply(next);
            if (raw == null) {
                finish();
            } else {
                accept(raw);
            }
        } catch (IOException e) {
            recordsSeen++;
            ProblemKind kind = gzipped ? ProblemKind.BROKEN_COMPRESSION
                : records instanceof CsvRecords ? ProblemKind.BROKEN_CSV : ProblemKind.BROKEN_JSON;
            addRecord(problem(new Problem(kind, SourcePlace.record(file.name(), recordsSeen), "",
                "reading stops here: " + e, "a complete file in UTF-8 (or UTF-16 with a byte order mark)",
                "copy or collect the file again; what stood before is used")));
            finish();
        }
    }

    private void accept(RawRecord raw) {
        recordsSeen++;
        if (raw.problem() != null) {
            addRecord(problem(raw.problem()));
            return;
        }
        raw.fields().keySet().stream().filter(name -> !ReadingParser.isKnown(name))
            .forEach(name -> unknownFields.merge(name, 1L, Long::sum));
        Outcome<Reading> parsed = ReadingParser.parse(raw);
        Outcome<Reading> outcome = mapping.isNone() ? parsed
            : new Outcome<>(parsed.values(), parsed.problems().stream().map(mapping::explained).toList());
        readings += outcome.values().size();
        addRecord(outcome);
    }

    private void finish() {
        ended = true;
        unknownFields.forEach((name, count) -> addNote(problem(new Problem(ProblemKind.FIELD_UNKNOWN,
            SourcePlace.wholeFile(file.name()), "", "unknown field " + name + " in " + count + " record(s)",
            "the names in schemas/csv-columns.md", "the field is not used; check its spelling"))));
        for (String absent : recordsSeen == 0 ? List.<String>of() : mapping.notMet(met)) {
            addNote(problem(new Problem(ProblemKind.MAPPED_FIELD_ABSENT, SourcePlace.wholeFile(file.name()), "", "no record has a value for \"" + absent
                + "\", which the mapping names; they have " + shortened(String.join(", ", met)), "a heading or pointer of this file",
                "correct the mapping, or leave the field out of it")));
        }
        if (readings == 0) {
            refuseFile(ProblemKind.FILE_HAS_NO_READING, "none of its " + recordsSeen + " record(s) gave a reading",
                "at least one usable report", "see the problems of its records");
        } else {
            ready.add(new Item(Outcome.empty(), 0, 1));
        }
        try {
            close();
        } catch (IOException e) {
            // Closing a file that was only read loses nothing.
            ended = true;
        }
    }

    private void refuseFile(ProblemKind kind, String found, String expected, String remedy) {
        ended = true;
        addNote(problem(new Problem(kind, SourcePlace.wholeFile(file.name()), "", found, expected, remedy)));
    }

    private void addRecord(Outcome<Reading> outcome) {
        ready.add(new Item(outcome, 1, 0));
    }

    private void addNote(Outcome<Reading> outcome) {
        ready.add(new Item(outcome, 0, 0));
    }

    private static Outcome<Reading> problem(Problem problem) {
        return new Outcome<>(List.of(), List.of(problem));
    }

    private RecordSource open() throws IOException {
        BufferedReader reader = text(Files.newInputStream(Path.of(file.path())));
        String start = head(reader).stripLeading();
        if (start.isEmpty()) {
            refuseFile(ProblemKind.FILE_EMPTY, "an empty file", "a report", "collect this report again");
            reader.close();
            return null;
        }
        boolean lines = file.hasEnding(".jsonl") || file.hasEnding(".ndjson");
        boolean isJson = start.charAt(0) == '{' || start.charAt(0) == '['
            || lines && start.lines().anyMatch(line -> line.stripLeading().startsWith("{"));
        return isJson ? json(reader, start) : csv(reader, start);
    }

    /** The beginning of the text, as far as it can be read: a fault behind it is met again, and told, by the records. */
    private static String head(BufferedReader reader) throws IOException {
        reader.mark(SNIFF_CHARACTERS);
        StringBuilder head = new StringBuilder();
        try {
            for (int c = reader.read(); c >= 0 && head.length() < SNIFF_CHARACTERS - 1; c = reader.read()) {
                head.append((char) c);
            }
        } catch (IOException e) {
            if (head.isEmpty()) {
                throw e;
            }
        }
        reader.reset();
        return head.toString();
    }

    private BufferedReader text(InputStream raw) throws IOException {
        InputStream in = new BufferedInputStream(raw, 1 << 16);
        in.mark(2);
        gzipped = in.read() == 0x1F && in.read() == 0x8B;
        in.reset();
        if (gzipped) {
            in = new GZIPInputStream(in, 1 << 16);
        }
        BOMInputStream marked = BOMInputStream.builder().setInputStream(in)
            .setByteOrderMarks(ByteOrderMark.UTF_8, ByteOrderMark.UTF_16LE, ByteOrderMark.UTF_16BE).get();
        String name = marked.getBOMCharsetName();
        Charset charset = name == null ? StandardCharsets.UTF_8 : Charset.forName(name);
        return new BufferedReader(new InputStreamReader(new Unhurried(marked), charset.newDecoder()
            .onMalformedInput(CodingErrorAction.REPLACE).onUnmappableCharacter(CodingErrorAction.REPLACE)), 1 << 16);
    }

    /** Says that nothing is waiting, so that a reader hands on what it has before it meets a fault further on. */
    private static final class Unhurried extends FilterInputStream {
        private Unhurried(InputStream in) {
            super(in);
        }

        @Override
        public int available() {
            return 0;
        }
    }

    private RecordSource json(BufferedReader reader, String start) throws IOException {
        if (file.hasEnding(".csv")) {
            noteFormat("JSON", ".csv");
        }
        String firstLine = start.lines().findFirst().orElse("").strip();
        boolean onePerLine = start.charAt(0) != '[' && firstLine.length() > 1
            && (file.hasEnding(".jsonl") || file.hasEnding(".ndjson") || JsonRecords.isOneObject(firstLine));
        return onePerLine ? JsonRecords.lines(file.name(), reader) : JsonRecords.sequence(file.name(), reader);
    }

    private RecordSource csv(BufferedReader reader, String start) throws IOException {
        String header = start.lines().findFirst().orElse("");
        if (mapping.isNone() && !header.contains("drive.") && !header.contains("machine.")) {
            refuseFile(ProblemKind.FILE_FORMAT_UNKNOWN, "text that begins \"" + shortened(header) + "\"",
                "JSON, or CSV with a header of dotted names", "see notebooks-free-docs/report-format.md; an export with other headings needs --mapping");
            reader.close();
            return null;
        }
        if (!file.hasEnding(".csv")) {
            noteFormat("CSV", file.name().substring(file.name().lastIndexOf('.') + 1));
        }
        CsvRecords csv = new CsvRecords(file.name(), reader, header);
        List<String> missing = new ArrayList<>(mapping.missing(List.copyOf(Fields.REQUIRED), csv.columns()));
        missing.sort(null);
        if (!missing.isEmpty()) {
            refuseFile(ProblemKind.FILE_HAS_NO_READING, "a CSV header without " + String.join(", ", missing) + "; it has "
                + shortened(String.join(", ", csv.columns())), "every required column", header.indexOf('\uFFFD') >= 0
                    ? "export as UTF-8: the header holds bytes that are none" : mapping.isNone() ? "see schemas/csv-columns.md" : "correct the mapping: it names headings of this file");
            csv.close();
            return null;
        }
        return csv;
    }

    private static String shortened(String text) {
        String printable = text.replaceAll("[\\p{Cntrl}\uFFFD]", "?");
        return printable.length() <= 120 ? printable : printable.substring(0, 120) + "...";
    }

    private void noteFormat(String found, String ending) {
        addNote(problem(new Problem(ProblemKind.FORMAT_DIFFERS_FROM_ENDING, SourcePlace.wholeFile(file.name()), "",
            found + " in a file that ends in " + ending.toLowerCase(Locale.ROOT), "the ending of its format",
            "read as " + found + "; rename the file")));
    }

    /** Reads a whole file into memory; for tests and small inputs. */
    static Outcome<Reading> readAll(ReportFile file) {
        Outcome<Reading> all = Outcome.empty();
        try (ReportReader reader = new ReportReader(file)) {
            while (reader.hasNext()) {
                all = all.combine(reader.next().outcome());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return all;
    }
}
