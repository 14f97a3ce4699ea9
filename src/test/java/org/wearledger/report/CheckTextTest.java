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
    private static final FleetGlance.Middle NOTHING = new FleetGlance.Middle(0, null);

    private static Problem percent(String file, long line, String value) {
        return Problem.of(Finding.WHOLE_INVALID, SourcePlace.line(file, line), "PC-" + line).under(ProblemKind.FIELD_INVALID).about(List.of(new MappedField("health.percentageUsed", "Wear", null)))
            .with(Fact.TEXT, value).with(Fact.SLIP, "WITH_UNIT").with(Fact.MOST, 255).with(Fact.ADVICE, "BARE");
    }

    private static CheckResult result(List<Problem> problems) {
        return new CheckResult(1, 0, 0, 0, 0, 0, 0, 0, 0, 7, 5, 2, List.of(), List.of(), new FleetGlance(0, 0, 0, List.of(), NOTHING, NOTHING, NOTHING), problems);
    }

    private static String percentLine(String place, String value) {
        return "    field-invalid (record refused" + (place.startsWith("lines") ? "" : ", PC-" + place.substring(5)) + "): a.csv, " + place
            + ": health.percentageUsed (from \"Wear\") is \"" + value + "\", a number with a unit behind it; expected a whole number, 0 to 255";
    }

    /** Lines 2 and 3 hold the same value, so they are one of the two lines told; 10,001 in both files less the three told are 9,998. */
    @Test
    void ofAFaultOfAWholeColumnTheRemedyStandsFirstThenTwoLinesAndTheNumberOfTheOthers() throws IOException {
        List<Problem> column = new ArrayList<>(IntStream.range(2, 10_002).mapToObj(line -> percent("a.csv", line, (line == 3 || line == 9_999 ? line - 1 : line) % 97 + " %")).toList());
        column.add(Problem.of(Finding.COUNTER_INVALID, SourcePlace.line("a.csv", 4), "PC-4").under(ProblemKind.NUMBER_MANGLED)
            .about("health.powerCycles").with(Fact.TEXT, "1e5").with(Fact.ADVICE, "WHOLE"));
        column.add(percent("b.csv", 2, "2 %"));
        CheckResult result = result(column);
        assertThat(CheckText.of(result).lines()).containsExactly("export the bare number, converted to the field's own unit", percentLine("lines 2 to 3", "2 %"), percentLine("line 4", "4 %"),
            "    and 9998 more like it, the last in b.csv, line 2",
            "export the exact whole number", "    number-mangled (record refused, PC-4): a.csv, line 4: health.powerCycles is \"1e5\"; expected an exact whole number below 2^128, digits only",
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
        assertThat(CheckText.of(result(column)).lines().skip(3).limit(1)).containsExactly("    and 5 more like it, the last in line 8");
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
        assertThat(CheckText.of(result(rows)).lines().filter(line -> line.startsWith("    and ") || line.startsWith("files"))).containsExactly("    and 9998 more like it, the last in line 10001", "files: 1 found = 1 read + 0 refused");
    }

    /** Five are told and no "0 more". What happened to single drives is never cut short. */
    @Test
    void ofPagesInOneFolderThatNoRecordNamesTheFirstAreTold() {
        List<Problem> pages = IntStream.range(10, 40).mapToObj(n -> Problem.of(Finding.PAGE_FILE_NOT_NAMED, SourcePlace.wholeFile("q1/lt-" + n + ".bin"), "")).toList();
        List<String> lines = CheckText.of(result(pages)).lines().toList();
        assertThat(lines.get(0)).startsWith("add a row for it to an index in this folder");
        assertThat(lines.get(2)).startsWith("    log-page-without-record (file refused): q1/lt-11.bin, whole file: a raw page that no record in its folder names");
        assertThat(lines.get(3)).isEqualTo("    and 28 more like it, the last in q1/lt-39.bin");
    }

    @Test
    void whatIsNoFaultOfAColumnIsToldOneByOne() {
        List<Problem> five = IntStream.range(2, 4).mapToObj(line -> percent("a.csv", line, line + " %")).toList();
        assertThat(CheckText.of(result(five))).doesNotContain("more like it").endsWith("problems: 2");
        List<Problem> moved = IntStream.range(2, 32).mapToObj(line -> Problem.of(Finding.MOVED, SourcePlace.line("a.csv", line), "KX" + line)
            .with(Fact.MACHINE, "PC-" + line)).toList();
        assertThat(CheckText.of(result(moved)).lines()).hasSize(65);
    }

    /** 160 characters on the first line, cut between two thoughts. */
    @Test
    void aLongRemedyGoesOnBelow() {
        List<String> lines = CheckText.of(result(List.of(Problem.of(Finding.CONTRADICTS_USED, SourcePlace.line("a.csv", 2), "KX1")))).lines().toList();
        assertThat(lines.get(0)).isEqualTo("check the unit: one data unit is 512,000 bytes; about 1,000 times too high or too low is GB for TB");
        assertThat(lines.get(1)).startsWith("    is percentage used what remains of the life?");
        assertThat(lines.get(2)).startsWith("    written-contradicts-used (noted, KX1): a.csv, line 2: ");
    }

    /** What follows from records that lie inside, or from dates in another order, is left out for that folder alone. */
    @Test
    void whatFollowsFromOneCauseIsLeftOut() {
        List<Problem> problems = new ArrayList<>();
        for (String file : List.of("a/1.json", "a/2.json")) {
            problems.add(Problem.of(Finding.RECORDS_INSIDE, SourcePlace.wholeFile(file), "").with(Fact.FORMAT, "/devices").with(Fact.NAMES, "/devices"));
            problems.add(Problem.of(Finding.UNKNOWN_FIELD, SourcePlace.wholeFile(file), "").with(Fact.TEXT, "devices").with(Fact.COUNT, 1));
        }
        problems.add(Problem.of(Finding.DATES_EXCHANGED, SourcePlace.wholeFile("b/1.csv"), "").about("collectedAt").with(Fact.COUNT, 30).with(Fact.OF, 30).with(Fact.MOST, 0).with(Fact.FORMAT, "MM/dd/yyyy"));
        problems.add(Problem.of(Finding.FELL, SourcePlace.line("b/1.csv", 2), "KX1"));
        problems.add(Problem.of(Finding.FELL, SourcePlace.line("c/1.csv", 3), "KX2"));
        assertThat(CheckText.of(result(problems)).lines().filter(line -> !line.startsWith("   "))).startsWith(
            "run wearledger draft-mapping on its folder, or write \"records\": \"/devices\" into a mapping",
            "exchange day and month: write \"format\": \"MM/dd/yyyy\" into the mapping",
            "correct the report that is wrong, or leave it out; until then the largest figure stands").contains("problems: 7; --format json lists them");
        assertThat(CheckText.of(result(problems))).contains("    and 1 more like it, the last in a/2.json\n").doesNotContain("field-unknown", "KX1");
    }
}
