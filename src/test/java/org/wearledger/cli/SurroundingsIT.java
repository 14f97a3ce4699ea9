package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code bin/wearledger} where something is missing that a login has: a locale, Java, a home. */
class SurroundingsIT {
    @TempDir
    Path folder;

    /** A scheduler gives no locale; names have letters all the same. */
    @Test
    void namesBeyondAsciiAreReadWrittenAndAskedForWithoutALocale() throws Exception {
        Path reports = Files.createDirectory(folder.resolve("B\u00fcro"));
        Files.writeString(reports.resolve("M\u00fcller.jsonl"), """
            {"schemaVersion": "1.0", "collectedAt": "2025-01-06T09:30:00Z", "machine": {"id": "M\u00fcller"}, "drive": {"serial": "KX-1", "model": "Kestrel K2"},\
             "health": {"dataUnitsWritten": 100000, "percentageUsed": 20}}
            """);
        Started sweep = cron("sweep '" + reports + "' --out '" + folder + "/\u00dcbersicht'");
        assertThat(sweep.err()).isEmpty();
        assertThat(sweep.exitCode()).isZero();
        assertThat(folder.resolve("\u00dcbersicht/machines.csv")).content().contains("M\u00fcller");
        assertThat(cron("explain --machine M\u00fcller '" + reports + "' --out '" + folder + "/M\u00fcller.html'").out()).startsWith("M\u00fcller: ");
        assertThat(folder.resolve("M\u00fcller.html")).isNotEmptyFile();
    }

    /** Latin-1 in a name: that file is refused, by each way it may be given. */
    @Test
    void aNameThatNobodyCanDecodeIsRefusedAlone() throws Exception {
        Path reports = Files.createDirectory(folder.resolve("in"));
        Files.copy(Path.of("sample-reports/2025-q1/north.json"), reports.resolve("north.json"));
        assertThat(new ProcessBuilder("sh", "-c", "cp \"$0/north.json\" \"$0/$(printf 'M\\374ller.json')\"", reports.toString()).start().waitFor()).isZero();
        for (String named : List.of("'" + reports + "'", "'" + reports + "'/*.json")) {
            Started check = cron("check " + named);
            assertThat(check.exitCode()).as(check.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
            assertThat(check.out()).contains("file-unreadable (file refused): " + reports + "/M\uFFFDller.json, whole file: the file cannot be read: its name holds bytes that are no UTF-8",
                "files: 2 found = 1 read + 1 refused\n");
        }
    }

    /** As by cron: a path to programs, and nothing else of the user's. */
    private Started cron(String words) throws Exception {
        ProcessBuilder builder = new ProcessBuilder("sh").redirectOutput(folder.resolve("printed").toFile()).redirectError(folder.resolve("said").toFile());
        builder.environment().keySet().retainAll(Set.of("PATH", "HOME", "JAVA_HOME", "WEARLEDGER_CACHE"));
        builder.redirectInput(Files.writeString(folder.resolve("script"), "'" + Started.HOME + "/bin/wearledger' " + words + "\n").toFile());
        int exitCode = builder.start().waitFor();
        return new Started(exitCode, Files.readString(folder.resolve("printed")), Files.readString(folder.resolve("said")));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', nullValues = "none", value = {
        // the user's locale | what Java is given: only how characters are written changes
        "LANG=C                  | LANG=C LC_CTYPE=C.UTF-8 LC_ALL=",
        "LANG=C.UTF-8            | LANG=C.UTF-8 LC_CTYPE= LC_ALL=",
        "LC_ALL=C                | LANG=C LC_CTYPE=C.UTF-8 LC_ALL=",
        "LC_ALL=xx_XX.ISO-8859-1 | LANG=xx_XX.ISO-8859-1 LC_CTYPE=C.UTF-8 LC_ALL=",
        "LC_CTYPE=C              | LANG= LC_CTYPE=C.UTF-8 LC_ALL=",
    })
    void aLocaleWithoutUtf8GetsIt(String locale, String given) throws Exception {
        Path java = Started.standInForJava(folder, "echo \"LANG=$LANG LC_CTYPE=$LC_CTYPE LC_ALL=$LC_ALL\"\n");
        Path printed = folder.resolve("printed");
        int exitCode = new ProcessBuilder("env", "-i", locale, "PATH=" + System.getenv("PATH"), "JAVA_HOME=" + java, Started.HOME + "/bin/wearledger").redirectOutput(printed.toFile())
            .start().waitFor();
        assertThat(exitCode).isZero();
        assertThat(printed).hasContent(given);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {
        "/nowhere    | wearledger: no Java can be started from JAVA_HOME, /nowhere: install Java 17 or newer, or set JAVA_HOME to the folder where it lies",
        "''          | wearledger: no Java can be started: install Java 17 or newer, or set JAVA_HOME to the folder where it lies",
        "1.8.0_402   | wearledger: Java 17 or newer is needed, and {java} is older: install one, or set JAVA_HOME to the folder where it lies",
        "11.0.22     | wearledger: Java 17 or newer is needed, and {java} is older: install one, or set JAVA_HOME to the folder where it lies",
    })
    void withoutAJavaThatServesItSaysSo(String java, String sentence) throws Exception {
        boolean old = java.matches("[0-9].*");
        String home = old ? Started.standInForJava(folder, "echo 'openjdk version \"" + java + "\"' >&2\n").toString() : java;
        // Programs that the launcher itself needs, and no Java.
        Path programs = Files.createDirectory(folder.resolve("programs"));
        for (String program : List.of("sh", "dirname", "readlink", "ls", "locale")) {
            for (String place : List.of("/bin/", "/usr/bin/")) {
                if (Files.exists(Path.of(place + program)) && !Files.exists(programs.resolve(program))) {
                    Files.createSymbolicLink(programs.resolve(program), Path.of(place + program));
                }
            }
        }
        Started run = Started.launcher(folder, Map.of("JAVA_HOME", home, "PATH", programs.toString()), "check", "sample-reports");
        assertThat(run).isEqualTo(new Started(ExitCode.FAILED, "", sentence.replace("{java}", home + "/bin/java") + "\n"));
    }

    @Test
    void withoutAHomeThereIsNoArchiveAndTemporaryFilesGoWhereTheUserSays() throws Exception {
        Path java = Started.standInForJava(folder, "echo \"$@\"\n");
        Path printed = folder.resolve("printed");
        int exitCode = new ProcessBuilder("env", "-i", "TMPDIR=/a b", "PATH=" + System.getenv("PATH"), "JAVA_HOME=" + java, Started.HOME + "/bin/wearledger", "sweep", "sample-reports")
            .redirectOutput(printed.toFile()).redirectErrorStream(true).start().waitFor();
        assertThat(exitCode).isZero();
        assertThat(printed).content().contains(" -Djava.io.tmpdir=/a b ").hasLineCount(1);
    }
}
