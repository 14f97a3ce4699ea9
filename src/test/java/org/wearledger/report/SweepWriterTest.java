package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SweepWriterTest {
    @Test
    void allFilesAreWrittenAndTheTextOnesAreTheSameEachTime(@TempDir Path folder) throws IOException {
        // There is no earlier sweep, and no customer's machine.
        Set<String> written = new TreeSet<>(SweepWriter.FILE_NAMES);
        written.remove(SweepWriter.CHANGES_CSV);
        written.remove(SweepWriter.CUSTOMERS_CSV);
        assertThat(SweepWriter.filesOf(Sweeps.small())).containsExactlyInAnyOrderElementsOf(written);
        Path once = folder.resolve("once");
        Path again = folder.resolve("again");
        OutputFolder.write(once, false, Access.OWNER, partial -> SweepWriter.write(Sweeps.small(), partial, Integer.MAX_VALUE, CsvForm.COMMA));
        OutputFolder.write(again, false, Access.OWNER, partial -> SweepWriter.write(Sweeps.small(), partial, Integer.MAX_VALUE, CsvForm.COMMA));
        try (var entries = Files.list(once)) {
            assertThat(entries.map(entry -> entry.getFileName().toString()))
                .containsExactlyInAnyOrderElementsOf(written);
        }
        for (String name : written) {
            if (!name.equals(SweepWriter.SWEEP_XLSX)) {
                assertThat(once.resolve(name)).hasSameBinaryContentAs(again.resolve(name));
            }
        }
        assertThat(Files.readString(once.resolve("machines.csv"))).contains("'=A1").doesNotContain("\r");
        OutputFolder.write(once, true, Access.OWNER, partial -> SweepWriter.write(Sweeps.empty(), partial, Integer.MAX_VALUE, CsvForm.COMMA));
    }
}
