package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Problem;
import org.wearledger.report.ProblemWords;

/** A number with decimals that a mapping does not read: what to write into the mapping, or that nothing there helps. One remedy, and no other beside it. */
class DecimalRemedyTest {
    private static final String NOT_REPORTED = "the field is taken as not reported; ";
    private static final String UNIT = "map it with the unit that it is in, as {\"from\": \"Heading\", \"unit\": \"";

    @TempDir
    Path folder;

    private List<Problem> problems(String field, String unit, String decimal, String value, Pseudonyms names) throws IOException {
        Path json = Files.writeString(folder.resolve("mapping.json"), "{" + (decimal == null ? "" : "\"decimal\": \"" + decimal + "\", ") + "\"fields\": {\"collectedAt\": \"At\", "
            + "\"machine.id\": \"Name\", \"drive.serial\": \"No\", \"drive.model\": \"Model\", \"" + field + "\": "
            + (unit == null ? "\"Heading\"" : "{\"from\": \"Heading\", \"unit\": \"" + unit + "\"}") + "}}");
        Path csv = Files.writeString(folder.resolve("a.csv"), "At;Name;No;Model;Heading;health.powerCycles\n2025-01-06T08:00:00Z;PC-7;ON1;Ondrel E3;" + value + ";7\n");
        return WholeFile.read(new ReportFile(csv.toString(), "a.csv"), FieldMapping.load(json).with(names)).problems();
    }

    @ParameterizedTest(name = "{0} in {1}, decimal {2}: {3}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', nullValues = "-", textBlock = """
        health.powerOnHours           | -     | , | 2000,5  | UNIT hours"}: decimals are then read, and rounded to whole hours
        health.powerOnHours           | -     | , | 12,125  | UNIT hours"}: decimals are then read, and rounded to whole hours
        health.powerOnHours           | -     | - | 2000.5  | UNIT hours"}: decimals are then read, and rounded to whole hours
        health.powerOnHours           | -     | - | 2000,5  | write "decimal": "," beside the fields of the mapping, and UNIT hours"}: decimals are then read, and rounded to whole hours
        health.powerOnHours           | -     | , | 2000.5  | correct "decimal" in the mapping, or the value, and UNIT hours"}: decimals are then read, and rounded to whole hours
        health.powerOnHours           | -     | - | 2,000   | write "grouping": "," beside the fields of the mapping if it parts thousands
        health.powerOnHours           | hours | - | 2000,5  | write "decimal": "," beside the fields of the mapping
        health.powerOnHours           | hours | - | 2,000   | write "decimal": "," beside the fields of the mapping if the comma is a decimal sign, or "grouping": "," if it parts thousands
        health.powerOnHours           | hours | , | 2000.5  | correct "decimal" in the mapping, or the value
        health.powerOnHours           | hours | , | 2.000   | write "grouping": "." beside the fields of the mapping if it parts thousands
        health.powerOnHours           | hours | - | 1.234.567 | write "grouping": "." beside the fields of the mapping if it parts thousands
        health.powerCycles            | -     | - | 12 500  | write "grouping": " " beside the fields of the mapping if it parts thousands
        health.controllerBusyMinutes  | -     | , | 12,5    | UNIT minutes"}: decimals are then read, and rounded to whole minutes
        machine.memoryBytes           | -     | , | 8,0     | UNIT GiB"}: decimals are then read, and rounded to whole bytes
        drive.capacityBytes           | -     | , | 512,0   | UNIT GB"}: decimals are then read, and rounded to whole bytes
        health.compositeTemperatureKelvin | - | - | 40.5    | UNIT celsius"}: decimals are then read, and rounded to whole kelvins
        health.powerCycles            | -     | , | 12,5    | export the exact whole number: this field has no unit to choose and takes no decimals
        health.warningTemperatureMinutes | -  | - | 12.5    | export the exact whole number: this field has no unit to choose and takes no decimals
        health.thermalManagement1Seconds | -  | , | 12,5    | export the exact whole number: this field has no unit to choose and takes no decimals
        """)
    void ofAFieldThatNoVerdictRestsOn(String field, String unit, String decimal, String value, String remedy) throws IOException {
        assertThat(problems(field, unit, decimal, value, Pseudonyms.none())).singleElement().extracting(problem -> ProblemWords.of(problem).remedy())
            .isEqualTo(NOT_REPORTED + remedy.replace("UNIT ", UNIT));
    }

    @ParameterizedTest(name = "{0} in {1}, decimal {2}: {3}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', nullValues = "-", textBlock = """
        health.dataUnitsWritten | -       | , | 265,5 | UNIT TB"}: decimals are then read, and rounded to whole data units
        health.dataUnitsWritten | TB      | - | 265,5 | write "decimal": "," beside the fields of the mapping
        health.percentageUsed   | percent | - | 52,4  | write "decimal": "," beside the fields of the mapping
        health.percentageUsed   | percent | - | 52,4 % | write "decimal": "," beside the fields of the mapping
        health.percentageUsed   | percent | , | 52.4  | correct "decimal" in the mapping, or the value
        health.percentageUsed   | -       | , | 52,4  | export whole percent without a sign, or read it by a mapping that gives the field its unit: percent, or share where 0.52 means 52 percent
        health.mediaAndDataIntegrityErrors | - | , | 1,5 | export the exact whole number: this field has no unit to choose and takes no decimals
        """)
    void ofAFieldThatAVerdictRestsOn(String field, String unit, String decimal, String value, String remedy) throws IOException {
        assertThat(problems(field, unit, decimal, value, Pseudonyms.none())).first().extracting(problem -> ProblemWords.of(problem).remedy()).isEqualTo(remedy.replace("UNIT ", UNIT));
    }

    /** As the remedy says: half an hour makes the next whole one. */
    @Test
    void whatTheRemedySaysCuresIt() throws IOException {
        assertThat(problems("health.powerOnHours", "hours", ",", "2000,5", Pseudonyms.none())).isEmpty();
        MappedSource hours = new MappedSource("Heading", "hours", null, null, NumberForm.of(",", null));
        assertThat(List.of(hours.read("health.powerOnHours", "2000,5").text(), hours.read("health.powerOnHours", "2000,4").text())).containsExactly("2001", "2000");
    }

    /** A heading may hold a name. */
    @Test
    void underPseudonymsTheHeadingIsWithheldAndTheRestStays() throws IOException {
        Pseudonyms names = Pseudonyms.of("0123456789abcdef".getBytes(StandardCharsets.UTF_8));
        assertThat(problems("health.powerOnHours", null, null, "2000,5", names)).singleElement().extracting(problem -> ProblemWords.of(problem).remedy()).isEqualTo(NOT_REPORTED
            + "write \"decimal\": \",\" beside the fields of the mapping, and map it with the unit that it is in, as {\"from\": (withheld), \"unit\": \"hours\"}: decimals are then read, and rounded to whole hours");
    }
}
