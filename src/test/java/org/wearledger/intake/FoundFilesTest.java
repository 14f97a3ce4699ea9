package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.ProblemKind;
import org.wearledger.report.ProblemWords;

class FoundFilesTest {
    @TempDir
    Path folder;

    @BeforeEach
    void files() throws IOException {
        for (String name : List.of("q2/b.json", "q1/c.csv.gz", "q1/a.json", "q1/notes.txt", "q1/deep/d.JSONL")) {
            Files.createDirectories(folder.resolve(name).getParent());
            Files.writeString(folder.resolve(name), "1234567890");
        }
    }

    private List<String> found(String... arguments) throws IOException {
        return FoundFiles.find(List.of(arguments)).reports().stream().map(file -> file.name().substring(folder.toString().length() + 1)).toList();
    }

    @Test
    void aFolderWithAnUnderscoreIsLeftAsideUnlessNamed() throws IOException {
        Files.writeString(Files.createDirectories(folder.resolve("q1/_old")).resolve("b.json"), "{}");
        assertThat(found(folder.toString())).doesNotContain("q1/_old/b.json").contains("q1/a.json");
        assertThat(FoundFiles.find(List.of(folder.toString())).passedOver()).contains(folder + "/q1/_old (its name begins with _)");
        assertThat(found(folder.resolve("q1/_old").toString())).containsExactly("q1/_old/b.json");
    }

    /** Links there are to files that have a content and no place. */
    @Test
    void aLinkIntoProcEndsNothing() throws IOException {
        Path places = Path.of("/proc/self/ns");
        assumeTrue(Files.isDirectory(places));
        Files.createSymbolicLink(folder.resolve("q1/ns"), places);
        assertThat(found(folder.toString())).contains("q1/a.json", "q2/b.json");
    }

    /** A file named outright is read whatever its ending; named twice it is read once; the order is that of the names. */
    @Test
    void whatASweepWroteIsNoReport() throws IOException {
        Path output = Files.createDirectories(folder.resolve("q1/swept"));
        for (String name : List.of("machines.csv", "problems.csv", "summary.md")) {
            Files.writeString(output.resolve(name), "x");
        }
        assertThat(found(folder.toString())).doesNotContain("q1/swept/problems.csv").contains("q1/a.json");
        assertThat(FoundFiles.find(List.of(folder.toString())).passedOver()).contains(folder + "/q1/swept (an output of a sweep)");
        assertThatThrownBy(() -> found(output.toString())).isInstanceOf(InputMissingException.class)
            .hasMessage(output + " is an output of a sweep: it holds machines.csv, problems.csv and summary.md; name the folder of the reports");
    }

    @Test
    void foldersFilesAndPatternsMayBeMixed() throws IOException {
        assertThat(found(folder + "/q2", folder + "/q1")).containsExactly("q1/a.json", "q1/c.csv.gz", "q1/deep/d.JSONL", "q2/b.json");
        assertThat(found(folder + "/q2/b.json", folder + "/q1/notes.txt", folder + "/q2")).containsExactly("q1/notes.txt", "q2/b.json");
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        /q1/*.json      | q1/a.json
        /*/?.json       | q1/a.json q2/b.json
        /**/*.JSONL     | q1/deep/d.JSONL
        /q[12]/*.json   | q1/a.json q2/b.json
        /q{1,3}/*.json  | q1/a.json
        """)
    void patterns(String pattern, String names) throws IOException {
        assertThat(found(folder + pattern)).containsExactly(names.split(" "));
    }

    @Test
    void whatNamesNothingIsToldRatherThanPassedOver() throws IOException {
        Files.createDirectories(folder.resolve("empty"));
        assertThatThrownBy(() -> found(folder + "/q1/*.xml")).isInstanceOf(InputMissingException.class).hasMessage("no file matches " + folder + "/q1/*.xml");
        assertThatThrownBy(() -> found(folder + "/q9/*.json")).isInstanceOf(InputMissingException.class).hasMessage("no such file or folder: " + folder + "/q9/*.json");
        assertThatThrownBy(() -> found(folder + "/empty")).isInstanceOf(InputMissingException.class)
            .hasMessage("no report file (.json, .jsonl, .ndjson, .csv, each also .gz) and no pack in " + folder + "/empty");
    }

    /** A file system keeps bytes; "M\u00fcller" in Latin-1 is no UTF-8. A shell's pattern names the file outright, a folder holds it. */
    @Test
    void aNameThatCannotBeDecodedIsAFileThatCannotBeRead() throws Exception {
        Path in = Files.createDirectory(folder.resolve("latin"));
        Files.writeString(in.resolve("fine.json"), "{}");
        int made = new ProcessBuilder("sh", "-c", "printf '{}' >\"$0/$(printf 'M\\374ller.json')\"", in.toString()).start().waitFor();
        assumeTrue(made == 0 && in.toFile().list().length == 2, "this file system keeps no such name: not tested here");
        String name = in + "/M\uFFFDller.json";
        for (List<String> arguments : List.of(List.of(in.toString()), List.of(in + "/fine.json", name))) {
            List<ReportFile> reports = FoundFiles.find(arguments).reports();
            assertThat(reports).extracting(ReportFile::name).containsExactlyInAnyOrder(in + "/fine.json", name);
            try (ReportReader reader = new ReportReader(ReportPart.whole(reports.get(0).isUndecodable() ? reports.get(0) : reports.get(1)), FieldMapping.none())) {
                assertThat(reader.next().summary().problems(FieldMapping.none())).singleElement().satisfies(problem -> {
                    assertThat(problem.kind()).isEqualTo(ProblemKind.FILE_UNREADABLE);
                    assertThat(ProblemWords.of(problem).found()).isEqualTo("the file cannot be read: its name holds bytes that are no UTF-8");
                    assertThat(ProblemWords.of(problem).remedy()).isEqualTo("give the file, or the folder that is named so, a name of plain letters");
                });
            }
        }
    }
}
