package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code bin/wearledger}: its archive of classes makes starts faster and is never a cause of failure. */
class LauncherIT {
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
        sweep(cache, "first");
        Path archive = archives(cache).get(0);
        Path failed = Files.move(archive, Path.of(archive + ".failed"));
        sweep(cache, "second");
        assertThat(archives(cache)).containsExactly(failed);
    }

    @Test
    void aCacheWhosePathHoldsABlankIsNotUsed() throws Exception {
        Path cache = folder.resolve("a cache");
        sweep(cache, "out");
        assertThat(cache).doesNotExist();
    }

    @Test
    void aCollectorOfTheUsersOwnIsTaken() throws Exception {
        Started run = Started.launcher(folder, Map.of("WEARLEDGER_JAVA_OPTS", "-XX:+UseG1GC"), "--version");
        assertThat(run.exitCode()).as(run.err() + run.out()).isZero();
    }

    @Test
    void exitCodesAndWordsPassThrough() throws Exception {
        Started wrong = Started.launcher(folder, Map.of("WEARLEDGER_CACHE", folder.resolve("c").toString()), "sweep", folder.resolve("none *"), "--out",
            folder.resolve("o"));
        assertThat(wrong.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(wrong.err()).startsWith("wearledger: ").contains("none *");
    }
}
