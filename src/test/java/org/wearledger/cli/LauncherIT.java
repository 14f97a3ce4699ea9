package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
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

    private static final Path SHARED_CACHE = Path.of("target", "cache-of-launcher").toAbsolutePath();
    /** What a stand-in for Java does when an archive is made; at the last step what is put in. */
    private static final String ARCHIVING = """
        case " $* " in *' -version '* | *' simulate '*) exit 0 ;; esac
        for word in "$@"; do
          case $word in -XX:DumpLoadedClassList=*) echo a/Class >"${word#*=}" ;; esac
          case "$1 $2 $3 $word" in *-Xshare:dump*' -XX:SharedArchiveFile='*) %s; exit ;; esac
        done
        """;

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
        try (Stream<Path> files = Files.list(Files.createDirectories(cache))) {
            return files.toList();
        }
    }

    private Path standIn(String script) throws IOException {
        return Started.standInForJava(folder, script);
    }

    /** The one that all tests of this class use, made by the first of them that swept. */
    @Test
    void theFirstRunKeepsAnArchiveAndLaterOnesUseIt() throws Exception {
        sweep(SHARED_CACHE, "first");
        Path archive = archives(SHARED_CACHE).get(0);
        assertThat(archives(SHARED_CACHE)).singleElement().asString().endsWith(".jsa");
        assertThat(Files.getPosixFilePermissions(archive)).containsExactlyInAnyOrder(PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE);
        sweep(SHARED_CACHE, "second");
        assertThat(folder.resolve("second/machines.csv")).hasSameBinaryContentAs(folder.resolve("first/machines.csv"));
        assertThat(archives(SHARED_CACHE)).containsExactly(archive);
        Started loaded = Started.launcher(folder, Map.of("WEARLEDGER_CACHE", SHARED_CACHE.toString(), "WEARLEDGER_JAVA_OPTS", "-Xlog:class+load:file=" + folder.resolve("loaded")), "--version");
        assertThat(loaded.exitCode()).as(loaded.err()).isZero();
        assertThat(folder.resolve("loaded")).content().contains("org.wearledger.cli.Main source: shared objects file");
        // Recorded by Java's own recorder, with which Java 17 crashes over an archive: again without.
        Started recorded = Started.launcher(folder, Map.of("WEARLEDGER_CACHE", SHARED_CACHE.toString(), "WEARLEDGER_JAVA_OPTS",
            "-Xlog:disable -XX:StartFlightRecording=filename=" + folder.resolve("recorded.jfr")), "sweep", "sample-reports", "--out", folder.resolve("recorded"));
        assertThat(recorded.exitCode()).as(recorded.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(folder.resolve("recorded/machines.csv")).hasSameBinaryContentAs(folder.resolve("first/machines.csv"));
    }

    /** Java would crash on it at each start, or compute with what was changed. */
    @ParameterizedTest
    @ValueSource(strings = {"cut", "changed", "no archive"})
    void aDamagedArchiveGoesAndTheRunDoesWithout(String damage) throws Exception {
        if (archives(SHARED_CACHE).isEmpty()) {
            sweep(SHARED_CACHE, "first");
        }
        Path whole = archives(SHARED_CACHE).get(0);
        Path cache = Files.createDirectory(folder.resolve("cache"));
        Path archive = Files.copy(whole, cache.resolve(whole.getFileName()));
        try (FileChannel channel = FileChannel.open(archive, StandardOpenOption.WRITE)) {
            switch (damage) {
                case "cut" -> channel.truncate(channel.size() / 2);
                case "changed" -> channel.write(ByteBuffer.wrap(new byte[100]), channel.size() / 2);
                default -> channel.truncate(0).write(ByteBuffer.wrap("no archive".getBytes(StandardCharsets.UTF_8)));
            }
        }
        Started check = Started.launcher(folder, Map.of("WEARLEDGER_CACHE", cache.toString()), "check", "sample-reports/2025-q1");
        assertThat(check.err()).isEmpty();
        assertThat(check.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(check.out()).contains("files: 11 found = 10 read + 1 refused\n").containsOnlyOnce("records: ");
        assertThat(archives(cache)).isEmpty();
    }

    /** Should Java crash over a whole one: that run is lost, no later one. */
    @Test
    void afterACrashTheArchiveIsUsedNoMore() throws Exception {
        Path cache = folder.resolve("cache");
        Map<String, String> environment = Map.of("WEARLEDGER_CACHE", cache.toString(), "JAVA_HOME",
            standIn(ARCHIVING.formatted(": >\"${word#*=}\"") + "case \" $* \" in *' -XX:SharedArchiveFile='*) kill -ABRT $$ ;; esac\n").toString());
        assertThat(Started.launcher(folder, environment, "sweep", "sample-reports").exitCode()).isZero();
        assertThat(archives(cache)).singleElement().asString().endsWith(".jsa");
        assertThat(Started.launcher(folder, environment, "sweep", "sample-reports").exitCode()).isEqualTo(134);
        assertThat(archives(cache)).singleElement().asString().endsWith(".jsa.failed");
        assertThat(Started.launcher(folder, environment, "sweep", "sample-reports").exitCode()).isZero();
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
            standIn(ARCHIVING.formatted("echo dump >>'" + dumps + "'; exit 1") + "exit 3\n").toString());
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
        Started run = Started.launcher(folder, Map.of("JAVA_HOME", standIn("echo \"$@\"\n").toString(), "WEARLEDGER_CACHE", folder.resolve("c").toString(),
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
        Started run = Started.launcher(folder, Map.of("JAVA_HOME", standIn("echo \"$@\"\n").toString(), "WEARLEDGER_CACHE", folder.resolve("c").toString(),
            "WEARLEDGER_JAVA_OPTS", ""), arguments.toArray());
        assertThat(run.out()).startsWith("-XX:TieredStopAtLevel=1 -XX:+UseSerialGC");
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
