package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonStreamContext;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/** JSON records: one object, an array of objects, objects one after another, or one object a line. */
final class JsonRecords {
    private static final int MOST_POINTERS = 3;

    private JsonRecords() {
    }

    static boolean isOneObject(String text) {
        try (JsonParser parser = FlatJson.FACTORY.createParser(text)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return false;
            }
            parser.skipChildren();
            return parser.nextToken() == null;
        } catch (IOException e) {
            return false;
        }
    }

    /**
     * One object a line; a broken line does not spoil the others.
     *
     * @param text in UTF-8, without a byte order mark
     * @param bufferBytes read at once
     * @param linesBefore of the file, when the text begins within it
     * @param json reads each
     */
    static RecordSource lines(String file, InputStream text, int bufferBytes, long linesBefore, FlatJson json) {
        ByteLines lines = new ByteLines(text, bufferBytes);
        return new RecordSource() {
            private long lineNumber = linesBefore;

            @Override
            public RawRecord next() throws IOException {
                while (lines.next()) {
                    lineNumber++;
                    SourcePlace source = SourcePlace.line(file, lineNumber);
                    if (lines.tooLongBytes() > 0) {
                        return RawRecord.broken(Problem.of(Finding.LINE_LONG, source, "").with(Fact.BYTES, lines.tooLongBytes()).with(Fact.MOST, ByteLines.MOST_BYTES));
                    }
                    if (!lines.isBlank()) {
                        return record(source, lines, json);
                    }
                }
                return null;
            }

            @Override
            public void close() throws IOException {
                lines.close();
            }
        };
    }

    private static RawRecord record(SourcePlace source, ByteLines line, FlatJson json) throws IOException {
        RawRecord quick = line.isAscii() ? quick(source, line, json) : null;
        return quick != null ? quick : record(source, line.text(), json);
    }

    /** {@code null} where anything is at fault: the text, not its bytes, has the words and columns to say it in. */
    private static RawRecord quick(SourcePlace source, ByteLines line, FlatJson json) throws IOException {
        try (JsonParser parser = FlatJson.QUICK.createParser(line.buffer(), line.start(), line.length())) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return null;
            }
            RawRecord record = RawRecord.of(source, json.read(parser));
            return parser.nextToken() == null ? record : null;
        } catch (JsonProcessingException | FlatJson.FieldTwiceException e) {
            return null;
        }
    }

    private static RawRecord record(SourcePlace source, String line, FlatJson json) throws IOException {
        try (JsonParser parser = FlatJson.FACTORY.createParser(line)) {
            parser.nextToken();
            RawRecord record = object(source, parser, json);
            if (record.problem() == null && parser.nextToken() != null) {
                throw new JsonParseException(parser, "more text after the report");
            }
            return record;
        } catch (JsonProcessingException e) {
            return RawRecord.broken(broken(source, e));
        }
    }

    /** An array of objects, or objects one after another. */
    static RecordSource sequence(String file, Reader text, FlatJson json) throws IOException {
        return new JsonSequence(file, text, json);
    }

    /** The value that the parser stands at; afterwards the parser is at its end. */
    static RawRecord object(SourcePlace source, JsonParser parser, FlatJson json) throws IOException {
        if (parser.currentToken() != JsonToken.START_OBJECT) {
            String type = type(parser.currentToken());
            parser.skipChildren();
            return RawRecord.broken(Problem.of(Finding.NO_OBJECT, source, "").with(Fact.NAMES, type));
        }
        try {
            return RawRecord.of(source, json.read(parser));
        } catch (FlatJson.FieldTwiceException e) {
            return RawRecord.broken(Problem.of(Finding.FIELD_TWICE, source, "").with(Fact.TEXT, e.getMessage()));
        }
    }

    static String type(JsonToken token) {
        return switch (token) {
            case START_ARRAY -> "array";
            case VALUE_STRING -> "string";
            case VALUE_TRUE, VALUE_FALSE -> "boolean";
            case VALUE_NULL -> "null";
            default -> token.isNumeric() ? "number" : token.name().toLowerCase(Locale.ROOT);
        };
    }

    /** Pointers to arrays of objects within objects, those with most elements first, and of as many the innermost, as far as the beginning of a text tells. */
    static List<String> seemToLieIn(String head) {
        Map<String, Integer> elements = new LinkedHashMap<>();
        try (JsonParser parser = FlatJson.FACTORY.createParser(head)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                String pointer = token == JsonToken.START_OBJECT && parser.getParsingContext().getParent().inArray() ? names(parser.getParsingContext()) : "";
                if (!pointer.isEmpty()) {
                    elements.merge(pointer, 1, Integer::sum);
                }
            }
        } catch (IOException e) {
            // The beginning of a longer text is cut somewhere; what came before tells.
        }
        return elements.entrySet().stream().sorted(Map.Entry.<String, Integer>comparingByValue().reversed()
            .thenComparing(entry -> -ExportForm.names(entry.getKey()).size())).limit(MOST_POINTERS).map(Map.Entry::getKey).toList();
    }

    /** As a pointer, without the places in arrays on the way. */
    private static String names(JsonStreamContext at) {
        return at == null ? "" : names(at.getParent()) + (at.inObject() && at.getCurrentName() != null ? ExportForm.pointer(List.of(at.getCurrentName())) : "");
    }

    private static Problem broken(SourcePlace source, JsonProcessingException e) {
        return broken(source, e, 0);
    }

    /** @param linesBefore of the file, before those of the parser */
    static Problem broken(SourcePlace source, JsonProcessingException e, long linesBefore) {
        JsonLocation at = e.getLocation();
        return Problem.of(Finding.JSON_BROKEN, source, "").with(Fact.VALUE, at == null ? null : linesBefore + at.getLineNr()).with(Fact.COLUMN, at == null ? null : at.getColumnNr())
            .with(Fact.TEXT, JsonFault.words(e));
    }
}
