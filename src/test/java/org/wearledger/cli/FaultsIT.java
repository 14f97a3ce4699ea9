package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The machine at fault: no memory, no space, no permission, folders that lead in circles. One sentence, an exit code, no output by half. */
class FaultsIT {
    @TempDir
    private Path folder;

    private Started launcher(Map<String, String> environment, Object... arguments) throws IOException, InterruptedException {
        Map<String, String> all = new java.util.HashMap<>(Map.of("WEARLEDGER_CACHE", folder.resolve("cache").toString()));
        all.putAll(environment);
        return Started.launcher(Files.createDirectories(folder.resolve("scratch")), all, arguments);
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

    /** Spark is told that there is enough, and a task finds out. */
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

    /** A disk of its own where that may be mounted, which takes root on Linux. */
    @Test
    void aFullDiskLeavesTheEarlierOutput() throws Exception {
        Path disk = Files.createDirectory(folder.resolve("disk"));
        assumeTrue(isDone("mount", "-t", "tmpfs", "-o", "size=300k", "tmpfs", disk.toString()), "needs the right to mount a small disk: not tested here");
        try {
            Path earlier = Files.createDirectory(disk.resolve("sweep"));
            for (String name : List.of("machines.csv", "summary.md")) {
                Files.writeString(earlier.resolve(name), "earlier");
            }
            Files.write(disk.resolve("filler"), new byte[200_000]);
            Started run = launcher(Map.of(), "sweep", "sample-reports", "--out", earlier, "--overwrite");
            assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.FAILED);
            assertThat(run.err()).startsWith("wearledger: no space left on a disk, or a limit on file sizes reached: free some where --out lies").hasLineCount(1);
            assertThat(beside(disk)).containsExactly("filler", "sweep");
            assertThat(beside(earlier)).containsExactly("machines.csv", "summary.md");
            assertThat(earlier.resolve("machines.csv")).hasContent("earlier");
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

    /** A file size limit stands in for the full disk where none can be mounted. */
    @Test
    void aLimitOnFileSizesLeavesNothingByHalf() throws Exception {
        Path out = Files.createDirectory(folder.resolve("outputs"));
        ProcessBuilder limited = new ProcessBuilder("sh", "-c", "ulimit -f 100; exec \"$0\" \"$@\"", Started.HOME.resolve("bin/wearledger").toString(), "sweep", "sample-reports",
            "--out", out.resolve("sweep").toString()).redirectErrorStream(true).redirectOutput(folder.resolve("said").toFile());
        limited.environment().put("WEARLEDGER_CACHE", folder.resolve("cache").toString());
        limited.environment().put("WEARLEDGER_JAVA_OPTS", "-XX:-UsePerfData");
        Process run = limited.start();
        assertThat(run.waitFor(3, TimeUnit.MINUTES)).isTrue();
        assertThat(run.exitValue()).as(Files.readString(folder.resolve("said"))).isEqualTo(ExitCode.FAILED);
        assertThat(Files.readString(folder.resolve("said"))).contains("wearledger: no space left on a disk, or a limit on file sizes reached");
        assertThat(beside(out)).isEmpty();
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
