package org.wearledger.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.csv.DuplicateHeaderMode;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * CSV records under a header of dotted names. An empty cell is "not reported".
 */
final class CsvRecords implements RecordSource {
    /** Of an amount; counters are longer and have no decimals. */
    private static final Pattern WHOLE = Pattern.compile("\\d{1,5}");
    private static final Pattern CENTS = Pattern.compile("\\d{1,2}");
    private static final Pattern NAMED_TWICE = Pattern.compile("duplicate name: \"(.*?)\"");

    private final String file;
    private final RowReader text;
    private final CSVParser parser;
    private final Iterator<CSVRecord> rows;
    private final List<String> columns;
    private final long linesBefore;
    private final CSVFormat format;
    private boolean ended;

    /** @throws IOException when the header cannot be read or names a column twice */
    CsvRecords(String file, BufferedReader reader, CsvHeader header) throws IOException {
        this.file = file;
        linesBefore = header.linesAbove();
        for (int i = 0; i < linesBefore; i++) {
            reader.readLine();
        }
        format = format(header);
        text = new RowReader(reader);
        parser = parser(format, text);
        columns = parser.getHeaderNames();
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
    CsvRecords(String file, BufferedReader reader, CsvHeader header, long linesBefore) throws IOException {
        this.file = file;
        this.linesBefore = linesBefore;
        format = format(header);
        columns = columns(header);
        text = new RowReader(reader);
        parser = parser(format.builder().setHeader(columns.toArray(String[]::new)).setSkipHeaderRecord(false).get(), text);
        rows = parser.iterator();
    }

    /** @throws IOException when it cannot be read or names a column twice */
    static List<String> columns(CsvHeader header) throws IOException {
        try (CSVParser parser = parser(format(header), new StringReader(header.line()))) {
            return parser.getHeaderNames();
        }
    }

    private static CSVFormat format(CsvHeader header) {
        return CSVFormat.RFC4180.builder().setDelimiter(header.delimiter()).setHeader()
            .setSkipHeaderRecord(true).setIgnoreEmptyLines(true).setTrim(true).setAllowMissingColumnNames(true)
            .setDuplicateHeaderMode(DuplicateHeaderMode.ALLOW_EMPTY).get();
    }

    private static CSVParser parser(CSVFormat format, Reader reader) throws IOException {
        try {
            return format.parse(reader);
        } catch (IllegalArgumentException e) {
            // How Commons CSV reports a column that is named twice.
            Matcher twice = NAMED_TWICE.matcher(e.getMessage());
            throw new IOException(twice.find() ? "its header names the column " + twice.group(1) + " twice" : "unusable header: " + e.getMessage(), e);
        }
    }

    List<String> columns() {
        return columns;
    }

    @Override
    public RawRecord next() throws IOException {
        if (ended) {
            return null;
        }
        text.beginRow();
        try {
            return rows.hasNext() ? record(rows.next()) : null;
        } catch (UncheckedIOException e) {
            if (!(e.getCause() instanceof CSVException) && !(e.getCause() instanceof RowReader.RowTooLongException)) {
                throw e.getCause();
            }
            ended = true;
            return RawRecord.broken(new Problem(ProblemKind.BROKEN_CSV, here(parser.getCurrentLineNumber()), "",
                "broken CSV: " + e.getCause().getMessage(), "rows as in RFC 4180", "check the quotes near this line"));
        }
    }

    private RawRecord record(CSVRecord row) {
        SourcePlace source = here(parser.getCurrentLineNumber());
        if (row.size() != columns.size()) {
            return RawRecord.broken(new Problem(ProblemKind.BROKEN_CSV, source, "", "a row of " + row.size() + " cells",
                "as many cells as the header's " + columns().size(), decimalComma(row)));
        }
        Map<String, String> fields = new LinkedHashMap<>();
        for (int i = 0; i < columns.size(); i++) {
            if (!row.get(i).isEmpty()) {
                fields.put(columns.get(i), row.get(i));
            }
        }
        return RawRecord.of(source, fields);
    }

    /** What to do about a row of the wrong length: 41,50 without quotes makes two cells where commas part them. */
    private String decimalComma(CSVRecord row) {
        for (int i = 1; isSeparatedByCommas() && row.size() > columns.size() && i < row.size(); i++) {
            if (WHOLE.matcher(row.get(i - 1)).matches() && CENTS.matcher(row.get(i)).matches()) {
                return "a decimal comma? write \"" + row.get(i - 1) + "." + row.get(i) + "\", or separate the cells by semicolons";
            }
        }
        return "check separators and quotes on this line";
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
