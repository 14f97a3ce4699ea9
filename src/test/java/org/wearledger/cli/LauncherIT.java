package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** {@code bin/wearledger}: its archive of classes makes starts faster and is never a cause of failure. */
class LauncherIT {
    private static final Path JAVA = Path.of(System.getProperty("java.home"), "bin", "java");

    @TempDir
    Path folder;

    private Started sweep(Path cache, String name) throws Exception {
        Started run = Started.launcher(folder, Map.of("WEARLEDGER_CACHE", cache.toString()), "sweep", "sample-reports", "--out", folder.resolve(name));
        assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).startsWith("# Wear sweep, as of 2025-01-06\n").contains("Done, with files or records refused: exit code 3");
        return run;
    }

    private static List<Path> archives(Path cache) throws IOException {
        try (Stream<Path> files = Files.list(cache)) {
            return files.toList();
        }
    }

    @Test
    void theFirstRunKeepsAnArchiveAndLaterOnesUseIt() throws Exception {
        Path cache = folder.resolve("cache");
        sweep(cache, "first");
        assertThat(archives(cache)).singleElement().satisfies(archive -> assertThat(archive.toString()).endsWith(".jsa"));
        sweep(cache, "second");
        assertThat(folder.resolve("second/machines.csv")).hasSameBinaryContentAs(folder.resolve("first/machines.csv"));
        assertThat(archives(cache)).hasSize(1);
        // Recorded by Java's own recorder, with which Java 17 crashes over an archive: again without.
        Started recorded = Started.launcher(folder, Map.of("WEARLEDGER_CACHE", cache.toString(), "WEARLEDGER_JAVA_OPTS",
            "-Xlog:disable -XX:StartFlightRecording=filename=" + folder.resolve("recorded.jfr")), "sweep", "sample-reports", "--out", folder.resolve("recorded"));
        assertThat(recorded.exitCode()).as(recorded.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(folder.resolve("recorded/machines.csv")).hasSameBinaryContentAs(folder.resolve("first/machines.csv"));
        // An archive that is damaged, or of other jars: Java does without.
        Path archive = archives(cache).get(0);
        Files.delete(archive);
        Files.writeString(archive, "no archive");
        sweep(cache, "third");
        assertThat(folder.resolve("third/machines.csv")).hasSameBinaryContentAs(folder.resolve("first/machines.csv"));
    }

    @Test
    void withoutAPlaceForTheArchiveItRunsAllTheSame() throws Exception {
        Path file = Files.writeString(folder.resolve("file"), "a file where a folder should be");
        sweep(file.resolve("cache"), "out");
    }

    @Test
    void whereAnArchiveCouldNotBeMadeItIsNotTriedAgain() throws Exception {
        Path cache = folder.resolve("cache");
        Path dumps = folder.resolve("dumps");
        Map<String, String> environment = Map.of("WEARLEDGER_CACHE", cache.toString(), "JAVA_HOME",
            java("case \" $* \" in *' -Xshare:dump '*) echo dump >>'" + dumps + "'; exit 1 ;; esac\nexec '" + JAVA + "' \"$@\"\n").toString());
        for (String name : List.of("first", "second")) {
            assertThat(Started.launcher(folder, environment, "sweep", "sample-reports", "--out", folder.resolve(name)).exitCode())
                .isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        }
        assertThat(dumps).hasContent("dump");
        assertThat(archives(cache)).singleElement().satisfies(mark -> assertThat(mark.toString()).endsWith(".jsa.failed"));
    }

    @Test
    void afterWrongUsageNothingIsPrepared() throws Exception {
        Path cache = folder.resolve("cache");
        Map<String, String> environment = Map.of("WEARLEDGER_CACHE", cache.toString());
        assertThat(Started.launcher(folder, environment, "sweep", "sample-reports").exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(Started.launcher(folder, environment, "sweep", "--help").exitCode()).isZero();
        assertThat(cache).doesNotExist();
    }

    /** A stand-in for Java that shows what it is given. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {
        // options of the user's own | input | compiler and collector
        "                          | small       | -XX:TieredStopAtLevel=1 -XX:+UseSerialGC",
        "                          | large       | -XX:+UseParallelGC",
        "                          | link        | -XX:+UseParallelGC",
        "                          | small/*     | -XX:+UseParallelGC",
        "                          | small[1]    | -XX:+UseParallelGC",
        "                          | 'two\nlines' | -XX:TieredStopAtLevel=1 -XX:+UseSerialGC",
        "                          | missing     | -XX:TieredStopAtLevel=1 -XX:+UseSerialGC",
        "-XX:+UseG1GC              | small       | -XX:TieredStopAtLevel=1 -XX:+UseG1GC",
        "-XX:+UseZGC               | large       | -XX:+UseZGC",
        "-XX:+UseGCOverheadLimit   | large       | -XX:+UseParallelGC -XX:+UseGCOverheadLimit",
    })
    void theCompilerAndTheCollectorSuitTheSizeOfTheInput(String options, String input, String expected) throws Exception {
        Files.createDirectory(folder.resolve("small"));
        Files.createDirectory(folder.resolve("two\nlines"));
        Files.write(Files.createDirectory(folder.resolve("large")).resolve("reports.jsonl"), new byte[130 << 20]);
        Files.createSymbolicLink(folder.resolve("link"), folder.resolve("large"));
        Started run = Started.launcher(folder, Map.of("JAVA_HOME", java("echo \"$@\"\n").toString(), "WEARLEDGER_CACHE", folder.resolve("c").toString(),
            "WEARLEDGER_JAVA_OPTS", options == null ? "" : options), "check", folder + "/" + input.replace("\\n", "\n"));
        assertThat(run.out()).startsWith(expected + " -XX:+IgnoreUnrecognizedVMOptions");
    }

    @ParameterizedTest
    @ValueSource(strings = {"--out large", "--previous large", "--out=large", "--out large --overwrite", "--out odd[1]"})
    void whatASweepWroteIsNoInput(String options) throws Exception {
        Files.createDirectory(folder.resolve("small"));
        Files.write(Files.createDirectory(folder.resolve("large")).resolve("sweep.xlsx"), new byte[130 << 20]);
        List<Object> arguments = new ArrayList<>(List.of("sweep", folder.resolve("small")));
        Stream.of(options.split(" ")).map(word -> word.replaceFirst("(large|odd)", folder + "/$1")).forEach(arguments::add);
        Started run = Started.launcher(folder, Map.of("JAVA_HOME", java("echo \"$@\"\n").toString(), "WEARLEDGER_CACHE", folder.resolve("c").toString(),
            "WEARLEDGER_JAVA_OPTS", ""), arguments.toArray());
        assertThat(run.out()).startsWith("-XX:TieredStopAtLevel=1 -XX:+UseSerialGC");
    }

    /** @return a JAVA_HOME whose {@code java} is this script */
    private Path java(String script) throws IOException {
        Path java = Files.createDirectories(folder.resolve("java/bin")).resolve("java");
        Files.writeString(java, "#!/bin/sh\n" + script);
        assertThat(java.toFile().setExecutable(true)).isTrue();
        return folder.resolve("java");
    }

    @Test
    void aCacheWhosePathHoldsABlankIsNotUsed() throws Exception {
        Path cache = folder.resolve("a cache");
        sweep(cache, "out");
        assertThat(cache).doesNotExist();
    }

    @Test
    void exitCodesAndWordsPassThrough() throws Exception {
        Started wrong = Started.launcher(folder, Map.of("WEARLEDGER_CACHE", folder.resolve("c").toString()), "sweep", folder.resolve("none *"), "--out",
            folder.resolve("o"));
        assertThat(wrong.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(wrong.err()).startsWith("wearledger: ").contains("none *");
    }
}
