package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.apache.commons.io.FileUtils;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** {@code bin/wearledger}: its archive of classes makes starts faster and is never a cause of failure. */
class LauncherIT {
    /** What a stand-in for Java does when an archive is made; at the last step what is put in. */
    private static final String ARCHIVING = """
        case " $* " in *' -version '*) exit 0 ;; esac
        for word in "$@"; do
          case "$1 $2 $3 $word" in *-Xshare:dump*' -XX:SharedArchiveFile='*) %s; exit ;; esac
        done
        """;
    private static final String ARCHIVED = ARCHIVING.formatted("echo archive >\"${word#*=}\"");
    private static final String SHOWN = "echo \"$@\"\n";

    /** A folder beyond the size up to which the quick compiler pays. */
    @TempDir
    static Path large;
    @TempDir
    Path folder;

    @BeforeAll
    static void fill() throws IOException {
        Files.write(large.resolve("file"), new byte[130 << 20]);
    }

    private static List<Path> files(Path place) throws IOException {
        try (Stream<Path> files = Files.exists(place) ? Files.list(place) : Stream.empty()) {
            return files.toList();
        }
    }

    private Path cache() {
        return folder.resolve("cache");
    }

    /** Runs the launcher, with a stand-in for Java, on words for it. */
    private Started standIn(String java, Object... words) throws Exception {
        return standIn(java, Map.of("WEARLEDGER_CACHE", cache().toString(), "WEARLEDGER_JAVA_OPTS", ""), words);
    }

    private Started standIn(String java, Map<String, String> environment, Object... words) throws Exception {
        Map<String, String> all = new HashMap<>(environment);
        all.put("JAVA_HOME", Started.standInForJava(folder, java).toString());
        all.putIfAbsent("PATH", shortSleeps() + ":" + System.getenv("PATH"));
        return Started.launcher(folder, all, words);
    }

    /** A fifth of each second that the launcher waits for an archive: a stand-in makes one at once. */
    private Path shortSleeps() throws IOException {
        Path programs = Files.createDirectories(folder.resolve("short"));
        assertThat(Files.writeString(programs.resolve("sleep"), "#!/bin/sh\nexec /bin/sleep 0.2\n").toFile().setExecutable(true)).isTrue();
        return programs;
    }

    private Started sweep(String name, Map<String, String> environment) throws Exception {
        Started run = Started.launcher(folder, environment, "sweep", "sample-reports", "--out", folder.resolve(name));
        assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(run.out()).contains("60 machines, as of 2025-01-06: ", "Done, with files or records refused: exit code 3");
        return run;
    }

    /** So the first sweep behind a build is as quick as the second. */
    @Test
    void theArchiveThatTheBuildMadeIsUsed() throws Exception {
        assertThat(files(Started.HOME.resolve("classes"))).singleElement().satisfies(archive -> {
            assertThat(archive.toString()).endsWith(".jsa");
            assertThat(Files.getPosixFilePermissions(archive)).containsExactlyInAnyOrder(PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE);
        });
        Started sweep = sweep("first", Map.of("WEARLEDGER_CACHE", cache().toString(), "WEARLEDGER_JAVA_OPTS", "-Xlog:class+load:file=" + folder.resolve("loaded")));
        assertThat(sweep.err()).isEmpty();
        assertThat(cache()).doesNotExist();
        assertThat(folder.resolve("loaded")).content().contains("org.wearledger.cli.Main source: shared objects file");
    }

    /** Java 17 crashes when it records, or is watched by an agent, while it takes classes from an archive. */
    @ParameterizedTest
    @ValueSource(strings = {"-XX:StartFlightRecording=filename=a.jfr", "-javaagent:a.jar", "-agentlib:a", "-XX:ArchiveClassesAtExit=a.jsa"})
    void whereJavaIsWatchedItDoesWithout(String option) throws Exception {
        standIn(ARCHIVED, "sweep", "sample-reports");
        assertThat(standIn(SHOWN, Map.of("WEARLEDGER_CACHE", cache().toString(), "WEARLEDGER_JAVA_OPTS", option), "check", "sample-reports").out())
            .contains(option).doesNotContain("-XX:SharedArchiveFile");
    }

    @Tag("thorough")
    @Test
    void aRecordedSweepGivesTheSameBytes() throws Exception {
        sweep("recorded", Map.of("WEARLEDGER_JAVA_OPTS", "-Xlog:disable -XX:StartFlightRecording=filename=" + folder.resolve("recorded.jfr")));
        assertThat(Runs.of("sweep", "sample-reports", "--out", folder.resolve("plain")).exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(folder.resolve("recorded/machines.csv")).hasSameBinaryContentAs(folder.resolve("plain/machines.csv"));
    }

    /** A copy, as after an installation: the build's archive does not fit it. */
    @Tag("thorough")
    @Test
    void elsewhereTheFirstSweepMakesOne() throws Exception {
        Path copy = folder.resolve("copy");
        FileUtils.copyDirectory(Started.HOME.toFile(), copy.toFile());
        assertThat(copy.resolve("bin/wearledger").toFile().setExecutable(true)).isTrue();
        List<String> words = List.of("env", "WEARLEDGER_CACHE=" + cache(), copy.resolve("bin/wearledger").toString(), "sweep", "sample-reports", "--out");
        for (String name : List.of("first", "second")) {
            Process run = new ProcessBuilder(Stream.concat(words.stream(), Stream.of(folder.resolve(name).toString())).toList())
                .redirectErrorStream(true).redirectOutput(folder.resolve("printed").toFile()).start();
            assertThat(run.waitFor()).as(Files.readString(folder.resolve("printed"))).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
            waitFor(() -> files(cache()).size() == 1 && files(cache()).get(0).toString().endsWith(".jsa"));
        }
        assertThat(folder.resolve("second/machines.csv")).hasSameBinaryContentAs(folder.resolve("first/machines.csv"));
    }

    private interface Condition {
        boolean holds() throws IOException;
    }

    private static void waitFor(Condition condition) throws Exception {
        // Ten minutes: only what hangs is to be found.
        for (int look = 0; !condition.holds(); look++) {
            assertThat(look).as("waited in vain").isLessThan(6_000);
            TimeUnit.MILLISECONDS.sleep(100);
        }
    }

    /** Java would crash on it at each start, or compute with what was changed. */
    @ParameterizedTest
    @ValueSource(strings = {"whole", "cut", "changed", "no archive"})
    void aDamagedArchiveGoesAndTheRunDoesWithout(String damage) throws Exception {
        standIn(ARCHIVED, "sweep", "sample-reports");
        Path archive = files(cache()).get(0);
        switch (damage) {
            case "cut" -> Files.writeString(archive, "arch");
            case "changed" -> Files.writeString(archive, "archivE\n");
            case "no archive" -> Files.writeString(archive, "");
            default -> assertThat(archive).hasContent("archive");
        }
        boolean whole = damage.equals("whole");
        String options = "-XX:TieredStopAtLevel=1 -XX:+UseSerialGC " + (whole ? "-XX:SharedArchiveFile=" + archive + " -Xlog:disable" : "-XX:+IgnoreUnrecognizedVMOptions");
        assertThat(standIn(ARCHIVED + SHOWN, "check", "sample-reports/2025-q1").out()).startsWith(options);
        assertThat(files(cache())).hasSize(whole ? 1 : 0);
    }

    /** Should Java crash over a whole one: that run is lost, no later one. */
    @Test
    void afterACrashTheArchiveIsUsedNoMore() throws Exception {
        String java = ARCHIVED + "case \" $* \" in *' -XX:SharedArchiveFile='*) kill -ABRT $$ ;; esac\n";
        assertThat(standIn(java, "sweep", "sample-reports").exitCode()).isZero();
        assertThat(files(cache())).singleElement().asString().endsWith(".jsa");
        assertThat(standIn(java, "sweep", "sample-reports").exitCode()).isEqualTo(134);
        assertThat(files(cache())).singleElement().asString().endsWith(".jsa.failed");
        assertThat(standIn(java, "sweep", "sample-reports").exitCode()).isZero();
    }

    @ParameterizedTest
    @ValueSource(strings = {"file/cache", "a cache"})
    void withoutAPlaceForTheArchiveItRunsAllTheSame(String name) throws Exception {
        Files.writeString(folder.resolve("file"), "a file where a folder should be");
        Started run = standIn(ARCHIVED + SHOWN, Map.of("WEARLEDGER_CACHE", folder.resolve(name).toString()), "sweep", "sample-reports");
        assertThat(run.exitCode()).isZero();
        assertThat(run.err()).isEmpty();
        assertThat(Files.exists(folder.resolve(name))).isFalse();
    }

    @Test
    void whereAnArchiveCouldNotBeMadeItIsNotTriedAgain() throws Exception {
        Path dumps = folder.resolve("dumps");
        for (int run = 0; run < 2; run++) {
            assertThat(standIn(ARCHIVING.formatted("echo dump >>'" + dumps + "'; exit 1") + "exit 3\n", "sweep", "sample-reports").exitCode())
                .isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        }
        assertThat(dumps).hasContent("dump");
        assertThat(files(cache())).singleElement().satisfies(mark -> assertThat(mark.toString()).endsWith(".jsa.failed"));
    }

    @ParameterizedTest
    @CsvSource({"sweep sample-reports, exit 2", "sweep --help, exit 0", "check sample-reports, exit 0"})
    void onlyAfterASweepThatWasDoneIsItMade(String words, String java) throws Exception {
        standIn(ARCHIVED + java + "\n", (Object[]) words.split(" "));
        assertThat(cache()).doesNotExist();
    }

    /** A sleep that takes no time makes the launcher's waiting short; the archive is made behind it. */
    @Test
    void aSlowMachineGoesOnWithItInTheBackground() throws Exception {
        Path go = folder.resolve("go");
        Path programs = Files.createDirectory(folder.resolve("programs"));
        assertThat(Files.writeString(programs.resolve("sleep"), "#!/bin/sh\n").toFile().setExecutable(true)).isTrue();
        String java = ARCHIVING.formatted("while [ ! -e '" + go + "' ]; do /bin/sleep 0.1; done; echo archive >\"${word#*=}\"");
        Started run = standIn(java, Map.of("WEARLEDGER_CACHE", cache().toString(), "PATH", programs + ":" + System.getenv("PATH")), "sweep", "sample-reports");
        assertThat(run).isEqualTo(new Started(0, "", ""));
        assertThat(files(cache())).noneMatch(file -> file.toString().endsWith(".jsa"));
        Files.createFile(go);
        waitFor(() -> files(cache()).size() == 1 && files(cache()).get(0).toString().endsWith(".jsa"));
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
        Files.createSymbolicLink(folder.resolve("large"), large);
        Files.createSymbolicLink(folder.resolve("link"), folder.resolve("large"));
        Started run = standIn(SHOWN, Map.of("WEARLEDGER_CACHE", cache().toString(), "WEARLEDGER_JAVA_OPTS", options == null ? "" : options), "check", folder + "/" + input.replace("\\n", "\n"));
        assertThat(run.out()).startsWith(expected + " -XX:+IgnoreUnrecognizedVMOptions");
    }

    @ParameterizedTest
    @ValueSource(strings = {"--out large", "--previous large", "--out=large", "--out large --overwrite", "--out odd[1]"})
    void whatASweepWroteIsNoInput(String options) throws Exception {
        Files.createDirectory(folder.resolve("small"));
        Files.createSymbolicLink(folder.resolve("large"), large);
        List<Object> arguments = new ArrayList<>(List.of("sweep", folder.resolve("small")));
        Stream.of(options.split(" ")).map(word -> word.replaceFirst("(large|odd)", folder + "/$1")).forEach(arguments::add);
        // In a place with a blank no archive is made, so that nothing is waited for.
        Started run = standIn(SHOWN, Map.of("WEARLEDGER_CACHE", folder.resolve("a cache").toString()), arguments.toArray());
        assertThat(run.out()).startsWith("-XX:TieredStopAtLevel=1 -XX:+UseSerialGC");
    }

    /** Each library once, whatever machines it has jars for. */
    @Test
    void theBillOfMaterialsListsWhatIsShippedAndNothingElse() throws Exception {
        List<String> listed = new ArrayList<>();
        new ObjectMapper().readTree(Started.HOME.resolve("bom.json").toFile()).get("components")
            .forEach(library -> listed.add(library.get("name").asText() + "-" + library.get("version").asText()));
        List<String> shipped = files(Started.HOME.resolve("lib")).stream().map(file -> file.getFileName().toString()).filter(name -> name.endsWith(".jar") && !name.startsWith("wearledger-"))
            .map(name -> name.replaceFirst("(-(linux|osx)-\\w+)?\\.jar$", "")).distinct().toList();
        assertThat(listed).containsExactlyInAnyOrderElementsOf(shipped);
    }

    @Test
    void exitCodesAndWordsPassThrough() throws Exception {
        Started wrong = Started.launcher(folder, Map.of(), "sweep", "sample-reports", "--as-of", " *  \"$0\"", "--out", folder.resolve("o"));
        assertThat(wrong.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(wrong.err()).startsWith("wearledger: ").contains(", not  *  \"$0\"\n");
    }
}
