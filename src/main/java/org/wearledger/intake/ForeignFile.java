package org.wearledger.intake;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * What a file is that is no report, as far as its beginning tells.
 *
 * @param sign its name for the words of the problem
 * @param text with which it begins, {@code null} where the sign says it all
 * @param line where something begins that can be read, {@code null} for none
 */
record ForeignFile(String sign, String text, Integer line) {
    /** 1F8B in UTF-8, where a byte that is none became U+FFFD. */
    private static final String GZIP = "\u001F\uFFFD";
    private static final int FEWEST_LOOKED_AT = 8;
    private static final int MOST_LOOKED_AT = 64;

    private static ForeignFile named(String sign) {
        return new ForeignFile(sign, null, null);
    }

    private record Sign(Pattern start, ForeignFile file) {
        static Sign of(String start, String sign) {
            return new Sign(Pattern.compile(start, Pattern.CASE_INSENSITIVE), ForeignFile.named(sign));
        }
    }

    private static final List<Sign> SIGNS = List.of(
        Sign.of("PK[\u0003\u0005\u0007]", "ARCHIVE"),
        // D0CF11E0 in UTF-8, where bytes that are none became U+FFFD.
        Sign.of("\uFFFD\uFFFD\u0011", "OLD_WORKBOOK"),
        Sign.of("<!doctype html|<html", "WEB_PAGE"),
        Sign.of("<\\?xml|<[a-z]", "XML"),
        Sign.of("%PDF", "PDF"),
        Sign.of("sep=[^,;\t]", "SEPARATOR"));

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
        return zeros[0] + zeros[1] == looked ? named("ZEROS")
            : named("ZEROS_BETWEEN");
    }

    /** A side table where reports are, as far as its headings tell; {@code null} when it is none. */
    static ForeignFile ofSideTable(List<String> headings) {
        String table = SideTables.named(headings);
        return table == null ? null : named(table.toUpperCase(Locale.ROOT));
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
            return named("PACKED_TWICE");
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
        String text = Headings.quoted(CsvHeader.of(head).line());
        for (int i = 1; i < lines.size(); i++) {
            String line = lines.get(i).stripLeading();
            if (line.startsWith("{") || line.startsWith("[") || line.contains("machine.") && line.contains("drive.")) {
                return new ForeignFile("LINES_BEFORE", text, i + 1);
            }
        }
        return new ForeignFile("TEXT", text, null);
    }
}
