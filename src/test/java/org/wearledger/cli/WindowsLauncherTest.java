package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What can be held of the batch file without Windows. */
class WindowsLauncherTest {
    private static final Path BATCH = Path.of("src/main/dist/bin/wearledger.cmd");
    private static final String TO_JAVA = "-XX:+IgnoreUnrecognizedVMOptions";

    /** The interpreter of Windows loses its place in lines that end otherwise, and reads other characters by the machine's code page. */
    @Test
    void itsLinesEndAsOnWindowsAndItsCharactersAreAscii() throws IOException {
        String text = Files.readString(BATCH, StandardCharsets.ISO_8859_1);
        assertThat(text.chars().allMatch(c -> c < 0x7F)).isTrue();
        assertThat(text.split("\n", -1)).satisfies(lines -> assertThat(List.of(lines).subList(0, lines.length - 1)).allMatch(line -> line.endsWith("\r")));
        assertThat(text).endsWith("\r\n").contains("rem Not run on Windows so far");
    }

    /** Paths may hold blanks; options are meant to be several words. */
    @Test
    void pathsStandInQuotationMarks() throws IOException {
        List<String> calls = Files.readAllLines(BATCH, StandardCharsets.US_ASCII).stream().filter(line -> line.contains("%JAVA%") || line.contains("%~dp0")).toList();
        assertThat(calls).hasSize(3).allMatch(line -> line.matches(".*\"(%JAVA%|%~dp0[^\"]*)\".*"));
        assertThat(calls.get(2)).contains("-jar \"%JAR%\" %*");
    }

    @Test
    void javaIsStartedWithTheFlagsOfTheOtherLauncher() throws IOException {
        String shell = Files.readString(BATCH.resolveSibling("wearledger"));
        assertThat(Files.readString(BATCH, StandardCharsets.US_ASCII)).contains(TO_JAVA).contains("--sun-misc-unsafe-memory-access=allow");
        assertThat(shell).contains(TO_JAVA).contains("--sun-misc-unsafe-memory-access=allow");
    }
}
