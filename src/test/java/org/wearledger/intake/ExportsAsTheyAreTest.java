package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.model.Outcome;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

/** Made-up exports as programs write them: in encodings of all kinds, with a heading twice, with records inside of objects. */
class ExportsAsTheyAreTest {
    private static final String GERMAN = "{\"encoding\": \"ENCODING\", \"fields\": {\"machine.id\": \"Ger\u00e4t\", \"collectedAt\": \"Stand\", \"drive.serial\": \"Nummer\", \"drive.model\": \"Platte\", "
        + "\"drive.capacityBytes\": {\"from\": \"Gr\u00f6\u00dfe\", \"unit\": \"GB\"}, \"health.percentageUsed\": \"Verbraucht\"}}";
    private static final String GERMAN_ROWS = "Ger\u00e4t;Stand;Nummer;Platte;Gr\u00f6\u00dfe;Verbraucht\nB\u00fcro-7;2025-01-06T08:30:00Z;KX1;Kestrel K2;256;20\n";
    private static final String HEALTH = "\"drive.model\": \"/model\", \"drive.serial\": \"/serial\", \"health.percentageUsed\": \"/used\"";

    @TempDir
    Path folder;

    private Outcome<Reading> read(String name, byte[] content, String mapping) throws IOException {
        Path file = Files.write(folder.resolve(name), content);
        return WholeFile.read(new ReportFile(file.toString(), name), mapping == null ? FieldMapping.none() : FieldMapping.load(Files.writeString(folder.resolve("m.js"), mapping)));
    }

    private Outcome<Reading> read(String name, String content, String mapping) throws IOException {
        return read(name, content.getBytes(StandardCharsets.UTF_8), mapping);
    }

    private static List<String> sentences(Outcome<Reading> outcome) {
        return outcome.problems().stream().map(problem -> ProblemWords.of(problem).sentence()).toList();
    }

    private static List<String> drives(Outcome<Reading> outcome) {
        return outcome.values().stream().map(reading -> reading.machine().id() + " " + reading.drive().serial() + " " + reading.machine().site()).toList();
    }

    @ParameterizedTest
    @ValueSource(strings = {"windows-1252", "ISO-8859-15", "IBM850", "UTF-16LE", "UTF-8"})
    void anEncodingIsReadThatTheMappingNames(String encoding) throws IOException {
        Outcome<Reading> read = read("export.csv", GERMAN_ROWS.getBytes(Charset.forName(encoding)), GERMAN.replace("ENCODING", encoding));
        assertThat(read.problems()).isEmpty();
        assertThat(read.values()).singleElement().satisfies(reading -> {
            assertThat(reading.machine().id()).isEqualTo("B\u00fcro-7");
            assertThat(reading.drive().capacityBytes()).isEqualTo(256_000_000_000L);
        });
        // A byte order mark says more than the mapping.
        assertThat(read("marked.csv", ("\uFEFF" + GERMAN_ROWS).getBytes(StandardCharsets.UTF_16LE), GERMAN.replace("ENCODING", encoding)).values()).hasSize(1);
    }

    /** The wrong one is named in the mapping: then its headings are not found, and in the right one they are. */
    @ParameterizedTest
    @CsvSource({"IBM850, windows-1252", "UTF-16, windows-1252", "UTF-16LE, IBM850", "windows-1252, IBM850"})
    void theEncodingIsNamedInWhichTheHeadingsAreThere(String said, String right) throws IOException {
        Outcome<Reading> read = read("export.csv", GERMAN_ROWS.getBytes(Charset.forName(right)), GERMAN.replace("ENCODING", said));
        assertThat(read.problems()).singleElement().satisfies(problem -> assertThat(ProblemWords.of(problem).remedy())
            .isEqualTo("write \"encoding\": \"" + right + "\" into the mapping: then its headings are found"));
    }

    /** One export of many may be in UTF-8 whatever the mapping says of them; the beginning of a long one ends anywhere within a letter. */
    @ParameterizedTest
    @ValueSource(ints = {0, 1})
    void aFileInUtf8IsReadAsSuchUnderAMappingForOneByteALetter(int cut) throws IOException {
        String row = GERMAN_ROWS.lines().skip(1).findFirst().orElseThrow().replace("KX1", "KX1" + "x".repeat(cut)) + "\n";
        int least = 1 << 16;
        String text = GERMAN_ROWS + "\u00fc".repeat(least) + row.substring(row.indexOf(';'));
        assertThat(read("a.csv", text, GERMAN.replace("ENCODING", "windows-1252")).values()).extracting(reading -> reading.machine().id()).startsWith("B\u00fcro-7");
        String padded = "x".repeat(cut) + "\u00fc".repeat(least);
        Files.writeString(folder.resolve("b.csv"), padded);
        try (ReportText opened = ReportText.open(ReportPart.whole(ReportFile.of(folder.resolve("b.csv"))), StandardCharsets.UTF_8)) {
            assertThat(opened.likelyEncoding()).isNull();
            assertThat(opened.head()).doesNotContain("\uFFFD");
        }
    }

    @Test
    void jsonIsReadInItsEncodingToo() throws IOException {
        String mapping = "{\"encoding\": \"windows-1252\", \"fields\": {\"collectedAt\": \"/at\", \"machine.id\": \"/host\", " + HEALTH + "}}";
        String one = "{\"at\": \"2025-01-06T08:30:00Z\", \"host\": \"B\u00fcro\", \"serial\": \"KX1\", \"model\": \"Kestrel K2\", \"used\": 7}\n";
        for (String name : List.of("a.jsonl", "a.json")) {
            assertThat(read(name, one.repeat(2).getBytes(Charset.forName("windows-1252")), mapping).values()).extracting(reading -> reading.machine().id()).containsExactly("B\u00fcro", "B\u00fcro");
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        windows-1252 | it looks like windows-1252: say "encoding": "windows-1252" in a mapping, or export as UTF-8
        IBM850       | it looks like IBM850: say "encoding": "IBM850" in a mapping, or export as UTF-8
        """)
    void bytesThatAreNoUtf8AreToldWithWhatTheyLookLike(String encoding, String remedy) throws IOException {
        assertThat(sentences(read("export.csv", GERMAN_ROWS.getBytes(Charset.forName(encoding)), GERMAN.replace("\"encoding\": \"ENCODING\", ", "")))).containsExactly(
            "export.csv, whole file: a CSV header with bytes that are no UTF-8, and so without machine.id (from \"Ger\u00e4t\"); expected text in UTF-8, or UTF-16 with a byte order mark; " + remedy);
        assertThat(sentences(read("export.csv", GERMAN_ROWS.getBytes(Charset.forName(encoding)), null))).singleElement().asString()
            .endsWith("; if it is an export with other headings, run wearledger draft-mapping on its folder; it looks like " + encoding + ": say \"encoding\": \"" + encoding
                + "\" in its mapping; see notebooks-free-docs/report-format.md");
        String report = "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed\n1.0,2025-01-06T08:30:00Z,B\u00fcro,KX1,Kestrel K2,7\n";
        assertThat(sentences(read("report.csv", report.getBytes(Charset.forName(encoding)), null)))
            .contains("report.csv, line 2: bytes that are no UTF-8 in machine.id; expected text in UTF-8, or UTF-16 with a byte order mark; " + remedy);
    }

    /** Words in Cyrillic stand in bytes above ASCII from end to end; those of many other encodings do so too, and nothing tells them apart. */
    @ParameterizedTest(name = "{1} in {0}")
    @CsvSource({"windows-1252, B\u00fcro Gr\u00f6\u00dfe, windows-1252", "ISO-8859-15, G\u00e9n\u00e9ral, windows-1252", "IBM850, B\u00fcro Gr\u00f6\u00dfe, IBM850",
        "windows-1251, \u0421\u043a\u043b\u0430\u0434, windows-1251", "Shift_JIS, \u7d4c\u7406\u90e8\u9580, ", "UTF-8, plain, ", "windows-1252, B\u00fc\u0001ro, "})
    void whatBytesLookLike(String encoding, String text, String likely) {
        assertThat(Encodings.likely(text.getBytes(Charset.forName(encoding)))).isEqualTo(likely);
    }

    @Test
    void twoColumnsOfOneNameAreReadWhereTheyAgreeOrNothingIsReadFromThem() throws IOException {
        String mapping = "{\"fields\": {\"collectedAt\": \"At\", \"machine.id\": \"PC\", \"drive.serial\": \"Serial\", \"drive.model\": \"Disk\", \"health.percentageUsed\": \"Used\"}}";
        Outcome<Reading> read = read("a.csv", """
            PC,At,Serial,Disk,Used,Remark,Serial,Remark
            PC-1,2025-01-06T08:30:00Z,KX1,Kestrel K2,1,a,KX1,b
            PC-2,2025-01-06T08:30:00Z,KX2,Kestrel K2,2,a,KX3,b
            PC-3,2025-01-06T08:30:00Z,KX4,Kestrel K2,3,a,,b
            PC-4,2025-01-06T08:30:00Z,,Kestrel K2,4,a,KX5,b
            """, mapping);
        assertThat(drives(read)).containsExactly("PC-1 KX1 null", "PC-3 KX4 null", "PC-4 KX5 null");
        assertThat(sentences(read)).containsExactly("a.csv, line 3: the column \"Serial\" stands twice, and its cells differ here; expected one column of that name, or the same in both; "
            + "rename or delete one of the two in the export");
    }

    /** Wherever the fields around the records stand, and however deep the records. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        /devices      | {"site":"North","devices":[{"pc":"A","serial":"1"},{"pc":"B","serial":"2"}]}                                       | A 1 North, B 2 North
        /devices      | {"devices":[{"pc":"A","serial":"1"},{"pc":"B","serial":"2"}],"site":"North"}                                       | A 1 North, B 2 North
        /data/devices | {"data":{"devices":[{"pc":"A","serial":"1"}]},"site":"North"}                                                      | A 1 North
        /disks        | [{"pc":"A","disks":[{"serial":"1"},{"serial":"2"}],"site":"N"},{"pc":"B","site":"S","disks":[{"serial":"3"}]}]      | A 1 N, A 2 N, B 3 S
        /disks        | {"pc":"A","disks":[{"serial":"1"}],"site":"N"} {"pc":"B","disks":{"serial":"2"}}                                   | A 1 N, B 2 null
        /data/disks   | {"site":"N","data":[{"pc":"A","disks":[{"serial":"1"}]},{"disks":[{"serial":"2"},{"serial":"3"}],"pc":"B"}]}        | A 1 N, B 2 N, B 3 N
        /data/disks   | {"data":[{"pc":"A","disks":[{"serial":"1"}]},{"disks":[{"serial":"2"}],"pc":"B"}],"site":"N"}                       | A 1 N, B 2 N
        /disks        | [{"pc":"A","disks":[{"serial":"1","site":"inner"}],"site":"outer"}]                                                | A 1 inner
        """)
    void recordsInsideOfObjects(String records, String json, String expected) throws IOException {
        String mapping = "{\"records\": \"" + records + "\", \"constants\": {\"collectedAt\": \"2025-01-06T08:30:00Z\", \"drive.model\": \"Kestrel K2\", \"health.percentageUsed\": 7}, "
            + "\"fields\": {\"machine.id\": \"/pc\", \"machine.site\": \"/site\", \"drive.serial\": \"/serial\"}}";
        for (String name : List.of("a.json", "a.jsonl")) {
            Outcome<Reading> read = read(name, json, mapping);
            assertThat(sentences(read)).isEmpty();
            assertThat(String.join(", ", drives(read))).isEqualTo(expected);
        }
    }

    @Test
    void ofTwoFieldsOfOneNameTheOuterIsReachedByDots() throws IOException {
        Outcome<Reading> read = read("a.json", "{\"name\": \"North\", \"pcs\": [{\"disks\": [{\"name\": \"KX1\"}, {\"name\": \"KX2\"}], \"name\": \"A\"}]}", """
            {"records": "/pcs/disks", "constants": {"collectedAt": "2025-01-06T08:30:00Z", "drive.model": "Kestrel K2", "health.percentageUsed": 7},
             "fields": {"machine.site": "/../../name", "machine.id": "/../name", "drive.serial": "/name"}}
            """);
        assertThat(drives(read)).containsExactly("A KX1 North", "A KX2 North");
        // Without the dots the nearer counts, wherever it stands.
        assertThat(drives(read("b.json", "{\"name\": \"North\", \"pcs\": [{\"disks\": [{\"sn\": \"KX1\"}], \"name\": \"A\"}, {\"disks\": [{\"sn\": \"KX2\"}]}]}", """
            {"records": "/pcs/disks", "constants": {"collectedAt": "2025-01-06T08:30:00Z", "drive.model": "Kestrel K2", "health.percentageUsed": 7},
             "fields": {"machine.id": "/name", "drive.serial": "/sn"}}
            """))).containsExactly("A KX1 null", "North KX2 null");
    }

    @Test
    void elementsOfArraysAreReachedByTheirNumber() throws IOException {
        String mapping = """
            {"constants": {"collectedAt": "2025-01-06T08:30:00Z", "health.percentageUsed": 7},
             "fields": {"machine.id": "/names/1", "drive.serial": "/disks/0/serial", "drive.model": "/disks/0/kinds/0/model"}}
            """;
        String json = "{\"names\": [\"x\", \"A\"], \"disks\": [{\"serial\": \"KX1\", \"kinds\": [{\"model\": \"Kestrel K2\"}]}, {\"serial\": \"KX2\"}]}";
        for (String text : List.of(json, "[" + json + "]")) {
            assertThat(drives(read("a.json", text, mapping))).containsExactly("A KX1 null");
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        {"devices":[{"pc":"A"},{"pc":"B"}]}                       | /devices                    | /devices
        {"meta":[{"v":1}],"data":{"devices":[{"a":1},{"a":2}]}}   | /data/devices or /meta      | /data/devices
        [{"pc":"A","disks":[{"s":1}]},{"pc":"B","disks":[{}]}]    | /disks                      | /disks
        {"devices":[{"pc":"A","disks":[{"s":1}]}]}                | /devices/disks or /devices  | /devices/disks
        """)
    void anUnmappedFileIsToldWhereItsRecordsSeemToLie(String json, String places, String first) throws IOException {
        assertThat(sentences(read("a.json", json, null))).contains("a.json, whole file: records seem to lie in " + places + "; expected a report in each outermost object; run wearledger draft-mapping on its folder, or write \"records\": \""
            + first + "\" into a mapping");
        assertThat(sentences(read("b.json", json.replace("}]", "},{\"t\":\"" + "x".repeat(1 << 20) + "\"}]"), null))).anyMatch(sentence -> sentence.contains("records seem to lie in "));
    }

    @Test
    void whatIsNoRecordInThereIsTold() throws IOException {
        String mapping = "{\"records\": \"/devices\", \"constants\": {\"collectedAt\": \"2025-01-06T08:30:00Z\", \"machine.id\": \"A\", \"drive.model\": \"Kestrel K2\", \"health.percentageUsed\": 7}, "
            + "\"fields\": {\"drive.serial\": \"/serial\"}}";
        Outcome<Reading> read = read("a.json", "[{\"other\": 1}, {\"devices\": null}, {\"devices\": []}, {\"devices\": [7, {\"serial\": \"KX1\"}, {\"serial\": \"KX2\"]}]", mapping);
        assertThat(drives(read)).containsExactly("A KX1 null");
        assertThat(sentences(read)).satisfiesExactly(
            first -> assertThat(first).isEqualTo("a.json, record 1: nothing stands at /devices; expected records there; correct \"records\" in the mapping, or leave this object out"),
            second -> assertThat(second).startsWith("a.json, record 2: nothing stands at /devices"),
            third -> assertThat(third).startsWith("a.json, record 3: a JSON number"),
            fourth -> assertThat(fourth).startsWith("a.json, record 5: broken JSON at line 1, column 1"),
            last -> assertThat(last).startsWith("a.json, whole file: "));
    }

    /** As in a plain record: which of the two counts is not guessed at. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        {"a":{"b":1},"a.b":2,"devices":[{"serial":"KX1"},{"serial":"KX2"}]} {"devices":[{"serial":"KX3"}]}                  | 1 2 | A KX3 null
        {"devices":[{"serial":"KX1"},{"serial":"KX2"}],"a":{"b":1},"a.b":2} {"devices":[{"serial":"KX3"}]}                  | 3   | A KX1 null, A KX2 null, A KX3 null
        """)
    void aFieldTwiceAroundRecordsRefusesThem(String json, String refused, String read) throws IOException {
        String mapping = "{\"records\": \"/devices\", \"constants\": {\"collectedAt\": \"2025-01-06T08:30:00Z\", \"machine.id\": \"A\", \"drive.model\": \"Kestrel K2\", \"health.percentageUsed\": 7}, "
            + "\"fields\": {\"drive.serial\": \"/serial\"}}";
        Outcome<Reading> outcome = read("a.json", json, mapping);
        assertThat(String.join(", ", drives(outcome))).isEqualTo(read);
        for (String record : refused.split(" ")) {
            assertThat(sentences(outcome)).anyMatch(sentence -> sentence.startsWith("a.json, record " + record + ": ") && sentence.contains("a.b"));
        }
    }

    /** Many values around records fill the memory as one long one does. */
    @Test
    void theValuesAroundRecordsAreBoundedTogether() throws IOException {
        StringBuilder json = new StringBuilder("{");
        for (int i = 0; i < 12; i++) {
            json.append("\"f").append(i).append("\": \"").append("x".repeat(100_000)).append("\", ");
        }
        String mapping = "{\"records\": \"/devices\", \"constants\": {\"collectedAt\": \"2025-01-06T08:30:00Z\", \"machine.id\": \"A\", \"drive.model\": \"Kestrel K2\", \"health.percentageUsed\": 7}, "
            + "\"fields\": {\"drive.serial\": \"/serial\"}}";
        assertThat(sentences(read("a.json", json + "\"devices\": [{\"serial\": \"KX1\"}]}", mapping))).anyMatch(sentence -> sentence.contains("more than 1048576 characters in one report"));
    }

    /** Records are many, and what stands behind them cannot be waited for: they are read without it, and a problem says so. */
    @Test
    void aFieldBehindVeryManyRecordsIsTold() throws IOException {
        StringBuilder json = new StringBuilder("{\"devices\": [");
        for (int i = 0; i < 6_000; i++) {
            json.append(i == 0 ? "" : ",").append("{\"serial\": \"KX").append(i).append("\", \"remark\": \"").append("x".repeat(1_000)).append("\"}");
        }
        String mapping = "{\"records\": \"/devices\", \"constants\": {\"collectedAt\": \"2025-01-06T08:30:00Z\", \"machine.id\": \"A\", \"drive.model\": \"Kestrel K2\", \"health.percentageUsed\": 7}, "
            + "\"fields\": {\"drive.serial\": \"/serial\", \"machine.site\": \"/site\"}}";
        Outcome<Reading> read = read("a.json", json + "], \"site\": \"North\"}", mapping);
        assertThat(read.values()).hasSize(6_000).extracting(reading -> reading.machine().site()).containsOnlyNulls();
        assertThat(sentences(read)).contains("a.json, record 6001: \"site\" stands behind more records than can wait for it; expected it before the records; "
            + "give its value under \"constants\" of the mapping, or export it first; the records are read without it");
    }
}
