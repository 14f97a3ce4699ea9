package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The README's blocks, run one after the other by a shell as in a fresh clone that has been built. */
class DocsIT {
    private static final String BUILD = "mvn ";

    @TempDir
    Path folder;
    private Path clone;

    @Test
    void theBlocksOfTheReadmeRun() throws Exception {
        clone = Files.createDirectory(folder.resolve("clone"));
        Path sample = Files.createSymbolicLink(clone.resolve("sample-reports"), Path.of("sample-reports").toAbsolutePath());
        Path built = Files.createSymbolicLink(Files.createDirectory(clone.resolve("target")).resolve("wearledger"), Started.HOME);
        for (String block : Docs.blocks(Path.of("README.md"), "sh")) {
            run(block.lines().filter(line -> !line.startsWith(BUILD)).reduce("", (all, line) -> all + line + "\n"));
        }
        assertThat(List.of("first-sweep/summary.md", "first-sweep/sweep.xlsx", "first-sweep/fleet.html", "LT-008.html", "first-backtest/backtest.md"))
            .allSatisfy(file -> assertThat(clone.resolve("target").resolve(file)).isNotEmptyFile());
        // The user's own lie outside, where no build deletes them.
        assertThat(folder.resolve("wear/sweeps/2025-q1/summary.md")).content().contains("files: 1 found = 1 read + 0 refused", "- LT-101 at North",
            "- LT-103 at South: in the inventory, never reported");
        Files.delete(sample);
        Files.delete(built);
    }

    private void run(String script) throws IOException, InterruptedException {
        Path printed = Files.createTempFile(clone, "printed", ".txt");
        ProcessBuilder shell = new ProcessBuilder("sh", "-e", "-c", script).directory(clone.toFile()).redirectErrorStream(true)
            .redirectOutput(printed.toFile());
        Process process = shell.start();
        // Only a run that hangs is to be found: a busy machine takes its time.
        if (!process.waitFor(20, TimeUnit.MINUTES)) {
            process.destroyForcibly();
            throw new AssertionError("still running: " + script);
        }
        assertThat(process.exitValue()).as(script + Files.readString(printed)).isZero();
    }
}
