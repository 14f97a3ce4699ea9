package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;

/**
 * How a file lays its records out, as far as that tells where one begins without reading all before it: each on a line of its own, or
 * each over several lines that are indented deeper than its brackets. A text of JSON holds no line end within quotation marks, so
 * such a beginning, with a complete object behind it, can be nothing else.
 *
 * @param column blanks before each record's bracket
 */
record JsonLayout(int column, boolean onOneLine, boolean inArray) {
    /** Where a record begins, and how many line ends lie before it. */
    record Found(long position, long lines) {
    }

    /** Of the record at which the text stands, behind {@code column} characters of its line; {@code null} when it tells nothing. */
    static JsonLayout of(KeptText text, int column, boolean onOneLine, boolean inArray) throws IOException {
        JsonLayout layout = new JsonLayout(column, onOneLine, inArray);
        return layout.record(text, " ".repeat(column) + text.readLine(FlatJson.MOST_CHARACTERS, null)) ? layout : null;
    }

    /**
     * Looks for the next record behind the rest of the present line. {@code null} when none is found, and then the text is at its end.
     *
     * @param layout {@code null} to look for none
     * @param sought sees what lies before the record
     */
    static Found next(JsonLayout layout, KeptText text, KeptText.Sought sought) throws IOException {
        long lines = 0;
        while (text.readLine(0, sought) != null) {
            lines++;
            long position = text.position();
            text.forgetBefore(position);
            if (layout != null && layout.isRecordAt(text)) {
                text.goTo(position);
                return new Found(position, lines);
            }
            text.goTo(position);
        }
        return null;
    }

    private boolean isRecordAt(KeptText text) throws IOException {
        String line = text.readLine(FlatJson.MOST_CHARACTERS, null);
        return line != null && record(text, line);
    }

    /** Whether the line, with as many of the next as belong to it, is one whole record in this layout. */
    private boolean record(KeptText text, String first) throws IOException {
        if (first.length() > FlatJson.MOST_CHARACTERS || indent(first) != column || first.charAt(column) != '{') {
            return false;
        }
        StringBuilder record = new StringBuilder(first);
        if (!onOneLine) {
            String line = text.readLine(FlatJson.MOST_CHARACTERS, null);
            while (line != null && indent(line) > column && record.length() <= FlatJson.MOST_CHARACTERS) {
                record.append('\n').append(line);
                line = text.readLine(FlatJson.MOST_CHARACTERS, null);
            }
            if (line == null || indent(line) != column || line.charAt(column) != '}') {
                return false;
            }
            record.append('\n').append(line);
        }
        return isWhole(record.toString());
    }

    private boolean isWhole(String record) {
        try (JsonParser parser = FlatJson.FACTORY.createParser(record)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return false;
            }
            parser.skipChildren();
            String behind = record.substring((int) parser.currentLocation().getCharOffset()).strip();
            return behind.isEmpty() || inArray && (behind.startsWith(",") || behind.startsWith("]"));
        } catch (IOException e) {
            return false;
        }
    }

    /** Blanks at its beginning; below zero for a line of nothing else. */
    private static int indent(String line) {
        for (int i = 0; i < line.length(); i++) {
            if (line.charAt(i) != ' ' && line.charAt(i) != '\t') {
                return i;
            }
        }
        return -1;
    }
}
