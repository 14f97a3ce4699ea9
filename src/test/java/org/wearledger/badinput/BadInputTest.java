package org.wearledger.badinput;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.intake.FoundFiles;
import org.wearledger.job.Check;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.Accounting;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CheckResult;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepSettings;

/**
 * The corpus of bad inputs: of each case the exact sentences and the sums. What came out is left in
 * {@code target/bad-input}, to be read and, if it is right, taken over into {@code expected.txt}.
 */
class BadInputTest {
    private static final Instant NOW = Instant.parse("2026-01-01T00:00:00Z");
    private static final Path OUTCOMES = Path.of("target", "bad-input");

    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> everyCaseSaysWhatIsWrong() {
        return BadInputCase.all().stream().filter(one -> !one.isHeavy() && !one.needsSweep())
            .map(one -> DynamicTest.dynamicTest(one.name(), () -> check(one)));
    }

    private void check(BadInputCase one) throws IOException {
        Path inputs = folder.resolve(one.name());
        one.makeIn(inputs);
        String outcome = outcome(one, inputs).replace(inputs + "/", "").replace(inputs.toString(), "(folder)");
        Files.createDirectories(OUTCOMES);
        Files.writeString(OUTCOMES.resolve(one.name() + ".txt"), outcome + "\n");
        assertThat(outcome).isEqualTo(one.expected());
    }

    private static String outcome(BadInputCase one, Path inputs) throws IOException {
        String mapping = one.mapping() == null ? null : one.mapping().toString();
        CheckResult check = Check.run(new SweepRequest(List.of(inputs.toString()), Map.of(), mapping, null,
            SweepSettings.withDefaults().withAsOf(one.asOf()), BudgetSettings.withDefaults(), null, null, NOW, "test"));
        // Refuses to be built when a sum does not hold.
        Accounting sums = new Accounting(check.files(), check.files() - check.filesReadInPart() - check.filesRefused(), check.filesReadInPart(), check.filesRefused(), check.records(), check.recordsRefused(),
            check.readings(), check.readingsKept(), check.readingsSetAside(), check.passedOver().size(), FoundFiles.find(List.of(inputs.toString())).sideTables().size(),
            check.rows(), check.rowsRead(), check.rowsRefused());
        return BadInputSentences.of(check.problems(), sums);
    }

    @Test
    void everyRuleHasACase() throws IOException {
        Set<ProblemKind> without = EnumSet.allOf(ProblemKind.class);
        for (BadInputCase one : BadInputCase.all()) {
            String expected = "\n" + one.expected();
            without.removeIf(kind -> expected.contains("\n" + kind.id() + " ("));
        }
        assertThat(without).isEmpty();
        assertThat(BadInputCase.all()).hasSizeGreaterThanOrEqualTo(150);
    }

    /** The page names every rule once, as a heading, with its effect, and no other. */
    @Test
    void thePageOfRulesIsComplete() throws IOException {
        List<String> headings = Pattern.compile("^### `([a-z-]+)` \\(([a-z ]+)\\)$", Pattern.MULTILINE)
            .matcher(Files.readString(Path.of("notebooks-free-docs", "rules.md"))).results().map(heading -> heading.group(1) + " " + heading.group(2)).toList();
        assertThat(headings).containsExactlyInAnyOrderElementsOf(
            Stream.of(ProblemKind.values()).map(kind -> kind.id() + " " + kind.effect().label()).toList());
    }
}
