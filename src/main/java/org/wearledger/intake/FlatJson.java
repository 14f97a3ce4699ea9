package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.IOException;
import java.io.StringWriter;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.StringJoiner;

/**
 * One JSON object to dotted names and text, token by token: {@code {"machine":{"id":"A"}}} is {@code machine.id} = {@code A}.
 * Numbers keep the text they have in the file. Not for several threads: it remembers the names it has met.
 */
final class FlatJson {
    // A key given twice would otherwise silently keep the last value.
    static final JsonFactory FACTORY = JsonFactory.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
        .streamReadConstraints(StreamReadConstraints.builder().maxStringLength(1 << 20).build()).build();
    static final int MOST_FIELDS = 2_000;
    /** Room for every field of the report form without growing. */
    private static final int USUAL_CAPACITY = 64;
    static final int MOST_CHARACTERS = 1 << 20;
    private static final String ARRAY_FIELD = "health.temperatureSensorsKelvin";

    /** A field that stands twice under the same dotted name, which JSON itself does not forbid. */
    static final class FieldTwiceException extends IOException {
        private static final long serialVersionUID = 1;

        FieldTwiceException(String name) {
            super(name);
        }
    }

    /** The dotted names below one object, so that each is put together once and not in every record. */
    private static final class Names {
        private static final int MOST_REMEMBERED = 200;
        private final String prefix;
        private final Map<String, String> dotted = new HashMap<>();
        private final Map<String, Names> below = new HashMap<>();

        Names(String prefix) {
            this.prefix = prefix;
        }

        String dotted(String key) {
            String known = dotted.get(key);
            return known != null ? known : remember(dotted, key, prefix + key);
        }

        Names below(String key) {
            Names known = below.get(key);
            return known != null ? known : remember(below, key, new Names(prefix + key + "."));
        }

        private static <T> T remember(Map<String, T> names, String key, T value) {
            if (names.size() < MOST_REMEMBERED) {
                names.put(key, value);
            }
            return value;
        }
    }

    private final Names root = new Names("");
    private String twice;
    private long characters;

    /**
     * @param parser at the object's opening bracket; afterwards at its closing one, also when a name stands twice
     * @throws JsonParseException when the text is broken or the object has more than {@value #MOST_FIELDS} fields or
     *     {@value #MOST_CHARACTERS} characters of values
     * @throws FieldTwiceException when a dotted name stands twice
     */
    Map<String, String> read(JsonParser parser) throws IOException {
        Map<String, String> fields = new LinkedHashMap<>(USUAL_CAPACITY);
        twice = null;
        characters = 0;
        read(parser, root, fields);
        if (twice != null) {
            throw new FieldTwiceException(twice);
        }
        return fields;
    }

    private void read(JsonParser parser, Names names, Map<String, String> fields) throws IOException {
        for (String key = parser.nextFieldName(); key != null; key = parser.nextFieldName()) {
            JsonToken token = parser.nextToken();
            if (token == JsonToken.START_OBJECT) {
                read(parser, names.below(key), fields);
            } else if (token != JsonToken.VALUE_NULL) {
                String name = names.dotted(key);
                if (fields.put(name, token == JsonToken.START_ARRAY ? array(parser, name) : text(parser)) != null) {
                    twice = name;
                }
                if (fields.size() > MOST_FIELDS) {
                    throw new JsonParseException(parser, "more than " + MOST_FIELDS + " fields in one report");
                }
            }
        }
    }

    /** An array is a value only where the schema has one; elsewhere its brackets stay, and no number is read from it. */
    private String array(JsonParser parser, String name) throws IOException {
        if (!name.equals(ARRAY_FIELD)) {
            return source(parser);
        }
        StringJoiner joined = new StringJoiner(" ");
        for (JsonToken token = parser.nextToken(); token != JsonToken.END_ARRAY; token = parser.nextToken()) {
            joined.add(token.isScalarValue() ? text(parser) : source(parser));
        }
        return joined.toString();
    }

    private String source(JsonParser parser) throws IOException {
        StringWriter text = new StringWriter();
        try (JsonGenerator generator = FACTORY.createGenerator(text)) {
            int depth = 0;
            do {
                depth += parser.currentToken().isStructStart() ? 1 : parser.currentToken().isStructEnd() ? -1 : 0;
                count(parser, parser.getTextLength());
                generator.copyCurrentEvent(parser);
            } while (depth > 0 && parser.nextToken() != null);
        }
        return text.toString();
    }

    private String text(JsonParser parser) throws IOException {
        String text = parser.getText();
        count(parser, text.length());
        return text;
    }

    /** Every value counts one more than its length, so that neither many nor long ones fill the memory. */
    private void count(JsonParser parser, int length) throws JsonParseException {
        characters += length + 1;
        if (characters > MOST_CHARACTERS) {
            throw new JsonParseException(parser, "more than " + MOST_CHARACTERS + " characters in one report");
        }
    }
}
