package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which files the mapping of a folder serves, whichever way they are named. */
class FolderMappingsTest {
    private static final String REPORT = "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed\n1.0,2025-01-06T09:30:00Z,W-1,VE1,Velkan D2,12\n";
    @TempDir
    Path folder;
    private Path exports;
    private Path other;

    @BeforeEach
    void files() throws IOException {
        exports = Files.createDirectory(folder.resolve("exports"));
        other = Files.createDirectory(folder.resolve("other"));
        Files.writeString(exports.resolve("mapping.json"), "{\"fields\": {\"machine.site\": \"Standort\"}}");
        Files.writeString(exports.resolve("e.csv"), REPORT);
        Files.writeString(other.resolve("o.csv"), REPORT.replace("VE1", "VE2"));
    }

    @Test
    void aFolderBesideIsNotServedThoughItsNameLeadsThroughThisOne() {
        String beside = exports + "/../other";
        assertThat(Runs.of("check", exports, beside).out()).contains("mapping " + exports + "/mapping.json: 1 file, " + exports + "/e.csv\n", "no mapping: 1 file, " + beside + "/o.csv\n");
        assertThat(Runs.of("check", other + "/../exports/e.csv", other).out()).contains("mapping " + other + "/../exports/mapping.json: 1 file", "no mapping: 1 file, " + other + "/o.csv\n");
    }

    /** What it was to say of the reports is not known. */
    @Test
    void aMappingThatIsALinkToNowhereEndsTheRunFromTheFolderAndFromTheFileAlike() throws IOException {
        Files.createSymbolicLink(other.resolve("mapping.json"), folder.resolve("gone.json"));
        for (Object input : new Object[] {other, other.resolve("o.csv"), other + "/*.csv"}) {
            Runs run = Runs.of("check", input);
            assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
            assertThat(run.err()).contains("no such file: " + other + "/mapping.json");
        }
    }
}
