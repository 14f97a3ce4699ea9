package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A fleet of 320 machines, its drives' figures summed from the report files by code of this test alone. */
class IndependentSumIT {
    private static final int MACHINES = 320;

    @TempDir
    Path folder;

    /** A drive's figures as this test works them out. */
    private static final class Sum {
        JsonNode latest;
        int readings;
        int runs = 1;
        BigDecimal units = BigDecimal.ZERO;

        void add(JsonNode report) {
            if (latest != null && whole(report, "dataUnitsWritten").compareTo(whole(latest, "dataUnitsWritten")) < 0) {
                units = units.add(whole(latest, "dataUnitsWritten"));
                runs++;
            }
            latest = report;
            readings++;
        }

        BigDecimal terabytes() {
            return units.add(whole(latest, "dataUnitsWritten")).multiply(new BigDecimal("512000")).divide(new BigDecimal("1000000000000"));
        }
    }

    @Test
    void everyFigureOfEveryMachineIsTheSumOfItsReports() throws IOException {
        assertThat(Runs.of("simulate", "--drives", MACHINES, "--out", folder.resolve("fleet")).exitCode()).isZero();
        Path reports = folder.resolve("fleet/reports");
        assertThat(Runs.of("sweep", reports, "--out", folder.resolve("out")).exitCode()).isZero();
        Map<String, Sum> sums = sums(reports);
        Map<String, BigDecimal> rated = new HashMap<>();
        rows(reports.resolve("ratings.csv")).forEach(row -> rated.put(row.get("driveModel") + row.get("nominalCapacityGigabytes"), new BigDecimal(row.get("ratedTerabytesWritten"))));
        List<String> differences = new ArrayList<>();
        int compared = 0;
        for (CSVRecord row : rows(folder.resolve("out/machines.csv"))) {
            Sum sum = sums.get(row.get("driveSerial"));
            if (sum == null) {
                continue;
            }
            compared++;
            JsonNode drive = sum.latest.path("drive");
            String nominal = new BigDecimal(drive.path("capacityBytes").asLong()).movePointLeft(9).setScale(0, RoundingMode.HALF_UP).toPlainString();
            BigDecimal rating = rated.get(drive.path("model").asText() + (nominal.equals("1024") ? "1024" : nominal));
            Map<String, String> expected = new TreeMap<>();
            expected.put("terabytesWritten", sum.terabytes().setScale(3, RoundingMode.HALF_UP).toPlainString());
            expected.put("readings", String.valueOf(sum.readings));
            expected.put("counterEpochs", String.valueOf(sum.runs));
            expected.put("percentageUsed", sum.latest.path("health").path("percentageUsed").asText());
            expected.put("collectedAt", sum.latest.path("collectedAt").asText());
            expected.put("machineId", sum.latest.path("machine").path("id").asText());
            expected.put("firmware", drive.path("firmware").asText());
            expected.put("memoryGibibytes", new BigDecimal(sum.latest.path("machine").path("memoryBytes").asLong()).divide(new BigDecimal(1L << 30)).setScale(1, RoundingMode.HALF_UP).toPlainString());
            if (rating != null) {
                expected.put("ratedTerabytesWritten", rating.setScale(3).toPlainString());
                expected.put("consumedPercent", sum.terabytes().multiply(new BigDecimal(100)).divide(rating, 1, RoundingMode.HALF_UP).toPlainString());
                expected.put("remainingTerabytes", rating.subtract(sum.terabytes()).setScale(3, RoundingMode.HALF_UP).toPlainString());
            }
            expected.forEach((column, value) -> {
                if (!row.get(column).equals(value)) {
                    differences.add(row.get("driveSerial") + " " + column + " " + row.get(column) + ", by the reports " + value);
                }
            });
        }
        assertThat(differences).isEmpty();
        assertThat(compared).isGreaterThanOrEqualTo(MACHINES);
    }

    private static Map<String, Sum> sums(Path reports) throws IOException {
        List<JsonNode> all = new ArrayList<>();
        ObjectMapper json = new ObjectMapper();
        try (Stream<Path> files = Files.walk(reports)) {
            for (Path file : files.filter(path -> path.toString().endsWith(".jsonl.gz")).toList()) {
                try (BufferedReader lines = new BufferedReader(new InputStreamReader(new GZIPInputStream(Files.newInputStream(file)), StandardCharsets.UTF_8))) {
                    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                        all.add(json.readTree(line));
                    }
                }
            }
        }
        all.sort((a, b) -> a.path("collectedAt").asText().compareTo(b.path("collectedAt").asText()));
        Map<String, Sum> sums = new TreeMap<>();
        all.forEach(report -> sums.computeIfAbsent(report.path("drive").path("serial").asText(), serial -> new Sum()).add(report));
        return sums;
    }

    private static BigDecimal whole(JsonNode report, String counter) {
        return new BigDecimal(report.path("health").path(counter).asText());
    }

    private static List<CSVRecord> rows(Path table) throws IOException {
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get().parse(Files.newBufferedReader(table))) {
            return parser.getRecords();
        }
    }
}
