package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A made-up panel as a monitoring program exports it: 96 drives in twelve months, a row for each, with 180 columns in any order, two of one
 * name, times in seconds since 1970 and counters of bytes in 64 bits. A mapping beside it is all that it takes.
 */
class WideExportIT {
    private static final int DRIVES = 96;
    private static final int MONTHS = 12;
    private static final int COLUMNS = 180;
    private static final long FIRST = 1_704_067_200;
    private static final long MONTH = 2_629_746;
    private static final List<String> READ = List.of("host_name", "sampled_at", "serial_number", "model_name", "size_bytes", "host_written_bytes", "life_used_ratio", "serial_number");

    @TempDir
    Path folder;

    @Test
    void isSweptWithAMappingAlone() throws IOException {
        Random random = new Random(1_152);
        List<String> columns = new ArrayList<>(READ);
        IntStream.rangeClosed(1, COLUMNS - READ.size()).forEach(n -> columns.add("metric_" + n));
        Collections.shuffle(columns, random);
        StringBuilder export = new StringBuilder(String.join(",", columns)).append('\n');
        Map<String, Long> latest = new HashMap<>();
        for (int month = 0; month < MONTHS; month++) {
            for (int drive = 0; drive < DRIVES; drive++) {
                long bytes = latest.merge("PC-" + drive, (drive == 0 ? 1L << 47 : 20_000_000_000_000L) + random.nextInt(1_000_000_000) * 900L, (before, first) -> before + random.nextInt(1_000_000_000) * 900L);
                Map<String, String> row = Map.of("host_name", "PC-" + drive, "sampled_at", Long.toString(FIRST + month * MONTH), "serial_number", "OA" + (1_000 + drive), "model_name", "Ondrel E3",
                    "size_bytes", "512110190592", "host_written_bytes", Long.toString(bytes), "life_used_ratio", BigDecimal.valueOf(100 * bytes / 300_000_000_000_000L, 2).toPlainString());
                export.append(String.join(",", columns.stream().map(column -> row.getOrDefault(column, random.nextInt(4) == 0 ? "" : Long.toString(random.nextLong()))).toList())).append('\n');
            }
        }
        Path exports = Files.createDirectory(folder.resolve("exports"));
        Files.writeString(exports.resolve("panel.csv"), export.toString());
        Files.writeString(exports.resolve("mapping.json"), """
            {"fields": {"machine.id": "host_name", "collectedAt": {"from": "sampled_at", "format": "epochSeconds"}, "drive.serial": "serial_number", "drive.model": "model_name",
              "drive.capacityBytes": {"from": "size_bytes", "unit": "bytes"}, "health.dataUnitsWritten": {"from": "host_written_bytes", "unit": "bytes"},
              "health.percentageUsed": {"from": "life_used_ratio", "unit": "share"}}}
            """);
        Path out = folder.resolve("out");
        assertThat(Runs.of("sweep", exports, "--out", out)).satisfies(run -> assertThat(run.exitCode()).as(run.err() + run.out()).isEqualTo(ExitCode.DONE));
        assertThat(Files.readString(out.resolve("summary.md"))).contains("readings: 1152 in = 1152 kept + 0 set aside");
        List<CSVRecord> machines = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get().parse(Files.newBufferedReader(out.resolve("machines.csv"))).getRecords();
        assertThat(machines).hasSize(DRIVES).allSatisfy(machine -> assertThat(new BigDecimal(machine.get("terabytesWritten")))
            .isEqualByComparingTo(new BigDecimal(latest.get(machine.get("machineId"))).divide(BigDecimal.valueOf(512_000), 0, RoundingMode.HALF_UP).multiply(BigDecimal.valueOf(512_000))
                .movePointLeft(12).setScale(3, RoundingMode.HALF_UP)));
    }
}
