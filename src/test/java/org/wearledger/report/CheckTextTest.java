package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** What a check prints of a fault that a whole column has, and of faults that only look alike. */
class CheckTextTest {
    private static Problem percent(String file, long line, String value) {
        return Problem.of(Finding.WHOLE_INVALID, SourcePlace.line(file, line), "PC-" + line).under(ProblemKind.FIELD_INVALID).about(List.of(new MappedField("health.percentageUsed", "Wear", null)))
            .with(Fact.TEXT, value).with(Fact.SLIP, "WITH_UNIT").with(Fact.MOST, 255).with(Fact.ADVICE, "BARE");
    }

    private static CheckResult result(List<Problem> problems) {
        return new CheckResult(1, 0, 0, 0, 0, 0, 0, 0, 0, 7, 5, 2, List.of(), List.of(), FleetGlance.none(), problems);
    }

    private static String percentLine(String place, String value) {
        return "field-invalid (record refused" + (place.startsWith("lines") ? "" : ", PC-" + place.substring(5)) + "): a.csv, " + place
            + ": health.percentageUsed (from \"Wear\") is \"" + value + "\", a number with a unit behind it; expected a whole number, 0 to 255; export the bare number, converted to the field's own unit";
    }

    /** Lines 2 and 3 hold the same value, so they are one of the five lines told, as do two later on; 10,000 less the six told are 9,994. */
    @Test
    void ofAFaultOfAWholeColumnTheFirstFiveLinesAreToldAndTheNumberOfTheOthers() throws IOException {
        List<Problem> column = new ArrayList<>(IntStream.range(2, 10_002).mapToObj(line -> percent("a.csv", line, (line == 3 || line == 9_999 ? line - 1 : line) % 97 + " %")).toList());
        column.add(Problem.of(Finding.COUNTER_INVALID, SourcePlace.line("a.csv", 4), "PC-4").under(ProblemKind.NUMBER_MANGLED)
            .about("health.powerCycles").with(Fact.TEXT, "1e5").with(Fact.ADVICE, "WHOLE"));
        column.add(percent("b.csv", 2, "2 %"));
        CheckResult result = result(column);
        assertThat(CheckText.of(result).lines()).containsExactly(percentLine("lines 2 to 3", "2 %"), percentLine("line 4", "4 %"),
            percentLine("line 5", "5 %"), percentLine("line 6", "6 %"), percentLine("line 7", "7 %"), "    and 9994 more like it, the last in line 10001",
            "number-mangled (record refused, PC-4): a.csv, line 4: health.powerCycles is \"1e5\"; expected an exact whole number below 2^128, digits only; export the exact whole number",
            percentLine("line 2", "2 %").replace("a.csv", "b.csv"),
            "files: 1 found = 1 read + 0 refused", "records: 0 found = 0 readings + 0 refused", "readings: 0 in = 0 kept + 0 set aside", "side table rows: 7 found = 5 read + 2 refused",
            "problems: 10002; --format json lists them");
        JsonNode listed = new ObjectMapper().readTree(CheckText.json(result)).get("problems");
        assertThat(listed.findValuesAsText("found")).as("1,000 of the column, their number, and two others").hasSize(1_003)
            .contains("and 9000 more by this rule", "health.powerCycles is \"1e5\"");
        assertThat(new ObjectMapper().readTree(CheckText.json(result)).get("sideTableRowsRefused").asLong()).isEqualTo(2);
    }

    @Test
    void figuresThatDifferMakeNoOtherFault() {
        List<Problem> column = IntStream.range(2, 9).mapToObj(line -> Problem.of(Finding.TEMPERATURE_IN_CELSIUS, SourcePlace.line("a.csv", line), "PC")
            .with(Fact.VALUE, 30 + line)).toList();
        assertThat(CheckText.of(result(column)).lines().skip(5).limit(1)).containsExactly("    and 2 more like it, the last in line 8");
    }

    /** Row n of the inventory against machine n's own file, or against line n of one file for all: the unit is wrong once, and told so. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        all.csv, line %d
        PC-%d (old).json, whole file
        """)
    void aWrongUnitOfMemoryIsToldForFiveMachines(String report) {
        List<Problem> rows = IntStream.range(2, 10_002).mapToObj(line -> Problem.of(Finding.MEMORY_OTHERWISE, SourcePlace.line("inventory.csv", line), "PC-" + line)
            .with(Fact.BEFORE, 16L << 30).with(Fact.AFTER, (long) line % 7 << 20).with(Fact.PLACE, report.formatted(line))).toList();
        assertThat(CheckText.of(result(rows)).lines().skip(5).limit(2)).containsExactly("    and 9995 more like it, the last in line 10001", "files: 1 found = 1 read + 0 refused");
    }

    /** Five are told and no "0 more". What happened to single drives is never cut short. */
    @Test
    void ofPagesInOneFolderThatNoRecordNamesTheFirstAreTold() {
        List<Problem> pages = IntStream.range(10, 40).mapToObj(n -> Problem.of(Finding.PAGE_FILE_NOT_NAMED, SourcePlace.wholeFile("q1/lt-" + n + ".bin"), "")).toList();
        List<String> lines = CheckText.of(result(pages)).lines().toList();
        assertThat(lines.get(4)).startsWith("log-page-without-record (file refused): q1/lt-14.bin, whole file: a raw page that no record in its folder names");
        assertThat(lines.get(5)).isEqualTo("    and 25 more like it, the last in q1/lt-39.bin");
    }

    @Test
    void whatIsNoFaultOfAColumnIsToldOneByOne() {
        List<Problem> five = IntStream.range(2, 7).mapToObj(line -> percent("a.csv", line, line + " %")).toList();
        assertThat(CheckText.of(result(five))).doesNotContain("more like it").endsWith("problems: 5");
        List<Problem> moved = IntStream.range(2, 32).mapToObj(line -> Problem.of(Finding.MOVED, SourcePlace.line("a.csv", line), "KX" + line)
            .with(Fact.MACHINE, "PC-" + line)).toList();
        assertThat(CheckText.of(result(moved)).lines()).hasSize(35);
    }
}
