package org.wearledger.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigInteger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.SideTables;
import org.wearledger.intake.WholeFile;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Outcome;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;

class OfficeSampleTest {
    private static final Path COMMITTED = Path.of("sample-reports");
    private static final int QUARTERS = OfficeSample.DEFAULT_QUARTERS;

    @TempDir
    Path folder;

    private Path written(String name, long seed, int machines, int quarters) throws IOException {
        Path target = folder.resolve(name);
        OfficeSample.write(target, seed, machines, quarters);
        return target;
    }

    private static Map<String, byte[]> contents(Path root) throws IOException {
        Map<String, byte[]> contents = new TreeMap<>();
        try (Stream<Path> walk = Files.walk(root)) {
            for (Path file : walk.filter(Files::isRegularFile).toList()) {
                contents.put(root.relativize(file).toString().replace('\\', '/'), Files.readAllBytes(file));
            }
        }
        return contents;
    }

    private static void assertSame(Map<String, byte[]> actual, Map<String, byte[]> expected) {
        assertThat(actual.keySet()).isEqualTo(expected.keySet());
        expected.forEach((name, bytes) -> assertThat(actual.get(name)).as(name).isEqualTo(bytes));
    }

    /** Another build of the JDK may compress otherwise, so packed files are compared by what is in them. */
    private static Map<String, byte[]> unpacked(Map<String, byte[]> contents) throws IOException {
        Map<String, byte[]> unpacked = new TreeMap<>(contents);
        for (Map.Entry<String, byte[]> file : unpacked.entrySet()) {
            if (file.getKey().endsWith("lt-030.json.gz")) {
                // Cut at half its length: how much can be unpacked is the compressor's affair.
                file.setValue(Arrays.copyOf(file.getValue(), 3));
            } else if (file.getKey().endsWith(".gz")) {
                file.setValue(unpacked(file.getValue()));
            }
        }
        return unpacked;
    }

    private static byte[] unpacked(byte[] packed) throws IOException {
        try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
            return in.readAllBytes();
        }
    }

    @Test
    void theSameSeedGivesTheSameBytes() throws IOException {
        assertSame(contents(written("a", 7, 40, 4)), contents(written("b", 7, 40, 4)));
    }

    @Test
    void anotherSeedGivesOtherReports() throws IOException {
        byte[] one = contents(written("a", 7, 40, 4)).get("2025-q1/south.csv");
        assertThat(contents(written("b", 8, 40, 4)).get("2025-q1/south.csv")).isNotEqualTo(one);
    }

    @Test
    void theCommittedSampleIsWhatTheGeneratorWrites() throws IOException {
        Path fresh = written("fresh", OfficeSample.DEFAULT_SEED, OfficeSample.DEFAULT_MACHINES, QUARTERS);
        assertSame(unpacked(contents(COMMITTED)), unpacked(contents(fresh)));
    }

    @Test
    void tooSmallAnOfficeIsRefused() {
        assertThatThrownBy(() -> OfficeSample.write(folder, 1, OfficeSample.LEAST_MACHINES - 1, QUARTERS))
            .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> OfficeSample.write(folder, 1, OfficeSample.LEAST_MACHINES, OfficeSample.LEAST_QUARTERS - 1))
            .isInstanceOf(IllegalArgumentException.class);
    }

    private static Outcome<Reading> read(ReportFile file) throws IOException {
        return WholeFile.read(file, FieldMapping.none());
    }

    private static List<Reading> readings(Path root, String machine) throws IOException {
        List<Reading> readings = new ArrayList<>();
        for (ReportFile file : FoundFiles.find(List.of(root.toString())).reports()) {
            read(file).values().stream().filter(r -> r.machine().id().equals(machine)).forEach(readings::add);
        }
        return readings;
    }

    private static void assertProblemsAreThoseListed(Path root, int quarters) throws IOException {
        Map<String, List<ProblemKind>> listed = new HashMap<>();
        OfficeSample.oddities(quarters).stream().filter(o -> !o.readingProblems().isEmpty())
            .forEach(o -> listed.put(o.file(), o.readingProblems()));
        for (ReportFile file : FoundFiles.find(List.of(root.toString())).reports()) {
            String name = root.relativize(Path.of(file.name())).toString().replace('\\', '/');
            assertThat(read(file).problems()).as(name).extracting(p -> p.kind())
                .isEqualTo(listed.getOrDefault(name, List.of()));
            listed.remove(name);
        }
        assertThat(listed).isEmpty();
    }

    @Test
    void eachFileGivesTheProblemsThatTheCatalogueListsAndNoOthers() throws IOException {
        assertProblemsAreThoseListed(COMMITTED, QUARTERS);
    }

    @Test
    void soDoesASmallerAndALongerSampleOfAnotherSeed() throws IOException {
        assertProblemsAreThoseListed(written("small", 3, OfficeSample.LEAST_MACHINES, OfficeSample.LEAST_QUARTERS), 3);
        assertProblemsAreThoseListed(written("long", 4, 33, 9), 9);
    }

    @Test
    void theDocumentedCsvExampleIsReadWithoutAFault() throws IOException {
        String page = Files.readString(Path.of("notebooks-free-docs", "report-format.md"));
        int start = page.indexOf("```csv\n") + "```csv\n".length();
        Path file = Files.writeString(folder.resolve("example.csv"), page.substring(start, page.indexOf("```", start)));
        Outcome<Reading> outcome = read(new ReportFile(file.toString(), "example.csv"));
        assertThat(outcome.problems()).isEmpty();
        // The page says that this many data units are 25 TB.
        assertThat(outcome.values()).extracting(r -> r.health().bytesWritten())
            .containsExactly(BigInteger.valueOf(25_000_000_000_000L));
    }

    @Test
    void theReadmeNamesOnlyFilesThatExist() {
        for (Oddity oddity : OfficeSample.oddities(QUARTERS)) {
            Path before = null;
            for (String part : oddity.file().equals("all sweeps") ? new String[0] : oddity.file().split(", ")) {
                Path file = part.contains("/") || before == null ? COMMITTED.resolve(part) : before.resolveSibling(part);
                assertThat(file).exists();
                before = file;
            }
        }
    }

    @Test
    void sideTablesAreReadWithoutAFault() throws IOException {
        var ratings = SideTables.ratings(new ReportFile(COMMITTED.resolve("ratings.csv").toString(), "ratings.csv"));
        var inventory = SideTables.inventory(new ReportFile(COMMITTED.resolve("inventory.csv").toString(), "inventory.csv"));
        var prices = SideTables.prices(new ReportFile(COMMITTED.resolve("prices.csv").toString(), "prices.csv"));
        assertThat(ratings.problems()).isEmpty();
        assertThat(inventory.problems()).isEmpty();
        assertThat(prices.problems()).isEmpty();
        assertThat(ratings.values()).extracting(r -> r.driveModel()).doesNotContain(DriveModel.MORVANE.name()).hasSize(4);
        assertThat(inventory.values()).extracting(e -> e.machineId()).contains("LT-019", "LT-020").doesNotContain("LT-021")
            .hasSize(59);
    }

    @Test
    void oneReadingInThreeFormatsIsTheSameReading() throws IOException {
        List<Reading> last = readings(COMMITTED, "LT-014").stream()
            .filter(r -> r.source().file().contains("2025-q1")).toList();
        assertThat(last).hasSize(3);
        assertThat(last).extracting(Reading::health).containsOnly(last.get(0).health());
        assertThat(last).extracting(Reading::machine).containsOnly(last.get(0).machine());
        assertThat(last).extracting(Reading::drive).containsOnly(last.get(0).drive());
    }

    @Test
    void machinesWithAPartEndWhereTheCatalogueSays() throws IOException {
        assertLast("LT-001", 278.0, 20);
        assertLast("LT-002", 5.5, 1);
        assertLast("LT-003", 158.0, 105);
        assertLast("LT-007", 146.0, 88);
        assertLast("LT-023", null, null);
        assertThat(readings(COMMITTED, "LT-019")).isEmpty();
        assertThat(readings(COMMITTED, "LT-020")).hasSize(QUARTERS - 1);
    }

    private static void assertLast(String machine, Double terabytes, Integer percentageUsed) throws IOException {
        List<Reading> readings = readings(COMMITTED, machine);
        Health health = readings.get(readings.size() - 1).health();
        if (terabytes != null) {
            assertThat(health.bytesWritten().doubleValue() / 1e12).as(machine).isBetween(terabytes - 0.06, terabytes + 0.06);
        }
        assertThat(health.percentageUsed()).as(machine).isEqualTo(percentageUsed);
    }

    @Test
    void smallMemoryWritesMoreAndNoControllerIsBusyLongerThanOn() throws IOException {
        List<Double> small = new ArrayList<>();
        List<Double> large = new ArrayList<>();
        for (ReportFile file : FoundFiles.find(List.of(COMMITTED.resolve("2024-q3").toString())).reports()) {
            for (Reading reading : read(file).values()) {
                Health health = reading.health();
                assertThat(health.get(HealthField.CONTROLLER_BUSY_MINUTES)).isLessThanOrEqualTo(60 * (health.powerOnHours() + 1));
                long gibibytes = reading.machine().memoryBytes() >> 30;
                double perHour = health.bytesWritten().doubleValue() / health.powerOnHours().doubleValue();
                (gibibytes == 8 ? small : large).add(perHour);
            }
        }
        assertThat(median(small)).isGreaterThan(1.5 * median(large));
    }

    private static double median(List<Double> values) {
        return values.stream().sorted().skip(values.size() / 2).findFirst().orElseThrow();
    }
}
