package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.ReportPart;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Health;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.CheckText;

/** A folder of raw pages as files, with an index: five machines, each page with 1,000 times its number of data units written. */
class RawPagesTest {
    private static final int PAGES = 5;
    private static final String HEADER = "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,";

    @TempDir
    Path folder;
    private Path pages;

    @BeforeEach
    void pagesWithAnIndex() throws IOException {
        pages = Files.createDirectories(folder.resolve("pages/2025-q1"));
        StringBuilder index = new StringBuilder(HEADER + "file\n");
        for (int n = 1; n <= PAGES; n++) {
            Files.write(pages.resolve(n + ".bin"), page(n));
            index.append(row(n)).append(n).append(".bin\n");
        }
        Files.writeString(pages.resolve("index.csv"), index);
    }

    /** Offsets of the NVM Express Base Specification 2.1, Figure 206: spare 3, threshold 4, data units written 48, host writes 80. */
    private static byte[] page(int n) {
        ByteBuffer page = ByteBuffer.allocate(512).order(ByteOrder.LITTLE_ENDIAN);
        page.putShort(1, (short) 310).put(3, (byte) 100).put(4, (byte) 10).putLong(48, 1000L * n).putLong(80, 90_000L * n);
        return page.array();
    }

    private static String row(int n) {
        return "1.0,2025-01-06T09:30:00Z,PC-" + n + ",KX-" + n + ",Kestrel K2,";
    }

    private static Map<String, Health> healthOf(Path where) throws IOException {
        Map<String, Health> health = new TreeMap<>();
        for (ReportPart part : FoundFiles.find(List.of(where.toString())).reports().stream().map(ReportPart::whole).toList()) {
            try (ReportReader reader = new ReportReader(part, FieldMapping.none())) {
                reader.forEachRemaining(item -> item.outcome().values().forEach(reading -> health.put(reading.drive().serial(), reading.health())));
            }
        }
        return health;
    }

    private static String check(String... arguments) throws IOException {
        CheckResult result = Check.run(new SweepRequest(List.of(arguments), Map.of(), null, null, SweepSettings.withDefaults(), BudgetSettings.withDefaults(),
            null, null, Instant.parse("2025-01-07T00:00:00Z"), "test"));
        return CheckText.of(result);
    }

    @Test
    void aPageGivesTheSameReadingAsAFileAndInBase64() throws IOException {
        Path inBase64 = Files.createDirectories(folder.resolve("base64"));
        StringBuilder rows = new StringBuilder(HEADER + "healthLogPage\n");
        for (int n = 1; n <= PAGES; n++) {
            rows.append(row(n)).append(Base64.getEncoder().encodeToString(page(n))).append('\n');
        }
        Files.writeString(inBase64.resolve("all.csv"), rows);
        assertThat(healthOf(pages)).hasSize(PAGES).isEqualTo(healthOf(inBase64));
        assertThat(healthOf(pages).get("KX-3").dataUnitsWritten()).isEqualTo(3000);
    }

    @ParameterizedTest(name = "named as {0}")
    @ValueSource(strings = {"", "/2025-q1", "/2025-q1/index.csv", "/../pages", "/2025-q1/*", "/./2025-q1 /2025-q1"})
    void aPageCountsWithItsRowHoweverTheFolderIsNamed(String named) throws IOException {
        String[] arguments = Stream.of(named.split(" ", -1)).map(one -> folder + "/pages" + one).toArray(String[]::new);
        assertThat(check(arguments).lines()).contains("files: 1 found = 1 read + 0 refused", "records: 5 found = 5 readings + 0 refused");
    }

    @Test
    void aPageThatNoRowNamesIsAFileOfItsOwn() throws IOException {
        Files.write(pages.resolve("6.bin"), page(6));
        assertThat(check(folder.toString()).lines()).contains("files: 2 found = 1 read + 1 refused", "records: 5 found = 5 readings + 0 refused");
        Files.delete(pages.resolve("index.csv"));
        assertThat(check(folder.toString()).lines()).contains("files: 6 found = 0 read + 6 refused", "records: 0 found = 0 readings + 0 refused");
        assertThat(check(pages + "/1.bin").lines()).contains("files: 1 found = 0 read + 1 refused");
    }

    /** As a large index is: both parts give their readings, and together they name all pages. */
    @Test
    void anIndexMayBeReadInParts() throws IOException {
        FoundFiles found = FoundFiles.find(List.of(folder.toString()));
        String text = Files.readString(pages.resolve("index.csv"));
        long half = text.indexOf(row(3));
        List<FileSummary> parts = Stream.of(new ReportPart(found.reports().get(0), 0, half, 0), new ReportPart(found.reports().get(0), half, Long.MAX_VALUE, 3))
            .map(part -> summary(part)).toList();
        assertThat(parts).extracting(FileSummary::readings).containsExactly(2L, 3L);
        assertThat(found.pagesNotNamed(parts)).isEmpty();
        assertThat(found.pagesNotNamed(parts.subList(0, 1))).extracting(file -> Path.of(file.path()).getFileName().toString()).containsExactly("3.bin", "4.bin", "5.bin");
        assertThat(found.pagesNotNamed(FileSummary.added(parts).values())).isEmpty();
    }

    private static FileSummary summary(ReportPart part) {
        try (ReportReader reader = new ReportReader(part, FieldMapping.none())) {
            FileSummary last = null;
            while (reader.hasNext()) {
                last = reader.next().summary();
            }
            return last;
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
