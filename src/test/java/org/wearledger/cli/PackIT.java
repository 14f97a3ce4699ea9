package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What was packed once tells the same as the reports it came from. */
class PackIT {
    private static final List<String> EARLIER = List.of("2023-q4", "2024-q1", "2024-q2", "2024-q3", "2024-q4");
    private static final String NEWEST = "sample-reports/2025-q1";
    private static final String[] TABLES = {"--ratings", "sample-reports/ratings.csv", "--inventory", "sample-reports/inventory.csv", "--prices",
        "sample-reports/prices.csv"};

    @TempDir
    static Path shared;
    @TempDir
    Path folder;

    private static Runs packed;
    private static Path ofReports;

    @BeforeAll
    static void packEarlierReports() {
        packed = run("pack", earlier(), "--out", pack().toString());
        ofReports = sweep(shared.resolve("of-reports"), all());
    }

    /** Marks that Spark would take for a pattern, and a letter and a blank that an address would write otherwise. */
    private static Path pack() {
        return shared.resolve("B\u00fcro [1] {a}/earlier.pack");
    }

    private static List<String> earlier() {
        return EARLIER.stream().map(quarter -> "sample-reports/" + quarter).toList();
    }

    private static List<String> all() {
        return Stream.concat(earlier().stream(), Stream.of(NEWEST)).toList();
    }

    private static Runs run(String command, List<String> reports, String... more) {
        List<String> arguments = new ArrayList<>(List.of(command));
        arguments.addAll(reports);
        arguments.addAll(Arrays.asList(more));
        return Runs.of(arguments.toArray());
    }

    private static Path sweep(Path out, List<String> reports) {
        List<String> options = new ArrayList<>(List.of("--out", out.toString()));
        options.addAll(List.of(TABLES));
        run("sweep", reports, options.toArray(String[]::new));
        return out;
    }

    private Path copyOfPack() throws IOException {
        Path copy = folder.resolve("copy.pack");
        try (Stream<Path> files = Files.walk(pack())) {
            for (Path file : files.toList()) {
                Files.copy(file, copy.resolve(pack().relativize(file).toString()));
            }
        }
        return copy;
    }

    @Test
    void theSumsOfTheReportsAreTold() {
        assertThat(packed.out()).contains("files: 70 found = 63 read + 7 refused", "records: 293 found = 288 readings + 5 refused", "side tables packed: none");
        assertThat(packed.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
    }

    @Test
    void aSweepOfThePackAndTheNewestReportsGivesTheBytesOfASweepOfAllReports() throws IOException {
        Path ofPack = sweep(folder.resolve("of-pack"), List.of(pack().toString(), NEWEST));
        try (Stream<Path> files = Files.list(ofReports)) {
            for (Path file : files.toList()) {
                assertThat(ofPack.resolve(file.getFileName())).as(file.getFileName().toString()).hasBinaryContent(Files.readAllBytes(file));
            }
        }
    }

    /** As mapping.md says for headings and units that changed: the same machines as when all had been written alike. */
    @Test
    void earlierReportsUnderOtherHeadingsArePackedUnderTheirOwnMapping() throws IOException {
        String mapping = """
            {"fields": {"machine.id": "PC", "collectedAt": "At", "drive.serial": "No.", "drive.model": "Disk", "drive.capacityBytes": {"from": "Size", "unit": "GB"},
              "health.percentageUsed": "Wear", "health.dataUnitsWritten": {"from": "HEADING", "unit": "UNIT"}}}
            """;
        Path gigabytes = Files.writeString(folder.resolve("gb.js"), mapping.replace("HEADING", "Writes (GB)").replace("UNIT", "GB"));
        Path terabytes = Files.writeString(folder.resolve("tb.js"), mapping.replace("HEADING", "Writes (TB)").replace("UNIT", "TB"));
        Path earlier = export("q1.csv", "2025-01-06", "Writes (TB)", "40.5");
        Path newest = export("q2.csv", "2025-04-06", "Writes (GB)", "41700");
        Path packOfEarlier = folder.resolve("q1.pack");
        assertThat(Runs.of("pack", earlier, "--mapping", terabytes, "--out", packOfEarlier).exitCode()).isEqualTo(ExitCode.DONE);
        Path mixed = folder.resolve("mixed");
        assertThat(Runs.of("sweep", packOfEarlier, newest, "--mapping", gigabytes, "--out", mixed).exitCode()).isEqualTo(ExitCode.DONE);
        Path alike = folder.resolve("alike");
        Runs.of("sweep", export("q1-gb.csv", "2025-01-06", "Writes (GB)", "40500"), newest, "--mapping", gigabytes, "--out", alike);
        assertThat(mixed.resolve("machines.csv")).hasBinaryContent(Files.readAllBytes(alike.resolve("machines.csv")));
        assertThat(Files.readString(mixed.resolve("problems.csv"))).doesNotContain("unit-changed", "column-missing");
        assertThat(Runs.of("sweep", earlier, newest, "--mapping", terabytes, "--out", folder.resolve("unpacked")).out().replace("\n  ", " ")).contains(
            "columns missing: the latest reports of 2 of 2 drives have no bytes written: health.dataUnitsWritten (from \"Writes (TB)\") is missing or empty; the nearest is \"Writes (GB)\"",
            "Done, with columns missing: exit code 3, see problems.csv");
    }

    private Path export(String name, String day, String heading, String written) throws IOException {
        return Files.writeString(folder.resolve(name), "PC,At,No.,Disk,Size,Wear," + heading + "\n" + IntStream.rangeClosed(1, 2)
            .mapToObj(n -> "PC-" + n + "," + day + "T09:30:00Z,KX-" + n + ",Kestrel K2,256,30," + written + "\n").collect(Collectors.joining()));
    }

    @Test
    void aPackMayBePackedAgainAndChecked() throws IOException {
        Path again = folder.resolve("all.pack");
        run("pack", List.of(pack().toString(), NEWEST), "--out", again.toString());
        assertThat(sweep(folder.resolve("of-one-pack"), List.of(again.toString())).resolve("machines.csv")).hasSameBinaryContentAs(ofReports.resolve("machines.csv"));
        // What lies in a pack is counted and not joined.
        assertThat(run("check", List.of(again.toString())).out().lines().filter(line -> line.startsWith("files: ") || line.startsWith("records: ")))
            .containsExactlyElementsOf(run("check", all()).out().lines().filter(line -> line.startsWith("files: ") || line.startsWith("records: ")).toList());
    }

    /** As a folder's own: named by nobody, found at the top. */
    @Test
    void sideTablesGoWithThePack() throws IOException {
        Path whole = folder.resolve("whole.pack");
        assertThat(run("pack", List.of("sample-reports"), "--out", whole.toString()).out()).contains("side tables packed: inventory.csv, prices.csv, ratings.csv");
        run("sweep", List.of(whole.toString()), "--out", folder.resolve("of-pack").toString());
        for (String table : List.of("machines.csv", "replacements.csv", "budget.csv")) {
            assertThat(folder.resolve("of-pack").resolve(table)).as(table).hasSameBinaryContentAs(SampleSweep.once().file(table));
        }
        Path key = Files.writeString(folder.resolve("key"), "0123456789abcdef0123456789abcdef");
        assertThat(run("pack", List.of("sample-reports"), "--pseudonymise", key.toString(), "--out", folder.resolve("named-otherwise.pack").toString()).out())
            .contains("side tables packed: prices.csv, ratings.csv\n");
    }

    /** By which mapping a pack was made, if any, it does not say; of the export beside it the mapping is told. */
    @Test
    void aMappingIsNotBlamedForWhatCameOutOfAPack() throws IOException {
        Path mapping = Files.writeString(folder.resolve("mapping.js"), """
            {"fields": {"machine.id": "PC", "collectedAt": "At", "drive.serial": "No.", "drive.model": "Disk", "health.percentageUsed": "Wear",
              "health.dataUnitsWritten": {"from": "Host writes", "unit": "MB"}}}
            """);
        Path plain = Files.writeString(folder.resolve("plain.jsonl"), """
            {"schemaVersion": "1.0", "collectedAt": "2025-01-06T09:30:00Z", "machine": {"id": "PC-1"}, "drive": {"serial": "KX-1", "model": "Kestrel K2"},\
             "health": {"dataUnitsWritten": 100, "percentageUsed": 20}}
            """);
        String row = "PC,At,No.,Disk,Host writes,Wear\nPC-?,2025-01-06T09:30:00Z,KX-?,Kestrel K2,1000,20\n";
        Path early = Files.writeString(folder.resolve("early.csv"), row.replace("?", "2"));
        Path late = Files.writeString(folder.resolve("late.csv"), row.replace("?", "3"));
        run("pack", List.of(plain.toString()), "--out", folder.resolve("plain.pack").toString());
        run("pack", List.of(early.toString()), "--mapping", mapping.toString(), "--out", folder.resolve("mapped.pack").toString());
        run("sweep", List.of(folder.resolve("plain.pack").toString(), folder.resolve("mapped.pack").toString(), late.toString()), "--mapping", mapping.toString(),
            "--out", folder.resolve("out").toString());
        assertThat(Files.readAllLines(folder.resolve("out/problems.csv"))).filteredOn(line -> line.contains("written-contradicts-used")).hasSize(3)
            .filteredOn(line -> line.contains("the mapping reads")).singleElement().asString().contains("late.csv", "health.dataUnitsWritten from \"\"Host writes\"\" in MB");
    }

    @Test
    void whatIsNoWholePackIsRefused() throws IOException {
        Path pack = copyOfPack();
        Path contents = pack.resolve("pack.json");
        String text = Files.readString(contents);
        Files.writeString(contents, text.replace("\"packVersion\" : 3", "\"packVersion\" : 2"));
        assertRefused(pack, "is a pack of version 2; this program reads version 3: pack the reports again");
        Files.writeString(contents, text.replace("\"readings\" : 288", "\"readings\" : 289"));
        assertRefused(pack, "is a damaged pack (pack.json is not as it was written): pack its reports again");
        Files.writeString(contents, text.replaceFirst("\"readings\" : 288", "\"readings\" : 1000000000"));
        assertRefused(pack, "is a damaged pack (the counts in pack.json contradict each other)");
        Files.writeString(contents, text.replaceFirst("\"records\"", "\"record\""));
        assertRefused(pack, "is a damaged pack (its JSON cannot be read): pack its reports again");
        Files.writeString(contents, text);
        try (Stream<Path> files = Files.list(pack.resolve("readings"))) {
            for (Path file : files.toList()) {
                if (file.toString().endsWith(".parquet")) {
                    Files.write(file, new byte[] {1, 2, 3, 4, 5});
                } else {
                    Files.delete(file);
                }
            }
        }
        assertRefused(pack, "is a damaged pack (");
    }

    @Test
    void aLinkToAPackServesAsThePack() throws IOException {
        Path link = Files.createSymbolicLink(folder.resolve("link"), copyOfPack());
        Runs check = run("check", List.of(link.toString()));
        assertThat(check.err()).isEmpty();
    }

    /** Spark's own sums lie in hidden files, which some copies leave behind. */
    @Test
    void aChangedByteIsSeenWithoutTheHiddenSums() throws IOException {
        Path pack = copyOfPack();
        List<Path> files;
        try (Stream<Path> all = Files.walk(pack)) {
            files = all.filter(Files::isRegularFile).toList();
        }
        for (Path hidden : files.stream().filter(file -> file.getFileName().toString().matches("[._].*")).toList()) {
            Files.delete(hidden);
        }
        List<Path> parts = files.stream().filter(Files::exists).toList();
        assertThat(parts).extracting(part -> pack.relativize(part).toString()).anyMatch(name -> name.endsWith(".parquet")).contains("pack.json", "problems.jsonl");
        for (Path part : parts) {
            byte[] whole = Files.readAllBytes(part);
            for (double place : new double[] {0.02, 0.5, 0.98}) {
                byte[] changed = whole.clone();
                // A digit stays a digit, so that the text can still be read.
                changed[(int) (place * whole.length)] ^= 1;
                Files.write(part, changed);
                Runs check = run("check", List.of(pack.toString()));
                assertThat(check.err()).as(part + " at " + place).contains("is a damaged pack (");
                assertThat(check.exitCode()).isEqualTo(ExitCode.USAGE);
            }
            Files.write(part, whole);
        }
        Path readings = parts.stream().filter(part -> part.toString().endsWith(".parquet")).findFirst().orElseThrow();
        Path extra = Files.copy(readings, readings.resolveSibling("part-9.parquet"));
        assertRefused(pack, "is a damaged pack (readings/part-9.parquet is not as it was written)");
        Files.delete(extra);
        Files.delete(readings);
        assertRefused(pack, "is a damaged pack (readings/" + readings.getFileName() + " is missing)");
    }

    private void assertRefused(Path pack, String sentence) {
        Runs run = run("sweep", List.of(pack.toString()), "--out", folder.resolve("out").toString());
        assertThat(run.err()).contains(sentence);
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(folder.resolve("out")).doesNotExist();
    }
}
