package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.wearledger.badinput.BadInputCase;

/** The corpus of bad inputs end to end: beside a good fleet it changes nothing, and the largest of it stays within a small heap. */
class BadInputIT {
    private static final ObjectMapper JSON = new ObjectMapper();

    /** In the id of every machine of the corpus. */
    private static final String CORPUS_MACHINE = "BAD-";
    private static final String SIDE_TABLES = "^(ratings|inventory|prices|repairs)\\.csv$";

    @TempDir
    Path folder;

    @Test
    void theWholeCorpusChangesNoMachineOfTheSample() throws IOException {
        Path mixed = sweepWith("all", BadInputCase.all().stream().filter(one -> !one.isHeavy()).toList());
        List<String> lines = Files.readAllLines(mixed.resolve("machines.csv"));
        assertThat(lines).anyMatch(line -> line.contains(CORPUS_MACHINE));
        assertThat(lines.stream().filter(line -> !line.contains(CORPUS_MACHINE)).toList()).isEqualTo(Files.readAllLines(SampleSweep.once().file("machines.csv")));
    }

    @Test
    void casesWithoutAReadingLeaveEveryByteOfTheMachinesAsItWas() throws IOException {
        List<BadInputCase> silent = new ArrayList<>();
        for (BadInputCase one : BadInputCase.all()) {
            if (!one.isHeavy() && one.expected().endsWith("readings: 0 in = 0 kept + 0 set aside")) {
                silent.add(one);
            }
        }
        assertThat(silent).hasSizeGreaterThan(100);
        assertThat(sweepWith("silent", silent).resolve("machines.csv")).hasSameBinaryContentAs(SampleSweep.once().file("machines.csv"));
    }

    /** The sample, and beside it each case in a folder of its own, without its side tables, which a sweep has one of each. */
    private Path sweepWith(String name, List<BadInputCase> cases) throws IOException {
        Path bad = folder.resolve(name);
        for (BadInputCase one : cases) {
            one.makeIn(bad.resolve(one.name()));
            try (Stream<Path> files = Files.list(bad.resolve(one.name()))) {
                for (Path table : files.filter(file -> file.getFileName().toString().matches(SIDE_TABLES)).toList()) {
                    Files.delete(table);
                }
            }
        }
        Path out = folder.resolve(name + "-out");
        Runs run = Runs.of("sweep", "sample-reports", bad, "--out", out);
        assertThat(run.err()).isEmpty();
        assertThat(run.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        return out;
    }

    static Stream<BadInputCase> told() {
        return BadInputCase.all().stream().filter(BadInputCase::needsSweep);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("told")
    void whatOnlyASweepTells(BadInputCase one) throws IOException {
        one.makeIn(folder.resolve("in"));
        Runs.of("sweep", folder.resolve("in"), "--out", folder.resolve("out"));
        StringBuilder outcome = new StringBuilder();
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get()
            .parse(Files.newBufferedReader(folder.resolve("out/problems.csv")))) {
            for (CSVRecord row : parser) {
                outcome.append(row.get("rule")).append(" (").append(row.get("effect")).append("): ").append(row.get("file")).append(", ").append(row.get("place"))
                    .append(": ").append(row.get("found")).append("; expected ").append(row.get("expected")).append("; ").append(row.get("remedy")).append('\n');
            }
        }
        saved(one, outcome.toString().replace(folder.resolve("in") + "/", ""));
    }

    @TestFactory
    Stream<DynamicTest> theHeavyAreReadWithinASmallHeap() throws IOException, InterruptedException {
        return checkedTogether(BadInputCase.all().stream().filter(one -> one.isHeavy() && !one.isThorough()).toList());
    }

    @Tag("thorough")
    @TestFactory
    Stream<DynamicTest> theHeaviestToo() throws IOException, InterruptedException {
        return checkedTogether(BadInputCase.all().stream().filter(BadInputCase::isThorough).toList());
    }

    /** One process for all of them: what one leaves in the heap the next must do without. */
    private Stream<DynamicTest> checkedTogether(List<BadInputCase> heavy) throws IOException, InterruptedException {
        heavy.parallelStream().forEach(this::make);
        Started checks = HeavyChecks.start(folder, heavy.stream().map(this::inputs).toList());
        assertThat(checks.err()).isEmpty();
        return heavy.stream().map(one -> DynamicTest.dynamicTest(one.name(), () -> saved(one, sentences(JSON.readTree(Files.readString(HeavyChecks.outcome(inputs(one))))).replace(inputs(one) + "/", ""))));
    }

    /** As the case has them: a line for each problem, then the sums. */
    private static String sentences(JsonNode check) {
        StringBuilder text = new StringBuilder();
        check.get("problems").forEach(problem -> text.append(problem.get("rule").asText()).append(" (").append(problem.get("effect").asText()).append("): ").append(problem.get("file").asText()).append(", ")
            .append(problem.get("place").asText()).append(": ").append(problem.get("found").asText()).append("; expected ").append(problem.get("expected").asText()).append("; ")
            .append(problem.get("remedy").asText()).append('\n'));
        long files = check.get("files").asLong();
        long inPart = check.get("filesReadInPart").asLong();
        long refused = check.get("filesRefused").asLong();
        return text.append("files: ").append(files).append(" found = ").append(files - inPart - refused).append(" read + ").append(inPart == 0 ? "" : inPart + " read in part + ").append(refused)
            .append(" refused\nrecords: ").append(check.get("records").asLong()).append(" found = ").append(check.get("readings").asLong()).append(" readings + ").append(check.get("recordsRefused").asLong())
            .append(" refused\nreadings: ").append(check.get("readings").asLong()).append(" in = ").append(check.get("readingsKept").asLong()).append(" kept + ").append(check.get("readingsSetAside").asLong())
            .append(" set aside").toString();
    }

    private Path inputs(BadInputCase one) {
        return folder.resolve(one.name());
    }

    private void make(BadInputCase one) {
        try {
            one.makeIn(inputs(one));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Also leaves what came out where the unit test of the corpus does. */
    private static void saved(BadInputCase one, String outcome) throws IOException {
        Path outcomes = Files.createDirectories(Path.of("target", "bad-input"));
        Files.writeString(outcomes.resolve(one.name() + ".txt"), outcome);
        assertThat(outcome.strip()).isEqualTo(one.expected());
    }
}
