package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One sweep in both forms of its tables: they say the same, and either is an earlier sweep. */
class CsvFormIT {
    @TempDir
    Path folder;

    private Path swept(String name, Object... options) {
        Path out = folder.resolve(name);
        Runs run = Runs.of(Stream.concat(Stream.of("sweep", "sample-reports", "--out", out), Stream.of(options)).toArray());
        assertThat(run.exitCode()).as(run.err()).isEqualTo(3);
        return out;
    }

    private static List<List<String>> cells(Path file, char separator) throws IOException {
        try (CSVParser parser = CSVFormat.RFC4180.builder().setDelimiter(separator).get().parse(Files.newBufferedReader(file))) {
            return parser.stream().map(CSVRecord::toList).toList();
        }
    }

    @Test
    void bothFormsSayTheSame() throws IOException {
        Path plain = swept("plain");
        Path people = swept("people", "--csv", "semicolon");
        int tables = 0;
        try (Stream<Path> files = Files.list(plain)) {
            for (Path file : files.filter(file -> file.toString().endsWith(".csv")).toList()) {
                List<List<String>> own = cells(file, ',');
                List<List<String>> other = cells(people.resolve(file.getFileName()), ';');
                assertThat(other.get(0).get(0)).as("the byte order mark of " + file).isEqualTo("\uFEFF" + own.get(0).get(0));
                assertThat(other.subList(1, other.size()).stream().map(CsvFormIT::withPoints).toList()).isEqualTo(own.subList(1, own.size()).stream().map(CsvFormIT::withPoints).toList());
                tables++;
            }
        }
        assertThat(tables).isGreaterThanOrEqualTo(12);
        assertThat(Files.readString(people.resolve("machines.csv"))).contains(";278,000;150,000;").doesNotContain(";278.000;");
        assertThat(swept("after plain", "--previous", plain).resolve("changes.csv")).hasSameBinaryContentAs(swept("after people", "--previous", people).resolve("changes.csv"));
    }

    private static List<String> withPoints(List<String> cells) {
        return cells.stream().map(cell -> cell.matches("-?\\d+,\\d+") ? cell.replace(',', '.') : cell).toList();
    }
}
