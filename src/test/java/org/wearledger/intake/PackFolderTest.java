package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

class PackFolderTest {
    /** The same problem gives the same line in every run, whatever order its facts were found in. */
    @Test
    void factsAreWrittenInTheirOwnOrder(@TempDir Path folder) throws IOException {
        Problem problem = Problem.of(Finding.RISE_IMPLAUSIBLE, SourcePlace.wholeFile("a.json"), "X").with(Fact.PLACE, "line 2").with(Fact.MOST, 5).with(Fact.AFTER, 4)
            .with(Fact.BEFORE, 3).with(Fact.SINCE, 2).with(Fact.BYTES, 1);
        PackFolder.write(folder, PackFolder.Contents.of("1", 1, 1, 1, 1, List.of()), List.of(problem));
        List<String> names = Files.readString(folder.resolve("problems.jsonl")).replaceAll(".*\"facts\":\\{|}.*\\R", "").replaceAll(":\\[[^]]*]", "").lines()
            .flatMap(line -> List.of(line.replace("\"", "").split(",")).stream()).toList();
        assertThat(names).isEqualTo(problem.facts().keySet().stream().sorted().map(Fact::name).toList()).hasSize(6);
    }
}
