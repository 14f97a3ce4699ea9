package org.wearledger.simulate;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.math.BigInteger;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.Reading;

/**
 * Puts each sweep's readings into files: the last sweep by site and with the odd reports apart, the one before with the
 * broken files, each earlier one in another format.
 */
final class Filing {
    static final int THREE_FORMATS = 14;
    static final int CONFLICTING = 15;
    static final int NOT_IN_INVENTORY = 21;
    static final int ZERO_PAGE = 22;
    static final int UTF_16 = 24;
    static final int MISNAMED = 25;
    static final int TRUNCATED_JSON = 26;
    static final int SCIENTIFIC = 27;
    static final int WITHOUT_COLUMN = 28;
    static final int SHORT_PAGE = 29;
    static final int DAMAGED_GZIP = 30;
    static final int BAD_LINE = 31;
    private static final int FORMATS = 4;

    private final SampleFolder files;

    Filing(SampleFolder files) {
        this.files = files;
    }

    void file(String folder, int sweepsBeforeLast, Map<Integer, Reading> readings) throws IOException {
        Map<Integer, Reading> rest = new TreeMap<>(readings);
        switch (sweepsBeforeLast) {
            case 0 -> fileLast(folder + "/", rest);
            case 1 -> fileWithBroken(folder + "/", rest);
            default -> fileWhole(folder + "/office", sweepsBeforeLast % FORMATS, rest.values());
        }
    }

    private void fileWhole(String name, int format, Collection<Reading> readings) throws IOException {
        switch (format) {
            case 0 -> fileEach(name + "/", readings);
            case 1 -> files.gzip(name + ".csv.gz", ReportText.csv(readings));
            case 2 -> files.gzip(name + ".json.gz", ReportText.array(readings));
            default -> files.gzip(name + ".ndjson.gz", ReportText.lines(objects(readings)));
        }
    }

    private void fileEach(String folder, Collection<Reading> readings) throws IOException {
        for (Reading reading : readings) {
            files.text(folder + reading.machine().id().toLowerCase(Locale.ROOT) + ".json",
                ReportText.pretty(ReportText.object(reading)));
        }
    }

    /** Example: {@code lt-014}. */
    private static String fileName(int number) {
        return Workstation.id(number).toLowerCase(Locale.ROOT);
    }

    private static List<ObjectNode> objects(Collection<Reading> readings) {
        return readings.stream().map(ReportText::object).toList();
    }

    private void fileLast(String folder, Map<Integer, Reading> rest) throws IOException {
        Reading thrice = rest.remove(THREE_FORMATS);
        files.text(folder + fileName(THREE_FORMATS) + ".json", ReportText.pretty(ReportText.object(thrice)));
        files.text(folder + fileName(THREE_FORMATS) + ".csv", ReportText.csv(List.of(thrice)));
        files.text(folder + fileName(THREE_FORMATS) + "-page.json", ReportText.pretty(ReportText.objectWithPage(thrice)));

        ObjectNode report = ReportText.object(rest.remove(CONFLICTING));
        files.text(folder + fileName(CONFLICTING) + ".json", ReportText.pretty(report));
        ObjectNode health = report.withObject("/health");
        BigInteger more = health.get("dataUnitsWritten").bigIntegerValue().add(BigInteger.valueOf(40_000));
        health.put("dataUnitsWritten", more);
        files.text(folder + fileName(CONFLICTING) + "-again.json", ReportText.pretty(report));

        files.text(folder + fileName(ZERO_PAGE) + ".json", ReportText.pretty(
            ReportText.objectWithPage(rest.remove(ZERO_PAGE), new byte[LogPage.LENGTH_BYTES])));
        files.utf16(folder + fileName(UTF_16) + ".csv", ReportText.csv(List.of(rest.remove(UTF_16))));
        files.text(folder + fileName(MISNAMED) + ".csv", ReportText.pretty(ReportText.object(rest.remove(MISNAMED))));

        files.text(folder + "north.json", ReportText.array(ofSite(rest, "North")));
        files.text(folder + "south.csv", ReportText.csv(ofSite(rest, "South")));
        files.text(folder + "harbour.jsonl", ReportText.lines(ofSite(rest, "Harbour").stream()
            .map(ReportText::objectWithPage).toList()));
    }

    private static List<Reading> ofSite(Map<Integer, Reading> readings, String site) {
        return readings.values().stream().filter(r -> r.machine().site().equals(site)).toList();
    }

    private void fileWithBroken(String folder, Map<Integer, Reading> rest) throws IOException {
        String truncated = ReportText.pretty(ReportText.object(rest.remove(TRUNCATED_JSON)));
        files.text(folder + fileName(TRUNCATED_JSON) + ".json", truncated.substring(0, truncated.length() * 2 / 3));

        Reading scientific = rest.remove(SCIENTIFIC);
        String exact = scientific.health().dataUnitsWritten().toString();
        files.text(folder + fileName(SCIENTIFIC) + ".csv",
            ReportText.csv(List.of(scientific)).replace("," + exact + ",", ",1.58E+14,"));

        String whole = ReportText.csv(List.of(rest.remove(WITHOUT_COLUMN)));
        files.text(folder + fileName(WITHOUT_COLUMN) + ".csv", whole.replace("drive.serial", "Serial"));

        Reading shortPage = rest.remove(SHORT_PAGE);
        byte[] page = Arrays.copyOf(LogPage.encode(shortPage.health()), LogPage.LENGTH_BYTES - 1);
        files.text(folder + fileName(SHORT_PAGE) + ".json", ReportText.pretty(ReportText.objectWithPage(shortPage, page)));

        byte[] zipped = SampleFolder.gzipped(ReportText.pretty(ReportText.object(rest.remove(DAMAGED_GZIP))));
        files.bytes(folder + fileName(DAMAGED_GZIP) + ".json.gz", Arrays.copyOf(zipped, zipped.length / 2));

        files.text(folder + "empty.json", "");
        files.text(folder + "notes.json", "Tuesday: two laptops in the north office were locked, asked again.\n");

        Reading cutShort = rest.remove(BAD_LINE);
        String good = ReportText.lines(objects(rest.values()));
        String line = ReportText.object(cutShort).toString();
        files.text(folder + "office.jsonl", insertedAfterFirstLine(good, line.substring(0, line.length() / 2)));
    }

    private static String insertedAfterFirstLine(String lines, String line) {
        int end = lines.indexOf('\n') + 1;
        return lines.substring(0, end) + line + "\n" + lines.substring(end);
    }
}
