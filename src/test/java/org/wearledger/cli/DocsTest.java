package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.ReportReader;
import org.wearledger.intake.WholeFile;
import org.wearledger.model.Reading;
import picocli.CommandLine;

/** What the pages name is there: linked files, paths, classes, commands and options. */
class DocsTest {
    private static final String TOP = "(?:src|schemas|sample-reports|notebooks-free-docs|\\.ci)/";
    /** Of other programs: Spark's submitter, LibreOffice, Chromium. */
    private static final Set<String> FOREIGN_OPTIONS = Set.of("--deploy-mode", "--driver-memory", "--headless", "--yes");

    private interface Check {
        void on(Path page) throws IOException;
    }

    private static Stream<DynamicTest> eachPage(Check check) throws IOException {
        return Docs.pages().stream().map(page -> DynamicTest.dynamicTest(page.toString(), () -> check.on(page)));
    }

    @TestFactory
    Stream<DynamicTest> linkedFilesAreThere() throws IOException {
        return eachPage(page -> assertThat(Docs.found("\\]\\(([^)#:]+)(?:#[^)]*)?\\)", Docs.prose(page)))
            .allSatisfy(link -> assertThat(Path.of("").toAbsolutePath().resolve(page).resolveSibling(link)).exists()));
    }

    @TestFactory
    Stream<DynamicTest> namedPathsAreThere() throws IOException {
        return eachPage(page -> assertThat(Docs.found("`(" + TOP + "[\\w./-]*)`", Docs.prose(page)))
            .allSatisfy(path -> assertThat(Path.of(path)).exists()));
    }

    @TestFactory
    Stream<DynamicTest> namedClassesAreThere() throws IOException {
        Set<String> sources = sources();
        String packages = "model|intake|history|stats|assess|budget|report|simulate|job|cli";
        return eachPage(page -> {
            List<String> classes = new ArrayList<>(Docs.found("`((?:" + packages + ")\\.[A-Z]\\w+)`", Docs.prose(page)));
            classes.addAll(Docs.found("`(\\w+(?:Test|IT))`", Docs.prose(page)));
            assertThat(classes).allSatisfy(name -> assertThat(sources).anyMatch(source -> source.endsWith(name.replace('.', '/') + ".java")));
        });
    }

    private static Set<String> sources() throws IOException {
        try (Stream<Path> files = Files.walk(Path.of("src"))) {
            return files.map(path -> path.toString().replace('\\', '/')).filter(path -> path.endsWith(".java")).collect(Collectors.toSet());
        }
    }

    @TestFactory
    Stream<DynamicTest> commandsAreUnderstood() throws IOException {
        return eachPage(page -> {
            for (String script : Docs.blocks(page, "sh")) {
                for (List<String> call : Docs.calls(script)) {
                    assertThat(complaint(call)).as("wearledger %s", String.join(" ", call)).isEmpty();
                }
            }
        });
    }

    private static String complaint(List<String> call) {
        try {
            Main.commandLine().parseArgs(call.toArray(String[]::new));
            return "";
        } catch (CommandLine.ParameterException e) {
            return e.getMessage();
        }
    }

    @TestFactory
    Stream<DynamicTest> namedOptionsAreThere() throws IOException {
        Set<String> options = new TreeSet<>(FOREIGN_OPTIONS);
        CommandLine main = Main.commandLine();
        Stream.concat(Stream.of(main), main.getSubcommands().values().stream())
            .forEach(command -> options.addAll(command.getCommandSpec().optionsMap().keySet()));
        return eachPage(page -> assertThat(options).containsAll(Docs.found("`(?:[a-z]+ )*(--[a-z-]+)", Docs.prose(page))));
    }

    @Test
    void aCallIsFoundInAScript() {
        assertThat(Docs.calls("""
            cat > f <<'END'
            wearledger no call
            END
            # wearledger is no call here
            bin/wearledger sweep "my reports" \\
              --out "$there/2025-q1" 2>&1 | tee log
            wearledger check reports/ && echo well
            """)).containsExactly(List.of("sweep", "my reports", "--out", "$there/2025-q1"), List.of("check", "reports/"));
    }

    @Test
    void whatACommandDoesNotKnowIsTold() {
        assertThat(complaint(List.of("sweep", "reports", "--out", "x", "--earlier", "y"))).isEqualTo("Unknown option: '--earlier'");
    }

    /** The page's example of an exporter printed it from a made-up page; 48,828,125 data units are 25 TB. */
    @Test
    void theExportersReportIsRead(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(folder.resolve("lt-014.json"), Docs.blocks(Path.of("notebooks-free-docs/exporter.md"), "json").get(0));
        List<Reading> readings = new ArrayList<>();
        try (ReportReader reader = WholeFile.reader(new ReportFile(file.toString(), "lt-014.json"))) {
            reader.forEachRemaining(item -> {
                assertThat(item.outcome().problems()).isEmpty();
                readings.addAll(item.outcome().values());
            });
        }
        Reading reading = readings.get(0);
        assertThat(reading.machine().memoryBytes()).isEqualTo(8L << 30);
        assertThat(reading.drive().serial()).isEqualTo("VX000123");
        assertThat(reading.health().percentageUsed()).isEqualTo(12);
        assertThat(reading.health().bytesWritten()).isEqualTo("25000000000000");
        assertThat(reading.health().powerOnHours()).isEqualTo(3100);
    }

    /** By the beginnings of the imports; what a library brings of its own is not named. */
    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"model", "intake", "history", "stats", "assess", "budget", "report", "simulate", "job", "cli"})
    void eachPackageUsesTheLibrariesOfItsRow(String name) throws IOException {
        Map<String, String> libraries = Map.ofEntries(Map.entry("com.fasterxml.jackson", "Jackson"), Map.entry("org.apache.commons.csv", "Commons CSV"), Map.entry("org.apache.commons.io", "Commons IO"),
            Map.entry("org.apache.commons.text", "Commons Text"), Map.entry("org.apache.commons.compress", "Commons Compress"), Map.entry("org.apache.commons.math3", "Commons Math"),
            Map.entry("org.apache.commons.numbers", "Commons Numbers"), Map.entry("org.apache.commons.statistics", "Commons Statistics"), Map.entry("org.apache.poi", "POI"),
            Map.entry("org.jfree", "JFreeChart"), Map.entry("org.apache.batik", "Batik"), Map.entry("j2html", "j2html"), Map.entry("org.apache.spark", "Spark"), Map.entry("picocli", "picocli"),
            Map.entry("me.tongfei", "progressbar"));
        Set<String> used = new TreeSet<>();
        try (Stream<Path> sources = Files.walk(Path.of("src/main/java/org/wearledger", name))) {
            for (Path source : sources.filter(path -> path.toString().endsWith(".java")).toList()) {
                String text = Files.readString(source);
                libraries.forEach((start, library) -> {
                    if (text.contains("\nimport " + start + ".") || text.contains("\nimport static " + start + ".")) {
                        used.add(library);
                    }
                });
            }
        }
        String row = Files.readAllLines(Path.of("DEVELOPERS.md")).stream().filter(line -> line.startsWith("| `" + name + "` |")).findFirst().orElseThrow();
        String[] cells = row.split("\\s*\\|\\s*");
        assertThat(Set.of(cells[cells.length - 1].split(", "))).isEqualTo(used.isEmpty() ? Set.of("\u2013") : used);
    }
}
