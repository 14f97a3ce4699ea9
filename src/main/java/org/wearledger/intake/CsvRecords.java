package org.wearledger.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.csv.DuplicateHeaderMode;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * CSV records under a header of dotted names. An empty cell is "not reported".
 */
final class CsvRecords implements RecordSource {
    /** Of an amount; counters are longer and have no decimals. */
    private static final Pattern WHOLE = Pattern.compile("\\d{1,5}");
    private static final Pattern CENTS = Pattern.compile("\\d{1,2}");
    /** How Commons CSV says what it found behind a closing quotation mark. */
    private static final Pattern BEHIND_QUOTE = Pattern.compile("between encapsulated token and delimiter at line: (\\d+)");
    /** Fewer may be a note's lines; the report form itself requires as many. */
    private static final int FEWEST_COLUMNS_OF_REPORTS = 5;
    /** What is read twice for the sake of stray marks; a file that goes on like that is given up. */
    private static final long MOST_REREAD_CHARACTERS = 256L << 20;
    /** Lines behind a fault among which a row is looked for; further ones are only counted. */
    private static final long MOST_SEARCHED_LINES = 50_000;

    private final String file;
    private final KeptText text;
    private final List<String> columns;
    /** The field of each column, {@code null} for one that the report form does not know. */
    private final ReportField[] known;
    /** Of columns whose name stood before and that are read. */
    private final boolean[] again;
    private final int[] mappedPlaces;
    private final RawFields fields;
    private final CSVFormat format;
    private RowReader counted;
    private CSVParser parser;
    private Iterator<CSVRecord> rows;
    /** Of the text and the file, before what the parser was given. */
    private long charactersBefore;
    private long linesBefore;
    /** The latest row, whose end is where the next one begins. */
    private long latestStart;
    private long latestLines;
    private long rereadCharacters;
    private Long unread;
    private boolean ended;

    /**
     * @param isRead whether anything is read from the column of that name
     * @param fields is filled for each row
     * @throws IOException when the header cannot be read
     */
    CsvRecords(String file, BufferedReader reader, CsvHeader header, Predicate<String> isRead, RawFields fields) throws IOException {
        this.file = file;
        linesBefore = header.linesAbove();
        for (int i = 0; i < linesBefore; i++) {
            reader.readLine();
        }
        format = format(header);
        text = new KeptText(reader);
        counted = new RowReader(text);
        parser = parser(format, counted);
        columns = parser.getHeaderNames();
        known = columns.stream().map(ReportField::named).toArray(ReportField[]::new);
        again = again(columns, isRead);
        this.fields = fields;
        mappedPlaces = columns.stream().mapToInt(fields::mappedPlace).toArray();
        latestLines = parser.getCurrentLineNumber();
        if (columns.size() > FlatJson.MOST_FIELDS) {
            throw new IOException("its header has " + columns.size() + " columns, more than " + FlatJson.MOST_FIELDS);
        }
        rows = parser.iterator();
    }

    /**
     * The rows of a part of the file behind its header.
     *
     * @param linesBefore lines of the file before those of {@code reader}
     */
    CsvRecords(String file, BufferedReader reader, CsvHeader header, Predicate<String> isRead, RawFields fields, long linesBefore) throws IOException {
        this.file = file;
        this.linesBefore = linesBefore;
        format = format(header);
        columns = columns(header);
        known = columns.stream().map(ReportField::named).toArray(ReportField[]::new);
        again = again(columns, isRead);
        this.fields = fields;
        mappedPlaces = columns.stream().mapToInt(fields::mappedPlace).toArray();
        text = new KeptText(reader);
        begin(0, linesBefore);
    }

    /** @throws IOException when it cannot be read */
    static List<String> columns(CsvHeader header) throws IOException {
        try (CSVParser parser = parser(format(header), new StringReader(header.line()))) {
            return parser.getHeaderNames();
        }
    }

    private static CSVFormat format(CsvHeader header) {
        return CSVFormat.RFC4180.builder().setDelimiter(header.delimiter()).setHeader()
            .setSkipHeaderRecord(true).setIgnoreEmptyLines(true).setTrim(true).setAllowMissingColumnNames(true)
            .setDuplicateHeaderMode(DuplicateHeaderMode.ALLOW_ALL).get();
    }

    private static CSVParser parser(CSVFormat format, Reader reader) throws IOException {
        try {
            return format.parse(reader);
        } catch (IllegalArgumentException e) {
            throw new IOException("unusable header: " + e.getMessage(), e);
        }
    }

    private static boolean[] again(List<String> columns, Predicate<String> isRead) {
        boolean[] again = new boolean[columns.size()];
        Set<String> before = new HashSet<>();
        for (int i = 0; i < again.length; i++) {
            again[i] = !before.add(columns.get(i)) && !columns.get(i).isEmpty() && isRead.test(columns.get(i));
        }
        return again;
    }

    List<String> columns() {
        return columns;
    }

    /** Reads rows, without a header, from where the text stands. */
    private void begin(long position, long lines) throws IOException {
        charactersBefore = position;
        linesBefore = lines;
        latestStart = position;
        latestLines = 0;
        counted = new RowReader(text);
        parser = parser(format.builder().setHeader(columns.toArray(String[]::new)).setSkipHeaderRecord(false).get(), counted);
        rows = parser.iterator();
    }

    @Override
    public RawRecord next() throws IOException {
        if (ended) {
            return null;
        }
        counted.beginRow();
        long before = parser.getCurrentLineNumber();
        try {
            if (!rows.hasNext()) {
                return null;
            }
            CSVRecord row = rows.next();
            long lines = parser.getCurrentLineNumber() - before;
            long start = charactersBefore + row.getCharacterPosition();
            if (lines > 1 && columns.size() >= FEWEST_COLUMNS_OF_REPORTS && swallowed(start, lines, row.size() == columns.size())) {
                return broken(at -> Problem.of(Finding.QUOTE_CLOSED_LATER, at, ""), start, 0, linesBefore + before);
            }
            latestStart = start;
            latestLines = lines;
            text.forgetBefore(start);
            return record(row);
        } catch (UncheckedIOException e) {
            if (!(e.getCause() instanceof CSVException) && !(e.getCause() instanceof RowReader.RowTooLongException)) {
                throw e.getCause();
            }
            return broken(at -> fault(at, e.getCause(), linesBefore + before), latestStart, latestLines, linesBefore + before);
        }
    }

    /** Whether rows of the file, but its last line where that belongs to it, stand within the row: then a stray mark made one of them all. */
    private boolean swallowed(long start, long lines, boolean rightWidth) throws IOException {
        long at = text.position();
        if (!text.goTo(start)) {
            return false;
        }
        List<String> own = new ArrayList<>();
        for (long i = 0; i < lines; i++) {
            String line = text.readLine(RowReader.MOST_CHARACTERS, null);
            if (line != null && !line.isBlank()) {
                own.add(line);
            }
        }
        text.goTo(at);
        int from = Math.min(1, own.size());
        return own.subList(from, Math.max(from, own.size() - (rightWidth ? 1 : 0))).stream().anyMatch(this::isRow);
    }

    /** The row behind {@code skipped} lines from {@code start}; reading goes on at the next line that is a row by itself. */
    private RawRecord broken(Function<SourcePlace, Problem> fault, long start, long skipped, long lines) throws IOException {
        rereadCharacters += text.position() - start;
        boolean kept = rereadCharacters <= MOST_REREAD_CHARACTERS && text.goTo(start);
        for (long i = 0; kept && i < skipped; i++) {
            text.readLine(0, null);
        }
        long line = lines;
        String first = "";
        while (kept && first != null && first.isBlank()) {
            first = text.readLine(1, null);
            line++;
        }
        Problem problem = fault.apply(SourcePlace.line(file, kept ? line : lines + 1));
        long left = 0;
        ended = true;
        while (ended) {
            long position = text.position();
            text.forgetBefore(position);
            String next = text.readLine(RowReader.MOST_CHARACTERS, null);
            if (next == null) {
                break;
            }
            line++;
            if (kept && left < MOST_SEARCHED_LINES && isRow(next) && text.goTo(position)) {
                begin(position, line - 1);
                ended = false;
            } else if (!next.isBlank()) {
                left++;
            }
        }
        if (left == 0) {
            return RawRecord.broken(problem);
        }
        unread = RecordSource.unread(unread, left);
        return RawRecord.broken(problem.with(Fact.UNREAD, left).with(Fact.LINE, ended ? null : line));
    }

    /** Whether it has a cell for each column and no mark that is left open. */
    private boolean isRow(String line) {
        if (line.length() > RowReader.MOST_CHARACTERS || line.isBlank()) {
            return false;
        }
        try (CSVParser alone = parser(format.builder().setHeader(columns.toArray(String[]::new)).setSkipHeaderRecord(false).get(), new StringReader(line))) {
            List<CSVRecord> all = alone.getRecords();
            return all.size() == 1 && all.get(0).size() == columns.size();
        } catch (IOException | UncheckedIOException e) {
            return false;
        }
    }

    private Problem fault(SourcePlace at, IOException fault, long lines) {
        String said = fault.getMessage();
        Matcher behind = BEHIND_QUOTE.matcher(said);
        if (said.contains("EOF reached before encapsulated token")) {
            return Problem.of(Finding.QUOTE_OPEN, at, "");
        }
        if (!behind.find()) {
            return Problem.of(Finding.CSV_BROKEN, at, "").with(Fact.TEXT, said);
        }
        long line = linesBefore + Long.parseLong(behind.group(1));
        return line <= lines + 1 ? Problem.of(Finding.TEXT_BEHIND_QUOTE, at, "") : Problem.of(Finding.QUOTE_CLOSED_IN_TEXT, at, "").with(Fact.VALUE, line);
    }

    @Override
    public Long unread() {
        return unread;
    }

    private RawRecord record(CSVRecord row) {
        SourcePlace source = here(parser.getCurrentLineNumber());
        if (row.size() != columns.size()) {
            String decimal = decimalComma(row);
            return RawRecord.broken(Problem.of(decimal == null ? Finding.ROW_WIDTH : Finding.ROW_WIDTH_BY_COMMA, source, "").with(Fact.COUNT, row.size())
                .with(Fact.OF, columns().size()).with(Fact.TEXT, decimal));
        }
        fields.clear();
        for (int i = 0; i < columns.size(); i++) {
            String cell = row.get(i);
            if (again[i]) {
                String before = fields.get(columns.get(i));
                if (before != null && !cell.isEmpty() && !before.equals(cell)) {
                    return RawRecord.broken(Problem.of(Finding.CELLS_DIFFER, source, "").with(Fact.TEXT, columns.get(i)));
                }
            }
            if (!cell.isEmpty() && known[i] != null) {
                fields.put(known[i], cell);
            } else if (!cell.isEmpty() && mappedPlaces[i] >= 0) {
                fields.putMapped(mappedPlaces[i], cell);
            } else if (!cell.isEmpty()) {
                fields.put(columns.get(i), cell);
            }
        }
        return RawRecord.of(source, fields);
    }

    /** The number meant in a row of the wrong length: 41,50 without quotes makes two cells where commas part them; {@code null} for none. */
    private String decimalComma(CSVRecord row) {
        for (int i = 1; isSeparatedByCommas() && row.size() > columns.size() && i < row.size(); i++) {
            if (WHOLE.matcher(row.get(i - 1)).matches() && CENTS.matcher(row.get(i)).matches()) {
                return row.get(i - 1) + "." + row.get(i);
            }
        }
        return null;
    }

    /** Where they are not, numbers may have a decimal comma without more ado. */
    boolean isSeparatedByCommas() {
        return format.getDelimiterString().equals(",");
    }

    private SourcePlace here(long line) {
        return SourcePlace.line(file, linesBefore + line);
    }

    @Override
    public void close() throws IOException {
        parser.close();
    }
}
