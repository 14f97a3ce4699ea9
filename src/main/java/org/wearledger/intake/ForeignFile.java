package org.wearledger.intake;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** What a file is that is no report, as far as its beginning tells, and what to do about it. */
record ForeignFile(String what, String remedy) {
    private static final String EXPORT_AS_CSV = "open it and save the sheet as CSV (UTF-8), or unpack it";
    private static final String FORMAT_PAGE = "see notebooks-free-docs/report-format.md; an export with other headings needs --mapping";

    /** 1F8B in UTF-8, where a byte that is none became U+FFFD. */
    private static final String GZIP = "\u001F\uFFFD";
    private static final int FEWEST_LOOKED_AT = 8;
    private static final int MOST_LOOKED_AT = 64;

    private static final Map<String, String> SIDE_TABLES = Map.of("prices", "a price list", "ratings", "a table of ratings", "inventory", "an inventory");

    private record Sign(Pattern start, ForeignFile file) {
        static Sign of(String start, String what, String remedy) {
            return new Sign(Pattern.compile(start, Pattern.CASE_INSENSITIVE), new ForeignFile(what, remedy));
        }
    }

    private static final List<Sign> SIGNS = List.of(
        Sign.of("PK[\u0003\u0005\u0007]", "a zip archive or a workbook", EXPORT_AS_CSV),
        // D0CF11E0 in UTF-8, where bytes that are none became U+FFFD.
        Sign.of("\uFFFD\uFFFD\u0011", "a workbook of the old binary kind", EXPORT_AS_CSV),
        Sign.of("<!doctype html|<html", "a web page, perhaps one that tells an error", "collect the report again; the server may have sent an error in its place"),
        Sign.of("<\\?xml|<[a-z]", "XML", "export as JSON or CSV"),
        Sign.of("%PDF", "a printed page (PDF)", "export as JSON or CSV"),
        Sign.of("sep=[^,;\t]", "a line for spreadsheets that names an unusual separator", "export with commas, semicolons or tabs"));

    /** Nothing but zero bytes, or one at every other place as in UTF-16; {@code null} when it is neither. */
    static ForeignFile ofZeroBytes(String head) {
        int looked = Math.min(head.length(), MOST_LOOKED_AT);
        int[] zeros = new int[2];
        for (int i = 0; i < looked; i++) {
            zeros[i % 2] += head.charAt(i) == '\0' ? 1 : 0;
        }
        if (looked < FEWEST_LOOKED_AT || Math.max(zeros[0], zeros[1]) < looked / 2 - 1) {
            return null;
        }
        return zeros[0] + zeros[1] == looked ? new ForeignFile("zero bytes, as a crash leaves them", "collect the report again")
            : new ForeignFile("zero bytes between the characters, as in UTF-16 without a byte order mark", "export as UTF-8");
    }

    /** A side table where reports are, as far as its headings tell; {@code null} when it is none. */
    static ForeignFile ofSideTable(List<String> headings) {
        String table = SideTables.named(headings);
        return table == null ? null : new ForeignFile("the headings of " + SIDE_TABLES.get(table), "name it " + table
            + ".csv at the top of the folder, or give it by --" + table);
    }

    private static List<String> columns(String head) {
        try {
            return CsvRecords.columns(CsvHeader.of(head));
        } catch (IOException e) {
            return List.of();
        }
    }

    /** @param head that is neither JSON nor CSV of the report form */
    static ForeignFile of(String head) {
        ForeignFile zeros = ofZeroBytes(head);
        if (zeros != null) {
            return zeros;
        }
        if (head.startsWith(GZIP)) {
            return new ForeignFile("a file packed twice", "unpack it once");
        }
        ForeignFile sideTable = ofSideTable(columns(head));
        if (sideTable != null) {
            return sideTable;
        }
        String start = head.stripLeading();
        for (Sign sign : SIGNS) {
            if (sign.start.matcher(start).lookingAt()) {
                return sign.file;
            }
        }
        List<String> lines = head.lines().limit(100).toList();
        String what = "text that begins \"" + FileSummary.quoted(CsvHeader.of(head).line()) + "\"";
        for (int i = 1; i < lines.size(); i++) {
            String line = lines.get(i).stripLeading();
            if (line.startsWith("{") || line.startsWith("[") || line.contains("machine.") && line.contains("drive.")) {
                return new ForeignFile(what, "what can be read begins on line " + (i + 1) + ": delete the lines before it");
            }
        }
        return new ForeignFile(what, FORMAT_PAGE);
    }
}
