package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The export of the README, whose mapping is drafted, filled in and used. */
class DraftMappingTest {
    @TempDir
    Path folder;
    private Path export;

    @BeforeEach
    void export() throws IOException {
        export = Files.writeString(folder.resolve("export.csv"), """
            Computer,Read on,Disk,Disk no.,Size,Host writes,Wear %,RAM GB
            LT-101,06.01.2025 09:30,Velkan D2,VX000123,256,118.4,61,8
            LT-102,06.01.2025 09:45,Ondrel E3,ON000456,256,12.25,7,16
            """);
    }

    @Test
    void whatIsOpenIsAsked() {
        Runs run = Runs.of("draft-mapping", export);
        assertThat(run.exitCode()).as(run.err()).isEqualTo(3);
        assertThat(run.out().lines()).contains(
            "Written to " + folder + "/mapping.json, from the first 2 records of " + export,
            "  health.dataUnitsWritten from \"Host writes\": which unit? 118.4 is 0.118 TB in GB, 0.127 TB in GiB, 118.400 TB in TB, 130.182 TB in TiB",
            "  health.percentageUsed from \"Wear %\": which unit? 61 is 61 % used in percent, 39 % used in percentRemaining",
            "  drive.capacityBytes from \"Size\": GB, as no other fits heading and values; 256 is 256.0 GB",
            "  machine.id from \"Computer\", such as LT-101");
        assertThat(run.out()).contains("mapping.json: 2 faults: (1) health.percentageUsed has unit \"percent or percentRemaining?\"; allowed are");
    }

    /** It lies where check finds it: nothing is named. */
    @Test
    void onceFilledInItIsRead() throws IOException {
        Runs.of("draft-mapping", export);
        assertThat(Runs.of("check", folder).exitCode()).isEqualTo(2);
        Path mapping = folder.resolve("mapping.json");
        Files.writeString(mapping, Files.readString(mapping).replace("GB or GiB or TB or TiB?", "TB").replace("percent or percentRemaining?", "percent"));
        Runs check = Runs.of("check", folder);
        assertThat(check.exitCode()).as(check.out() + check.err()).isZero();
        assertThat(check.out()).contains("records: 2 found = 2 readings + 0 refused", "65.3 TB written, 34 % used");
    }

    @Test
    void whatIsThereStays() throws IOException {
        Path mapping = Files.writeString(folder.resolve("mapping.json"), "mine");
        Runs run = Runs.of("draft-mapping", export);
        assertThat(run.exitCode()).isEqualTo(2);
        assertThat(run.err()).contains(mapping + " is there already; name another file by --out");
        assertThat(mapping).hasContent("mine");
        assertThat(Runs.of("draft-mapping", export, "--out", folder.resolve("other.json")).exitCode()).isEqualTo(3);
        assertThat(folder.resolve("other.json")).exists();
    }

    @Test
    void whereNothingIsOpenCheckIsContent() throws IOException {
        Path plain = Files.writeString(folder.resolve("plain.csv"), """
            Device name,Last seen,Model,Serial number,Data units written,Percentage used
            A,2025-04-01T10:00:00Z,Velkan D2,VX1,"231,250,000",61
            """);
        Runs run = Runs.of("draft-mapping", plain, "--out", folder.resolve("plain.json"));
        assertThat(run.exitCode()).as(run.out() + run.err()).isZero();
        assertThat(run.out()).contains("  no problem found in the input");
    }

    /** The mapping that is there already is none of this draft's. */
    @Test
    void checkedIsWhatWasWritten() throws IOException {
        Files.writeString(folder.resolve("mapping.json"), "{\"fields\": {\"machine.id\": \"Elsewhere\"}}");
        Runs run = Runs.of("draft-mapping", export, "--out", folder.resolve("other\u202e.json"));
        assertThat(run.out()).contains("other\\u202E.json: 2 faults: (1) health.percentageUsed has unit").doesNotContain("Elsewhere", "\u202e");
    }

    @Test
    void aFileThatIsNotThereIsTold() {
        Runs run = Runs.of("draft-mapping", folder.resolve("gone.csv"));
        assertThat(run.exitCode()).isEqualTo(2);
        assertThat(run.err()).contains("no such file: " + folder + "/gone.csv");
    }
}
