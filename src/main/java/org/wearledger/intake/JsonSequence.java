package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonStreamContext;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.io.input.SequenceReader;
import org.wearledger.model.Fact;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * An array of objects, or objects one after another. Behind a fault reading goes on only where the layout leaves no doubt that a record
 * begins, as {@link JsonLayout} says; else it stops, and says about how many records are unread.
 */
final class JsonSequence implements RecordSource {
    private static final Pattern FIRST_NAME = Pattern.compile("\\{\\s*(\"[^\"\\\\]*\"\\s*:)");
    private static final int LONGEST_FIRST_NAME = 200;
    private static final String OPENING = "[\n";

    private final String file;
    private final KeptText text;
    private final FlatJson json;
    private JsonParser parser;
    /** Of the text, before the parser's first. */
    private long charactersBefore;
    private long linesBefore;
    private long number;
    private boolean ended;
    private Long unread;
    /** Of the last record that was read; below zero before the first. */
    private long lastStart = -1;
    private int lastColumn;
    private boolean lastOnOneLine;
    private boolean inArray;
    private boolean nested;

    JsonSequence(String file, Reader in, FlatJson json) throws IOException {
        this.json = json;
        this.file = file;
        text = new KeptText(in);
        parser = FlatJson.FACTORY.createParser(text);
    }

    @Override
    public RawRecord next() throws IOException {
        if (ended) {
            return null;
        }
        SourcePlace source = SourcePlace.record(file, number + 1);
        long start = -1;
        try {
            JsonToken token = parser.nextToken();
            while (token == JsonToken.START_ARRAY || token == JsonToken.END_ARRAY) {
                token = parser.nextToken();
            }
            if (token == null) {
                return null;
            }
            number++;
            start = charactersBefore + parser.currentTokenLocation().getCharOffset();
            int line = parser.currentTokenLocation().getLineNr();
            int column = parser.currentTokenLocation().getColumnNr() - 1;
            RawRecord record = JsonRecords.object(source, parser, json);
            if (token == JsonToken.START_OBJECT) {
                lastStart = start;
                lastColumn = column;
                lastOnOneLine = parser.currentTokenLocation().getLineNr() == line;
                JsonStreamContext around = parser.getParsingContext();
                inArray = around.inArray();
                nested = inArray && !around.getParent().inRoot();
                text.forgetBefore(start);
            }
            return record;
        } catch (JsonProcessingException e) {
            number = source.index();
            return broken(source, e, start);
        }
    }

    private RawRecord broken(SourcePlace source, JsonProcessingException e, long start) throws IOException {
        Problem problem = JsonRecords.broken(source, e, linesBefore);
        String name = firstName(lastStart >= 0 ? lastStart : start);
        if (name == null || e.getLocation() == null) {
            ended = true;
            if (lastStart < 0) {
                return RawRecord.broken(problem);
            }
            unread = RecordSource.unread(unread, RecordSource.NOT_KNOWN);
            return RawRecord.broken(problem.with(Fact.UNREAD, RecordSource.NOT_KNOWN));
        }
        JsonLayout layout = lastStart < 0 || nested || !text.goTo(lastStart) ? null : JsonLayout.of(text, lastColumn, lastOnOneLine, inArray);
        text.goTo(charactersBefore + e.getLocation().getCharOffset());
        long line = linesBefore + e.getLocation().getLineNr();
        KeptText.Sought records = new KeptText.Sought(name);
        JsonLayout.Found next = JsonLayout.next(layout, text, records);
        long left = records.times();
        if (next != null) {
            goOnAt(next.position(), line + next.lines());
            number += left;
        }
        ended = next == null;
        if (left == 0) {
            return RawRecord.broken(problem);
        }
        unread = RecordSource.unread(unread, left);
        return RawRecord.broken(problem.with(Fact.UNREAD, left).with(Fact.LINE, next == null ? null : line + next.lines()));
    }

    /** The beginning of a record in the words of this file, by which the unread ones are counted; {@code null} when it is forgotten. */
    private String firstName(long start) throws IOException {
        if (start < 0 || !text.goTo(start)) {
            return null;
        }
        char[] beginning = new char[LONGEST_FIRST_NAME];
        int read = text.read(beginning, 0, LONGEST_FIRST_NAME);
        Matcher name = FIRST_NAME.matcher(read < 0 ? "" : new String(beginning, 0, read));
        return name.lookingAt() ? name.group(1) : null;
    }

    private void goOnAt(long position, long line) throws IOException {
        text.goTo(position);
        String opening = inArray ? OPENING : "";
        charactersBefore = position - opening.length();
        linesBefore = line - (inArray ? 2 : 1);
        parser = FlatJson.FACTORY.createParser(new SequenceReader(new StringReader(opening), text));
    }

    @Override
    public Long unread() {
        return unread;
    }

    @Override
    public void close() throws IOException {
        parser.close();
    }
}
