package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CheckResult;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.CheckText;
import org.wearledger.report.ProblemWords;

/** The last lines of a check: what the fleet's figures look like, and how many of its drives are in doubt. Seven drives of 256 GB. */
class CheckTest {
    private static final String MAPPING = """
        {"fields": {"machine.id": "PC", "collectedAt": "At", "drive.serial": "No.", "drive.model": "Disk", "health.powerOnHours": "Hours",
          "drive.capacityBytes": {"from": "Size", "unit": "GB"}, "health.dataUnitsWritten": {"from": "Host writes", "unit": "UNIT"}USED}}
        """;

    @TempDir
    Path folder;

    /** Drive n has n TB written, written as GB, at n + 9 % used after 1,000 n hours. */
    private String check(String unit, boolean used, boolean json) throws IOException {
        Files.writeString(folder.resolve("a.csv"), "PC,At,No.,Disk,Hours,Size,Host writes,Wear\n" + IntStream.rangeClosed(1, 7)
            .mapToObj(n -> "PC-" + n + ",2025-01-06T09:30:00Z,KX-" + n + ",Kestrel K2," + 1000 * n + ",256," + 1000 * n + "," + (n + 9) + "\n").collect(Collectors.joining()));
        CheckResult result = checkUnder(MAPPING.replace("UNIT", unit).replace("USED", used ? ", \"health.percentageUsed\": \"Wear\"" : ""), "a.csv");
        return json ? CheckText.json(result) : CheckText.of(result);
    }

    private CheckResult checkUnder(String mapping, String... files) throws IOException {
        Path named = mapping == null ? null : Files.writeString(folder.resolve("mapping.js"), mapping);
        return Check.run(new SweepRequest(Arrays.stream(files).map(file -> folder.resolve(file).toString()).toList(), Map.of(), named == null ? null : named.toString(),
            null, SweepSettings.withDefaults(), BudgetSettings.withDefaults(), null, null, Instant.parse("2025-01-07T00:00:00Z"), "test"));
    }

    /** Reports in the report form, one to a line: day of January, number of the drive, and its figures as CSV below the given columns. */
    private CheckResult checkReports(String columns, String... rows) throws IOException {
        Files.writeString(folder.resolve("b.csv"), "schemaVersion,machine.id,drive.model,collectedAt,drive.serial," + columns + "\n" + Arrays.stream(rows)
            .map(row -> row.split(",", 3)).map(row -> "1.0,PC-" + row[1] + ",Kestrel K2,2025-01-0" + row[0] + "T09:30:00Z,KX-" + row[1] + "," + row[2] + "\n").collect(Collectors.joining()));
        return checkUnder(null, "b.csv");
    }

    private static List<String> lastLines(CheckResult result) {
        return afterSums(CheckText.of(result).lines().toList());
    }

    private List<String> lastLines(String unit, boolean used) throws IOException {
        return afterSums(check(unit, used, false).lines().toList());
    }

    private static List<String> afterSums(List<String> lines) {
        return lines.subList(lines.indexOf(lines.stream().filter(line -> line.startsWith("readings: ")).findFirst().orElseThrow()) + 1, lines.size());
    }

    @Test
    void figuresThatCanBeAreToldWithoutAlarm() throws IOException {
        assertThat(lastLines("GB", true)).containsExactly("read of 7 drives, in the middle (median): 4.0 TB written, 13 % used, 4,000 power-on hours", "no problem found in the input");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        TB | 4,000.0 | problems: 7; --format json lists them
        MB | 0.0     | problems: 7; --format json lists them
        """)
    void aWrongUnitIsTheLastThingSaid(String unit, String terabytes, String problems) throws IOException {
        assertThat(lastLines(unit, true)).containsExactly("read of 7 drives, in the middle (median): " + terabytes + " TB written, 13 % used, 4,000 power-on hours", problems,
            "7 of 7 drives are in doubt: before sweeping check unit and meaning of health.dataUnitsWritten from \"Host writes\" in " + unit
                + ", health.percentageUsed from \"Wear\", drive.capacityBytes from \"Size\" in GB (written-contradicts-used, 7 drives)");
    }

    @Test
    void whereNothingSpeaksAgainstAWrongUnitThatIsSaid() throws IOException {
        assertThat(lastLines("MB", false)).containsExactly("read of 7 drives, in the middle (median): 0.0 TB written, 4,000 power-on hours",
            "neither percentage used nor write commands are reported for 7 of 7 drives that report bytes written, so a wrong unit of bytes written would not show; check that the median is plausible", "no problem found in the input");
    }

    private static final String FIGURES = "drive.capacityBytes,health.dataUnitsWritten,health.percentageUsed,health.powerOnHours";

    /** 100 data units at 20 % contradict it, and 20 % after 30 % is a fall. Each rule is told with its own fields. */
    @Test
    void eachRuleIsToldWithItsNumberOfDrivesMostFirst() throws IOException {
        assertThat(lastLines(checkReports(FIGURES, "1,1,256000000000,100,20,10", "1,2,256000000000,100,20,10", "1,3,256000000000,100,20,10",
            "1,4,256000000000,40000000,30,100", "2,4,256000000000,40000001,20,110", "1,5,256000000000,40000000,30,100", "2,5,256000000000,40000001,20,110"))).endsWith(
            "5 of 5 drives are in doubt: before sweeping check unit and meaning of health.dataUnitsWritten, health.percentageUsed, drive.capacityBytes "
                + "(written-contradicts-used, 3 drives); health.percentageUsed (percentage-used-fell, 2 drives)");
    }

    /** Told is the rule that set the latest report aside, with its own fields. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        7      | 40000000000000 | health.dataUnitsWritten (counter-impossible, 1 drive)
        200000 | 40000000       | health.dataUnitsWritten, drive.capacityBytes (implausible-increase, 1 drive)
        """)
    void aLatestReportSetAsideIsToldByItsRule(String units, String then, String told) throws IOException {
        assertThat(lastLines(checkReports(FIGURES, "1,1,256000000000," + units + ",,", "2,1,256000000000," + then + ",,", "1,2,256000000000,20000,,"))).endsWith(
            "1 of 2 drives is in doubt: before sweeping check unit and meaning of " + told);
    }

    /** Two of three drives, in one of two files: no reason to change the mapping for everybody. */
    @Test
    void doubtsThatAreAllInOneFileOfSeveralNameIt() throws IOException {
        String headings = "PC,At,No.,Disk,Hours,Size,Host writes,health.percentageUsed\n";
        Files.writeString(folder.resolve("a.csv"), headings + "PC-1,2025-01-06T09:30:00Z,KX-1,Kestrel K2,1000,256,10000,20\n");
        Files.writeString(folder.resolve("b.csv"), headings + "PC-2,2025-01-06T09:30:00Z,KX-2,Kestrel K2,1000,256,10000000,20\nPC-3,2025-01-06T09:30:00Z,KX-3,Kestrel K2,1000,256,10000000,20\n");
        assertThat(checkUnder(MAPPING.replace("UNIT", "GB").replace("USED", ""), "a.csv", "b.csv")).satisfies(result -> assertThat(last(lastLines(result)).replace(folder + "/", ""))
            .endsWith(" (implausible-increase, 2 drives, all in b.csv)"));
        assertThat(last(lastLines(checkUnder(MAPPING.replace("UNIT", "GB").replace("USED", ""), "b.csv")))).endsWith(" (implausible-increase, 2 drives)");
        Files.writeString(folder.resolve("c.csv"), headings + "PC-2,2024-10-06T09:30:00Z,KX-2,Kestrel K2,900,256,9000000,20\nPC-3,2024-10-06T09:30:00Z,KX-3,Kestrel K2,900,256,9000000,20\n");
        assertThat(last(lastLines(checkUnder(MAPPING.replace("UNIT", "GB").replace("USED", ""), "a.csv", "b.csv", "c.csv")))).as("another quarter too").endsWith(" (implausible-increase, 2 drives)");
    }

    private static String last(List<String> lines) {
        return lines.get(lines.size() - 1);
    }

    /** As in a sweep: a unit that leaves no report to be believed is told first of all. */
    @Test
    void aDriveOfWhichNoReportIsBelievedIsInDoubtToo() throws IOException {
        assertThat(lastLines(checkReports(FIGURES, "1,1,256000000000,40000000000000,,", "1,2,256000000000,20000,1,10"))).containsExactly(
            "read of 2 drives, in the middle (median): 0.0 TB written (of 1), 1 % used (of 1), 10 power-on hours (of 1)", "problems: 2",
            "1 of 2 drives is in doubt: before sweeping check unit and meaning of health.dataUnitsWritten (counter-impossible, 1 drive)");
    }

    /** Three drives say what is written, one of them and the two others their hours. */
    @Test
    void eachFigureIsToldOfTheDrivesThatHaveIt() throws IOException {
        assertThat(lastLines(checkReports(FIGURES, "1,1,256000000000,1953125,,10", "1,2,256000000000,1953125,,", "1,3,256000000000,1953125,,", "1,4,256000000000,,,10",
            "1,5,256000000000,,,20"))).containsExactly("read of 5 drives, in the middle (median): 1.0 TB written (of 3), 10 power-on hours (of 3)",
            "neither percentage used nor write commands are reported for 3 of 3 drives that report bytes written, so a wrong unit of bytes written would not show; check that the median is plausible", "no problem found in the input");
    }

    /** Beside a mapped export lies one in the report form; and the mapping leaves percentage used its own name. */
    @Test
    void aMappingIsBlamedOnlyForWhatItRead() throws IOException {
        Files.writeString(folder.resolve("a.csv"), "PC,At,No.,Disk,Hours,Size,Host writes,health.percentageUsed\nPC-1,2025-01-06T09:30:00Z,KX-1,Kestrel K2,1000,256,1000,20\n");
        Files.writeString(folder.resolve("b.jsonl"), """
            {"schemaVersion": "1.0", "collectedAt": "2025-01-06T09:30:00Z", "machine": {"id": "PC-2"}, "drive": {"serial": "KX-2", "model": "Kestrel K2",\
             "capacityBytes": 256000000000}, "health": {"dataUnitsWritten": 100, "percentageUsed": 20}}
            """);
        CheckResult result = checkUnder(MAPPING.replace("UNIT", "MB").replace("USED", ""), "a.csv", "b.jsonl");
        assertThat(result.problems()).filteredOn(problem -> problem.kind() == ProblemKind.WRITTEN_CONTRADICTS_USED).extracting(problem -> problem.source().file().replaceFirst(".*/", "")
                + ": " + ProblemWords.of(problem).remedy().replaceFirst(".*drive(; |$)", "")).containsExactly(
            "a.csv: the mapping reads health.dataUnitsWritten from \"Host writes\" in MB, drive.capacityBytes from \"Size\" in GB", "b.jsonl: ");
        assertThat(lastLines(result)).endsWith("2 of 2 drives are in doubt: before sweeping check unit and meaning of health.dataUnitsWritten from \"Host writes\" in MB, "
            + "health.percentageUsed, drive.capacityBytes from \"Size\" in GB (written-contradicts-used, 2 drives)");
    }

    @Test
    void programsAreToldTheSame() throws IOException {
        JsonNode told = new ObjectMapper().readTree(check("TB", true, true));
        assertThat(told.get("drives").asInt()).isEqualTo(7);
        assertThat(told.get("drivesInDoubt").asInt()).isEqualTo(7);
        assertThat(told.get("medianTerabytesWritten").asDouble()).isEqualTo(4000);
    }
}
