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
    Path clone;

    @Test
    void theBlocksOfTheReadmeRun() throws Exception {
        Path sample = Files.createSymbolicLink(clone.resolve("sample-reports"), Path.of("sample-reports").toAbsolutePath());
        Path built = Files.createSymbolicLink(Files.createDirectory(clone.resolve("target")).resolve("wearledger"), Started.HOME);
        for (String block : Docs.blocks(Path.of("README.md"), "sh")) {
            run(block.lines().filter(line -> !line.startsWith(BUILD)).reduce("", (all, line) -> all + line + "\n"));
        }
        assertThat(List.of("first-sweep/summary.md", "first-sweep/sweep.xlsx", "LT-008.html", "first-backtest/backtest.md"))
            .allSatisfy(file -> assertThat(clone.resolve("target").resolve(file)).isNotEmptyFile());
        assertThat(clone.resolve("target/my-sweep/summary.md")).content().contains("files: 1 found = 1 read + 0 refused", "- LT-101 at North",
            "- LT-103 at South: never seen");
        Files.delete(sample);
        Files.delete(built);
    }

    private void run(String script) throws IOException, InterruptedException {
        Path printed = Files.createTempFile(clone, "printed", ".txt");
        ProcessBuilder shell = new ProcessBuilder("sh", "-e", "-c", script).directory(clone.toFile()).redirectErrorStream(true)
            .redirectOutput(printed.toFile());
        shell.environment().put("WEARLEDGER_CACHE", clone.resolve("cache").toString());
        Process process = shell.start();
        if (!process.waitFor(5, TimeUnit.MINUTES)) {
            process.destroyForcibly();
            throw new AssertionError("still running: " + script);
        }
        assertThat(process.exitValue()).as(script + Files.readString(printed)).isZero();
    }
}
