package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.NoSuchElementException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.HealthField;
import org.wearledger.model.Outcome;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

/** Which records are refused and which fields are only noted, by one change to a good report each. */
class RecordRulesTest {
    private static final String REPORT = "{'schemaVersion':'1.0','collectedAt':'2025-01-06T09:30:00Z','machine':{'id':'LT-01','memoryBytes':8589934592},"
        + "'drive':{'serial':'KX1','model':'Kestrel K2','attachment':'soldered'},'health':{'percentageUsed':20,'compositeTemperatureKelvin':310,"
        + "'temperatureSensorsKelvin':[310,0,311]}}";

    @TempDir
    Path folder;

    private Outcome<Reading> read(String name, String json) throws IOException {
        return WholeFile.read(new ReportFile(Files.writeString(folder.resolve(name), json.replace('\'', '"')).toString(), name), FieldMapping.none());
    }

    @ParameterizedTest(name = "{1} for {0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        '1.0'                    | '2.0'                    | schema-version-unknown: schemaVersion 2.0; expected 1.0
        2025-01-06T09:30:00Z     | 2010-12-31T23:59:59Z     | field-invalid: collectedAt is "2010-12-31T23:59:59Z"; expected a time since 2011
        2025-01-06T09:30:00Z     | 2025-01-06 09:30         | field-invalid: collectedAt is "2025-01-06 09:30", a time without its offset from UTC; expected a time as in RFC 3339, such as 2025-01-06T09:30:00Z
        'percentageUsed':20      | 'percentageUsed':256     | field-invalid: health.percentageUsed is "256"; expected a whole number, 0 to 255
        'percentageUsed':20      | 'availableSparePercent':101 | field-invalid: health.availableSparePercent is "101"; expected a whole number, 0 to 100
        'health':                | 'helth':                 | field-missing: neither health nor healthLogPage; expected one of them
        'health':{               | 'healthLogPage':'AA!A','x':{ | log-page-invalid: healthLogPage is no base64: Illegal base64 character 21; expected base64 of the 512-byte log page
        """)
    void whatAVerdictRestsOnRefusesTheRecord(String good, String bad, String found) throws IOException {
        Outcome<Reading> outcome = read("r.json", REPORT.replace(good, bad));
        assertThat(outcome.values()).isEmpty();
        assertThat(outcome.problems()).filteredOn(p -> p.source().index() == 1).extracting(p -> p.kind().id() + ": " + ProblemWords.of(p).found() + "; expected " + ProblemWords.of(p).expected())
            .containsExactly(found);
    }

    @ParameterizedTest(name = "{1} for {0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        8589934592    | 8.5e9              | machine.memoryBytes is "8.5e9", a number in scientific notation, as a spreadsheet writes long ones: its last digits are lost; expected a whole number, 0 to 9223372036854775806
        8589934592    | 8                  | machine.memoryBytes is "8"; expected 64 MiB to 64 TiB, in bytes
        'LT-01',      | 'LT-01','inServiceOn':'1900-01-01', | machine.inServiceOn is "1900-01-01"; expected a date from 2011-01-01 to the report's
        'LT-01',      | 'LT-01','inServiceOn':'2077-01-01', | machine.inServiceOn is "2077-01-01"; expected a date from 2011-01-01 to the report's
        'KX1',        | 'KX1','capacityBytes':9000000000000000000, | drive.capacityBytes is "9000000000000000000"; expected a whole number, 0 to 1000000000000000
        'soldered'    | 'glued'            | drive.attachment is "glued"; expected soldered, socketed or unknown
        [310,0,311]   | [310,65536]        | health.temperatureSensorsKelvin is "310 65536"; expected up to eight whole numbers, 0 to 65535
        [310,0,311]   | [1,2,3,4,5,6,7,8,9] | health.temperatureSensorsKelvin is "1 2 3 4 5 6 7 8 9"; expected up to eight whole numbers, 0 to 65535
        [310,0,311]   | [[310]]            | health.temperatureSensorsKelvin is "[310]"; expected up to eight whole numbers, 0 to 65535
        'LT-01',      | 'LT-01','userSince':'6.1.2025', | machine.userSince is "6.1.2025", which is day 6 of month 1 or day 1 of month 6: both are dates and nothing says which is meant; expected a date such as 2025-01-06
        'LT-01',      | 'LT-01','inServiceOn':'6.1.2025', | machine.inServiceOn is "6.1.2025", which is day 6 of month 1 or day 1 of month 6: both are dates and nothing says which is meant; expected a date such as 2025-01-06
        """)
    void theRestIsNotedAndTakenAsNotReported(String good, String bad, String found) throws IOException {
        Outcome<Reading> outcome = read("r.json", REPORT.replace(good, bad));
        assertThat(outcome.values()).hasSize(1);
        assertThat(outcome.problems()).extracting(p -> p.kind().id() + ": " + ProblemWords.of(p).found() + "; expected " + ProblemWords.of(p).expected())
            .containsExactly("optional-field-invalid: " + found);
    }

    /** 0 kelvin and sensors of 0 at the end are the specification's "not reported"; one between two others stays, for the order. */
    @ParameterizedTest(name = "{0} K, sensors {1}: {2} K, sensors {3}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        310 | 310,0,311             | 310 | 310 0 311
        311 | 310,0,0               | 311 | 310
        0   | 0,0                   | -   | ''
        310 | 301,302,303,304,305,306,307,308 | 310 | 301 302 303 304 305 306 307 308
        """)
    void zeroIsNotReported(int kelvin, String sensors, Long reported, String kept) throws IOException {
        Reading reading = read("r.json", REPORT.replace("310,0,311", sensors).replace("Kelvin':310", "Kelvin':" + kelvin)).values().get(0);
        assertThat(reading.health().get(HealthField.COMPOSITE_TEMPERATURE)).isEqualTo(reported);
        assertThat(String.join(" ", reading.health().temperatureSensorsKelvin().stream().map(String::valueOf).toList())).isEqualTo(kept);
        assertThat(reading.drive().attachment()).isEqualTo(Attachment.SOLDERED);
        assertThat(read("s.json", REPORT.replace("soldered", "Socketed")).values().get(0).drive().attachment()).isEqualTo(Attachment.SOCKETED);
        assertThat(read("u.json", REPORT.replace(",'attachment':'soldered'", "")).values().get(0).drive().attachment()).isEqualTo(Attachment.UNKNOWN);
    }

    @Test
    void aPageBesideFieldsIsUsedAndAReservedValueRefusesIt() throws IOException {
        byte[] page = new byte[512];
        // 310 K, little-endian in bytes 1 and 2.
        page[1] = 0x36;
        page[2] = 0x01;
        page[3] = 100;
        page[5] = 21;
        String both = REPORT.replace("'health':", "'healthLogPage':'" + Base64.getEncoder().encodeToString(page) + "','health':");
        assertThat(read("b.json", both).values()).singleElement().extracting(r -> r.health().percentageUsed()).isEqualTo(21);
        assertThat(read("b.json", both).problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly("both health and healthLogPage");
        page[3] = 101;
        String reserved = REPORT.replaceFirst("'health':\\{.*}}", "'healthLogPage':'" + Base64.getEncoder().encodeToString(page) + "'}");
        assertThat(ProblemWords.of(read("c.json", reserved).problems().get(0)).sentence()).isEqualTo("c.json, line 1: available spare of 101 %; expected 0 to 100; read the page "
            + "again; this value is reserved by the specification");
        assertThat(ProblemWords.of(read("d.json", reserved.replaceFirst("'healthLogPage':'.*'", "'healthLogPage':' '")).problems().get(0)).found()).as("blank is not reported")
            .isEqualTo("neither health nor healthLogPage");
    }

    /** A quotation of at most a hundred characters, whatever was in the field. */
    @Test
    void longValuesAreQuotedInPart() throws IOException {
        String hundred = "x".repeat(100);
        assertThat(ProblemWords.of(read("r.json", REPORT.replace("soldered", hundred)).problems().get(0)).found()).isEqualTo("drive.attachment is \"" + hundred + "\"");
        assertThat(ProblemWords.of(read("r.json", REPORT.replace("soldered", hundred + "y")).problems().get(0)).found()).isEqualTo("drive.attachment is \"" + hundred + "...\"");
    }

    @Test
    void recordsAreNumberedAsTheyStand() throws IOException {
        Outcome<Reading> outcome = read("r.json", "[" + REPORT + "," + REPORT.replace("'LT-01'", "''") + ",7," + REPORT + "]");
        assertThat(outcome.values()).extracting(r -> r.source().place()).containsExactly("record 1", "record 4");
        assertThat(outcome.problems()).extracting(p -> p.source().place() + ": " + ProblemWords.of(p).found()).containsExactly("record 2: no machine.id", "record 3: a JSON number");
    }

    @Test
    void aFieldTwiceDeepDownRefusesItsRecord() throws IOException {
        assertThat(ProblemWords.of(read("r.json", REPORT.replace("'health':{", "'machine.id':'LT-02','drive.model':'M','health':{")).problems().get(0)).found())
            .isIn("the field drive.model stands twice", "the field machine.id stands twice");
        assertThat(ProblemWords.of(read("s.json", REPORT.replace("'health':{", "'a':{'b':{'c':1},'b.c':2},'health':{")).problems().get(0)).found()).isEqualTo("the field a.b.c stands twice");
    }

    /** A row with a cell too many or too few, and a quote left open, spoil no other row. */
    @Test
    void rowsOfTheWrongLengthAreRefusedAlone() throws IOException {
        String header = "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed\n";
        String row = "1.0,2025-01-06T08:30:00Z,LT-01,KX1,Kestrel K2,";
        Outcome<Reading> outcome = read("r.csv", header + row + "7,8\n" + row + "9\n" + row.substring(0, 30) + "\n" + row + "10\n\"" + row + "11\n");
        assertThat(outcome.values()).extracting(r -> r.health().percentageUsed()).containsExactly(9, 10);
        assertThat(outcome.problems()).extracting(p -> p.kind().id() + ": " + ProblemWords.of(p).found()).hasSize(3)
            .startsWith("broken-csv: a row of 7 cells", "broken-csv: a row of 3 cells").last().asString().startsWith("broken-csv: broken CSV: ");
    }

    @Test
    void aCsvByAnotherNameIsReadAndNoted() throws IOException {
        Outcome<Reading> outcome = read("r.JSON", "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed\n"
            + "1.0,2025-01-06T08:30:00Z,LT-01,KX1,Kestrel K2,7\n");
        assertThat(outcome.values()).hasSize(1);
        assertThat(outcome.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "r.JSON, whole file: CSV in a file that ends in json; expected the ending of its format; read as CSV; rename the file");
    }

    @Test
    void aLinesFileMayBeginWithALineThatIsNoJson() throws IOException {
        Outcome<Reading> outcome = read("r.ndjson", "exported by hand\n" + REPORT + "\n");
        assertThat(outcome.values()).hasSize(1);
        assertThat(outcome.problems()).singleElement().extracting(p -> p.source().place()).isEqualTo("line 1");
    }

    @Test
    void objectsOnOneLineEachNeedNoEndingToBeToldApart() throws IOException {
        assertThat(read("r.json", REPORT + "\n{broken\n" + REPORT + "\n").values()).extracting(r -> r.source().place()).containsExactly("line 1", "line 3");
        assertThat(read("s.json", REPORT.replace(",", ",\n") + "\n" + REPORT.replace(",", ",\n")).values()).extracting(r -> r.source().place())
            .containsExactly("record 1", "record 2");
    }

    @Test
    void aFileThatIsNotThereIsRefusedAndNothingComesAfterTheEnd() throws IOException {
        try (ReportReader reader = WholeFile.reader(new ReportFile(folder.resolve("absent.json").toString(), "absent.json"))) {
            assertThat(List.of(reader.next().summary().problems(FieldMapping.none()).get(0).kind().id(), reader.hasNext())).containsExactly("file-unreadable", false);
            assertThatThrownBy(reader::next).isInstanceOf(NoSuchElementException.class).hasMessage("absent.json");
        }
    }

    /** Half a surrogate pair, as the escape {@code \\ud800} leaves it or a quotation cut within a pair, cannot be written as UTF-8. */
    @Test
    void halfACharacterIsNone() throws IOException {
        String half = "\\ud800";
        assertThat(ProblemWords.of(read("a.json", REPORT.replace("KX1", "KX" + half)).problems().get(0)).found()).isEqualTo("bytes that are no UTF-8 in drive.serial");
        Outcome<Reading> site = read("b.json", REPORT.replace("'LT-01'", "'LT-01','site':'K" + half + "ln'"));
        assertThat(site.values()).extracting(r -> r.machine().site()).containsExactly("K\uFFFDln");
        assertThat(site.problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly("bytes that are no UTF-8 in machine.site");
        assertThat(read("c.json", REPORT.replace("'LT-01'", "'LT-01','s" + half + "':1")).problems()).extracting(problem -> ProblemWords.of(problem).found())
            .containsExactly("unknown field machine.s\uFFFD in 1 record");
        assertThat(ProblemWords.of(read("d.json", REPORT.replace("soldered", "x" + "\uD83D\uDE00".repeat(60))).problems().get(0)).found())
            .isEqualTo("drive.attachment is \"x" + "\uD83D\uDE00".repeat(49) + "\uFFFD...\"");
    }
}
