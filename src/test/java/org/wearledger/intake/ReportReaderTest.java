package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.HealthField;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

class ReportReaderTest {
    private static final String BEFORE_HEALTH = "{\"schemaVersion\":\"1.0\",\"collectedAt\":\"2025-01-06T09:30:00+01:00\","
        + "\"machine\":{\"id\":\"LT-01\"},\"drive\":{\"serial\":\"KX1\",\"model\":\"Kestrel K2\"},";
    private static final String REPORT = BEFORE_HEALTH + "\"health\":{\"percentageUsed\":20,\"dataUnitsWritten\":309667839}}";
    private static final String HEADER = "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.dataUnitsWritten\n";
    private static final String ROW = "1.0,2025-01-06T08:30:00Z,LT-01,KX1,Kestrel K2,";

    @TempDir
    Path folder;

    private Outcome<Reading> read(String name, byte[] content) throws IOException {
        Path file = folder.resolve(name);
        Files.write(file, content);
        return WholeFile.read(new ReportFile(file.toString(), name), FieldMapping.none());
    }

    private Outcome<Reading> read(String name, String content) throws IOException {
        return read(name, content.getBytes(StandardCharsets.UTF_8));
    }

    private static byte[] gzip(String content) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
            gzip.write(content.getBytes(StandardCharsets.UTF_8));
        }
        return bytes.toByteArray();
    }

    @Test
    void jsonCsvAndRawPageOfOneReportGiveOneReading() throws IOException {
        byte[] page = new byte[512];
        page[1] = 0x36;
        page[2] = 0x01;
        page[3] = 100;
        page[4] = 10;
        page[5] = 20;
        byte[] dataUnits = {(byte) 0xff, 0x27, 0x75, 0x12};
        System.arraycopy(dataUnits, 0, page, 48, 4);
        page[128] = 77;
        page[200] = 0x36;
        page[201] = 0x01;
        String zeros = "hostReadCommands hostWriteCommands controllerBusyMinutes powerCycles unsafeShutdowns "
            + "mediaAndDataIntegrityErrors errorLogEntries warningTemperatureMinutes criticalTemperatureMinutes "
            + "thermalManagement1Transitions thermalManagement2Transitions thermalManagement1Seconds "
            + "thermalManagement2Seconds criticalWarning enduranceGroupCriticalWarningSummary";
        StringBuilder json = new StringBuilder(BEFORE_HEALTH).append("\"health\":{\"compositeTemperatureKelvin\":310,"
            + "\"availableSparePercent\":100,\"availableSpareThresholdPercent\":10,\"percentageUsed\":20,"
            + "\"dataUnitsRead\":0,\"dataUnitsWritten\":\"309667839\",\"powerOnHours\":77,\"temperatureSensorsKelvin\":[310]");
        StringBuilder header = new StringBuilder("schemaVersion,collectedAt,machine.id,drive.serial,drive.model,"
            + "health.compositeTemperatureKelvin,health.availableSparePercent,health.availableSpareThresholdPercent,"
            + "health.percentageUsed,health.dataUnitsWritten,health.powerOnHours,health.temperatureSensorsKelvin");
        StringBuilder row = new StringBuilder("1.0,2025-01-06T08:30:00Z,LT-01,KX1,Kestrel K2,310,100,10,20,309667839,77,310");
        for (String field : zeros.split(" ")) {
            json.append(",\"").append(field).append("\":0");
            header.append(",health.").append(field);
            row.append(",0");
        }
        Reading fromJson = one(read("a.json", json + "}}"));
        Reading fromCsv = one(read("a.csv", header + "\n" + row + "\n"));
        Reading fromPage = one(read("b.json", BEFORE_HEALTH + "\"healthLogPage\":\"" + Base64.getEncoder().encodeToString(page) + "\"}"));
        assertThat(fromJson.health()).isEqualTo(fromPage.health()).isEqualTo(fromCsv.health());
        assertThat(List.of(fromJson, fromCsv, fromPage)).extracting(Reading::collectedAt, Reading::machine, Reading::drive)
            .containsOnly(org.assertj.core.groups.Tuple.tuple(fromPage.collectedAt(), fromPage.machine(), fromPage.drive()));
        assertThat(fromPage.health().bytesWritten()).isEqualTo("158549933568000");
    }

    private static Reading one(Outcome<Reading> outcome) {
        assertThat(outcome.problems()).isEmpty();
        assertThat(outcome.values()).hasSize(1);
        return outcome.values().get(0);
    }

    @Test
    void everyWrappingOfTheSameReportIsRead() throws IOException {
        String pretty = REPORT.replace(",", ",\n").replace("{", "{\n");
        for (Outcome<Reading> outcome : List.of(read("1.json", REPORT), read("2.json", pretty), read("3.json", "[" + REPORT + "]"),
            read("4.jsonl", REPORT + "\n\n"), read("5.ndjson", REPORT), read("6.json.gz", gzip(REPORT)),
            read("7.jsonl.gz", gzip(REPORT)), read("8.jsonl", pretty), read("9.json", "\uFEFF" + REPORT),
            read("10.csv", HEADER + ROW + "309667839\n"), read("11.csv.gz", gzip(HEADER + ROW + "309667839\n")),
            read("12.csv", (HEADER + ROW + "309667839\r\n").replace(',', ';')), read("13.csv", HEADER.replace("\n", "\r\n") + ROW + "309667839"),
            read("14.csv", ("\uFEFF" + HEADER + ROW + "309667839\n").getBytes(StandardCharsets.UTF_16LE)))) {
            assertThat(one(outcome).health().bytesWritten()).isEqualTo("158549933568000");
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        empty.json          |                         | file-empty: an empty file
        words.json          | hello there             | file-format-unknown: text that begins "hello there"
        truncated.json      | {"schemaVersion":"1.0", | broken-json: broken JSON at line 1, column 24: the text ends too soon; a closing bracket or a value is expected
        number.json         | [12]                    | broken-json: a JSON number
        nothing.json        | {}                      | field-missing: a record without any value
        """)
    void aFileThatGivesNothingIsRefusedOnceAndSaysWhy(String name, String content, String first) throws IOException {
        Outcome<Reading> outcome = read(name, content == null ? "" : content);
        assertThat(outcome.values()).isEmpty();
        Problem problem = outcome.problems().get(0);
        assertThat(problem.kind().id() + ": " + ProblemWords.of(problem).found()).isEqualTo(first);
        assertThat(outcome.problems()).filteredOn(p -> p.kind().effect() == org.wearledger.model.Effect.FILE_REFUSED).hasSize(1);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        1.58E+14        | one.csv, line 2: health.dataUnitsWritten is "1.58E+14", a number in scientific notation, as a spreadsheet writes long ones: its last digits are lost; expected an exact whole number below 2^128, digits only; set the column to text before pasting, and export again; the digits cannot be restored from here
        -5              | one.csv, line 2: health.dataUnitsWritten is "-5", below zero: an unsigned counter read as a signed one, or a slip; expected an exact whole number below 2^128, digits only; export it as an unsigned number, or leave the field out
        309.667.839     | one.csv, line 2: health.dataUnitsWritten is "309.667.839", digits in groups; expected an exact whole number below 2^128, digits only; export without separators between the digits
        340282366920938463463374607431768211456 | one.csv, line 2: health.dataUnitsWritten is "340282366920938463463374607431768211456"; expected an exact whole number below 2^128, digits only; export the exact number; a spreadsheet may have changed it
        """)
    void aCounterThatIsNoExactIntegerRefusesTheRecord(String counter, String sentence) throws IOException {
        assertThat(read("one.csv", HEADER + ROW + counter + "\n").problems()).first().extracting(problem -> ProblemWords.of(problem).sentence()).isEqualTo(sentence);
    }

    @Test
    void theLargestCounterOf128BitsIsExact() throws IOException {
        String most = "340282366920938463463374607431768211455";
        assertThat(one(read("one.csv", HEADER + ROW + most + "\n")).health().exact(HealthField.DATA_UNITS_WRITTEN)).isEqualTo(most);
        assertThat(one(read("one.json", REPORT.replace("309667839", most))).health().exact(HealthField.DATA_UNITS_WRITTEN)).isEqualTo(most);
        assertThat(read("two.json", REPORT.replace("309667839", "309667839.0")).values()).isEmpty();
    }

    @Test
    void aBrokenLineLeavesTheOthersStanding() throws IOException {
        Outcome<Reading> outcome = read("mixed.jsonl", REPORT + "\n{\"schemaVersion\":\n" + REPORT + "\n");
        assertThat(outcome.values()).extracting(r -> r.source().place()).containsExactly("line 1", "line 3");
        assertThat(outcome.problems()).extracting(p -> p.kind().id() + " " + p.source().place()).containsExactly("broken-json line 2");
    }

    @Test
    void whatStandsBeforeTheEndOfADamagedFileIsUsed() throws IOException {
        byte[] whole = gzip((REPORT + "\n").repeat(2000));
        Outcome<Reading> outcome = read("cut.jsonl.gz", java.util.Arrays.copyOf(whole, whole.length - 12));
        assertThat(outcome.values()).isNotEmpty();
        assertThat(outcome.problems()).extracting(p -> p.kind().id()).contains("broken-compression");
    }

    @ParameterizedTest(name = "the first {0} of 6 lines whole, then the gz is cut")
    @CsvSource({"0", "2", "5"})
    void aShortCutGzGivesEveryLineBeforeTheCut(int whole) throws IOException {
        // Lines that do not compress into each other, so that a cut stays within one.
        StringBuilder text = new StringBuilder();
        java.util.Random random = new java.util.Random(7);
        for (int i = 0; i < 6; i++) {
            byte[] tag = new byte[3_000];
            random.nextBytes(tag);
            text.append(REPORT.replace("LT-01\"", "LT-0" + i + "\",\"assetTag\":\"" + Base64.getEncoder().encodeToString(tag) + "\"")).append('\n');
        }
        byte[] all = gzip(text.toString());
        byte[] cut = java.util.Arrays.copyOf(all, all.length * (2 * whole + 1) / 12);
        Outcome<Reading> outcome = read("cut.jsonl.gz", cut);
        assertThat(outcome.values()).hasSize(whole);
        assertThat(outcome.problems()).first().extracting(p -> p.kind().id()).isEqualTo("broken-compression");
    }

    @Test
    void everyStepIsARecordAndTheLastIsTheFile() throws IOException {
        Path file = Files.writeString(folder.resolve("mixed.jsonl"), REPORT + "\n{\n" + REPORT.replace("percentageUsed", "percentUsed") + "\n");
        List<ReportReader.Item> items = new ArrayList<>();
        try (ReportReader reader = WholeFile.reader(new ReportFile(file.toString(), "mixed.jsonl"))) {
            reader.forEachRemaining(items::add);
        }
        assertThat(items).extracting(item -> item.outcome().values().size()).containsExactly(1, 0, 1, 0);
        assertThat(items).extracting(item -> item.summary() != null).containsExactly(false, false, false, true);
        assertThat(items.get(3).summary()).returns(3L, FileSummary::records).returns(2L, FileSummary::readings)
            .returns(java.util.Map.of("health.percentUsed", 1L), FileSummary::unknownFields);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        a field twice       | {"health":{"percentageUsed":1,"percentageUsed":2}} | broken JSON at line 1, column 47: the field 'percentageUsed' stands twice; each is expected once
        a dotted name too   | {"health":{"percentageUsed":1},"health.percentageUsed":2} | the field health.percentageUsed stands twice
        """)
    void aFieldThatStandsTwiceRefusesTheRecord(String name, String json, String found) throws IOException {
        assertThat(read("twice.jsonl", json).problems()).first().extracting(problem -> ProblemWords.of(problem).found()).isEqualTo(found);
    }

    @Test
    void anArrayIsNoNumber() throws IOException {
        assertThat(read("array.json", REPORT.replace("309667839", "[309667839]")).problems()).first().extracting(problem -> ProblemWords.of(problem).found())
            .isEqualTo("health.dataUnitsWritten is \"[309667839]\"");
    }

    @Test
    void anIdOfNulCharactersIsMissing() throws IOException {
        assertThat(read("nul.json", REPORT.replace("LT-01", "\\u0000\\u0000")).problems()).first().extracting(problem -> ProblemWords.of(problem).found())
            .isEqualTo("no machine.id");
    }

    @Test
    void bytesThatAreNoUtf8AreNotGuessed() throws IOException {
        byte[] latin = REPORT.replace("LT-01", "B\u00fcro 1").getBytes(StandardCharsets.ISO_8859_1);
        assertThat(read("latin.json", latin).problems()).first().extracting(problem -> ProblemWords.of(problem).found())
            .isEqualTo("bytes that are no UTF-8 in machine.id");
        byte[] site = REPORT.replace("\"LT-01\"", "\"LT-01\",\"site\":\"K\u00f6ln\"").getBytes(StandardCharsets.ISO_8859_1);
        Outcome<Reading> outcome = read("site.json", site);
        assertThat(outcome.values()).hasSize(1);
        assertThat(outcome.problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly("bytes that are no UTF-8 in machine.site");
    }

    @Test
    void aDamagedFirstLineOfALinesFileLeavesTheOthersStanding() throws IOException {
        Outcome<Reading> outcome = read("first.jsonl", "{\"schemaVersion\":\n" + REPORT + "\n");
        assertThat(outcome.values()).extracting(r -> r.source().place()).containsExactly("line 2");
    }

    @Test
    void aMissingColumnIsNamedOnce() throws IOException {
        Outcome<Reading> outcome = read("cut.csv", "machine.id,drive.model,collectedAt,schemaVersion\nA,B,C,1\nA,B,C,1\n");
        assertThat(outcome.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly("cut.csv, whole file: a CSV header without "
            + "drive.serial; it has machine.id, drive.model, collectedAt, schemaVersion; expected every required column; "
            + "see schemas/csv-columns.md");
    }

    @Test
    void whatIsMissingInARecordIsToldWithWhatItIsFor() throws IOException {
        assertThat(read("m.csv", HEADER + "1.0,2025-01-06T08:30:00Z,LT-01,,Kestrel K2,1000\n1.0,,,KX1,Kestrel K2,1000\n1.0,2025-01-06T08:30:00Z,LT-01,KX1,Kestrel K2,\n").problems())
            .extracting(problem -> ProblemWords.of(problem).sentence()).startsWith(
                "m.csv, line 2: no drive.serial; expected a value; without it a reading cannot be joined to a drive; add it to the export; see schemas/csv-columns.md",
                "m.csv, line 3: no collectedAt, machine.id; expected a value for each; without them a record is not used; add them to the export; see schemas/csv-columns.md",
                "m.csv, line 4: neither health nor healthLogPage; expected one of them; add what the drive reports to the export; see schemas/csv-columns.md");
    }

    /** In a wrong place or under a wrong name; an output of a sweep is none. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        item,currency,unitPrice,labour                       | the headings of a price list         | name it prices.csv at the top of the folder, or give it by --prices
        item;currency;unitPrice                              | the headings of a price list         | name it prices.csv at the top of the folder, or give it by --prices
        driveModel,nominalCapacity,ratedTerabytesWritten     | the headings of a table of ratings   | name it ratings.csv at the top of the folder, or give it by --ratings
        machineId,inServiceOn,room                           | the headings of an inventory         | name it inventory.csv at the top of the folder, or give it by --inventory
        machineId,site,standing                              | text that begins "machineId,site,standing" | if it is an export with other headings, run wearledger draft-mapping on its folder; see notebooks-free-docs/report-format.md
        """)
    void aSideTableAmongTheReportsIsKnown(String header, String found, String remedy) throws IOException {
        assertThat(read("price.csv", header + "\n1,2,3\n").problems()).singleElement().extracting(problem -> ProblemWords.of(problem).sentence())
            .isEqualTo("price.csv, whole file: " + found + "; expected JSON, or CSV with a header of dotted names; " + remedy);
    }

    @Test
    void aLineThatNamesTheSeparatorIsReadAndCounted() throws IOException {
        Outcome<Reading> outcome = read("s.csv", "sep=;\r\n" + HEADER.replace(',', ';') + ROW.replace(',', ';') + "1000\r\n");
        assertThat(outcome.problems()).isEmpty();
        assertThat(outcome.values()).extracting(r -> r.source().place()).containsExactly("line 3");
        assertThat(read("p.csv", "sep=|\n" + HEADER.replace(',', '|')).problems()).singleElement().extracting(problem -> ProblemWords.of(problem).sentence())
            .isEqualTo("p.csv, whole file: a line for spreadsheets that names an unusual separator; expected JSON, or CSV with a header of dotted names; export with commas, semicolons or tabs");
    }

    @Test
    void aMisspeltFieldAndAWrongEndingAreNoted() throws IOException {
        Outcome<Reading> outcome = read("x.csv", REPORT.replace("percentageUsed", "percentUsed"));
        assertThat(outcome.values()).hasSize(1);
        assertThat(outcome.problems()).extracting(p -> p.kind().id() + ": " + ProblemWords.of(p).found()).containsExactly(
            "format-differs-from-ending: JSON in a file that ends in .csv", "field-unknown: unknown field health.percentUsed in 1 record");
    }

    @Test
    void aShortOrEmptyLogPageIsRefused() throws IOException {
        String page511 = Base64.getEncoder().encodeToString(new byte[511]);
        String zeros = Base64.getEncoder().encodeToString(new byte[512]);
        assertThat(ProblemWords.of(read("p.json", BEFORE_HEALTH + "\"healthLogPage\":\"" + page511 + "\"}").problems().get(0)).found())
            .isEqualTo("healthLogPage of 511 bytes");
        assertThat(ProblemWords.of(read("p.json", BEFORE_HEALTH + "\"healthLogPage\":\"" + zeros + "\"}").problems().get(0)).found())
            .isEqualTo("every byte of healthLogPage is 00h");
    }

    @Test
    void filesAreFoundOnceAndTheRestIsNamed() throws IOException {
        Files.createDirectories(folder.resolve("q1"));
        for (String name : List.of("q1/a.json", "q1/b.CSV.gz", "q1/notes.txt", "ratings.csv", "q1/inventory.csv")) {
            Files.writeString(folder.resolve(name), "x");
        }
        String root = folder.toString();
        FoundFiles found = FoundFiles.find(List.of(root, root + "/q1/a.json", root + "/**/*.json"));
        assertThat(found.reports()).extracting(f -> f.name().substring(root.length() + 1)).containsExactly("q1/a.json", "q1/b.CSV.gz", "q1/inventory.csv");
        assertThat(found.sideTables()).containsOnlyKeys("ratings.csv");
        assertThat(found.passedOver()).containsExactly(root + "/q1/notes.txt");
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> FoundFiles.find(List.of(root + "/absent")))
            .isInstanceOf(InputMissingException.class).hasMessage("no such file or folder: " + root + "/absent");
    }
}
