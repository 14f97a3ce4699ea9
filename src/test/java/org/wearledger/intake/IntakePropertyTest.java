package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;
import org.wearledger.model.Effect;
import org.wearledger.model.HealthField;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.report.ProblemWords;

/**
 * Good files with faults in them, by the thousand: whatever comes, nothing is thrown but what is documented, and nothing is
 * dropped silently. {@code mvn -Dtries=100000 -Dtest=IntakePropertyTest test} tries harder.
 */
class IntakePropertyTest {
    private static final String OBJECT = "{\"schemaVersion\":\"1.0\",\"collectedAt\":\"2025-01-06T09:30:00+01:00\",\"machine\":{\"id\":\"LT-01\",\"memoryBytes\":8589934592,"
        + "\"inServiceOn\":\"2022-01-06\"},\"drive\":{\"serial\":\"KX1\",\"model\":\"Kestrel K2\",\"capacityBytes\":256060514304,\"attachment\":\"soldered\"},"
        + "\"health\":{\"percentageUsed\":20,\"dataUnitsWritten\":309667839,\"temperatureSensorsKelvin\":[310,0,311]}}";
    private static final String PAGE = "{\"schemaVersion\":\"1.0\",\"collectedAt\":\"2025-01-06T09:30:00Z\",\"machine\":{\"id\":\"LT-01\"},\"drive\":{\"serial\":\"KX1\","
        + "\"model\":\"Kestrel K2\"},\"healthLogPage\":\"" + page() + "\"}";
    private static final String CSV = "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed,health.temperatureSensorsKelvin\n"
        + "1.0,2025-01-06T08:30:00Z,LT-01,KX1,Kestrel K2,20,310 311\n1.0,2025-04-07T08:30:00Z,\"LT-02\",KX2,\"Kestrel \"\"K2\"\"\",21,\n";
    private static final String EXPORT = "Computer;Read on;RAM GB;Disk;Disk no.;Size;Host writes;Wear %;Temp\nPC-7;06.01.2025 09:30;8;Ondrel E3;ON1;256;278,5;20;40\n";
    private static final String MAPPING = "{\"fields\":{\"collectedAt\":{\"from\":\"Read on\",\"format\":\"dd.MM.yyyy HH:mm\",\"zone\":\"Europe/Berlin\"},\"machine.id\":\"Computer\","
        + "\"machine.memoryBytes\":{\"from\":\"RAM GB\",\"unit\":\"GiB\"},\"drive.serial\":\"Disk no.\",\"drive.model\":\"Disk\",\"drive.capacityBytes\":{\"from\":\"Size\","
        + "\"unit\":\"GB\"},\"health.dataUnitsWritten\":{\"from\":\"Host writes\",\"unit\":\"TB\"},\"health.percentageUsed\":\"Wear %\",\"health.compositeTemperatureKelvin\":"
        + "{\"from\":\"Temp\",\"unit\":\"celsius\"}},\"constants\":{\"machine.site\":\"North\"},\"decimal\":\",\"}";
    private static final Map<String, String> REPORTS = Map.of("a.json", OBJECT, "b.json", "[" + OBJECT + ",\n" + PAGE + "]", "c.jsonl", OBJECT + "\n" + PAGE + "\n" + OBJECT,
        "d.csv", CSV, "e.csv", CSV.replace(',', ';'), "f.json.gz", OBJECT, "g.csv", "\uFEFF" + CSV, "h.json", OBJECT.replace(",", ",\n") + OBJECT, "i.json", PAGE,
        "j.ndjson", PAGE);
    private static final Map<String, String> SIDE_TABLES = Map.of("ratings", "driveModel,nominalCapacityGigabytes,ratedTerabytesWritten,warrantyYears,source,sourceDate\n"
        + "Kestrel K2,500,300,5,data sheet,2024-03-01\nMerlin M1,\"256,1\",80,,data sheet,\nMERLIN M1,\"256,1\",81,,data sheet,\n", "inventory",
        "machineId,site,costCentre,inServiceOn,warrantyEndsOn,memoryBytes,attachment\nLT-1,North,410,2022-01-06,2025-06-30,8589934592,soldered\nLT-2,,,,,,\nlt-2,,,,,,\n", "prices",
        "item,currency,unitPrice,labour,disposalFee,supplier,priceDate\ndrive 256 GB,EUR,39,45.005,,Invented,2024-12-02\nboard,EUR,410,,3.50,,\nboard,eur,420,,,,\n");
    private static final String MACHINES = "machineId,site,driveSerial,machineStanding,gigabytesPerDay,memoryGibibytes,lastSeenOn,reportedThisSweep\n"
        + "LT-1,North,KX1,past rating,12.5,8.0,2024-10-07,yes\nLT-2,,,no verdict,,,,no\n";

    private static Path folder;
    private static FieldMapping mapping;

    @BeforeContainer
    static void folder() throws IOException {
        folder = Files.createTempDirectory("intake");
        mapping = FieldMapping.load(Files.writeString(folder.resolve("good-mapping.json"), MAPPING));
    }

    @AfterContainer
    static void clean() throws IOException {
        org.apache.commons.io.FileUtils.deleteDirectory(folder.toFile());
    }

    private static String page() {
        byte[] page = new byte[512];
        page[1] = 0x36;
        page[2] = 1;
        page[3] = 100;
        page[48] = 77;
        return Base64.getEncoder().encodeToString(page);
    }

    @Provide
    Arbitrary<List<Mutation>> mutations() {
        return Mutation.some();
    }

    @Provide
    Arbitrary<String> reports() {
        return Arbitraries.of(REPORTS.keySet().stream().sorted().toList());
    }

    @Provide
    Arbitrary<String> sideTables() {
        return Arbitraries.of("ratings", "inventory", "prices");
    }

    @Property
    void everyReportFileIsReadOrRefusedAndEachRecordIsAReadingOrAProblem(@ForAll("reports") String name, @ForAll("mutations") List<Mutation> mutations)
        throws IOException {
        byte[] text = Mutation.apply(mutations, REPORTS.get(name).getBytes(StandardCharsets.UTF_8));
        sumsHold(read(name, name.endsWith(".gz") ? gzip(text) : text, FieldMapping.none()));
    }

    /** The compressed bytes themselves are damaged. */
    @Property
    void soIsADamagedCompressedFile(@ForAll("mutations") List<Mutation> mutations) throws IOException {
        sumsHold(read("a.jsonl.gz", Mutation.apply(mutations, gzip((OBJECT + "\n" + PAGE).getBytes(StandardCharsets.UTF_8))), FieldMapping.none()));
    }

    @Property
    void soIsAFileInUtf16(@ForAll("mutations") List<Mutation> mutations) throws IOException {
        sumsHold(read("a.csv", Mutation.apply(mutations, ("\uFEFF" + CSV).getBytes(StandardCharsets.UTF_16LE)), FieldMapping.none()));
    }

    @Property
    void soIsAnExportByAMapping(@ForAll("mutations") List<Mutation> mutations) throws IOException {
        sumsHold(read("export.csv", Mutation.apply(mutations, EXPORT.getBytes(StandardCharsets.UTF_8)), mapping));
    }

    @Property
    void aRecordOfAnyFieldsIsAReadingOrAProblem(@ForAll("fields") Map<String, String> changed) {
        Map<String, String> fields = new HashMap<>(Map.of("schemaVersion", "1.0", "collectedAt", "2025-01-06T09:30:00Z", "machine.id", "LT-01", "drive.serial", "KX1",
            "drive.model", "Kestrel K2", "health.percentageUsed", "20"));
        fields.putAll(changed);
        isReadingOrRefused(ReadingParser.parse(RawRecord.of(SourcePlace.line("a.csv", 2), fields)));
        isReadingOrRefused(ReadingParser.parse(mapping.apply(RawRecord.of(SourcePlace.line("a.csv", 2), fields), new RawFields())));
    }

    @Provide
    Arbitrary<Map<String, String>> fields() {
        List<String> names = new ArrayList<>(List.of("schemaVersion", "collectedAt", "machine.id", "machine.memoryBytes", "machine.inServiceOn", "drive.serial",
            "drive.model", "drive.capacityBytes", "drive.attachment", "healthLogPage", "Read on", "RAM GB", "Size", "Host writes", "Temp", "stray"));
        HealthField.ALL.forEach(field -> names.add(field.dotted()));
        Arbitrary<String> values = Arbitraries.frequencyOf(net.jqwik.api.Tuple.of(3, Arbitraries.of("", " ", "0", "1", "255", "256", "65535", "65536", "2025-01-06", "-1",
            "4294967296", "9223372036854775807", "340282366920938463463374607431768211455", "340282366920938463463374607431768211456", "1e5", "06.01.2025 09:30",
            "2025-01-06T24:00:00Z", "310 0 311", "soldered", "1.0", "\u0000", "\uFFFD", "278,5", page(), "AAAA", "\u0661")),
            net.jqwik.api.Tuple.of(1, Arbitraries.strings().ofMaxLength(12)));
        return Arbitraries.maps(Arbitraries.of(names), values).ofMaxSize(6);
    }

    @Property
    void anyPageOf512BytesIsDecoded(@ForAll("pages") byte[] page) {
        HealthLogPage.decode(page);
        isReadingOrRefused(ReadingParser.parse(RawRecord.of(SourcePlace.line("a.csv", 2), Map.of("schemaVersion", "1.0", "collectedAt", "2025-01-06T09:30:00Z",
            "machine.id", "LT-01", "drive.serial", "KX1", "drive.model", "Kestrel K2", "healthLogPage", Base64.getEncoder().encodeToString(page)))));
    }

    @Provide
    Arbitrary<byte[]> pages() {
        return Arbitraries.randomValue(random -> {
            byte[] page = new byte[512];
            random.nextBytes(page);
            return page;
        });
    }

    @Property
    void aMappingIsLoadedOrSaidToBeNone(@ForAll("mutations") List<Mutation> mutations) throws IOException {
        Path file = Files.write(folder.resolve("mapping.json"), Mutation.apply(mutations, MAPPING.getBytes(StandardCharsets.UTF_8)));
        try {
            FieldMapping loaded = FieldMapping.load(file);
            sumsHold(read("export.csv", EXPORT.getBytes(StandardCharsets.UTF_8), loaded));
        } catch (InputMissingException e) {
            assertThat(e).hasMessageContaining(file.toString());
        }
    }

    @Property
    void aSideTableIsRefusedOrEachOfItsRowsIsUsedOrTold(@ForAll("sideTables") String table, @ForAll("mutations") List<Mutation> mutations) throws IOException {
        Path path = Files.write(folder.resolve("side.csv"), Mutation.apply(mutations, SIDE_TABLES.get(table).getBytes(StandardCharsets.UTF_8)));
        ReportFile file = new ReportFile(path.toString(), "side.csv");
        try {
            SideTable<?> outcome = switch (table) {
                case "ratings" -> SideTables.ratings(file);
                case "inventory" -> SideTables.inventory(file);
                default -> SideTables.prices(file);
            };
            assertThat(outcome.values().size() + count(outcome.problems(), Effect.ROW_REFUSED)).isEqualTo(rows(path));
        } catch (InputMissingException e) {
            assertThat(e).hasMessageStartingWith("side.csv: ");
        }
    }

    private static long rows(Path path) throws IOException {
        String text = Files.readString(path, StandardCharsets.ISO_8859_1);
        CsvHeader header = CsvHeader.of(text);
        long rows = 0;
        try (CsvRecords records = new CsvRecords("side.csv", new java.io.BufferedReader(new java.io.StringReader(text)), header, column -> true, new RawFields())) {
            while (records.next() != null) {
                rows++;
            }
        }
        return rows;
    }

    @Property
    void anEarlierSweepIsReadOrSaidToBeUnreadable(@ForAll("mutations") List<Mutation> machines, @ForAll("mutations") List<Mutation> replacements) throws IOException {
        Path earlier = Files.createDirectories(folder.resolve("earlier"));
        Files.write(earlier.resolve("machines.csv"), Mutation.apply(machines, MACHINES.getBytes(StandardCharsets.UTF_8)));
        Files.write(earlier.resolve("replacements.csv"), Mutation.apply(replacements, (
            "machineId,item,needOn,orderByOn,orderNow,currency,amount,driveSerial\nLT-1,drive,2025-01-06,2025-01-06,order now,EUR,87.50,KX1\n").getBytes(StandardCharsets.UTF_8)));
        try {
            EarlierSweep.read(earlier);
        } catch (InputMissingException e) {
            assertThat(e).hasMessageStartingWith("the earlier sweep in " + earlier + " cannot be read: ");
        }
    }

    private static List<ReportReader.Item> read(String name, byte[] content, FieldMapping by) throws IOException {
        Path file = Files.write(folder.resolve(name), content);
        List<ReportReader.Item> items = new ArrayList<>();
        try (ReportReader reader = new ReportReader(ReportPart.whole(new ReportFile(file.toString(), name)), by)) {
            while (reader.hasNext()) {
                items.add(reader.next());
            }
        }
        return items;
    }

    /** Records found = readings + refused; files found = read + refused; the file is refused just when nothing was read. */
    private static void sumsHold(List<ReportReader.Item> items) {
        long readings = 0;
        for (ReportReader.Item item : items.subList(0, items.size() - 1)) {
            isReadingOrRefused(item.outcome());
            canBeWritten(item.outcome().problems());
            readings += item.outcome().values().size();
        }
        FileSummary file = items.get(items.size() - 1).summary();
        List<Problem> problems = file.problems(FieldMapping.none());
        canBeWritten(problems);
        assertThat(List.of(file.records(), file.readings(), count(problems, Effect.RECORD_REFUSED)))
            .containsExactly((long) items.size() - 1, readings, 0L);
        assertThat(List.of(file.isRead(), count(problems, Effect.FILE_REFUSED))).isEqualTo(List.of(readings > 0, readings > 0 ? 0L : 1L));
    }

    private static void canBeWritten(List<Problem> problems) {
        assertThat(problems).extracting(problem -> ProblemWords.of(problem).sentence()).allMatch(sentence -> StandardCharsets.UTF_8.newEncoder().canEncode(sentence));
    }

    private static void isReadingOrRefused(Outcome<Reading> outcome) {
        assertThat(outcome.values().size() + count(outcome.problems(), Effect.RECORD_REFUSED)).isEqualTo(1);
        outcome.values().forEach(reading -> assertThat(PackedReading.unpack(PackedReading.pack(reading))).isEqualTo(reading));
    }

    private static long count(List<Problem> problems, Effect effect) {
        return problems.stream().filter(problem -> problem.kind().effect() == effect).count();
    }

    private static byte[] gzip(byte[] content) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
            gzip.write(content);
        }
        return bytes.toByteArray();
    }
}
