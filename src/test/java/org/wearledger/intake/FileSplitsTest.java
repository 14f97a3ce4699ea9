package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

/** A file read in parts tells the same readings, problems and places as the same file read whole. */
class FileSplitsTest {
    private static final String JSON = "{\"schemaVersion\":\"1.0\",\"collectedAt\":\"2025-01-06T09:30:00Z\",\"machine\":{\"id\":\"LT-%02d\"},"
        + "\"drive\":{\"serial\":\"KX%02d\",\"model\":\"Kestrel K2\"},\"health\":{\"percentageUsed\":%s}}";
    private static final String CSV_HEADER = "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed";

    @TempDir
    Path folder;

    private record Told(List<Reading> readings, List<Problem> problems, long records) {
    }

    private static Told read(List<ReportPart> parts) throws IOException {
        List<Reading> readings = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        List<FileSummary> summaries = new ArrayList<>();
        for (ReportPart part : parts) {
            try (ReportReader reader = new ReportReader(part, FieldMapping.none())) {
                reader.forEachRemaining(item -> {
                    readings.addAll(item.outcome().values());
                    problems.addAll(item.outcome().problems());
                    summaries.addAll(item.summary() == null ? List.of() : List.of(item.summary()));
                });
            }
        }
        FileSummary file = FileSummary.added(summaries).values().iterator().next();
        problems.addAll(file.problems(FieldMapping.none()));
        return new Told(readings, problems, file.records());
    }

    private static List<ReportPart> parts(ReportFile file, long partBytes) {
        return FileSplits.counted(List.of(FileSplits.cut(file, ExportForm.NONE, partBytes)), toCount -> toCount.stream().map(FileSplits::count).toList());
    }

    private ReportFile file(String name, String text) throws IOException {
        return new ReportFile(Files.writeString(folder.resolve(name), text).toString(), name);
    }

    private static List<String> jsonLines() {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            lines.add(i == 17 ? "{ broken" : i == 23 ? "" : String.format(JSON, i, i, i == 31 ? "-3" : i == 35 ? "4,\"spareLeft\":5" : "4"));
        }
        return lines;
    }

    @ParameterizedTest(name = "lines end in {0}")
    @CsvSource({"LF, '\n'", "CR LF, '\r\n'", "LF and no end after the last, '\n'", "LF and marks of two bytes, '\n'"})
    void jsonOfOneObjectALine(String name, String end) throws IOException {
        String text = String.join(end, jsonLines()) + (name.contains("no end") ? "" : end);
        ReportFile file = file("fleet.jsonl", name.contains("two bytes") ? text.replace("LT-", "B\u00fcro ") : text);
        Told whole = read(List.of(ReportPart.whole(file)));
        assertThat(whole.readings).hasSize(37);
        assertThat(whole.problems).extracting(problem -> ProblemWords.of(problem).sentence()).anySatisfy(sentence -> assertThat(sentence).startsWith("fleet.jsonl, line 18: broken JSON"));
        for (long partBytes : new long[] {60, 300, 1_000, 2_000}) {
            List<ReportPart> parts = parts(file, partBytes);
            assertThat(parts.size()).as("parts of %d bytes", partBytes).isGreaterThan(1);
            assertThat(read(parts)).as("parts of %d bytes", partBytes).isEqualTo(whole);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n"})
    void csvWithoutQuotes(String end) throws IOException {
        StringBuilder text = new StringBuilder("\uFEFF" + CSV_HEADER + end);
        for (int i = 0; i < 40; i++) {
            text.append(i == 11 ? "a,row,of,four" : i == 20 ? "" : "1.0,2025-01-06T09:30:00Z,LT-" + i + ",KX" + i + ",Kestrel K2," + (i == 33 ? "x" : "4")).append(end);
        }
        ReportFile file = file("fleet.csv", text.toString());
        Told whole = read(List.of(ReportPart.whole(file)));
        assertThat(whole.problems).extracting(problem -> problem.source().place()).containsExactly("line 13", "line 35");
        for (long partBytes : new long[] {100, 700}) {
            assertThat(read(parts(file, partBytes))).as("parts of %d bytes", partBytes).isEqualTo(whole);
        }
    }

    /** The line belongs to the first part; every part needs the separator it names. */
    @Test
    void csvBelowALineThatNamesTheSeparator() throws IOException {
        StringBuilder text = new StringBuilder("sep=;\n" + CSV_HEADER.replace(',', ';') + "\n");
        for (int i = 0; i < 40; i++) {
            text.append("1.0;2025-01-06T09:30:00Z;LT-" + i + ";KX" + i + ";Kestrel K2;" + (i == 33 ? "x" : "4")).append('\n');
        }
        ReportFile file = file("fleet.csv", text.toString());
        Told whole = read(List.of(ReportPart.whole(file)));
        assertThat(whole.problems).extracting(problem -> problem.source().place()).containsExactly("line 36");
        assertThat(read(parts(file, 700))).isEqualTo(whole);
    }

    /** Its other parts gave readings: that some are missing must be told all the same. */
    @Test
    void aFileThatShrinksOrGoesBetweenItsPartsIsTold() throws IOException {
        String text = String.join("\n", jsonLines());
        ReportFile file = file("fleet.jsonl", text);
        List<ReportPart> parts = parts(file, 1_000);
        Files.writeString(Path.of(file.path()), text.substring(0, text.length() / 2));
        Told shrunk = read(parts);
        assertThat(shrunk.problems).extracting(problem -> ProblemWords.of(problem).sentence()).anyMatch(sentence -> sentence.contains(
            "reading stopped here, nobody can say how many records are unread: the file is shorter than it was when its lines were counted"));
        Files.delete(Path.of(file.path()));
        Told gone = read(parts.subList(1, parts.size()));
        assertThat(gone.problems).filteredOn(problem -> problem.kind().effect() == Effect.RECORD_REFUSED).hasSize(parts.size() - 1);
        assertThat(gone.records).isEqualTo(parts.size() - 1);
    }

    /** What a reader from the beginning takes for the header, each part must take. */
    @Test
    void csvThatBeginsWithABlankLineIsReadWhole() throws IOException {
        ReportFile file = file("blank.csv", "   \n" + CSV_HEADER + "\n" + "1.0,2025-01-06T09:30:00Z,LT-1,KX1,Kestrel K2,4\n".repeat(20));
        assertThat(FileSplits.cut(file, ExportForm.NONE, 100)).containsExactly(ReportPart.whole(file));
    }

    /** Its head refuses it: to count its lines would be to read all of it for nothing. */
    @Test
    void aFileOfZeroBytesIsNotCut() throws IOException {
        ReportFile file = file("zeros.csv", "\0".repeat(80_000) + ("\0".repeat(50) + "\n").repeat(100));
        assertThat(FileSplits.cut(file, ExportForm.NONE, 1_000)).containsExactly(ReportPart.whole(file));
    }

    /** The end of line in the quoted cell would be taken for the end of a row. */
    @Test
    void csvWithQuotesIsReadWhole() throws IOException {
        String row = "1.0,2025-01-06T09:30:00Z,\"LT\n1\",KX1,Kestrel K2,4\n";
        ReportFile file = file("quoted.csv", CSV_HEADER + "\n" + row.repeat(20));
        assertThat(FileSplits.cut(file, ExportForm.NONE, 100).size()).isGreaterThan(1);
        assertThat(parts(file, 100)).containsExactly(ReportPart.whole(file));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"an array, array.json", "UTF-16, wide.jsonl", "gzip, packed.jsonl.gz"})
    void whatCannotBeCutIsReadWhole(String name, String fileName) throws IOException {
        String text = String.join("\n", jsonLines());
        Path path = folder.resolve(fileName);
        switch (name) {
            case "an array" -> Files.writeString(path, "[" + text + "]");
            case "UTF-16" -> Files.writeString(path, "\uFEFF" + text, StandardCharsets.UTF_16LE);
            default -> {
                try (var out = new java.util.zip.GZIPOutputStream(Files.newOutputStream(path))) {
                    out.write(text.getBytes(StandardCharsets.UTF_8));
                }
            }
        }
        ReportFile file = new ReportFile(path.toString(), fileName);
        assertThat(FileSplits.cut(file, ExportForm.NONE, 100)).containsExactly(ReportPart.whole(file));
    }
}
