package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

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
        OutputFolder.write(target, false, OutputFolderTest::fill);
        assertThat(namesIn(target)).containsExactly("machines.csv", "summary.md");
        Path empty = Files.createDirectory(folder.resolve("empty"));
        OutputFolder.write(empty, false, OutputFolderTest::fill);
        assertThat(namesIn(folder)).containsExactly("empty", "out");
    }

    @Test
    void missingParentsAreMade() throws IOException {
        OutputFolder.write(folder.resolve("a/b"), false, OutputFolderTest::fill);
        assertThat(folder.resolve("a/b/summary.md")).exists();
    }

    @Test
    void aNonEmptyFolderIsRefused() throws IOException {
        OutputFolder.write(target, false, OutputFolderTest::fill);
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
        OutputFolder.write(target, false, OutputFolderTest::fill);
        Files.writeString(target.resolve("my notes.txt"), "x");
        refused(true, target + " also holds files this program did not write (my notes.txt) and is left as it is: "
            + "move them away or choose a fresh folder");
    }

    @Test
    void overwriteReplacesTheWholeFolder() throws IOException {
        OutputFolder.write(target, false, OutputFolderTest::fill);
        Files.writeString(target.resolve("models.csv"), "old");
        OutputFolder.write(target, true, OutputFolderTest::fill);
        assertThat(namesIn(target)).containsExactly("machines.csv", "summary.md");
        assertThat(namesIn(folder)).containsExactly("out");
    }

    @Test
    void aFailureLeavesTheTargetAsItWasAndNothingBeside() throws IOException {
        OutputFolder.write(target, false, OutputFolderTest::fill);
        assertThatThrownBy(() -> OutputFolder.write(target, true, partial -> {
            Files.writeString(partial.resolve("machines.csv"), "half");
            throw new IOException("disk full");
        })).isInstanceOf(IOException.class).hasMessage("disk full");
        assertThat(target.resolve("machines.csv")).hasContent("machineId");
        assertThat(namesIn(folder)).containsExactly("out");
    }

    private void refused(boolean overwrite, String sentence) {
        assertThatThrownBy(() -> OutputFolder.write(target, overwrite, OutputFolderTest::fill))
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
