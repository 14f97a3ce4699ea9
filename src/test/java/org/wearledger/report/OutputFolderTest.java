package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import jdk.jfr.Recording;
import jdk.jfr.consumer.RecordingFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OutputFolderTest {
    @TempDir
    private Path folder;
    private Path target;

    @BeforeEach
    void nameTheTarget() {
        target = folder.resolve("out");
    }

    @Test
    void aFreshOrEmptyFolderIsFilled() throws IOException {
        OutputFolder.write(target, false, Access.OWNER, OutputFolderTest::fill);
        assertThat(namesIn(target)).containsExactly("machines.csv", "summary.md");
        Path empty = Files.createDirectory(folder.resolve("empty"));
        OutputFolder.write(empty, false, Access.OWNER, OutputFolderTest::fill);
        assertThat(namesIn(folder)).containsExactly("empty", "out");
    }

    @Test
    void missingParentsAreMade() throws IOException {
        OutputFolder.write(folder.resolve("a/b"), false, Access.OWNER, OutputFolderTest::fill);
        assertThat(folder.resolve("a/b/summary.md")).exists();
    }

    @Test
    void aNonEmptyFolderIsRefused() throws IOException {
        OutputFolder.write(target, false, Access.OWNER, OutputFolderTest::fill);
        refused(false, target + " is not empty: choose a fresh folder or pass --overwrite");
    }

    @Test
    void aFileIsRefused() throws IOException {
        Files.writeString(target, "x");
        refused(true, target + " is not a folder: choose a fresh folder");
    }

    @Test
    void aFolderOfOthersIsRefusedEvenWithOverwrite() throws IOException {
        Files.writeString(Files.createDirectory(target).resolve("thesis.txt"), "x");
        refused(true, target + " was not written by this program (it lacks machines.csv or summary.md) and is left as "
            + "it is: choose a fresh folder");
        assertThat(target.resolve("thesis.txt")).exists();
    }

    @Test
    void aFileAddedByTheUserIsNotLost() throws IOException {
        OutputFolder.write(target, false, Access.OWNER, OutputFolderTest::fill);
        Files.writeString(target.resolve("my notes.txt"), "x");
        refused(true, target + " also holds files this program did not write (my notes.txt) and is left as it is: "
            + "move them away or choose a fresh folder");
    }

    @Test
    void overwriteReplacesTheWholeFolder() throws IOException {
        OutputFolder.write(target, false, Access.OWNER, OutputFolderTest::fill);
        Files.writeString(target.resolve("models.csv"), "old");
        OutputFolder.write(target, true, Access.OWNER, OutputFolderTest::fill);
        assertThat(namesIn(target)).containsExactly("machines.csv", "summary.md");
        assertThat(namesIn(folder)).containsExactly("out");
    }

    @Test
    void aFailureLeavesTheTargetAsItWasAndNothingBeside() throws IOException {
        OutputFolder.write(target, false, Access.OWNER, OutputFolderTest::fill);
        assertThatThrownBy(() -> OutputFolder.write(target, true, Access.OWNER, partial -> {
            Files.writeString(partial.resolve("machines.csv"), "half");
            throw new IOException("disk full");
        })).isInstanceOf(IOException.class).hasMessage("disk full");
        assertThat(target.resolve("machines.csv")).hasContent("machineId");
        assertThat(namesIn(folder)).containsExactly("out");
    }

    /** What a run leaves that is killed at the steps of a replacement, and what the next run makes of it. */
    @ParameterizedTest(name = "left: {0}; then the target is {1}")
    @CsvSource({
        "'', earlier",
        "out/half, earlier",
        "out/half old/summary.md, put back",
        "old/half, later",
    })
    void aKilledRunIsClearedAway(String left, String then) throws IOException {
        if (!then.equals("put back")) {
            Files.writeString(Files.createDirectory(target).resolve("summary.md"), then);
        }
        abandoned(".out.partial-123", left, "put back");
        OutputFolder.check(folder.resolve("another"), false);
        assertThat(folder.resolve(".out.partial-123")).exists();

        assertThatThrownBy(() -> OutputFolder.check(target, false)).hasMessageContaining("is not empty");
        assertThat(namesIn(folder)).containsExactly("out");
        assertThat(target.resolve("summary.md")).hasContent(then);
    }

    private void abandoned(String name, String files, String content) throws IOException {
        Path work = Files.createDirectory(folder.resolve(name));
        Files.createFile(work.resolve("lock"));
        for (String file : files.isEmpty() ? new String[0] : files.split(" ")) {
            Files.createDirectories(work.resolve(file).getParent());
            Files.writeString(work.resolve(file), content);
        }
    }

    @Test
    void anEarlierOutputIsNotLostToWhatTookItsPlace() throws IOException {
        Files.writeString(Files.createDirectory(target).resolve("thesis.txt"), "x");
        abandoned(".out.partial-123", "out/half old/summary.md", "# Sweep");
        assertThatThrownBy(() -> OutputFolder.check(target, false)).isInstanceOf(OutputRefusedException.class);
        assertThat(folder.resolve(".out.partial-123/old/summary.md")).hasContent("# Sweep");
        assertThat(target.resolve("thesis.txt")).exists();
    }

    @Test
    void anEmptyFolderInItsPlaceGivesWay() throws IOException {
        Files.createDirectory(target);
        abandoned(".out.partial-123", "out/half old/summary.md", "# Sweep");
        assertThatThrownBy(() -> OutputFolder.check(target, false)).hasMessageContaining("is not empty");
        assertThat(target.resolve("summary.md")).hasContent("# Sweep");
    }

    @Test
    void theWorkOfARunThatLivesIsLeft() throws IOException {
        OutputFolder.write(target, false, Access.OWNER, partial -> {
            OutputFolder.check(target, false);
            fill(partial);
        });
        assertThat(namesIn(target)).containsExactly("machines.csv", "summary.md");
        // Like one of ours, but without a lock and not empty: somebody else's.
        Files.createDirectories(folder.resolve(".out.partial-mine/a"));
        Files.createDirectory(folder.resolve(".out.partial-empty"));
        assertThatThrownBy(() -> OutputFolder.check(target, false)).hasMessageContaining("is not empty");
        assertThat(namesIn(folder)).containsExactly(".out.partial-mine", "out");
    }

    @Test
    void aPageIsWholeOrAbsentToo() throws IOException {
        Path page = folder.resolve("page.html");
        abandoned(".page.html.partial-123", "page", "half");
        OutputFile.check(page, false);
        assertThat(namesIn(folder)).isEmpty();
        OutputFile.write(page, false, Access.OWNER, "whole");
        assertThat(namesIn(folder)).containsExactly("page.html");
    }

    /** Outputs are data about people: their owner's alone, unless he says otherwise. */
    @ParameterizedTest
    @CsvSource({"OWNER, rwx------, rwx------, rw-------", "SHARED, rwxr-x---, rwxr-x---, rw-r-----"})
    void whoMayReadAnOutput(Access access, String ofFolder, String ofInner, String ofFile) throws IOException {
        assumeTrue(Files.getFileStore(folder).supportsFileAttributeView("posix"), "no POSIX file system: not tested here");
        OutputFolder.write(target, false, access, partial -> {
            Path inner = Files.createDirectory(partial.resolve("inner"));
            // As by a umask of 027.
            Files.setPosixFilePermissions(Files.writeString(inner.resolve("file"), "x"), PosixFilePermissions.fromString("rw-r-----"));
            for (Path each : List.of(partial, inner)) {
                Files.setPosixFilePermissions(each, PosixFilePermissions.fromString("rwxr-x---"));
            }
        });
        assertThat(permissions(target)).isEqualTo(ofFolder);
        assertThat(permissions(target.resolve("inner"))).isEqualTo(ofInner);
        assertThat(permissions(target.resolve("inner/file"))).isEqualTo(ofFile);
        OutputFile.write(folder.resolve("page.html"), false, Access.OWNER, "whole");
        assertThat(permissions(folder.resolve("page.html"))).isEqualTo("rw-------");
    }

    private static String permissions(Path path) throws IOException {
        return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
    }

    /** Java's own recorder sees each flush: every file and folder before it has its final name, and then the folder that holds the name. */
    @Test
    void whatIsRenamedLiesOnTheDiskFirst() throws IOException {
        Path recorded = folder.resolve("flushes.jfr");
        try (Recording recording = new Recording()) {
            recording.enable("jdk.FileForce").withoutThreshold();
            recording.start();
            OutputFolder.write(target, false, Access.OWNER, OutputFolderTest::fill);
            OutputFile.write(folder.resolve("page.html"), false, Access.OWNER, "whole");
            recording.stop();
            recording.dump(recorded);
        }
        List<String> flushed = RecordingFile.readAllEvents(recorded).stream().filter(event -> event.getEventType().getName().equals("jdk.FileForce"))
            .map(event -> event.getString("path").replaceAll("partial-\\d+", "partial").substring(folder.toString().length())).toList();
        assertThat(flushed.subList(0, 3)).containsExactlyInAnyOrder("/.out.partial/out", "/.out.partial/out/machines.csv", "/.out.partial/out/summary.md");
        assertThat(flushed.subList(3, flushed.size())).containsExactly("", "/.page.html.partial/page", "");
    }

    private void refused(boolean overwrite, String sentence) {
        assertThatThrownBy(() -> OutputFolder.write(target, overwrite, Access.OWNER, OutputFolderTest::fill))
            .isInstanceOf(OutputRefusedException.class).hasMessage(sentence);
    }

    private static void fill(Path partial) throws IOException {
        Files.writeString(partial.resolve("machines.csv"), "machineId");
        Files.writeString(partial.resolve("summary.md"), "# Sweep");
    }

    private static Stream<String> namesIn(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.map(entry -> entry.getFileName().toString()).sorted().toList().stream();
        }
    }
}
