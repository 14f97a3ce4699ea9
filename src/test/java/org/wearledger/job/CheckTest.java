package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.CheckText;

/** The last lines of a check: what the fleet's figures look like, and how many of its drives are in doubt. Seven drives of 256 GB. */
class CheckTest {
    private static final String MAPPING = """
        {"fields": {"machine.id": "PC", "collectedAt": "At", "drive.serial": "No.", "drive.model": "Disk", "health.powerOnHours": "Hours",
          "drive.capacityBytes": {"from": "Size", "unit": "GB"}, "health.dataUnitsWritten": {"from": "Host writes", "unit": "UNIT"}USED}}
        """;

    @TempDir
    Path folder;

    /** Drive n has n TB written, written as GB, at n + 9 % used after 1,000 n hours. */
    private String check(String unit, boolean used, boolean json) throws IOException {
        Files.writeString(folder.resolve("a.csv"), "PC,At,No.,Disk,Hours,Size,Host writes,Wear\n" + IntStream.rangeClosed(1, 7)
            .mapToObj(n -> "PC-" + n + ",2025-01-06T09:30:00Z,KX-" + n + ",Kestrel K2," + 1000 * n + ",256," + 1000 * n + "," + (n + 9) + "\n").collect(Collectors.joining()));
        Path mapping = Files.writeString(folder.resolve("mapping.js"), MAPPING.replace("UNIT", unit).replace("USED", used ? ", \"health.percentageUsed\": \"Wear\"" : ""));
        var result = Check.run(new SweepRequest(List.of(folder.resolve("a.csv").toString()), null, null, null, mapping.toString(), null, SweepSettings.withDefaults(),
            BudgetSettings.withDefaults(), null, null, Instant.parse("2025-01-07T00:00:00Z"), "test"));
        return json ? CheckText.json(result) : CheckText.of(result);
    }

    private List<String> lastLines(String unit, boolean used) throws IOException {
        List<String> lines = check(unit, used, false).lines().toList();
        return lines.subList(lines.indexOf(lines.stream().filter(line -> line.startsWith("readings: ")).findFirst().orElseThrow()) + 1, lines.size());
    }

    @Test
    void figuresThatCanBeAreToldWithoutAlarm() throws IOException {
        assertThat(lastLines("GB", true)).containsExactly("read of 7 drives, in the middle (median): 4.0 TB written, 13 % used, 4,000 power-on hours", "no problem found in the input");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        TB | 4,000.0 | problems: 7; --format json tells each of them
        MB | 0.0     | problems: 7; --format json tells each of them
        """)
    void aWrongUnitIsTheLastThingSaid(String unit, String terabytes, String problems) throws IOException {
        assertThat(lastLines(unit, true)).containsExactly("read of 7 drives, in the middle (median): " + terabytes + " TB written, 13 % used, 4,000 power-on hours", problems,
            "7 of 7 drives are in doubt: before sweeping check the unit of health.dataUnitsWritten from \"Host writes\" in " + unit
                + ", health.percentageUsed from \"Wear\", drive.capacityBytes from \"Size\" in GB");
    }

    @Test
    void whereNothingSpeaksAgainstAWrongUnitThatIsSaid() throws IOException {
        assertThat(lastLines("MB", false)).containsExactly("read of 7 drives, in the middle (median): 0.0 TB written, 4,000 power-on hours",
            "neither percentage used nor write commands are reported for 7 of 7 drives: a wrong unit of bytes written cannot be seen from these reports, unless it leads "
                + "beyond what a drive can do; see whether the median can be", "no problem found in the input");
    }

    @Test
    void programsAreToldTheSame() throws IOException {
        JsonNode told = new ObjectMapper().readTree(check("TB", true, true));
        assertThat(told.get("drives").asInt()).isEqualTo(7);
        assertThat(told.get("drivesInDoubt").asInt()).isEqualTo(7);
        assertThat(told.get("medianTerabytesWritten").asDouble()).isEqualTo(4000);
    }
}
