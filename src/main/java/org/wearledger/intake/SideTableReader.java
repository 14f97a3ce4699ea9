package org.wearledger.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Serializable;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.io.input.BOMInputStream;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.MappedField;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** Reads one side table row by row: a row at fault is refused alone, a second row for the same thing is refused and the first stands. */
final class SideTableReader<T extends Serializable> {
    /** Makes a value of one row. */
    interface RowParser<T> {
        T parse(SideTableRow row) throws SideTableRow.Fault;
    }

    private final ReportFile file;
    private final List<String> needed;
    private final List<String> known;
    private final FieldMapping mapping;
    private final TableMapping table;
    private final List<T> values = new ArrayList<>();
    private final List<SourcePlace> places = new ArrayList<>();
    private final List<Problem> problems = new ArrayList<>();
    private String likelyEncoding;

    private SideTableReader(ReportFile file, List<String> needed, List<String> optional, FieldMapping mapping, TableMapping table) {
        this.file = file;
        this.needed = needed;
        this.mapping = mapping;
        this.table = table;
        known = all(needed, optional);
    }

    static List<String> all(List<String> needed, List<String> optional) {
        return Stream.concat(needed.stream(), optional.stream()).toList();
    }

    /** @param key what no two rows may have in common, in the words of the problem */
    static <T extends Serializable> SideTable<T> read(ReportFile file, List<String> needed, List<String> optional, FieldMapping mapping, TableMapping table,
                                                      RowParser<T> parser, Function<T, String> key) throws IOException {
        return new SideTableReader<T>(file, needed, optional, mapping, table).read(parser, key);
    }

    private SideTable<T> read(RowParser<T> parser, Function<T, String> key) throws IOException {
        Charset charset = charset();
        CsvHeader header;
        try (BufferedReader first = open(charset)) {
            header = CsvHeader.of(first.lines().limit(2).collect(Collectors.joining("\n")));
        }
        long rowsFound = 0;
        Set<String> seen = new HashSet<>();
        try (CsvRecords rows = records(charset, header)) {
            if (!table.named(rows.columns()).containsAll(needed)) {
                throw new InputMissingException(file.name() + ": " + lacking(rows.columns()));
            }
            problems.addAll(table.isNone() ? unknownColumns(rows.columns()) : table.absent(file.name(), rows.columns()));
            for (RawRecord raw = rows.next(); raw != null; raw = rows.next()) {
                rowsFound++;
                try {
                    add(raw, value(raw, parser, rows.isSeparatedByCommas()), key, seen);
                } catch (SideTableRow.Fault fault) {
                    problems.add(fault.problem());
                }
            }
        }
        return new SideTable<>(values, places, problems, rowsFound);
    }

    private T value(RawRecord raw, RowParser<T> parser, boolean separatedByCommas) throws IOException, SideTableRow.Fault {
        if (raw.problem() != null) {
            throw new SideTableRow.Fault(raw.problem().under(ProblemKind.SIDE_TABLE_ROW_INVALID));
        }
        Map<String, String> cells = table.named(raw.fields());
        cells.values().removeIf(mapping::isNotReported);
        List<MappedField> garbled = cells.entrySet().stream().filter(cell -> known.contains(cell.getKey()))
            .filter(cell -> cell.getValue().indexOf(Fields.UNDECODABLE) >= 0).map(cell -> table.field(cell.getKey())).toList();
        if (!garbled.isEmpty()) {
            throw new SideTableRow.Fault(Problem.of(Finding.ROW_GARBLED, raw.source(), "").about(garbled).with(Fact.FORMAT, likelyEncoding()));
        }
        List<Problem> ofFields = new ArrayList<>();
        T value = parser.parse(new SideTableRow(raw.source(), visible(raw.source(), cells), ofFields, separatedByCommas, table));
        problems.addAll(ofFields);
        return value;
    }

    private void add(RawRecord raw, T value, Function<T, String> key, Set<String> seen) {
        if (!seen.add(value instanceof Price ? key.apply(value).replace(" ", "") : key.apply(value))) {
            problems.add(Problem.of(Finding.ROW_REPEATED, raw.source(), "").with(Fact.TEXT, key.apply(value)));
            return;
        }
        values.add(value);
        places.add(raw.source());
    }

    private String lacking(List<String> columns) throws IOException {
        List<String> missing = needed.stream().filter(column -> !table.named(columns).contains(column)).toList();
        if (Headings.isGarbled(String.join("", columns))) {
            String likely = likelyEncoding();
            return "its headings are no UTF-8" + (likely == null ? "" : " and look like " + likely) + ", and so it lacks " + String.join(", ", missing) + ": save it as UTF-8"
                + (likely == null ? "" : ", or say \"encoding\": \"" + likely + "\" in the mapping that serves it");
        }
        if (!table.isNone()) {
            return "no heading " + String.join(", ", missing.stream().map(column -> "\"" + table.field(column).heading() + "\" for " + column).toList()) + "; it has "
                + Headings.listed(columns) + ": correct the mapping";
        }
        String guesses = Headings.guesses(missing, columns.stream().filter(column -> !known.contains(column)).toList());
        return "a side table needs the columns " + String.join(", ", needed) + "; this one lacks " + String.join(", ", missing) + " and has "
            + (columns.isEmpty() ? "no heading" : Headings.listed(columns)) + (guesses.isEmpty() ? "" : "; " + guesses)
            + ": correct its headings as schemas/side-tables.md names them";
    }

    /** Columns of one's own are nobody's fault; a misspelt {@code labour} would cost its money without a word. */
    private List<Problem> unknownColumns(List<String> columns) {
        return columns.stream().filter(column -> !known.contains(column)).map(column -> Problem.of(Finding.COLUMN_UNKNOWN, SourcePlace.wholeFile(file.name()), "")
            .with(Fact.TEXT, Headings.quoted(column)).with(Fact.NAMES, known).with(Fact.NEAR, Headings.nearest(column, known))).toList();
    }

    /** As in reports: characters that nobody sees would make two machines of one. */
    private Map<String, String> visible(SourcePlace source, Map<String, String> cells) {
        for (Map.Entry<String, String> cell : cells.entrySet()) {
            if (!VisibleName.isVisible(cell.getValue())) {
                problems.add(Problem.of(Finding.TABLE_HIDDEN, source, "").about(cell.getKey()).with(Fact.HIDDEN, VisibleName.hiddenIn(cell.getValue()))
                    .with(Fact.TEXT, VisibleName.of(cell.getValue())));
                cell.setValue(VisibleName.of(cell.getValue()));
            }
        }
        cells.values().removeIf(String::isEmpty);
        return cells;
    }

    private CsvRecords records(Charset charset, CsvHeader header) throws IOException {
        BufferedReader reader = open(charset);
        try {
            return new CsvRecords(file.name(), reader, header, column -> known.contains(column) || !table.isNone(), new RawFields());
        } catch (IOException e) {
            reader.close();
            throw new InputMissingException(file.name() + ": " + e.getMessage());
        }
    }

    private Charset charset() throws IOException {
        ExportForm form = mapping.form();
        return form.encoding() == null ? StandardCharsets.UTF_8 : Encodings.of(Files.readAllBytes(Path.of(file.path())), form.charset());
    }

    /** {@code null} where nothing tells. */
    private String likelyEncoding() throws IOException {
        likelyEncoding = likelyEncoding == null ? Encodings.likely(Files.readAllBytes(Path.of(file.path()))) : likelyEncoding;
        return likelyEncoding;
    }

    private BufferedReader open(Charset charset) throws IOException {
        return new BufferedReader(new InputStreamReader(BOMInputStream.builder()
            .setInputStream(Files.newInputStream(Path.of(file.path()))).get(), charset));
    }
}
