package org.wearledger.badinput;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Placements;
import org.wearledger.history.Stint;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.ReportReader;
import org.wearledger.job.Check;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.Accounting;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CheckResult;
import org.wearledger.model.DriveId;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
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
        CheckResult check = Check.run(new SweepRequest(List.of(inputs.toString()), null, null, null, mapping, null, SweepSettings.withDefaults(),
            BudgetSettings.withDefaults(), null, null, NOW, "test"));
        FoundFiles found = FoundFiles.find(List.of(inputs.toString()));
        Collection<HistoryOutcome> drives = histories(found, mapping == null ? FieldMapping.none() : FieldMapping.load(one.mapping()), one.asOf());
        List<Problem> problems = new ArrayList<>(check.problems());
        List<Stint> stints = new ArrayList<>();
        drives.forEach(drive -> {
            problems.addAll(drive.problems());
            stints.addAll(drive.history() == null ? List.of() : Placements.stintsOf(drive.history()));
        });
        problems.addAll(Placements.of(stints).problems());
        problems.sort(null);
        // Refuses to be built when a sum does not hold.
        Accounting sums = new Accounting(check.files(), check.files() - check.filesRefused(), check.filesRefused(), check.records(),
            check.recordsRefused(), check.readings(), drives.stream().mapToLong(HistoryOutcome::kept).sum(),
            drives.stream().mapToLong(HistoryOutcome::setAside).sum(), found.passedOver().size(), found.sideTables().size());
        return BadInputSentences.of(problems, sums);
    }

    private static Collection<HistoryOutcome> histories(FoundFiles found, FieldMapping mapping, LocalDate asOf) {
        Limits limits = new Limits(NOW, asOf == null ? null : asOf.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().minusNanos(1));
        Map<DriveId, List<Reading>> byDrive = new TreeMap<>();
        for (ReportFile file : found.reports()) {
            ReportReader.readAll(file, mapping).values().forEach(reading -> byDrive.computeIfAbsent(reading.drive().id(), id -> new ArrayList<>()).add(reading));
        }
        return byDrive.entrySet().stream().map(drive -> DriveHistories.build(drive.getKey(), drive.getValue(), limits)).toList();
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
