package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CheckResult;
import org.wearledger.model.SweepSettings;

/** A machine with two drives, of which the latest reading of one is set aside for its write counter: it has not left the machine. */
class SeenThoughSetAsideTest {
    @TempDir
    Path folder;

    /** 10 TB, then 12 TB: right, in GB, a hundred times as much, and beyond what a link carries. Another machine's report shows no move. */
    @ParameterizedTest(name = "{0} data units in {1}: {2}")
    @CsvSource({"23437500, PC-1, ''", "23437500000, PC-1, unit-changed", "1953125000, PC-1, implausible-increase", "990000000000000, PC-1, counter-impossible",
        "23437500000, PC-2, unit-changed drive-replaced"})
    void aDriveWhoseWriteCounterIsDisbelievedIsStillInItsMachine(String units, String machine, String expected) throws IOException {
        Files.writeString(folder.resolve("a.csv"), "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,drive.capacityBytes,health.powerOnHours,health.percentageUsed,health.dataUnitsWritten\n"
            + row("2025-01-06", "PC-1", "KX-1", "1000", "19531250") + row("2025-01-06", "PC-1", "KX-2", "1000", "3906250")
            + row("2025-04-06", machine, "KX-1", "1200", units) + row("2025-04-06", "PC-1", "KX-2", "1200", "4906250"));
        CheckResult result = Check.run(new SweepRequest(List.of(folder.toString()), Map.of(), null, null, SweepSettings.withDefaults(),
            BudgetSettings.withDefaults(), null, null, Instant.parse("2025-05-01T00:00:00Z"), "test"));
        assertThat(result.problems().stream().map(problem -> problem.kind().id()).filter(rule -> !rule.equals("latest-report-set-aside")).sorted(java.util.Comparator.reverseOrder())
            .toList()).isEqualTo(expected.isEmpty() ? List.of() : List.of(expected.toLowerCase(Locale.ROOT).split(" ")));
    }

    private static String row(String day, String machine, String serial, String hours, String units) {
        return "1.0," + day + "T09:30:00Z," + machine + "," + serial + ",Kestrel K2,256000000000," + hours + ",20," + units + "\n";
    }
}
