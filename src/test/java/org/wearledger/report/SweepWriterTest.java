package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SweepWriterTest {
    @Test
    void fiveFilesAreWrittenAndTheTextOnesAreTheSameEachTime(@TempDir Path folder) throws IOException {
        Path once = folder.resolve("once");
        Path again = folder.resolve("again");
        OutputFolder.write(once, false, partial -> SweepWriter.write(Sweeps.small(), partial));
        OutputFolder.write(again, false, partial -> SweepWriter.write(Sweeps.small(), partial));
        try (var entries = Files.list(once)) {
            assertThat(entries.map(entry -> entry.getFileName().toString()))
                .containsExactlyInAnyOrderElementsOf(SweepWriter.FILE_NAMES);
        }
        for (String name : SweepWriter.FILE_NAMES) {
            if (!name.equals(SweepWriter.SWEEP_XLSX)) {
                assertThat(once.resolve(name)).hasSameBinaryContentAs(again.resolve(name));
            }
        }
        assertThat(Files.readString(once.resolve("machines.csv"))).contains("'=A1").doesNotContain("\r");
        OutputFolder.write(once, true, partial -> SweepWriter.write(Sweeps.empty(), partial));
    }
}
