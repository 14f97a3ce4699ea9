package org.wearledger;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Every rule holds over the product, and finds the faults that are planted for it and no others. The classes under
 * {@code planted} each break a rule on purpose, laid out as the product is; they are never run.
 */
class ArchitectureTest {
    private static final String ROOT = "org.wearledger";
    private static final String PLANTED_ROOT = "org.wearledger.planted";
    private static final JavaClasses PRODUCT = new ClassFileImporter()
        .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
        .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_PACKAGE_INFOS).importPackages(ROOT);
    private static final JavaClasses PLANTED = new ClassFileImporter().importPackages(PLANTED_ROOT);

    /** Rule to the planted faults that it must report: each a class, or a class with the member at fault. */
    private static final Map<String, List<String>> FAULTS = Map.ofEntries(
        Map.entry("layers", List.of("stats.KnowsDrives", "cli.ReadsFiles", "report.AsksAssess", "stray.BelongsNowhere")),
        Map.entry("cycles", List.of("Cycle detected")),
        Map.entry("spark", List.of("assess.UsesLibraries.spark")),
        Map.entry("jackson", List.of("assess.UsesLibraries.jackson")),
        Map.entry("commons-csv", List.of("assess.UsesLibraries.csv")),
        Map.entry("poi", List.of("assess.UsesLibraries.poi")),
        Map.entry("picocli", List.of("assess.UsesLibraries.picocli")),
        Map.entry("statistics", List.of("assess.UsesLibraries.math", "assess.UsesLibraries.statistics")),
        Map.entry("spark-beans", List.of("job.EncodesBeans.encoder", "job.EncodesBeans.dataFrame")),
        Map.entry("console", List.of("history.Talks.out", "history.Talks.err")),
        Map.entry("exit", List.of("history.Talks.exit")),
        Map.entry("wall-clock", List.of("history.LooksAtTheClock.instant", "history.LooksAtTheClock.localDate",
            "history.LooksAtTheClock.millis", "history.LooksAtTheClock.clock", "history.LooksAtTheClock.reference")),
        Map.entry("random", List.of("simulate.Gambles.unseeded", "simulate.Gambles.math", "simulate.Gambles.reference")),
        Map.entry("model-kinds", List.of("model.PlainClass")),
        Map.entry("model-serializable", List.of("model.StaysHere")),
        Map.entry("model-optional", List.of("model.HoldsOptional.maybe", "model.HoldsOptional.count")),
        Map.entry("model-final", List.of("model.Changes.value")),
        Map.entry("bare-exceptions", List.of("intake.ThrowsAnything.checked", "intake.ThrowsAnything.unchecked",
            "intake.ThrowsAnything.throwable")),
        Map.entry("names", List.of("intake.FileUtils", "intake.FileUtil", "intake.FileHelper", "intake.FileManager",
            "intake.FileImpl")));

    @TestFactory
    Stream<DynamicTest> holdsOverTheProduct() {
        return ArchitectureRules.rules(ROOT).entrySet().stream()
            .map(rule -> DynamicTest.dynamicTest(rule.getKey(), () -> rule.getValue().check(PRODUCT)));
    }

    @TestFactory
    Stream<DynamicTest> findsPlantedFaults() {
        return ArchitectureRules.rules(PLANTED_ROOT).entrySet().stream()
            .map(rule -> DynamicTest.dynamicTest(rule.getKey(), () -> assertFinds(rule.getKey(), rule.getValue())));
    }

    @Test
    void everyRuleHasAPlantedFault() {
        assertThat(FAULTS.keySet()).isEqualTo(ArchitectureRules.rules(ROOT).keySet());
    }

    @Test
    void theProductIsImportedWithoutItsTests() {
        assertThat(PRODUCT.contain(ROOT + ".model.Reading")).isTrue();
        assertThat(PRODUCT.contain(ArchitectureTest.class)).isFalse();
    }

    private static void assertFinds(String name, ArchRule rule) {
        List<String> found = rule.evaluate(PLANTED).getFailureReport().getDetails();
        List<String> expected = FAULTS.get(name);
        for (String fault : expected) {
            assertThat(found).as("reports of rule %s", name).anyMatch(detail -> names(detail, fault));
        }
        assertThat(found).as("reports of rule %s", name)
            .allMatch(detail -> expected.stream().anyMatch(fault -> names(detail, fault)));
    }

    /** {@code FileUtil} must not be found in {@code FileUtils}, hence the word's end. */
    private static boolean names(String detail, String fault) {
        return detail.matches("(?s).*" + Pattern.quote(fault) + "\\b.*");
    }
}
