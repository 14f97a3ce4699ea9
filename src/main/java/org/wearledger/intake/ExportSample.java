package org.wearledger.intake;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The first records of an export, as they are.
 *
 * @param values of each heading, without empty ones
 * @param json whether headings are dotted names in objects
 * @param encoding as it looks like, where it is not UTF-8; else {@code null}
 * @param within pointer to the array whose elements the records are; {@code null} where each outermost object is one
 */
record ExportSample(Map<String, List<String>> values, long records, boolean json, String encoding, String within) {
    private static final int MOST_RECORDS = 1_000;

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
            try (ReportText text = ReportText.open(part, encoding == null ? StandardCharsets.UTF_8 : Charset.forName(encoding))) {
                ExportSample sample = read(part.file(), text, encoding, pointer);
                if (sample.records > 0) {
                    samples.add(sample);
                }
            }
        }
        return samples;
    }

    private static ExportSample read(ReportFile file, ReportText text, String encoding, String within) throws IOException {
        ReportFormat format = ReportFormat.of(file, text.head());
        Map<String, List<String>> values = new LinkedHashMap<>();
        long records = 0;
        if (format != ReportFormat.EMPTY) {
            try (RecordSource source = source(file, text, format, within)) {
                if (source instanceof CsvRecords csv) {
                    csv.columns().stream().filter(column -> !column.isBlank()).forEach(column -> values.put(column, new ArrayList<>()));
                }
                for (RawRecord record = source.next(); record != null && records < MOST_RECORDS; record = source.next()) {
                    if (record.problem() == null) {
                        records++;
                        record.fields().forEach((name, value) -> values.computeIfAbsent(name, k -> new ArrayList<>()).add(value.strip()));
                    }
                }
            }
        }
        return new ExportSample(values, records, format != ReportFormat.CSV, encoding, within);
    }

    private static RecordSource source(ReportFile file, ReportText text, ReportFormat format, String within) throws IOException {
        if (within != null) {
            return new InnerSource(file.name(), text.reader(), new ExportForm(null, ExportForm.names(within), new HashSet<>()), new RawFields());
        }
        FlatJson json = new FlatJson();
        return switch (format) {
            case JSON_LINES -> JsonRecords.lines(file.name(), text.utf8(), text.bufferBytes(), 0, json);
            case JSON_SEQUENCE -> JsonRecords.sequence(file.name(), text.reader(), json);
            default -> new CsvRecords(file.name(), text.reader(), CsvHeader.of(text.head()), name -> true, new RawFields());
        };
    }
}
