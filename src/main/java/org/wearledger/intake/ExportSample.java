package org.wearledger.intake;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;

/**
 * The first records of an export, as they are.
 *
 * @param headings in the order of the file
 * @param rows values by heading, without empty ones
 * @param json whether headings are dotted names in objects
 * @param encoding as it looks like, where it is not UTF-8; else {@code null}
 * @param within pointer to the array whose elements the records are; {@code null} where each outermost object is one
 * @param doubled headings of more than one column, each with the number of records in which their cells differ
 */
record ExportSample(Set<String> headings, List<Map<String, String>> rows, boolean json, String encoding, String within, Map<String, Integer> doubled) {
    private static final int MOST_RECORDS = 1_000;
    private static final double LEAST_IN_COMMON = 0.5;

    /** By the ways in which its records may lie; none without a record that can be read. */
    static List<ExportSample> of(Path path) throws IOException {
        ReportPart part = ReportPart.whole(ReportFile.of(path));
        String encoding;
        List<String> within = new ArrayList<>();
        within.add(null);
        try (ReportText text = ReportText.open(part, StandardCharsets.UTF_8)) {
            encoding = text.likelyEncoding();
            if (ReportFormat.of(part.file(), text.head()) != ReportFormat.CSV) {
                within.addAll(JsonRecords.seemToLieIn(text.head()));
            }
        }
        List<ExportSample> samples = new ArrayList<>();
        for (String pointer : within) {
            ExportSample sample = read(part, encoding, pointer, false);
            if (!sample.rows.isEmpty()) {
                samples.add(sample.doubled.isEmpty() ? sample : sample.with(read(part, encoding, pointer, true).doubled));
            }
        }
        return samples;
    }

    private static ExportSample read(ReportPart part, String encoding, String within, boolean comparing) throws IOException {
        try (ReportText text = ReportText.open(part, encoding == null ? StandardCharsets.UTF_8 : Charset.forName(encoding))) {
            ReportFormat format = ReportFormat.of(part.file(), text.head());
            ExportSample sample = new ExportSample(new LinkedHashSet<>(), new ArrayList<>(), format != ReportFormat.CSV, encoding, within, new TreeMap<>());
            if (format != ReportFormat.EMPTY) {
                try (RecordSource source = source(part.file(), text, format, within, comparing)) {
                    sample.fill(source);
                }
            }
            return sample;
        }
    }

    private void fill(RecordSource source) throws IOException {
        if (source instanceof CsvRecords csv) {
            csv.columns().stream().filter(column -> !column.isBlank() && !headings.add(column)).forEach(column -> doubled.put(column, 0));
        }
        for (RawRecord record = source.next(); record != null && rows.size() < MOST_RECORDS; record = source.next()) {
            if (record.problem() == null) {
                Map<String, String> row = new LinkedHashMap<>();
                record.fields().forEach((name, value) -> row.put(name, value.strip()));
                headings.addAll(row.keySet());
                rows.add(row);
            } else if (record.problem().finding() == Finding.CELLS_DIFFER) {
                doubled.merge(record.problem().fact(Fact.TEXT), 1, Integer::sum);
            }
        }
    }

    private static RecordSource source(ReportFile file, ReportText text, ReportFormat format, String within, boolean comparing) throws IOException {
        if (within != null) {
            return new InnerSource(file.name(), text.reader(), new ExportForm(null, ExportForm.names(within), new HashSet<>()), new RawFields());
        }
        FlatJson json = new FlatJson();
        return switch (format) {
            case JSON_LINES -> JsonRecords.lines(file.name(), text.utf8(), text.bufferBytes(), 0, json);
            case JSON_SEQUENCE -> JsonRecords.sequence(file.name(), text.reader(), json);
            default -> new CsvRecords(file.name(), text.reader(), CsvHeader.of(text.head()), name -> comparing, new RawFields());
        };
    }

    private ExportSample with(Map<String, Integer> differing) {
        return new ExportSample(headings, rows, json, encoding, within, differing);
    }

    /** Of each heading its values, without empty ones. */
    Map<String, List<String>> values() {
        Map<String, List<String>> values = new LinkedHashMap<>();
        headings.forEach(heading -> values.put(heading, rows.stream().map(row -> row.get(heading)).filter(value -> value != null && !value.isEmpty()).toList()));
        return values;
    }

    /** Whether one mapping may serve both. */
    boolean isLike(ExportSample other) {
        Set<String> common = headings.stream().filter(other.headings::contains).collect(Collectors.toSet());
        return json == other.json && String.valueOf(within).equals(String.valueOf(other.within)) && (encoding == null || other.encoding == null || encoding.equals(other.encoding))
            && (json ? common.size() >= LEAST_IN_COMMON * Math.min(headings.size(), other.headings.size()) : headings.equals(other.headings));
    }

    /** One of all, which are like each other. */
    static ExportSample joined(Collection<ExportSample> samples) {
        ExportSample first = samples.iterator().next();
        String encoding = samples.stream().map(ExportSample::encoding).filter(each -> each != null).findFirst().orElse(null);
        ExportSample all = new ExportSample(new LinkedHashSet<>(), new ArrayList<>(), first.json, encoding, first.within, new TreeMap<>());
        samples.forEach(sample -> {
            all.headings.addAll(sample.headings);
            all.rows.addAll(sample.rows);
            sample.doubled.forEach((heading, differing) -> all.doubled.merge(heading, differing, Integer::sum));
        });
        return all;
    }
}
