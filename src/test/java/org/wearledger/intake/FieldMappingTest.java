package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.HealthField;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.report.ProblemWords;

/** Made-up exports with headings, units and times of their own. */
class FieldMappingTest {
    private static final String MAPPING = """
        {"fields": {
          "collectedAt": {"from": "Read on", "format": "dd.MM.yyyy HH:mm", "zone": "Europe/Berlin"},
          "machine.id": "Computer", "machine.memoryBytes": {"from": "RAM GB", "unit": "GiB"},
          "machine.inServiceOn": {"from": "Bought", "format": "dd.MM.yyyy"},
          "drive.serial": "Disk no.", "drive.model": "Disk", "drive.capacityBytes": {"from": "Size", "unit": "GB"},
          "health.dataUnitsWritten": {"from": "Host writes", "unit": "TB"}, "health.percentageUsed": "Wear %",
          "health.compositeTemperatureKelvin": {"from": "Temp", "unit": "celsius"}},
         "constants": {"machine.site": "North", "drive.attachment": "soldered"}}
        """;
    private static final String HEADER = "Computer;Read on;RAM GB;Bought;Disk;Disk no.;Size;Host writes;Wear %;Temp;Remark\n";

    @TempDir
    Path folder;

    private FieldMapping mapping(String json) throws IOException {
        return FieldMapping.load(Files.writeString(folder.resolve("mapping.json"), json));
    }

    private Outcome<Reading> read(String name, String content, FieldMapping mapping) throws IOException {
        Path file = Files.writeString(folder.resolve(name), content);
        return WholeFile.read(new ReportFile(file.toString(), name), mapping);
    }

    /** 278 TB are 542,968,750 data units of 512,000 bytes; 40 degrees Celsius are 313 K; 09:30 in Berlin in winter is 08:30 UTC. */
    @Test
    void anExportWithItsOwnHeadingsUnitsAndTimesIsRead() throws IOException {
        Outcome<Reading> outcome = read("export.csv", HEADER + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;278;20;40;kitchen\n", mapping(MAPPING));
        assertThat(outcome.problems()).isEmpty();
        assertThat(outcome.values()).singleElement().satisfies(reading -> {
            assertThat(reading.collectedAt()).isEqualTo("2025-01-06T08:30:00Z");
            assertThat(reading.machine().id()).isEqualTo("PC-7");
            assertThat(reading.machine().site()).isEqualTo("North");
            assertThat(reading.machine().memoryBytes()).isEqualTo(8L << 30);
            assertThat(reading.machine().inServiceOn()).isEqualTo("2021-01-04");
            assertThat(reading.drive().capacityBytes()).isEqualTo(256_000_000_000L);
            assertThat(reading.health().dataUnitsWritten()).isEqualTo(542_968_750);
            assertThat(reading.health().percentageUsed()).isEqualTo(20);
            assertThat(reading.health().get(HealthField.COMPOSITE_TEMPERATURE)).isEqualTo(313);
        });
    }

    /** Some editors begin UTF-8 with it. */
    @Test
    void aMappingMayBeginWithAByteOrderMark() throws IOException {
        String row = HEADER + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;278;20;40;\n";
        assertThat(read("b.csv", row, mapping("\uFEFF" + MAPPING)).values()).singleElement().isEqualTo(read("b.csv", row, mapping(MAPPING)).values().get(0));
    }

    @Test
    void pointersReachIntoJson() throws IOException {
        FieldMapping mapping = mapping("""
            {"fields": {"collectedAt": "/scan/time", "machine.id": "/host", "drive.serial": "/disk/sn", "drive.model": "/disk/name",
              "health.dataUnitsWritten": {"from": "/disk/counters/written", "unit": "sectors"}}}
            """);
        Outcome<Reading> outcome = read("export.json", """
            {"host": "PC-7", "scan": {"time": "2025-01-06T09:30:00Z"}, "disk": {"sn": "ON1", "name": "Ondrel E3", "counters": {"written": 1000}}}
            """, mapping);
        assertThat(outcome.problems()).isEmpty();
        assertThat(outcome.values()).singleElement().extracting(reading -> reading.health().bytesWritten()).isEqualTo(java.math.BigInteger.valueOf(512_000));
    }

    @ParameterizedTest(name = "{1} {2} of {0} are {3}")
    @CsvSource({
        "health.dataUnitsWritten, 309667839, dataUnits, 309667839", "health.dataUnitsWritten, 158549933568000, bytes, 309667839",
        "health.dataUnitsWritten, 158.5, TB, 309570313", "health.dataUnitsWritten, 1, TiB, 2147484", "health.dataUnitsWritten, 1000, sectors, 1",
        "health.dataUnitsWritten, 0.4, MB, 1", "health.powerOnHours, 90, minutes, 2", "health.powerOnHours, 2.5, days, 60",
        "health.controllerBusyMinutes, 3, hours, 180", "drive.capacityBytes, 238.47, GiB, 256055212769"})
    void unitsAreConvertedExactlyAndRoundedHalfUp(String field, String value, String unit, String expected) throws IOException {
        FieldMapping mapping = mapping("{\"fields\": {\"" + field + "\": {\"from\": \"x\", \"unit\": \"" + unit + "\"}}}");
        RawRecord raw = RawRecord.of(org.wearledger.model.SourcePlace.line("a.csv", 2), java.util.Map.of("x", value));
        assertThat(mapping.apply(raw, new RawFields()).fields()).containsEntry(field, expected);
    }

    /** An empty last column: handed on as it stands, for the rules to judge. The sign of thousands alone leaves two meanings unless the mapping names it. */
    @ParameterizedTest(name = "{1} {2}, decimal {3}, grouping {4}")
    @CsvSource(delimiter = '|', quoteCharacter = '"', nullValues = "-", textBlock = """
        health.powerOnHours | 118.400,50  | hours | , | - | 118401
        health.powerOnHours | 118,400.50  | hours | . | - | 118401
        health.powerOnHours | 118.400,50  | hours | - | . | 118401
        health.powerOnHours | 118,400.50  | hours | - | , | 118401
        health.powerOnHours | 118.400     | hours | , | - | -
        health.powerOnHours | 118.400     | hours | , | . | 118400
        health.powerOnHours | 118,4       | hours | , | . | 118
        health.powerOnHours | 1.118.400   | hours | - | . | 1118400
        health.powerOnHours | 11.18.400   | hours | - | . | -
        health.powerOnHours | 118.40      | hours | - | . | -
        health.powerOnHours | 118,400.50  | hours | - | - | -
        health.powerOnHours | "118 400,5" | hours | , | " " | 118401
        health.powerOnHours | 118 400 | hours | - | " " | 118400
        health.powerOnHours | 118’400.5 | hours | - | "'" | 118401
        health.powerCycles  | 118.400     | -     | - | . | 118400
        health.powerCycles  | 118.400,5   | -     | , | - | 118400,5
        drive.model         | 118.400     | -     | - | . | 118.400
        """)
    void thousandsMayBePartedWhereTheMappingSaysSo(String field, String value, String unit, String decimal, String grouping, String expected) throws IOException {
        FieldMapping mapping = mapping("{" + (decimal == null ? "" : "\"decimal\": \"" + decimal + "\", ") + (grouping == null ? "" : "\"grouping\": \"" + grouping + "\", ")
            + "\"fields\": {\"" + field + "\": {\"from\": \"x\"" + (unit == null ? "" : ", \"unit\": \"" + unit + "\"") + "}}}");
        RawRecord raw = RawRecord.of(SourcePlace.line("a.csv", 2), java.util.Map.of("x", value));
        assertThat(mapping.apply(raw, new RawFields()).fields()).containsEntry(field, expected == null ? value : expected);
    }

    /** Rounded down: 99.9 percent used is not past the rating. An empty last column: handed on as it stands, for the rules to judge. */
    @ParameterizedTest(name = "{1} as {2} of {0} are {4}")
    @CsvSource(delimiter = '|', textBlock = """
        health.percentageUsed                | 52               | percent          | . | 52
        health.percentageUsed                | 52%              | percent          | . | 52
        health.percentageUsed                | 52 %             | percent          | . | 52
        health.percentageUsed                | 52\u00a0%       | percent          | . | 52
        health.percentageUsed                | 52\u202f%       | percent          | . | 52
        health.percentageUsed                | 99.999 %         | percent          | . | 99
        health.percentageUsed                | 34,5 %           | percent          | , | 34
        health.percentageUsed                | 34,5             | percent          | . |
        health.percentageUsed                | 1.250            | percent          | , |
        health.percentageUsed                | % 52             | percent          | . |
        health.percentageUsed                | 52 %%            | percent          | . |
        health.percentageUsed                | 52 percent       | percent          | . |
        health.availableSparePercent         | 97.5 %           | percent          | . | 97
        health.availableSpareThresholdPercent | 10,0            | percent          | , | 10
        health.percentageUsed                | 100              | percentRemaining | . | 0
        health.percentageUsed                | 99.9             | percentRemaining | . | 0
        health.percentageUsed                | 65,5 %           | percentRemaining | , | 34
        health.percentageUsed                | 0.4              | percentRemaining | . | 99
        health.percentageUsed                | 0                | percentRemaining | . | 100
        health.percentageUsed                | -4               | percentRemaining | . | 104
        health.percentageUsed                | -4.5             | percentRemaining | . | 104
        health.percentageUsed                | -155.5           | percentRemaining | . | 255
        health.percentageUsed                | -900             | percentRemaining | . | 255
        health.percentageUsed                | -0.04            | shareRemaining   | . | 104
        health.percentageUsed                | 0.52             | share            | . | 52
        health.percentageUsed                | 0,529            | share            | , | 52
        health.percentageUsed                | 0.5234567890123457 | share          | . | 52
        health.percentageUsed                | 1                | share            | . | 100
        health.percentageUsed                | 1.049            | share            | . | 104
        health.percentageUsed                | 2.55             | share            | . | 255
        health.percentageUsed                | 0.5 %            | share            | . |
        health.percentageUsed                | 0.48             | shareRemaining   | . | 52
        health.percentageUsed                | 1                | shareRemaining   | . | 0
        health.percentageUsed                | 0.001            | shareRemaining   | . | 99
        health.availableSparePercent         | 0.985            | share            | . | 98
        health.availableSpareThresholdPercent | 0.1             | share            | . | 10
        """)
    void percentAreTakenWithTheirSignAndRoundedDown(String field, String value, String unit, String decimal, String expected) throws IOException {
        FieldMapping mapping = mapping("{\"decimal\": \"" + decimal + "\", \"fields\": {\"" + field + "\": {\"from\": \"x\", \"unit\": \"" + unit + "\"}}}");
        RawRecord raw = RawRecord.of(org.wearledger.model.SourcePlace.line("a.csv", 2), java.util.Map.of("x", value));
        assertThat(mapping.apply(raw, new RawFields()).fields()).containsEntry(field, expected == null ? value : expected);
    }

    /** Judged before it is rounded, and told as the cell has it. The threshold is noted only: no verdict rests on it. */
    @ParameterizedTest(name = "{1} as {2} of {0}")
    @CsvSource(delimiter = '|', textBlock = """
        health.percentageUsed                 | -0.5   | percent          | field-invalid          | 0 to 255 percent, with or without a percent sign, such as 12.5
        health.percentageUsed                 | -0.5 % | percent          | field-invalid          | 0 to 255 percent, with or without a percent sign, such as 12.5
        health.percentageUsed                 | 255.1  | percent          | field-invalid          | 0 to 255 percent, with or without a percent sign, such as 12.5
        health.percentageUsed                 | 100.1  | percentRemaining | field-invalid          | 0 to 100 percent remaining, with or without a percent sign, such as 12.5
        health.percentageUsed                 | 2.551  | share            | field-invalid          | a share of 0 to 2.55, such as 0.52
        health.percentageUsed                 | 48     | shareRemaining   | field-invalid          | a share of 0 to 1 remaining, such as 0.52
        health.availableSparePercent          | 100.9  | percent          | field-invalid          | 0 to 100 percent, with or without a percent sign, such as 12.5
        health.availableSparePercent          | 98     | share            | field-invalid          | a share of 0 to 1, such as 0.52
        health.availableSpareThresholdPercent | 100.9  | percent          | optional-field-invalid | 0 to 100 percent, with or without a percent sign, such as 12.5
        health.availableSpareThresholdPercent | 10     | share            | optional-field-invalid | a share of 0 to 1, such as 0.52
        """)
    void aPercentageOutOfRangeIsToldAsItStands(String field, String value, String unit, String rule, String expected) throws IOException {
        assertThat(onlyProblem(field, value, unit)).satisfies(problem -> {
            assertThat(problem.kind().id()).isEqualTo(rule);
            assertThat(ProblemWords.of(problem).found()).isEqualTo(field + " (from \"x\") is \"" + value + "\", out of range");
            assertThat(ProblemWords.of(problem).expected()).startsWith(expected);
            assertThat(ProblemWords.of(problem).remedy()).endsWith("leave out what is not known, or correct the unit in the mapping");
        });
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"??", "n/a", "nan", "no"})
    void whatStandsForNotKnownCanBeNamedInTheMapping(String value) throws IOException {
        assertThat(ProblemWords.of(onlyProblem("health.percentageUsed", value, "percent")).remedy()).startsWith("leave out what is not known")
            .endsWith("; or name it under notReported in the mapping");
    }

    /** Rounded, a little less than nothing would be nothing. */
    @ParameterizedTest(name = "{1} {2} of {0}")
    @CsvSource({"health.dataUnitsWritten, -0.0000001, TB, counter-negative", "health.dataUnitsWritten, -2, TB, counter-negative", "health.powerOnHours, -0.4, hours, optional-field-invalid"})
    void aNegativeNumberIsToldAsItStands(String field, String value, String unit, String rule) throws IOException {
        assertThat(onlyProblem(field, value, unit)).satisfies(problem -> {
            assertThat(problem.kind().id()).isEqualTo(rule);
            assertThat(ProblemWords.of(problem).found()).isEqualTo(field + " (from \"x\") is \"" + value + "\", below zero: an unsigned counter read as a signed one, or a slip");
        });
    }

    /** A column of shares read as percent would leave every drive at 0: what may be a share is read, and told. */
    @ParameterizedTest(name = "{1} as {2} of {0}")
    @CsvSource(delimiter = '|', textBlock = """
        health.percentageUsed        | 0.52 | percent          | 0  | share
        health.percentageUsed        | 1.00 | percent          | 1  | share
        health.percentageUsed        | 0.48 | percentRemaining | 99 | shareRemaining
        health.availableSparePercent | 0.98 | percent          | 0  | share
        """)
    void whatMayBeAShareIsTold(String field, String value, String unit, int read, String other) throws IOException {
        assertThat(ProblemWords.of(onlyProblem(field, value, unit)).sentence()).isEqualTo("p.csv, line 2: " + field + " (from \"x\") is \"" + value + "\", at most one percent, or a share; "
            + "expected percent with their sign, or shares by their unit; read as percent, which gives " + read + "; where 0.52 means 52 percent, the unit in the mapping is " + other);
    }

    @ParameterizedTest
    @CsvSource({"0.5 %, percent", "0, percent", "0.0, percent", "1, percent", "1.01, percent", "0.52, share"})
    void whatIsPlainlyPercentOrAShareIsNot(String value, String unit) throws IOException {
        assertThat(readOne("health.percentageUsed", value, unit).problems()).isEmpty();
    }

    private Problem onlyProblem(String field, String value, String unit) throws IOException {
        java.util.List<Problem> problems = readOne(field, value, unit).problems().stream().filter(problem -> problem.kind() != org.wearledger.model.ProblemKind.FILE_HAS_NO_READING).toList();
        assertThat(problems).hasSize(1);
        return problems.get(0);
    }

    private Outcome<Reading> readOne(String field, String value, String unit) throws IOException {
        FieldMapping mapping = mapping("{\"fields\": {\"" + field + "\": {\"from\": \"x\", \"unit\": \"" + unit + "\"}}}");
        return read("p.csv", "collectedAt,machine.id,drive.serial,drive.model,x\n2025-01-06T08:30:00Z,PC-7,ON1,Ondrel E3," + value + "\n", mapping);
    }

    /** Clocks in Berlin went from 02:00 to 03:00 on 30 March 2025, and back from 03:00 to 02:00 on 26 October (tz database). */
    @ParameterizedTest(name = "{0} in {1}")
    @CsvSource(delimiter = '|', textBlock = """
        30.03.2025 01:59 | Europe/Berlin    | 2025-03-30T00:59:00Z |
        30.03.2025 02:00 | Europe/Berlin    |                      | a time that never was in Europe/Berlin: its clocks were put forward from 02:00 to 03:00
        30.03.2025 02:59 | Europe/Berlin    |                      | a time that never was in Europe/Berlin: its clocks were put forward from 02:00 to 03:00
        30.03.2025 03:00 | Europe/Berlin    | 2025-03-30T01:00:00Z |
        30.03.2025 02:30 | UTC              | 2025-03-30T02:30:00Z |
        30.03.2025 02:30 | +01:00           | 2025-03-30T01:30:00Z |
        26.10.2025 01:59 | Europe/Berlin    | 2025-10-25T23:59:00Z |
        26.10.2025 02:00 | Europe/Berlin    | 2025-10-26T00:00:00Z | a time that came twice in Europe/Berlin: its clocks were put back from 03:00 to 02:00
        26.10.2025 02:59 | Europe/Berlin    | 2025-10-26T00:59:00Z | a time that came twice in Europe/Berlin: its clocks were put back from 03:00 to 02:00
        26.10.2025 03:00 | Europe/Berlin    | 2025-10-26T02:00:00Z |
        """)
    void timesThatNeverWereOrCameTwiceAreTold(String value, String zone, String utc, String doubt) throws IOException {
        MappedValue read = new MappedSource("x", null, new DatePattern("dd.MM.yyyy HH:mm"), zone, NumberForm.PLAIN).read("collectedAt", value);
        assertThat(read.text()).isEqualTo(utc);
        assertThat(read.doubt() == null ? null : ProblemWords.of(read.told(Problem.of(read.doubt(), SourcePlace.line("a.csv", 2), "").about("x").with(Fact.TEXT, value))).found())
            .isEqualTo(doubt == null ? null : "x is \"" + value + "\", " + doubt);
    }

    @Test
    void aTimeWithItsOffsetCameOnceAndADayHasAlwaysABeginning() {
        assertThat(new MappedSource("x", null, new DatePattern("yyyy-MM-dd HH:mmXXX"), "Europe/Berlin", NumberForm.PLAIN).read("collectedAt", "2025-10-26 02:30+01:00"))
            .isEqualTo(MappedValue.of("2025-10-26T01:30:00Z"));
        assertThat(new MappedSource("x", null, new DatePattern("dd.MM.yyyy"), "America/Santiago", NumberForm.PLAIN).read("collectedAt", "07.09.2025"))
            .as("clocks went from 24:00 to 01:00 (tz database)").isEqualTo(MappedValue.of("2025-09-07T04:00:00Z"));
    }

    /** Of a column that is mapped without a unit nothing is read otherwise: the remedy names the units. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        20,5 % | a number with a unit behind it
        0.52   | a decimal fraction where only whole numbers are counted
        0,52   | a number with a decimal comma
        0.520  | a decimal fraction where only whole numbers are counted
        0,5234 | a number with a decimal comma
        52.25  | a decimal fraction where only whole numbers are counted
        1.0    | a decimal fraction where only whole numbers are counted
        """)
    void percentWithoutAUnitAreRefusedWithTheRemedy(String value, String what) throws IOException {
        assertThat(read("p.csv", HEADER + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;278;" + value + ";40;\n", mapping(MAPPING)).problems()).first()
            .extracting(problem -> ProblemWords.of(problem).sentence()).isEqualTo("p.csv, line 2: health.percentageUsed (from \"Wear %\") is \"" + value + "\", " + what
                + "; expected a whole number, 0 to 255; export whole percent without a sign, or read it by a mapping that gives the field its unit: percent, or share where 0.52 means 52 percent"
                + (value.contains(",") ? ", and says \"decimal\": \",\" for the comma" : ""));
    }

    @Test
    void aTextIsNoNumberWhateverTheDecimalSign() throws IOException {
        FieldMapping comma = mapping(MAPPING.replaceFirst("\\{", "{\"decimal\": \",\", "));
        assertThat(read("q.csv", HEADER + "7,5;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;278;20;40;\n", comma).values()).singleElement()
            .extracting(reading -> reading.machine().id()).isEqualTo("7,5");
    }

    @Test
    void whatIsNoNumberOrNoTimeIsJudgedAsItStands() throws IOException {
        assertThat(read("e.csv", HEADER + "PC-7;6/1/2025;8;;Ondrel E3;ON1;256;278;20;40;\n", mapping(MAPPING)).problems()).first().extracting(problem -> ProblemWords.of(problem).sentence())
            .isEqualTo("e.csv, line 2: collectedAt (from \"Read on\") is \"6/1/2025\", which does not fit dd.MM.yyyy HH:mm; "
                + "expected a time as the mapping says, dd.MM.yyyy HH:mm; correct the format in the mapping, or the value; wearledger draft-mapping proposes one for this file");
        assertThat(read("f.csv", HEADER + "PC-7;06.01.2025 09:30;8;;Ondrel E3;ON1;256;2,78E+02;20;40;\n", mapping(MAPPING)).problems()).first()
            .extracting(problem -> ProblemWords.of(problem).found()).isEqualTo("health.dataUnitsWritten (from \"Host writes\") is \"2,78E+02\", a number in scientific notation, as a spreadsheet writes long ones: "
                + "its last digits are lost");
        assertThat(read("i.csv", HEADER + "PC-7;31.02.2025 09:30;8;;Ondrel E3;ON1;256;278;20;40;\n", mapping(MAPPING)).problems()).first()
            .extracting(problem -> ProblemWords.of(problem).found()).as("there is no 31 February").isEqualTo("collectedAt (from \"Read on\") is \"31.02.2025 09:30\", which does not fit dd.MM.yyyy HH:mm: there is no 31 February");
        assertThat(read("m.csv", HEADER + "PC-7;06.13.2025 09:30;8;06.13.2021;Ondrel E3;ON1;256;278;20;40;\n", mapping(MAPPING)).problems()).first()
            .extracting(problem -> ProblemWords.of(problem).found()).isEqualTo("collectedAt (from \"Read on\") is \"06.13.2025 09:30\", which does not fit dd.MM.yyyy HH:mm: there is no month 13");
    }

    /** What is expected is the mapping's and not the report form's, also where the names are withheld. */
    @Test
    void underPseudonymsTheMappingsWordsStay() throws IOException {
        FieldMapping mapping = mapping(MAPPING).with(Pseudonyms.of("0123456789abcdef".getBytes(java.nio.charset.StandardCharsets.UTF_8)));
        assertThat(read("f.csv", HEADER + "PC-7;06.01.2025 09:30;8;;Ondrel E3;ON1;256;much;20;40;\n", mapping).problems()).first().satisfies(problem -> {
            assertThat(ProblemWords.of(problem).found()).isEqualTo("health.dataUnitsWritten (from a withheld heading) is (withheld)");
            assertThat(ProblemWords.of(problem).expected()).isEqualTo("a plain number of TB, such as 12.5");
        });
    }

    @Test
    void theDayOfANewUserTakesAFormat() throws IOException {
        FieldMapping mapping = mapping(MAPPING.replace("\"Bought\"", "\"Handed over\"").replace("machine.inServiceOn", "machine.userSince"));
        assertThat(read("u.csv", HEADER.replace("Bought", "Handed over") + "PC-7;06.01.2025 09:30;8;02.09.2024;Ondrel E3;ON1;256;278;20;40;\n", mapping).values()).singleElement()
            .satisfies(reading -> assertThat(reading.machine().userSince()).isEqualTo("2024-09-02"));
    }

    /** Without case and blanks, in every column. */
    @Test
    void wordsForNotReportedAreTakenAsThat() throws IOException {
        FieldMapping mapping = mapping(MAPPING.replaceFirst("\\{", "{\"notReported\": [\"n/a\", \"-\"], "));
        Outcome<Reading> outcome = read("n.csv", HEADER + "PC-7;06.01.2025 09:30;-;N/A;Ondrel E3;ON1;256;278; n/A ;40;\n", mapping);
        assertThat(outcome.problems()).isEmpty();
        assertThat(outcome.values()).singleElement().satisfies(reading -> {
            assertThat(reading.machine().memoryBytes()).isNull();
            assertThat(reading.machine().inServiceOn()).isNull();
            assertThat(reading.health().percentageUsed()).isNull();
        });
    }

    @Test
    void aCommaIsADecimalSignOnlyWhereTheMappingSaysSo() throws IOException {
        String row = HEADER + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;40,5;20;40;\n";
        assertThat(read("j.csv", row, mapping(MAPPING)).problems()).first().extracting(problem -> ProblemWords.of(problem).sentence()).isEqualTo("j.csv, line 2: health.dataUnitsWritten "
            + "(from \"Host writes\") is \"40,5\", a number with a decimal comma; expected a plain number of TB, such as 12.5; write \"decimal\": \",\" beside the fields of the mapping");
        FieldMapping comma = mapping(MAPPING.replaceFirst("\\{", "{\"decimal\": \",\", "));
        assertThat(read("j.csv", row, comma).values()).singleElement().extracting(r -> r.health().bytesWritten().longValue()).isEqualTo(40_500_000_256_000L);
    }

    /** Of the most worn drive the record would be lost otherwise. */
    @Test
    void aLifeBelowZeroIsReadAsMoreThanAHundredUsed() throws IOException {
        FieldMapping left = mapping(MAPPING.replace("\"Wear %\"", "{\"from\": \"Wear %\", \"unit\": \"percentRemaining\"}"));
        Outcome<Reading> outcome = read("l.csv", HEADER + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;278;-4;40;\n", left);
        assertThat(outcome.values()).extracting(reading -> reading.health().percentageUsed()).containsExactly(104);
        assertThat(outcome.problems()).singleElement().extracting(problem -> problem.kind().id() + ": " + ProblemWords.of(problem).sentence()).isEqualTo("percentage-remaining-below-zero: l.csv, line 2: "
            + "health.percentageUsed (from \"Wear %\") is \"-4\", below zero; expected 0 to 100 percent remaining, with or without a percent sign; read as 104 percent used, since some "
            + "controllers count on below zero; if it stands for \"not known\", name it in \"notReported\" of the mapping");
    }

    @Test
    void aCountIsToldWithoutADecimalFraction() throws IOException {
        FieldMapping counts = mapping(MAPPING.replaceFirst("\\{", "{\"decimal\": \",\", ").replace("\"TB\"", "\"dataUnits\""));
        assertThat(read("c.csv", HEADER + "PC-7;06.01.2025 09:30;8;;Ondrel E3;ON1;256;258.593.750;20;40;\n", counts).problems()).first().extracting(problem -> ProblemWords.of(problem).expected())
            .isEqualTo("a plain number of dataUnits, such as 123456");
    }

    @Test
    void aMissingValueIsToldWithItsHeading() throws IOException {
        String row = HEADER + "PC-7;06.01.2025 09:30;8;;Ondrel E3;;256;278;20;40;\nPC-7;-;8;;Ondrel E3;-;256;278;20;40;\n";
        assertThat(read("m.csv", row, mapping(MAPPING.replaceFirst("\\{", "{\"notReported\": [\"-\"], "))).problems()).extracting(problem -> ProblemWords.of(problem).sentence()).startsWith(
            "m.csv, line 2: no drive.serial (from \"Disk no.\"): it is empty, or a value of \"notReported\"; expected a value; without it a reading cannot be joined to a drive; "
                + "add it to the export",
            "m.csv, line 3: no collectedAt (from \"Read on\"), drive.serial (from \"Disk no.\"): it is empty, or a value of \"notReported\"; expected a value for each; "
                + "without them a record is not used; add them to the export");
        assertThat(read("m.csv", HEADER + "PC-7;06.01.2025 09:30;8;;Ondrel E3;;256;278;20;40;\n", mapping(MAPPING)).problems()).first().extracting(problem -> ProblemWords.of(problem).found())
            .isEqualTo("no drive.serial (from \"Disk no.\"): it is empty");
    }

    /** In Berlin, an hour before UTC in winter and two in summer; epoch times are those of {@code date -u -d @1736152200}. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        dd.MM.yyyy HH:mm            | 06.01.2025 09:30          | 2025-01-06T08:30:00Z
        yyyy-MM-dd HH:mm:ss         | 2025-01-06 09:30:15       | 2025-01-06T08:30:15Z
        yyyy-MM-dd'T'HH:mm:ss       | 2025-07-06T09:30:15       | 2025-07-06T07:30:15Z
        yyyy-MM-dd'T'HH:mm:ss.SSSXXX | 2025-07-06T09:30:15.500-05:00 | 2025-07-06T14:30:15.500Z
        MM/dd/yyyy hh:mm a          | 01/06/2025 12:30 AM       | 2025-01-05T23:30:00Z
        M/d/yyyy h:mm a             | 1/6/2025 9:30 pm          | 2025-01-06T20:30:00Z
        yyyyMMdd HHmm               | 20250106 0930             | 2025-01-06T08:30:00Z
        yyyyMMddHHmmss              | 20250106093015            | 2025-01-06T08:30:15Z
        HH:mm dd.MM.yyyy            | 09:30 06.01.2025          | 2025-01-06T08:30:00Z
        HH.mm-dd.MM.yyyy            | 09.30-06.01.2025          | 2025-01-06T08:30:00Z
        d MMM yyyy HH:mm            | 6 Jan 2025 09:30          | 2025-01-06T08:30:00Z
        dd.MM.yy                    | 06.01.25                  | 2025-01-05T23:00:00Z
        epochSeconds                | 1736152200                | 2025-01-06T08:30:00Z
        epochSeconds                | 1736152200.25             | 2025-01-06T08:30:00.250Z
        epochMillis                 | 1736152200250             | 2025-01-06T08:30:00.250Z
        """)
    void timesAreReadInAnyOrder(String format, String text, String expected) throws IOException {
        FieldMapping times = mapping("{\"fields\": {\"collectedAt\": {\"from\": \"x\", \"format\": \"" + format + "\", \"zone\": \"Europe/Berlin\"}}}");
        RawRecord raw = RawRecord.of(SourcePlace.line("a.csv", 2), java.util.Map.of("x", text));
        assertThat(times.apply(raw, new RawFields()).fields()).containsEntry("collectedAt", expected);
    }

    /** The quick way of usual times says nothing of unusual ones, which the general parser judges. */
    @ParameterizedTest(name = "{1} against {0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        dd.MM.yyyy HH:mm      | 06.01.2025 09:30    | 2025-01-06T09:30
        yyyyMMdd'T'HHmmss     | 20250106T093015     | 2025-01-06T09:30:15
        HH 'Uhr' mm, dd/MM/yyyy | 09 Uhr 30, 06/01/2025 | 2025-01-06T09:30
        dd.MM.yyyy HH:mm      | 31.02.2025 09:30    | -
        dd.MM.yyyy HH:mm      | 06.13.2025 09:30    | -
        dd.MM.yyyy HH:mm      | 06.01.2025 24:00    | -
        dd.MM.yyyy HH:mm      | 06.01.2025-09:30    | -
        dd.MM.yyyy HH:mm      | 06.01.2025 9:30     | -
        dd.MM.yyyy HH:mm      | 06.01.2025 0٩:30 | -
        dd.MM.yyyy            | 06.01.2025          | -
        d.M.yyyy HH:mm        | 06.01.2025 09:30    | -
        dd.MM.yy HH:mm        | 06.01.25 09:30      | -
        dd.MM.yyyy hh:mm a    | 06.01.2025 09:30 AM | -
        dd.MM.yyyy HH:mm'     | 06.01.2025 09:30    | -
        """)
    void usualTimesAreReadAtFixedPlaces(String format, String text, String expected) {
        assertThat(FixedPlaces.of(format).time(text)).isEqualTo(expected == null ? null : java.time.LocalDateTime.parse(expected));
    }

    /** Against the exact conversion, which takes decimals too. */
    @ParameterizedTest(name = "{0} in {1}")
    @CsvSource({"drive.capacityBytes, GB", "machine.memoryBytes, GiB", "health.dataUnitsWritten, bytes", "health.dataUnitsWritten, GB", "health.dataUnitsWritten, sectors",
        "health.powerOnHours, minutes", "health.powerOnHours, days"})
    void wholeNumbersAreConvertedAsExactOnes(String field, String unit) {
        FieldUnits.Whole whole = FieldUnits.whole(field, unit);
        new java.util.Random(20).longs(2_000, 0, 2_000_000_000L).forEach(number -> assertThat(whole.converted(Long.toString(number)))
            .isEqualTo(Long.parseLong(FieldUnits.converted(field, unit, java.math.BigDecimal.valueOf(number)))));
        assertThat(java.util.List.of(whole.converted(""), whole.converted("-1"), whole.converted("1.5"), whole.converted("١"), whole.converted("999999999999999999999"))).containsOnly(-1L);
    }

    /** The evening of the 5th in UTC is the 6th in Berlin. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        yyyyMMdd            | 20250106         | 2025-01-06
        MM/dd/yyyy HH:mm    | 01/06/2025 23:59 | 2025-01-06
        epochSeconds        | 1736119800       | 2025-01-06
        epochMillis         | 1736119800000    | 2025-01-06
        """)
    void datesAreReadInAnyOrder(String format, String text, String expected) throws IOException {
        FieldMapping dates = mapping("{\"fields\": {\"machine.inServiceOn\": {\"from\": \"x\", \"format\": \"" + format + "\", \"zone\": \"Europe/Berlin\"}}}");
        RawRecord raw = RawRecord.of(SourcePlace.line("a.csv", 2), java.util.Map.of("x", text));
        assertThat(dates.apply(raw, new RawFields()).fields()).containsEntry("machine.inServiceOn", expected);
    }

    @ParameterizedTest(name = "{1} against {0}")
    @CsvSource(delimiter = '|', textBlock = """
        dd.MM.yyyy HH:mm   | 06.01.2025 9:05    | : hours of one digit need H in place of HH
        dd.MM.yyyy HH:mm   | 6.1.2025 09:05     | : days of one digit need d in place of dd, months of one digit need M in place of MM
        dd.MM.yyyy hh:mm a | 06.01.2025 9:05 AM | : hours of one digit need h in place of hh
        dd.MM.yyyy HH:mm   | 06.01.2025 9h05    | ''
        dd.MM.yyyy         | 06-01-2025         | ''
        epochSeconds       | 1736152200250      | ''
        epochMillis        | 06.01.2025         | ''
        """)
    void oneDigitWhereTheFormatAsksForTwoIsTold(String format, String text, String words) {
        Problem misfit = Problem.of(Finding.FORMAT_MISFIT, SourcePlace.line("a.csv", 2), "").about("collectedAt").with(Fact.TEXT, text);
        assertThat(ProblemWords.of(new DatePattern(format).misfit(misfit, text)).found()).isEqualTo("collectedAt is \"" + text + "\", which does not fit " + format + words);
    }

    /** As memory is sold: 8192 MB are 8 GiB in truth. Every heading and unit is the mapping's. */
    @ParameterizedTest(name = "{0} in {1}")
    @CsvSource(delimiter = '|', textBlock = """
        8192 16384   | MB  | is a whole multiple of 1024 MB, such as 8192 MB, and 8192 MiB are 8 GiB: is MiB meant?; expected sizes in MiB, in powers of two, as memory is made; map it with the unit MiB
        128000 64000 | MB  | is a whole number of GB and none of GiB, such as 64000 MB, which are 64 GB: are 64 GiB meant?; expected sizes in powers of two, as memory is made; correct the export: 64 GiB are 65536 MiB, 68719476736 bytes
        8 16         | GB  | is a whole number of GB and none of GiB, such as 8 GB: is GiB meant?; expected sizes in GiB, in powers of two, as memory is made; map it with the unit GiB
        8192 16384   | MiB |
        8192 8190    | MB  |
        8192         | MB  |
        """)
    void memoryInPowersOfTwoReadInPowersOfTenIsTold(String sizes, String unit, String words) throws IOException {
        StringBuilder rows = new StringBuilder(HEADER);
        for (String size : sizes.split(" ")) {
            rows.append("PC-").append(size).append(";06.01.2025 09:30;").append(size).append(";;Ondrel E3;ON").append(size).append(";256;278;20;40;\n");
        }
        FieldMapping memory = mapping(MAPPING.replace("\"RAM GB\", \"unit\": \"GiB\"", "\"RAM GB\", \"unit\": \"" + unit + "\""));
        assertThat(read("r.csv", rows.toString(), memory).problems()).filteredOn(problem -> problem.kind().id().equals("memory-unit-doubtful")).extracting(problem -> ProblemWords.of(problem).sentence())
            .containsExactlyElementsOf(words == null ? java.util.List.of() : java.util.List.of("r.csv, whole file: every memory size (from \"RAM GB\" in " + unit + ") " + words
                + "; the sizes are used as they stand"));
    }

    /** An export in Windows-1252: nothing is wrong with the mapping. */
    @Test
    void aHeadingInAnotherEncodingIsTold() throws IOException {
        FieldMapping umlaut = mapping(MAPPING.replace("\"Size\"", "\"Gr\u00f6\u00dfe GB\""));
        String export = HEADER.replace("Size", "Gr\u00f6\u00dfe GB") + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;278;20;40;\n";
        Path file = Files.writeString(folder.resolve("w.csv"), export, java.nio.charset.StandardCharsets.ISO_8859_1);
        assertThat(WholeFile.read(new ReportFile(file.toString(), "w.csv"), umlaut).problems()).singleElement().extracting(problem -> ProblemWords.of(problem).sentence()).isEqualTo("w.csv, whole file: "
            + "no record has a value for drive.capacityBytes (from \"Gr\u00f6\u00dfe GB\"): the header holds bytes that are no UTF-8, \"Gr??e GB\"; expected text in UTF-8, or UTF-16 "
            + "with a byte order mark; it looks like windows-1252: say \"encoding\": \"windows-1252\" in a mapping, or export as UTF-8");
    }

    @Test
    void aHeadingThatNoRecordHasIsTold() throws IOException {
        FieldMapping slip = mapping(MAPPING.replace("Host writes", "Host write"));
        Outcome<Reading> outcome = read("k.csv", HEADER + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;278;20;40;\n", slip);
        assertThat(outcome.values()).hasSize(1);
        assertThat(outcome.problems()).singleElement().extracting(problem -> ProblemWords.of(problem).sentence()).isEqualTo("k.csv, whole file: no record has a value for "
            + "health.dataUnitsWritten (from \"Host write\"); the nearest is \"Host writes\"; they have Bought, Computer, Disk, Disk no., Host writes, RAM GB, Read on, Size, Temp, Wear %; expected a heading or pointer of "
            + "this file; correct the mapping, or leave the field out of it; "
                + "where only some files lack it, move those into a folder with a mapping.json of their own");
    }

    @Test
    void headingsThatAreNotThereAreNamedWithThoseThatAre() throws IOException {
        assertThat(read("g.csv", "Computer;When;Disk;Disk no.\nPC-7;x;y;z\n", mapping(MAPPING)).problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "g.csv, whole file: a CSV header without collectedAt (from \"Read on\"); it has Computer, When, Disk, Disk no.; expected every required column; "
                + "correct the headings in the mapping: these do not stand in this file");
    }

    @Test
    void aFileInTheReportFormIsReadAsEver() throws IOException {
        assertThat(read("h.csv", "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed\n"
            + "1.0,2025-01-06T08:30:00Z,LT-01,KX1,Kestrel K2,7\n", FieldMapping.none()).values()).hasSize(1);
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        {"fields":{"machine.colour":"x"}}                                     | "machine.colour" is no field of the report form; see schemas/csv-columns.md
        {"fields":{"health.life":"x"}}                                        | "health.life" is no field of the report form; see schemas/csv-columns.md
        {"fields":{"decimal":","}}                                            | "decimal" (it stands beside "fields", not in it) is no field of the report form; see schemas/csv-columns.md
        {"fields":{"percentageUsed":"x"}}                                     | "percentageUsed" (near: health.percentageUsed) is no field of the report form; see schemas/csv-columns.md
        {"fields":{"machine.serialNumber":"x","health.written":"y"}}          | "machine.serialNumber" (near: drive.serial), "health.written" (near: health.dataUnitsWritten) are no fields of the report form; see schemas/csv-columns.md
        {"fields":{"health.mediaErrors":"x"}}                                 | "health.mediaErrors" (near: health.mediaAndDataIntegrityErrors) is no field of the report form; see schemas/csv-columns.md
        {"fields":{"health.hostWrites":"x","power_hours":"y"}}                | "health.hostWrites" (near: health.hostWriteCommands), "power_hours" (near: health.powerOnHours, health.powerCycles) are no fields of the report form; see schemas/csv-columns.md
        {"fields":{"drive.modle":"x"},"constants":{"machine.sites":"North"}}  | "drive.modle" (near: drive.model, machine.model), "machine.sites" (near: machine.site) are no fields of the report form; see schemas/csv-columns.md
        {"fields":{"Computer":"machine.id"}}                                  | "Computer" (right of it stands machine.id: the field goes left, the heading right) is no field of the report form; see schemas/csv-columns.md
        {"fields":{"drive.capacityBytes":{"from":"x","unit":"furlongs"}}}     | drive.capacityBytes has unit "furlongs"; allowed are GB, GiB, KB, KiB, MB, MiB, TB, TiB, bytes, dataUnits, sectors
        {"fields":{"machine.id":{"unit":"GB"}}}                               | 2 faults: (1) machine.id needs a heading or a pointer, as text or as "from" (2) machine.id has unit "GB"; leave the unit out: this field has none to choose
        {"fields":{"health.availableSparePercent":{"from":"x","unit":"%"}}}   | health.availableSparePercent has unit "%"; allowed are percent, share
        {"fields":{"health.percentageUsed":{"from":"x","unit":"left"}}}       | health.percentageUsed has unit "left"; allowed are percent, percentRemaining, share, shareRemaining
        {"fields":{"disk":"x","health.powerOnHours":{"from":"y","unit":"h"},"health.percentageUsed":{"from":"z","unit":"%"}}} | 3 faults: (1) "disk" is no field of the report form; see schemas/csv-columns.md (2) health.powerOnHours has unit "h"; allowed are days, hours, minutes (3) health.percentageUsed has unit "%"; allowed are percent, percentRemaining, share, shareRemaining
        {"fields":{"machine.id":{"from":"x","unit":"GB"}}}                    | machine.id has unit "GB"; leave the unit out: this field has none to choose
        {"fields":{"machine.id":{"from":"x","format":"dd.MM.yyyy"}}}          | machine.id has a format or a zone; leave them out: this field is no date or time
        {"fields":{"collectedAt":{"from":"x","zone":"Europe/Berlin"}}}        | collectedAt has a zone without a format, and so no use for it; give the format of its times, such as yyyy-MM-dd'T'HH:mm:ss
        {"fields":{"collectedAt":{"from":"x","zone":"Mars/North"}}}           | collectedAt: Unknown time-zone ID: Mars/North; write it with its region, such as Europe/Berlin
        {"fields":{"collectedAt":{"from":"x","format":"DD.MM.YYYY"}}}         | collectedAt has format "DD.MM.YYYY"; D is a day of the year and Y a year of weeks: write dd for the day and yyyy for the year
        {"fields":{"collectedAt":{"from":"x","format":"dd.mm.yyyy"}}}         | collectedAt has format "dd.mm.yyyy"; mm are minutes: write MM for the month
        {"fields":{"collectedAt":{"from":"x","format":"dd/mm/yyyy HH:MM"}}}   | collectedAt has format "dd/mm/yyyy HH:MM"; mm are minutes: write MM for the month
        {"fields":{"collectedAt":{"from":"x","format":"yyyymmdd HHmm"}}}      | collectedAt has format "yyyymmdd HHmm"; mm are minutes: write MM for the month
        {"fields":{"collectedAt":{"from":"x","format":"mm/dd/yyyy HH:MM"}}}   | collectedAt has format "mm/dd/yyyy HH:MM"; mm are minutes: write MM for the month
        {"fields":{"collectedAt":{"from":"x","format":"yyyyMMdd HHMM"}}}      | collectedAt has format "yyyyMMdd HHMM"; MM is the month: write mm for the minutes
        {"fields":{"collectedAt":{"from":"x","format":"dd.MM.yyyy HHmmSS"}}}  | collectedAt has format "dd.MM.yyyy HHmmSS"; SS are parts of a second: write ss for the seconds
        {"fields":{"collectedAt":{"from":"x","format":"dd.MM.yyyy HH:MM"}}}   | collectedAt has format "dd.MM.yyyy HH:MM"; MM is the month: write mm for the minutes
        {"fields":{"collectedAt":{"from":"x","format":"dd.MM.yyyy hh:mm"}}}   | collectedAt has format "dd.MM.yyyy hh:mm"; hh is an hour of 1 to 12 and needs a for am or pm: write HH for an hour of 0 to 23
        {"fields":{"machine.id":"x"},"notReported":[0]}                       | "notReported" holds 0; allowed are texts, such as ["n/a", "-"]
        {"constants":{}}                                                      | a mapping has "fields" and may have "constants"; this one has neither
        {"field":{}}                                                          | the mapping has "field"; allowed are constants, decimal, encoding, fields, grouping, inventory, notReported, notes, records, repairs
        {"fields":{"machine.id":{"from":"x","units":"GB"}}}                   | machine.id has "units"; allowed are format, from, unit, zone
        {"fields":{"machine.id":"x"},"decimal":";"}                           | "decimal" is ";"; allowed are "." and ","
        {"fields":{"health.dataUnitsWritten":{"from":"W","unit":["TB"]}},"constants":["North"]} | 2 faults: (1) health.dataUnitsWritten has "unit" ["TB"]; write it as text (2) "constants" is ["North"]; it holds fields by their names, as {"machine.id": ...}
        {"fields":{"collectedAt":{"from":"x","format":5,"zone":null}}}        | 2 faults: (1) collectedAt has "format" 5; write it as text (2) collectedAt has "zone" null; write it as text
        {"fields":{"machine.id":{"from":7}}}                                  | machine.id has "from" 7; write it as text
        {"fields":{"machine.id":["x"]}}                                       | machine.id needs a heading or a pointer, as text or as "from"
        {"fields":["x"],"constants":{"machine.site":"North"}}                 | "fields" is ["x"]; it holds fields by their names, as {"machine.id": ...}
        {"fields":{"machine.id":"x"},"constants":null}                        | "constants" is null; it holds fields by their names, as {"machine.id": ...}
        {"fields":{"machine.id":"x"},"constants":{"machine.site":["North"]}}  | machine.site has the constant ["North"]; write it as text or a number
        {"fields":{"machine.id":"x"},"decimal":null}                          | "decimal" is null; allowed are "." and ","
        {"fields":{"machine.id":"x"},"decimal":".","grouping":"."}            | "decimal" and "grouping" are both "."; one of them is another sign
        {"fields":{"machine.id":"x"},"encoding":"latin"}                      | "encoding" is "latin", which this Java does not know; allowed are names such as windows-1252, ISO-8859-15, IBM850, UTF-16LE
        {"fields":{"machine.id":"x"},"encoding":"no such"}                    | "encoding" is "no such", which this Java does not know; allowed are names such as windows-1252, ISO-8859-15, IBM850, UTF-16LE
        {"fields":{"machine.id":"x"},"records":"devices"}                     | "records" is "devices"; it leads from the outermost object to the records, such as /devices
        {"fields":{"machine.id":"x"},"grouping":"_"}                          | "grouping" is "_"; allowed are ".", ",", " " and "'"
        {"fields":{"machine.id":"x"},"decimal":[","]}                         | "decimal" is [","]; allowed are "." and ","
        {"fields":{"machine.id":"x"},"notReported":{"a":"-"}}                 | "notReported" is a list of texts, such as ["n/a", "-"]
        {"fields":{"machine.id":"x"},"notReported":"-"}                       | "notReported" is a list of texts, such as ["n/a", "-"]
        {"fields":{"machine.id":"x","machine.id":"y"}}                        | broken JSON at line 1, column 41: the field 'machine.id' stands twice; each is expected once
        ["x"]                                                                 | a mapping is {"fields": ...}; this is ["x"]
        {"fields":                                                            | broken JSON at line 1, column 11: the text ends too soon; a closing bracket or a value is expected
        """)
    void aWrongMappingSaysWhatIsAllowed(String json, String message) {
        assertThatThrownBy(() -> mapping(json)).isInstanceOf(InputMissingException.class).hasMessage(folder.resolve("mapping.json") + ": " + message);
    }

    @Test
    void aMappingThatIsNoTextOrNestsWithoutEndIsToldAsOne() throws IOException {
        Path latin = Files.write(folder.resolve("latin.json"), "{\"constants\":{\"machine.site\":\"K\u00f6ln\"}}".getBytes(java.nio.charset.StandardCharsets.ISO_8859_1));
        assertThatThrownBy(() -> FieldMapping.load(latin)).isInstanceOf(InputMissingException.class).hasMessage("save " + latin + " as UTF-8: it holds bytes that are none, and headings with accents would not be found");
        assertThatThrownBy(() -> mapping("[".repeat(1100))).isInstanceOf(InputMissingException.class).hasMessageStartingWith(folder.resolve("mapping.json") + ": broken JSON: ")
            .hasMessageContaining("depth");
    }

    @Test
    void aFormatIsQuotedAsFarAsItCanBeWritten() throws IOException {
        FieldMapping half = mapping(MAPPING.replace("dd.MM.yyyy HH:mm", "dd.MM.yyyy HH:mm'\\ud800'"));
        assertThat(read("l.csv", HEADER + "PC-7;06.01.2025 09:30;8;;Ondrel E3;ON1;256;278;20;40;\n", half).problems()).first().extracting(problem -> ProblemWords.of(problem).expected())
            .isEqualTo("a time as the mapping says, dd.MM.yyyy HH:mm'\uFFFD'");
    }

    /** With decimal commas a dot parts thousands: 1.250 is no fraction of a terabyte. */
    @Test
    void aDotBesideDecimalCommasIsNotGuessedAt() throws IOException {
        Outcome<Reading> outcome = read("export.csv", HEADER + "PC-7;06.01.2025 09:30;8;04.01.2021;Ondrel E3;ON1;256;1.250;20;40;kitchen\n",
            mapping(MAPPING.replaceFirst("\\{", "{\"decimal\": \",\", ")));
        assertThat(outcome.values()).isEmpty();
        assertThat(outcome.problems()).first().extracting(problem -> ProblemWords.of(problem).found()).asString().contains("\"1.250\"");
    }
}
