package org.wearledger.intake;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The line of column names of a CSV text. Spreadsheets may write a line above it, {@code sep=;}, that names the separator.
 *
 * @param linesAbove 1 when such a line stands above it, else 0
 */
record CsvHeader(String line, char delimiter, int linesAbove) {
    private static final Pattern SEPARATOR = Pattern.compile("\"?sep=([,;\t])\"?\\s*", Pattern.CASE_INSENSITIVE);

    /** @param head the beginning of the text, whose blank lines before the header do not count */
    static CsvHeader of(String head) {
        Matcher separator = SEPARATOR.matcher(head.lines().findFirst().orElse(""));
        if (separator.matches()) {
            return new CsvHeader(head.lines().skip(1).filter(line -> !line.isBlank()).findFirst().orElse(""), separator.group(1).charAt(0), 1);
        }
        String line = head.stripLeading().lines().findFirst().orElse("");
        return new CsvHeader(line, delimiter(line), 0);
    }

    /** The comma, or the semicolon or tab when the header has more of those, as spreadsheets of other locales write it. */
    private static char delimiter(String line) {
        char best = ',';
        for (char candidate : new char[] {';', '\t'}) {
            if (count(line, candidate) > count(line, best)) {
                best = candidate;
            }
        }
        return best;
    }

    private static long count(String text, char c) {
        return text.chars().filter(each -> each == c).count();
    }
}
