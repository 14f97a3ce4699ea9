package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The machine at fault: no memory, no space, no permission, folders that lead in circles. One sentence, an exit code, no output by half. */
class FaultsIT {
    @TempDir
    private Path folder;

    private Started launcher(Map<String, String> environment, Object... arguments) throws IOException, InterruptedException {
        return Started.launcher(Files.createDirectories(folder.resolve("scratch")), environment, arguments);
    }

    private List<String> beside(Path place) throws IOException {
        try (Stream<Path> entries = Files.list(place)) {
            return entries.map(entry -> entry.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void withoutMemoryToBeginWithItSaysSo() throws Exception {
        Path out = Files.createDirectory(folder.resolve("outputs"));
        Started run = launcher(Map.of("WEARLEDGER_JAVA_OPTS", "-Xmx64m"), "sweep", "sample-reports", "--out", out.resolve("sweep"));
        assertThat(run.exitCode()).isEqualTo(ExitCode.FAILED);
        assertThat(run.err()).matches("wearledger: not enough memory: Java may use \\d+ MiB\\. Give it more, such as WEARLEDGER_JAVA_OPTS=-Xmx4g before the command, "
            + "or sweep on a machine that has more; nothing was written\n");
        assertThat(beside(out)).isEmpty();
    }

    /** Spark believes that there is enough, and a task finds out. */
    @Tag("thorough")
    @Test
    void withoutMemoryOnTheWayItSaysSoToo() throws Exception {
        Path out = Files.createDirectory(folder.resolve("outputs"));
        assertThat(Runs.of("simulate", "--drives", 20_000, "--quarters", 6, "--out", folder.resolve("fleet")).exitCode()).isEqualTo(ExitCode.DONE);
        Started run = launcher(Map.of("WEARLEDGER_JAVA_OPTS", "-Xmx90m -Dspark.testing.memory=500000000"), "sweep", folder.resolve("fleet/reports"), "--out",
            out.resolve("sweep"));
        assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.FAILED);
        assertThat(run.err()).contains("wearledger: not enough memory: Java may use ");
        assertThat(beside(out)).isEmpty();
    }

    /** Whichever thread finds out, Spark's or the program's own: the run ends, and nothing is left behind. Spark believes that there is enough. */
    @ParameterizedTest
    @CsvSource({"sweep, 32m", "check, 16m"})
    void memoryThatRunsOutEndsEveryCommand(String command, String heap) throws Exception {
        Path out = Files.createDirectory(folder.resolve("outputs"));
        Path tmp = Files.createDirectory(folder.resolve("tmp"));
        List<Object> words = new java.util.ArrayList<>(List.of(command, "sample-reports"));
        words.addAll(command.equals("check") ? List.of() : List.of("--out", out.resolve("out")));
        Started run = launcher(Map.of("WEARLEDGER_JAVA_OPTS", "-Xmx" + heap + " -Dspark.testing.memory=500000000", "TMPDIR", tmp.toString()), words.toArray());
        assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.FAILED);
        assertThat(run.err()).contains("wearledger: not enough memory: Java may use ");
        assertThat(run.out()).isEmpty();
        // A machine too busy to clear up in time leaves its work to the next run.
        assertThat(beside(out)).allMatch(name -> name.startsWith(".out.partial-"));
    }

    @Tag("thorough")
    @Test
    void memoryThatRunsOutEndsAPackToo() throws Exception {
        memoryThatRunsOutEndsEveryCommand("pack", "26m");
    }

    /** A disk of its own where that may be mounted, which takes root on Linux; else a limit on the size of files. */
    @Test
    void aFullDiskLeavesTheEarlierOutput() throws Exception {
        Path disk = Files.createDirectory(folder.resolve("disk"));
        if (!isDone("mount", "-t", "tmpfs", "-o", "size=300k", "tmpfs", disk.toString())) {
            aLimitOnFileSizesLeavesNothingByHalf();
            return;
        }
        try {
            Path earlier = Files.createDirectory(disk.resolve("sweep"));
            for (String name : List.of("machines.csv", "summary.md")) {
                Files.writeString(earlier.resolve(name), "earlier");
            }
            Files.write(disk.resolve("filler"), new byte[270_000]);
            Runs run = Runs.of("sweep", "sample-reports", "--out", earlier, "--overwrite");
            assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.FAILED);
            assertThat(run.err()).startsWith("wearledger: no space left on a disk, or a limit on file sizes reached: free some where --out lies").hasLineCount(1);
            assertThat(beside(disk)).containsExactly("filler", "sweep");
            assertThat(beside(earlier)).containsExactly("machines.csv", "summary.md");
            assertThat(earlier.resolve("machines.csv")).hasContent("earlier");
            // Spark itself writes this one, and must not talk of it.
            Started pack = launcher(Map.of(), "pack", "sample-reports", "--out", disk.resolve("pack"));
            assertThat(pack.exitCode()).as(pack.err()).isEqualTo(ExitCode.FAILED);
            assertThat(pack.err()).startsWith("wearledger: no space left on a disk").hasLineCount(1);
            assertThat(beside(disk)).containsExactly("filler", "sweep");
            // The temporary files' disk may be the full one as well.
            Started temporary = launcher(Map.of("WEARLEDGER_JAVA_OPTS", "-Djava.io.tmpdir=" + disk), "sweep", "sample-reports", "--out", folder.resolve("other"));
            assertThat(temporary.exitCode()).as(temporary.err()).isEqualTo(ExitCode.FAILED);
            assertThat(temporary.err()).contains("wearledger: no space left on a disk");
            assertThat(folder.resolve("other")).doesNotExist();
            assertThat(beside(disk)).containsExactly("filler", "sweep");
        } finally {
            assertThat(isDone("umount", disk.toString())).isTrue();
        }
    }

    /** Stands in for the full disk where none can be mounted. */
    private void aLimitOnFileSizesLeavesNothingByHalf() throws Exception {
        Path out = Files.createDirectory(folder.resolve("outputs"));
        ProcessBuilder limited = new ProcessBuilder("sh", "-c", "ulimit -f 100; exec \"$0\" \"$@\"", Started.HOME.resolve("bin/wearledger").toString(), "sweep", "sample-reports",
            "--out", out.resolve("sweep").toString()).redirectErrorStream(true).redirectOutput(folder.resolve("said").toFile());
        limited.environment().put("WEARLEDGER_JAVA_OPTS", "-XX:-UsePerfData");
        Process run = limited.start();
        assertThat(run.waitFor(10, TimeUnit.MINUTES)).isTrue();
        assertThat(run.exitValue()).as(Files.readString(folder.resolve("said"))).isEqualTo(ExitCode.FAILED);
        assertThat(Files.readString(folder.resolve("said"))).contains("wearledger: no space left on a disk, or a limit on file sizes reached");
        assertThat(beside(out)).isEmpty();
    }

    /** Spark itself would end the program without a word of what to do. */
    @ParameterizedTest
    @ValueSource(strings = {"java.io.tmpdir", "spark.local.dir"})
    void withoutAPlaceForTemporaryFilesItSaysSo(String property) throws Exception {
        Path none = Files.writeString(folder.resolve("file"), "no folder").resolve("tmp");
        String before = System.setProperty(property, none.toString());
        try {
            Runs run = Runs.of("sweep", "sample-reports", "--out", folder.resolve("out"));
            assertThat(run.exitCode()).isEqualTo(ExitCode.FAILED);
            assertThat(run.err()).isEqualTo("wearledger: no temporary files can be written in " + none + ": make room or give permission there, or name another folder by "
                + "WEARLEDGER_JAVA_OPTS=-D" + property + "=FOLDER before the command; nothing was written\n");
        } finally {
            if (before == null) {
                System.clearProperty(property);
            } else {
                System.setProperty(property, before);
            }
        }
        assertThat(beside(folder)).containsExactly("file");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"spark://127.0.0.1:1 | no master answers there", "spark://none.invalid:7077 | no master answers there",
        "spark://127.0.0.1 | no master answers there", "yarn | Could not parse Master URL: 'yarn'", "other://host | Could not parse Master URL: 'other://host'"})
    void aMasterThatIsNotThereIsToldInALine(String master, String why) {
        assertThat(Runs.of("sweep", "sample-reports/2025-q1", "--master", master, "--out", folder.resolve("out"))).isEqualTo(new Runs(ExitCode.FAILED, "",
            "wearledger: Spark cannot run on " + master + " (" + why + "): check --master, and that the cluster is up; nothing was written\n"));
    }

    /** Whoever stops it, and whenever: Spark's tasks that fail because of it keep silent. */
    @ParameterizedTest
    @CsvSource({"INT, starting, 130", "HUP, opening, 129", "INT, reading, 130", "TERM, writing, 143"})
    void stoppedItSaysSoInASentence(String signal, String when, int exitCode) throws Exception {
        Path tmp = Files.createDirectory(folder.resolve("tmp"));
        // A shell makes what it starts in the background deaf to Ctrl-C, and these tests may have been started so.
        ProcessBuilder builder = new ProcessBuilder("env", "--default-signal=INT,HUP,TERM", Started.HOME.resolve("bin/wearledger").toString(), "sweep", "sample-reports",
            "--out", folder.resolve("out").toString()).redirectOutput(folder.resolve("printed").toFile()).redirectError(folder.resolve("said").toFile());
        builder.environment().put("TMPDIR", tmp.toString());
        Process run = builder.start();
        waitFor(when, run);
        assertThat(isDone("kill", "-" + signal, Long.toString(run.pid()))).isTrue();
        assertThat(run.waitFor(10, TimeUnit.MINUTES)).isTrue();
        assertThat(folder.resolve("said")).hasContent("wearledger: stopped before its end; no output is there by half, and an earlier one is kept. Run the same command again\n");
        assertThat(run.exitValue()).isEqualTo(exitCode);
        assertThat(folder.resolve("printed")).isEmptyFile();
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Tag("thorough")
    @ParameterizedTest
    @CsvSource({"TERM, starting, 143", "TERM, reading, 143", "HUP, writing, 129", "INT, writing, 130"})
    void stoppedOtherwiseItSaysSoToo(String signal, String when, int exitCode) throws Exception {
        stoppedItSaysSoInASentence(signal, when, exitCode);
    }

    /** Files tell how far it is. */
    private void waitFor(String when, Process run) throws InterruptedException, IOException {
        Pattern sign = Pattern.compile(switch (when) {
            case "starting" -> "no file yet";
            case "opening" -> "/tmp/wearledger-work-[^/]*";
            case "reading" -> "/tmp/wearledger-work-[^/]*/blockmgr-[^/]*";
            default -> "/\\.out\\.partial-[^/]*/out/machines\\.csv";
        });
        while (run.isAlive()) {
            TimeUnit.MILLISECONDS.sleep(20);
            try (Stream<Path> there = Files.walk(folder)) {
                if (when.equals("starting") && run.children().findAny().isPresent() || there.anyMatch(path -> sign.matcher(path.toString().substring(folder.toString().length())).matches())) {
                    return;
                }
            } catch (UncheckedIOException e) {
                // Something went while it was looked at.
                continue;
            }
        }
        throw new AssertionError("ended before it was " + when + ": " + Files.readString(folder.resolve("said")));
    }

    @Test
    void aReadOnlyPlaceIsRefusedBeforeAnyWork() throws Exception {
        Path place = Files.createDirectory(folder.resolve("fixed"));
        boolean mounted = isDone("mount", "-t", "tmpfs", "-o", "ro,size=64k", "tmpfs", place.toString());
        Files.getFileStore(place);
        if (!mounted) {
            Files.setPosixFilePermissions(place, PosixFilePermissions.fromString("r-xr-xr-x"));
            assumeTrue(!Files.isWritable(place), "needs the right to mount, or a user who is not root: not tested here");
        }
        try {
            for (List<String> command : List.of(List.of("sweep", "sample-reports"), List.of("backtest", "sample-reports"),
                List.of("explain", "sample-reports", "--machine", "LT-008"))) {
                List<Object> words = new java.util.ArrayList<>(command);
                words.addAll(List.of("--out", place.resolve("a/out")));
                Runs run = Runs.of(words.toArray());
                assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
                assertThat(run.err()).isEqualTo("wearledger: " + place.resolve("a/out") + " cannot be written: " + place
                    + " is read-only or belongs to somebody else; choose another place\n");
            }
        } finally {
            if (mounted) {
                assertThat(isDone("umount", place.toString())).isTrue();
            }
        }
    }

    /** Links in a circle, a link to nothing, and a file that is gone when it is read: each is told, the others are read. */
    @Test
    void whatCannotBeReadIsToldAndTheRestIsRead() throws Exception {
        Path reports = Files.createDirectories(folder.resolve("reports/inner"));
        Files.copy(Path.of("sample-reports/2025-q1/north.json"), reports.resolve("north.json"));
        Files.createSymbolicLink(reports.resolve("circle"), reports.getParent());
        Files.createSymbolicLink(reports.resolve("gone.json"), reports.resolve("nowhere.json"));
        Runs check = Runs.of("check", reports.getParent());
        assertThat(check.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(check.out()).contains("file-unreadable (file refused): " + reports + "/circle, whole file: a folder that cannot be searched",
            "file-unreadable (file refused): " + reports + "/gone.json, whole file: the file cannot be read", "files: 3 found = 1 read + 2 refused\n");
        Runs sweep = Runs.of("sweep", reports.getParent(), "--out", folder.resolve("sweep"));
        assertThat(sweep.exitCode()).as(sweep.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(sweep.out()).contains("files: 3 found = 1 read + 2 refused\n");
    }

    /** Root reads every folder; so this one is tested for other users only. */
    @Test
    void aClosedFolderIsToldAndTheRestIsRead() throws Exception {
        Path reports = Files.createDirectories(folder.resolve("reports/inner"));
        Files.copy(Path.of("sample-reports/2025-q1/north.json"), reports.resolve("north.json"));
        Path closed = Files.createDirectory(folder.resolve("reports/closed"));
        Files.setPosixFilePermissions(closed, PosixFilePermissions.fromString("---------"));
        try {
            assumeTrue(!Files.isReadable(closed), "root reads every folder: not tested here");
            Runs check = Runs.of("check", reports.getParent());
            assertThat(check.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
            assertThat(check.out()).contains("file-unreadable (file refused): " + closed, "files: 2 found = 1 read + 1 refused\n");
        } finally {
            Files.setPosixFilePermissions(closed, PosixFilePermissions.fromString("rwx------"));
        }
    }

    private static boolean isDone(String... command) throws InterruptedException {
        try {
            return new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(ProcessBuilder.Redirect.DISCARD).start().waitFor() == 0;
        } catch (IOException e) {
            return false;
        }
    }
}
