package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.ReportPart;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.Health;
import org.wearledger.model.Reading;

/** The Linux script reads emulated controllers, and what it wrote is swept. The emulator's monitor is asked for the same figures. */
@Tag("thorough")
class CollectorIT {
    private static final Path SCRIPT = Path.of("src/main/dist/collect/collect-linux.py");
    private static final String NOTHING = "Go on? [y/N] Nothing was read. To go on without this question, add --yes.";
    private static final String FILE = "file: ";
    private static final int RELIABILITY_DEGRADED = 4;

    @TempDir
    Path folder;

    @Test
    @Timeout(value = 20, unit = TimeUnit.MINUTES)
    void whatTheScriptSavesIsWhatTheEmulatorTells() throws Exception {
        String missing = EmulatedMachine.missing();
        assumeTrue(missing == null, () -> "not tested here, since this is missing: " + missing);
        Path scratch = Files.createDirectory(folder.resolve("scratch"));
        try (EmulatedMachine machine = EmulatedMachine.with(Path.of("src/test/resources/emulated/init.py"), SCRIPT, scratch)) {
            machine.ask("{\"execute\": \"qom-set\", \"arguments\": {\"path\": \"/machine/peripheral/VX000001\", \"property\": \"smart_critical_warning\", \"value\": "
                + RELIABILITY_DEGRADED + "}}");
            List<String> said = machine.run();
            String before = "Reads, and changes nothing on, nvme0, nvme1; writes their pages and an index of LT EMU/1 into /out.";
            assertThat(said).as(machine.console()).filteredOn(line -> !line.startsWith(FILE)).map(line -> line.replaceFirst("\\d{8}T\\d{6}Z", "TIME"))
                .containsExactly("as a user: exit 1: This needs administrator's rights: put sudo before the command. Nothing was read.",
                    "not agreed: exit 1: " + before, NOTHING, "nobody there: exit 1: " + before, NOTHING, "agreed: exit 0: " + before, "Go on? [y/N] 2 of 2 drives read: LT_EMU_1-TIME.csv");
            Map<String, Reading> readings = readings(files(said));
            assertThat(readings.keySet()).containsExactly("VX000001", "VX000002");
            JsonNode drives = machine.ask("{\"execute\": \"query-blockstats\"}").get("return");
            assertAlike(readings.get("VX000001"), drives.get(0).get("stats"));
            assertAlike(readings.get("VX000002"), drives.get(1).get("stats"));
            assertThat(readings.get("VX000001").health().criticalWarning()).isEqualTo(RELIABILITY_DEGRADED);
            assertThat(readings.get("VX000002").health().criticalWarning()).isZero();
            assertThat(readings.get("VX000001").drive().capacityBytes()).isEqualTo(64L << 20);
            assertThat(readings.get("VX000002").drive().capacityBytes()).isEqualTo(32L << 20);
            assertThat(readings.get("VX000001").machine().id()).isEqualTo("LT EMU/1");
            assertThat(readings.get("VX000001").machine().memoryBytes()).isEqualTo(1L << 30);
        }
        Runs sweep = Runs.of("sweep", folder.resolve("collected"), "--out", folder.resolve("swept"));
        assertThat(sweep.exitCode()).as(sweep.out() + sweep.err()).isZero();
        assertThat(sweep.out()).contains("files: 1 found = 1 read + 0 refused", "records: 2 found = 2 readings + 0 refused");
        assertThat(Files.readString(folder.resolve("swept/machines.csv"))).contains("VX000001", "urgent");
    }

    /** The page counts in thousands of 512 bytes, rounded up: NVM Express Base Specification 2.1, Figure 206. */
    private static void assertAlike(Reading reading, JsonNode monitor) {
        Health health = reading.health();
        assertThat(health.dataUnitsWritten()).as(monitor.toString()).isEqualTo(dataUnits(monitor.get("wr_bytes").asLong()));
        assertThat(health.dataUnitsRead()).isEqualTo(dataUnits(monitor.get("rd_bytes").asLong()));
        assertThat(health.hostWriteCommands()).isEqualTo(monitor.get("wr_operations").asLong());
        assertThat(health.hostReadCommands()).isEqualTo(monitor.get("rd_operations").asLong());
    }

    private static Long dataUnits(long bytes) {
        return bytes == 0 ? null : (Long) ((bytes + 511_999) / 512_000);
    }

    private Path files(List<String> said) throws IOException {
        Path collected = Files.createDirectory(folder.resolve("collected"));
        for (String line : said) {
            if (line.startsWith(FILE)) {
                String[] nameAndBytes = line.split(" ");
                Files.write(collected.resolve(nameAndBytes[1]), Base64.getDecoder().decode(nameAndBytes[2]));
            }
        }
        return collected;
    }

    private static Map<String, Reading> readings(Path collected) throws IOException {
        Map<String, Reading> readings = new TreeMap<>();
        for (ReportPart part : FoundFiles.find(List.of(collected.toString())).reports().stream().map(ReportPart::whole).toList()) {
            try (ReportReader reader = new ReportReader(part, FieldMapping.none())) {
                reader.forEachRemaining(item -> item.outcome().values().forEach(reading -> readings.put(reading.drive().serial(), reading)));
            }
        }
        return readings;
    }
}
