package org.wearledger.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.math.BigInteger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TimeZone;
import java.util.TreeMap;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.SideTables;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Reading;

class FleetSimulationTest {
    private static final FleetSettings PLAIN = FleetSettings.withDefaults(2_000, 5, 11);
    private static final FleetSettings EVENTFUL = FleetSettings.withDefaults(600, 6, 7).with(FleetSetting.MODEL_SPREAD, 0.3)
        .with(FleetSetting.SEASON, 0.2).with(FleetSetting.DRIFT, 0.1).with(FleetSetting.SHOCK, 0.1)
        .with(FleetSetting.IDLE, 0.1).with(FleetSetting.MEMORY_EFFECT, 2).with(FleetSetting.SWAPS, 0.1)
        .with(FleetSetting.RESETS, 0.1);

    private static final Map<FleetSettings, WrittenFleet> WRITTEN = new HashMap<>();

    @TempDir
    Path folder;

    /** Written once for all tests that look at it. */
    private WrittenFleet written(FleetSettings settings) throws IOException {
        if (!WRITTEN.containsKey(settings)) {
            WRITTEN.put(settings, WrittenFleet.of(folder, settings));
        }
        return WRITTEN.get(settings);
    }

    private static Map<String, String> contents(Path root) throws IOException {
        Map<String, String> contents = new TreeMap<>();
        try (Stream<Path> walk = Files.walk(root)) {
            for (Path file : walk.filter(Files::isRegularFile).toList()) {
                contents.put(root.relativize(file).toString().replace('\\', '/'),
                    HexFormat.of().formatHex(Files.readAllBytes(file)));
            }
        }
        return contents;
    }

    @Test
    void theSameSeedGivesTheSameBytesInAnyLocaleAndZone() throws IOException {
        FleetSimulation.write(folder.resolve("a"), EVENTFUL);
        Locale locale = Locale.getDefault();
        TimeZone zone = TimeZone.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Kiritimati"));
            FleetSimulation.write(folder.resolve("b"), EVENTFUL);
        } finally {
            Locale.setDefault(locale);
            TimeZone.setDefault(zone);
        }
        Map<String, String> first = contents(folder.resolve("a"));
        assertThat(contents(folder.resolve("b"))).isEqualTo(first);
        assertThat(first.keySet()).contains("README.md", "reports/inventory.csv", "reports/ratings.csv", "truth/drives.csv",
            "truth/settings.csv", "reports/2023-q4/reports-01.jsonl.gz", "reports/2025-q1/reports-01.jsonl.gz").hasSize(11);
    }

    @Test
    void anotherSeedGivesOtherReports() throws IOException {
        FleetSimulation.write(folder.resolve("a"), FleetSettings.withDefaults(20, 2, 1));
        FleetSimulation.write(folder.resolve("b"), FleetSettings.withDefaults(20, 2, 2));
        String name = "reports/2025-q1/reports-01.jsonl.gz";
        assertThat(contents(folder.resolve("a")).get(name)).isNotEqualTo(contents(folder.resolve("b")).get(name));
    }

    @Test
    void moreDrivesAndMissedSweepsLeaveTheOthersAsTheyWere() throws IOException {
        WrittenFleet few = WrittenFleet.of(folder.resolve("few"), FleetSettings.withDefaults(50, 3, 5));
        WrittenFleet many = WrittenFleet.of(folder.resolve("many"),
            FleetSettings.withDefaults(200, 3, 5).with(FleetSetting.MISSING, 0.4));
        assertThat(few.truth()).isNotEmpty().allSatisfy((serial, row) ->
            assertThat(many.truth().get(serial).toList()).isEqualTo(row.toList()));
        long reports = many.readings().values().stream().mapToLong(List::size).sum();
        // Of 600: a standard deviation of 12.
        assertThat(reports).isBetween(312L, 408L);
    }

    @Test
    void aSweepOfMoreThanFiveThousandIsWrittenInParts() throws IOException {
        FleetSimulation.write(folder, FleetSettings.withDefaults(5_001, 2, 1));
        try (Stream<Path> files = Files.list(folder.resolve("reports/2025-q1"))) {
            assertThat(files.map(f -> f.getFileName().toString()).sorted())
                .containsExactly("reports-01.jsonl.gz", "reports-02.jsonl.gz");
        }
    }

    @Test
    void sideTablesKnowEveryMachineAndModel() throws IOException {
        FleetSimulation.write(folder, FleetSettings.withDefaults(40, 2, 1));
        FoundFiles found = FoundFiles.find(List.of(folder.resolve("reports").toString()));
        ReportFile inventory = found.sideTables().get("inventory.csv").get(0);
        ReportFile ratings = found.sideTables().get("ratings.csv").get(0);
        assertThat(SideTables.inventory(inventory).problems()).isEmpty();
        assertThat(SideTables.inventory(inventory).values()).hasSize(40);
        assertThat(SideTables.ratings(ratings).problems()).isEmpty();
        assertThat(SideTables.ratings(ratings).values()).hasSize(DriveModel.ALL.size());
        assertThat(found.passedOver()).isEmpty();
    }

    /** A reset whose counters have passed the old ones already shows in no report. */
    private static long overEpochs(List<Reading> readings) {
        long sum = 0;
        for (int i = 1; i < readings.size(); i++) {
            Health before = readings.get(i - 1).health();
            Health now = readings.get(i).health();
            if (now.powerOnHours() < before.powerOnHours() || now.dataUnitsWritten() < before.dataUnitsWritten()) {
                sum += before.dataUnitsWritten();
            }
        }
        return sum + readings.get(readings.size() - 1).health().dataUnitsWritten();
    }

    @Test
    void theTruthIsTheSumOfWhatTheReportsSay() throws IOException {
        WrittenFleet fleet = written(EVENTFUL);
        int reset = 0;
        int swappedOut = 0;
        int hidden = 0;
        for (CSVRecord row : fleet.truth().values()) {
            List<Reading> readings = fleet.readings().get(row.get("driveSerial"));
            BigInteger written = new BigInteger(row.get("dataUnitsWritten"));
            assertThat(row.get("bytesWritten")).isEqualTo(written.multiply(Health.BYTES_PER_DATA_UNIT).toString());
            swappedOut += row.get("swappedOutQuarter").isEmpty() ? 0 : 1;
            if (row.get("resets").equals("0")) {
                assertThat(readings.get(readings.size() - 1).health().dataUnitsWritten()).isEqualTo(written.longValueExact());
            } else if (overEpochs(readings) == written.longValueExact()) {
                reset++;
            } else {
                hidden++;
            }
        }
        assertThat(swappedOut).isBetween(200, 400);
        assertThat(reset).isGreaterThan(150);
        assertThat(hidden).isLessThan(reset / 10);
    }

    @Test
    void countersGrowTogether() throws IOException {
        WrittenFleet fleet = WrittenFleet.of(folder, EVENTFUL.with(FleetSetting.RESETS, 0));
        for (List<Reading> readings : fleet.readings().values()) {
            for (int i = 0; i < readings.size(); i++) {
                Health now = readings.get(i).health();
                assertThat(now.get(HealthField.CONTROLLER_BUSY_MINUTES)).isLessThanOrEqualTo(60 * (now.powerOnHours() + 1));
                // Commands are rounded down, which shows on a drive that has written next to nothing.
                double bytesPerWrite = now.bytesWritten().doubleValue() / now.hostWriteCommands().doubleValue();
                assertThat(bytesPerWrite).isBetween(20_000.0, 44_000.0);
                if (i > 0) {
                    Health before = readings.get(i - 1).health();
                    assertThat(now.dataUnitsWritten()).isGreaterThanOrEqualTo(before.dataUnitsWritten());
                    assertThat(now.hostWriteCommands()).isGreaterThanOrEqualTo(before.hostWriteCommands());
                    assertThat(now.powerOnHours()).isGreaterThan(before.powerOnHours());
                }
            }
        }
    }

    @Test
    void theLastSweepIsThatOfJanuary2025() throws IOException {
        WrittenFleet fleet = WrittenFleet.of(folder, FleetSettings.withDefaults(10, 2, 1));
        assertThat(fleet.readings().values()).allSatisfy(r ->
            assertThat(date(r.get(1))).isEqualTo(LocalDate.of(2025, 1, 6)));
    }

    private static LocalDate date(Reading reading) {
        return LocalDate.ofInstant(reading.collectedAt(), ZoneOffset.UTC);
    }

    private static double quarters(Reading from, Reading to) {
        return ChronoUnit.DAYS.between(date(from), date(to)) / 91.3125;
    }

    @Test
    void writesOfAQuarterHaveTheMomentsOfTheStatedGamma() throws IOException {
        WrittenFleet fleet = written(PLAIN);
        SummaryStatistics standardised = new SummaryStatistics();
        fleet.readings().forEach((serial, readings) -> {
            double inverseScale = fleet.truth(serial, "inverseScale");
            List<Double> consumed = fleet.consumed(serial);
            for (int i = 0; i < consumed.size(); i++) {
                // d u ~ Gamma(2.5 q, 1): mean and variance are 2.5 q.
                double mean = 2.5 * quarters(readings.get(i), readings.get(i + 1));
                standardised.addValue((consumed.get(i) * inverseScale - mean) / Math.sqrt(mean));
            }
        });
        long n = standardised.getN();
        assertThat(n).isEqualTo(8_000);
        assertThat(standardised.getMean()).isCloseTo(0, within(4 / Math.sqrt(n)));
        // The fourth moment of Gamma(2.5) is 3 + 6 / 2.5 squared variances.
        assertThat(standardised.getVariance()).isCloseTo(1, within(4 * Math.sqrt((3 + 6 / 2.5 - 1) / n)));
    }

    @Test
    void inverseScalesHaveTheMomentsOfTheStatedGammaAndTheMedianDriveItsPercent() throws IOException {
        WrittenFleet fleet = written(PLAIN);
        SummaryStatistics scaled = new SummaryStatistics();
        List<Double> rates = new ArrayList<>();
        double gamma0 = PLAIN.inverseScaleRate();
        for (String serial : fleet.truth().keySet()) {
            scaled.addValue(fleet.truth(serial, "inverseScale") * gamma0);
            rates.add(fleet.truth(serial, "startRatePerQuarter"));
        }
        int n = rates.size();
        assertThat(scaled.getMean()).isCloseTo(3, within(4 * Math.sqrt(3.0 / n)));
        assertThat(scaled.getVariance()).isCloseTo(3, within(4 * 3 * Math.sqrt((3 + 6 / 3.0 - 1) / n)));
        assertThat(rates.stream().sorted().skip(n / 2).findFirst().orElseThrow()).isCloseTo(0.025, within(0.002));
    }

    /** Mean of the transformed consumed / (eta q / u) of the given interval, or of all for -1. */
    private static double meanExcess(WrittenFleet fleet, int quarter, String memoryGibibytes, DoubleUnaryOperator transform) {
        SummaryStatistics excess = new SummaryStatistics();
        fleet.readings().forEach((serial, readings) -> {
            List<Double> consumed = fleet.consumed(serial);
            for (int i = 0; i < consumed.size(); i++) {
                if ((quarter < 0 || quarter == i) && (memoryGibibytes == null
                    || memoryGibibytes.equals(fleet.truth().get(serial).get("memoryGibibytes")))) {
                    double expected = 2.5 * quarters(readings.get(i), readings.get(i + 1)) / fleet.truth(serial, "inverseScale");
                    excess.addValue(transform.applyAsDouble(consumed.get(i) / expected));
                }
            }
        });
        return excess.getMean();
    }

    @Test
    void smallMemoryWritesMoreByTheStatedFactor() throws IOException {
        WrittenFleet fleet = WrittenFleet.of(folder, PLAIN.with(FleetSetting.MEMORY_EFFECT, 2));
        // Of about 4,000 intervals each: a standard deviation of 1 %, twice that for the factor of two.
        assertThat(meanExcess(fleet, -1, "16", x -> x)).isCloseTo(1, within(0.04));
        assertThat(meanExcess(fleet, -1, "8", x -> x)).isCloseTo(2, within(0.08));
    }

    @Test
    void everyDriveFeelsTheShockThatTheTruthTells() throws IOException {
        WrittenFleet fleet = WrittenFleet.of(folder, PLAIN.with(FleetSetting.SHOCK, 0.4));
        List<String> names = List.of("2024-q2", "2024-q3", "2024-q4", "2025-q1");
        double largest = 0;
        for (int i = 0; i < names.size(); i++) {
            double shock = Double.parseDouble(fleet.settings().get("shockLogRate " + names.get(i)));
            largest = Math.max(largest, Math.abs(shock));
            assertThat(Math.log(meanExcess(fleet, i, null, x -> x))).isCloseTo(shock, within(0.06));
        }
        assertThat(largest).isGreaterThan(0.2);
    }

    @Test
    void theSeasonIsHighInTheFirstCalendarQuarterAndLowInTheThird() throws IOException {
        WrittenFleet fleet = WrittenFleet.of(folder, PLAIN.with(FleetSetting.SEASON, 0.3));
        double[] expected = {0.3, 0, -0.3, 0};
        for (int i = 0; i < expected.length; i++) {
            assertThat(Math.log(meanExcess(fleet, i, null, x -> x))).isCloseTo(expected[i], within(0.06));
        }
    }

    @Test
    void idleQuartersWriteNothing() throws IOException {
        WrittenFleet fleet = WrittenFleet.of(folder, PLAIN.with(FleetSetting.IDLE, 0.2));
        assertThat(meanExcess(fleet, -1, null, x -> x == 0 ? 1 : 0)).isCloseTo(0.2, within(4 * Math.sqrt(0.16 / 8_000)));
    }

    @Test
    void driftSpreadsTheRatesAtTheEnd() throws IOException {
        WrittenFleet fleet = WrittenFleet.of(folder, PLAIN.with(FleetSetting.DRIFT, 0.1));
        SummaryStatistics walked = new SummaryStatistics();
        fleet.truth().keySet().forEach(serial -> walked.addValue(
            Math.log(fleet.truth(serial, "endRatePerQuarter") / fleet.truth(serial, "startRatePerQuarter"))));
        // Four steps of 0.1.
        assertThat(walked.getStandardDeviation()).isCloseTo(0.2, within(4 * 0.2 / Math.sqrt(2 * 2_000)));
    }

    @Test
    void theSettingsStandInTheTruth() throws IOException {
        WrittenFleet fleet = written(EVENTFUL);
        assertThat(fleet.settings()).containsEntry("seed", "7").containsEntry("drives", "600").containsEntry("quarters", "6")
            .containsEntry("seasonLogRateAmplitude", "0.2").containsEntry("shockLogRate 2023-q4", "0.0");
        for (FleetSetting setting : FleetSetting.values()) {
            assertThat(fleet.settings()).containsEntry(setting.nameWithUnit(), Double.toString(EVENTFUL.value(setting)));
        }
        assertThat(fleet.settings().get("modelFactor Ondrel E3")).isNotEqualTo("1.0");
    }
}
