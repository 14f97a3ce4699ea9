package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
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

/** What only a column as a whole tells: day and month exchanged, shares that are percent. */
class CheckOfColumnsTest {
    private static final String MAPPING = "{\"fields\": {\"machine.id\": \"PC\", \"collectedAt\": {\"from\": \"At\", \"format\": \"FORMAT\"}, \"drive.serial\": \"No.\", \"drive.model\": \"Disk\", "
        + "\"health.dataUnitsWritten\": {\"from\": \"Written\", \"unit\": \"TB\"}, \"health.percentageUsed\": {\"from\": \"Used\", \"unit\": \"USED\"}}}";
    private static final String HEADER = "PC,At,No.,Disk,Written,Used\n";

    @TempDir
    Path folder;

    private CheckResult check(String format, String used) throws IOException {
        return check(Files.writeString(folder.resolve("mapping.js"), MAPPING.replace("FORMAT", format).replace("USED", used)));
    }

    private CheckResult check(Path mapping) throws IOException {
        return Check.run(new SweepRequest(List.of(folder.resolve("in").toString()), Map.of(), mapping.toString(), null, SweepSettings.withDefaults(), BudgetSettings.withDefaults(),
            null, null, Instant.parse("2025-01-07T00:00:00Z"), "test"));
    }

    /** One file for each day, in which each of four drives has written as many TB and one more. */
    private void write(String inner, String days, String terabytes) throws IOException {
        Path in = Files.createDirectories(folder.resolve("in").resolve(inner));
        String[] day = days.split(" ");
        String[] written = terabytes.split(" ");
        for (int i = 0; i < day.length; i++) {
            StringBuilder rows = new StringBuilder(HEADER);
            for (int n = 1; n <= 4; n++) {
                rows.append("PC-").append(inner).append(n).append(',').append(day[i]).append(",KX-").append(inner).append(n).append(",Kestrel K2,").append(Integer.parseInt(written[i]) + n).append(",30\n");
            }
            Files.writeString(in.resolve(i + ".csv"), rows);
        }
    }

    /** July, October and January. What is read as 7 August, 10 July and 1 June falls; a 13th day shows that the order is right. */
    @ParameterizedTest(name = "{0}: {1}, {2}")
    @CsvSource(delimiter = '|', textBlock = """
        dd/MM/yyyy | 07/08/2024 10/07/2024 01/06/2025 | 50 54 58 | exchange day and month: write "format": "MM/dd/yyyy" into the mapping
        MM/dd/yyyy | 08/07/2024 07/10/2024 06/01/2025 | 50 54 58 | exchange day and month: write "format": "dd/MM/yyyy" into the mapping
        dd/MM/yyyy | 10/07/2024 01/06/2025            | 50 54    | exchange day and month: write "format": "MM/dd/yyyy" into the mapping
        dd/MM/yyyy | 01/06/2025                       | 50       | exchange day and month: write "format": "MM/dd/yyyy" into the mapping
        dd/MM/yyyy | 06/06/2025                       | 50       |
        MM/dd/yyyy | 07/08/2024 10/07/2024 01/06/2025 | 50 54 58 |
        MM/dd/yyyy | 07/13/2024 10/07/2024 01/06/2025 | 50 44 58 |
        dd/MM/yyyy | 07/08/2024 07/09/2024 07/10/2024 | 50 44 58 |
        """)
    void dayAndMonthAreExchanged(String format, String days, String written, String remedy) throws IOException {
        write("", days, written);
        List<ProblemWords> told = check(format, "percent").problems().stream().filter(problem -> problem.kind() == ProblemKind.DATES_DOUBTFUL).map(ProblemWords::of).toList();
        assertThat(told).extracting(ProblemWords::remedy).containsExactlyElementsOf(remedy == null ? List.of() : List.of(remedy));
        assertThat(told).allSatisfy(each -> assertThat(each.found()).isEqualTo("bytes written fall or times lie ahead for 4 of 4 drives in the files of this folder, and for 0 once day and month of collectedAt (from \"At\") are exchanged"));
    }

    /** What follows from it is not told again, and the last line names the dates; another folder is judged by itself. */
    @Test
    void theDatesAreToldOnceAndForTheirFolder() throws IOException {
        write("north", "07/08/2024 10/07/2024 01/06/2025", "50 54 58");
        write("south", "13/07/2024 07/10/2024 06/01/2025", "50 54 58");
        String text = CheckText.of(check("dd/MM/yyyy", "percent"));
        assertThat(text).startsWith("exchange day and month: write \"format\": \"MM/dd/yyyy\" into the mapping\n    dates-doubtful (noted): " + folder + "/in/north/0.csv, whole file: ")
            .endsWith("4 of 8 drives are in doubt: before sweeping check unit and meaning of collectedAt from \"At\" (dates-doubtful, 4 drives)");
        assertThat(text.lines().filter(line -> line.startsWith("    "))).hasSize(1);
    }

    /** An impossible day names the order in which it is possible; so does a count since 1970 in the other unit. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        dd/MM/yyyy   | 01/13/2025    | MM/dd/yyyy
        MM/dd/yyyy   | 13/01/2025    | dd/MM/yyyy
        epochMillis  | 1736172300    | epochSeconds
        epochSeconds | 1736172300000 | epochMillis
        """)
    void theFormatThatFitsIsNamed(String format, String at, String other) throws IOException {
        write("", at, "50");
        assertThat(check(format, "percent").problems()).filteredOn(problem -> problem.kind() == ProblemKind.FIELD_INVALID).hasSize(4)
            .allSatisfy(problem -> assertThat(ProblemWords.of(problem).remedy()).isEqualTo("write \"format\": \"" + other + "\" into the mapping"));
    }

    /** 50 to 60 TB at 30 % used of 256 GB are some 700 writes of the drive in its life; a thousand times as many, or as few, are none. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        GB  | percent          | write "unit": "TB" for "Written" into the mapping, if the export may be in TB and not in GB; is percentage used what remains
        TiB | percent          |
        GiB | percentRemaining | write "unit": "TiB" for "Written" into the mapping, if the export may be in TiB and not in GiB; is percentage used what is used
        """)
    void theUnitThatFitsTheLifeIsNamed(String unit, String used, String remedy) throws IOException {
        write("", "06/01/2025", "50");
        Path mapping = Files.writeString(folder.resolve("mapping.js"), MAPPING.replace("FORMAT", "dd/MM/yyyy").replace("USED", used).replace("\"TB\"}", "\"" + unit
            + "\"}, \"drive.capacityBytes\": {\"from\": \"Size\", \"unit\": \"GB\"}"));
        Path file = folder.resolve("in/0.csv");
        Files.writeString(file, Files.readString(file).replace("Used\n", "Used,Size\n").replace(",30\n", ",30,256\n"));
        assertThat(check(mapping).problems().stream().filter(problem -> problem.kind() == ProblemKind.WRITTEN_CONTRADICTS_USED).map(problem -> ProblemWords.of(problem).remedy()))
            .hasSize(remedy == null ? 0 : 4).allSatisfy(each -> assertThat(each).startsWith(remedy));
    }

    /** Of a column in which more than 1 stands 0.4 is no share, whether in one file or in files of one record. */
    @ParameterizedTest(name = "{0} of {1}, one file: {2}")
    @CsvSource(delimiter = '|', textBlock = """
        percent          | 0.4 17 3  | true  | 0
        percent          | 0.4 17 3  | false | 0
        percent          | 0.4 0.7 1 | true  | 2
        percent          | 0.4 0.7 1 | false | 2
        percentRemaining | 0.4 83 97 | true  | 0
        percentRemaining | 0.4 1 0.9 | true  | 2
        """)
    void aShareInAColumnOfPercent(String unit, String used, boolean oneFile, int noted) throws IOException {
        Path in = Files.createDirectories(folder.resolve("in"));
        String[] values = used.split(" ");
        StringBuilder all = new StringBuilder(HEADER);
        for (int i = 0; i < values.length; i++) {
            String row = "PC-" + i + ",06/01/2025,KX-" + i + ",Kestrel K2,50," + values[i] + "\n";
            all.append(row);
            if (!oneFile) {
                Files.writeString(in.resolve(i + ".csv"), HEADER + row);
            }
        }
        if (oneFile) {
            Files.writeString(in.resolve("all.csv"), all);
        }
        assertThat(check("dd/MM/yyyy", unit).problems()).filteredOn(problem -> problem.kind() == ProblemKind.UNITS_DOUBTFUL).hasSize(noted);
    }
}
