package org.wearledger.intake;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The first records of an export, as they are.
 *
 * @param values of each heading, without empty ones
 * @param json whether headings are dotted names in objects
 */
record ExportSample(Map<String, List<String>> values, long records, boolean json) {
    private static final int MOST_RECORDS = 1_000;

    /** @throws InputMissingException when it holds no record that can be read */
    static ExportSample of(Path path) throws IOException {
        ReportFile file = ReportFile.of(path);
        try (ReportText text = ReportText.open(ReportPart.whole(file))) {
            ReportFormat format = ReportFormat.of(file, text.head());
            Map<String, List<String>> values = new LinkedHashMap<>();
            long records = 0;
            if (format != ReportFormat.EMPTY) {
                try (RecordSource source = source(file, text, format)) {
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
            if (records == 0) {
                throw new InputMissingException(path + " holds no record that can be read; wearledger check says why");
            }
            return new ExportSample(values, records, format != ReportFormat.CSV);
        }
    }

    private static RecordSource source(ReportFile file, ReportText text, ReportFormat format) throws IOException {
        return switch (format) {
            case JSON_LINES -> JsonRecords.lines(file.name(), text.utf8(), text.bufferBytes(), 0);
            case JSON_SEQUENCE -> JsonRecords.sequence(file.name(), text.reader());
            default -> new CsvRecords(file.name(), text.reader(), CsvHeader.of(text.head()));
        };
    }
}
