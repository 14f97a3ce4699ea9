package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A fleet of known truth, swept and backtested from the command line. */
class BacktestIT {
    @TempDir
    static Path folder;
    private static Path reports;
    private static Runs backtest;

    @BeforeAll
    static void backtestAFleet() {
        assertThat(Runs.of("simulate", "--drives", 120, "--quarters", 10, "--seed", 5, "--missing", 0.05, "--out", folder.resolve("fleet")).exitCode())
            .isEqualTo(ExitCode.DONE);
        reports = folder.resolve("fleet/reports");
        backtest = Runs.of("backtest", reports, "--out", folder.resolve("backtest"));
    }

    private static List<CSVRecord> table(String name) throws IOException {
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get()
            .parse(Files.newBufferedReader(folder.resolve("backtest").resolve(name)))) {
            return parser.getRecords();
        }
    }

    @Test
    void theStatedIntervalsHoldOnAFleetDrawnFromTheModel() throws IOException {
        assertThat(backtest.exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(backtest.err()).isEmpty();
        assertThat(backtest.out()).contains("Forecasts from 8 past sweeps", "drives with bytes written and a rating: 120, of which 120 are forecast")
            .containsPattern("files: 10 found = 10 read \\+ 0 refused").doesNotContain("not established");
        List<CSVRecord> ninety = table("interval-coverage.csv").stream()
            .filter(row -> row.get("method").equals("pooled") && row.get("statedPercent").equals("90")).toList();
        assertThat(ninety).extracting(row -> row.get("horizonQuarters")).containsExactly("1", "2", "4", "8");
        assertThat(ninety).allSatisfy(row -> {
            assertThat(Double.parseDouble(row.get("containedPercent"))).isBetween(82.0, 99.0);
            double parts = Double.parseDouble(row.get("containedPercent")) + Double.parseDouble(row.get("slowerPercent"))
                + Double.parseDouble(row.get("fasterPercent"));
            assertThat(parts).isCloseTo(100, org.assertj.core.api.Assertions.within(0.2));
        });
        for (String file : List.of("backtest.md", "backtest.xlsx", "scores.csv", "pit.csv", "forecast-reliability.csv", "problems.csv")) {
            assertThat(folder.resolve("backtest").resolve(file)).isNotEmptyFile();
        }
    }

    @Test
    void partitionsAndTheClockChangeNoByteOfIt() throws IOException {
        Runs.of("backtest", reports, "--partitions", 3, "--master", "local[1]", "--out", folder.resolve("three"));
        for (String file : List.of("backtest.md", "backtest.xlsx", "interval-coverage.csv", "scores.csv", "pit.csv", "forecast-reliability.csv", "problems.csv")) {
            assertThat(folder.resolve("three").resolve(file)).hasBinaryContent(Files.readAllBytes(folder.resolve("backtest").resolve(file)));
        }
    }

    @Test
    void aSweepPrintsOneLineOfIt() {
        Runs sweep = Runs.of("sweep", reports, "--full", "--out", folder.resolve("sweep"));
        assertThat(sweep.out().replace("\n  ", " "))
            .containsPattern("Self-check on this fleet's own past, where 90 of 100 ranges should hold: writes 1 quarter ahead \\d+ % \\(of [0-9,]+, from 8 sweeps[^)]*\\); "
                + "writes 4 quarters ahead \\d+ % \\(of [0-9,]+, from 5 sweeps[^)]*\\); the controller's percentage 1 quarter ahead");
        assertThat(Runs.of("sweep", "sample-reports/2025-q1", "--full", "--out", folder.resolve("one")).out())
            .contains("Calibration is not established yet");
    }

    @Test
    void damagedReportsAreToldByTheBacktestToo() {
        Runs sample = Runs.of("backtest", "sample-reports", "--out", folder.resolve("sample"));
        assertThat(sample.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(sample.out()).contains("records: 354 found = 348 readings + 6 refused", "Calibration is not established yet",
            "Done, with files or records refused: exit code 3, see problems.csv");
    }

    @Test
    void everyCommandRefusesPartsThatAreNone() {
        assertThat(Runs.of("backtest", reports, "--partitions", 0, "--out", folder.resolve("none")))
            .isEqualTo(new Runs(ExitCode.USAGE, "", "wearledger: --partitions takes 1 or more, not 0\nAll options: wearledger backtest --help\n"));
    }

    @Test
    void theStraightLineRemainsAsTheBaseline() throws IOException {
        Runs line = Runs.of("sweep", reports, "--method", "straight-line", "--full", "--out", folder.resolve("line"));
        assertThat(line.exitCode()).isEqualTo(ExitCode.DONE);
        String header = Files.readAllLines(folder.resolve("line/machines.csv")).get(0);
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get()
            .parse(Files.newBufferedReader(folder.resolve("line/machines.csv")))) {
            List<CSVRecord> rows = parser.getRecords();
            assertThat(header).contains("straightLineDate");
            assertThat(rows).anySatisfy(row -> assertThat(row.get("straightLineDate")).isNotEmpty());
            assertThat(rows).allMatch(row -> row.get("projectedDate").equals(row.get("straightLineDate")))
                .allMatch(row -> row.get("projectedEarlyDate").isEmpty());
        }
        assertThat(Runs.of("sweep", reports, "--method", "guess", "--out", folder.resolve("no")).err())
            .contains("guess", "pooled", "straight-line");
    }
}
