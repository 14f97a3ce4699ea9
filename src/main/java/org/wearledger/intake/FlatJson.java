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
import java.util.Map;
import java.util.Set;
import java.util.StringJoiner;
import java.util.stream.Collectors;
import org.wearledger.model.HealthField;

/**
 * One JSON object to its fields by dotted names, token by token: {@code {"machine":{"id":"A"}}} is {@code machine.id} = {@code A}.
 * Numbers keep the digits they have in the file. Not for several threads: it remembers the names it has met.
 */
final class FlatJson {
    // A key given twice would otherwise silently keep the last value.
    static final JsonFactory FACTORY = JsonFactory.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
        .streamReadConstraints(StreamReadConstraints.builder().maxStringLength(1 << 20).build()).build();
    /** The same without looking for keys that stand twice, which costs as much again as reading them; {@link #read} finds them all the same. */
    static final JsonFactory QUICK = FACTORY.rebuild().disable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();
    static final int MOST_FIELDS = 2_000;
    private static final int DIGITS_OF_A_LONG = 18;
    static final int MOST_CHARACTERS = 1 << 20;
    private static final String ARRAY_FIELD = ReportField.of(HealthField.TEMPERATURE_SENSORS).dotted();

    /** A field that stands twice under the same dotted name, which JSON itself does not forbid. */
    static final class FieldTwiceException extends IOException {
        private static final long serialVersionUID = 1;

        FieldTwiceException(String name) {
            super(name);
        }
    }

    /** What a name stands for within the objects around it, looked up once a file. Objects and values are counted, to find a name that stands twice. */
    private static final class Name {
        private static final int MOST_REMEMBERED = 200;
        private final String dotted;
        private final String prefix;
        private final ReportField field;
        /** Among the names that a mapping reads; below zero when it is none. */
        private int mappedPlace = -1;
        private final Map<String, Name> below = new HashMap<>();
        private long objects;
        private long seenIn;

        Name(String dotted, String prefix) {
            this.dotted = dotted;
            this.prefix = prefix;
            field = ReportField.named(dotted);
        }

        Name below(String key, RawFields places) {
            Name known = below.get(key);
            if (known == null) {
                known = new Name(prefix + key, prefix + key + ".");
                known.mappedPlace = places.mappedPlace(known.dotted);
                if (below.size() < MOST_REMEMBERED) {
                    below.put(key, known);
                }
            }
            return known;
        }

        boolean isRemembered(String key) {
            return below.size() < MOST_REMEMBERED || below.containsKey(key);
        }
    }

    private final Name root = new Name("", "");
    /** Elements of arrays to be read as if their place were their name, {@code disks.0}, and the arrays that hold them. */
    private final Set<String> elements;
    private final Set<String> arrays;
    private final RawFields own;
    private RawFields fields;
    private boolean strict;
    private String twice;
    private long characters;

    FlatJson() {
        this(Set.of(), new RawFields());
    }

    /**
     * @param elements of arrays to be read, as {@link ExportForm#elements}
     * @param fields is filled for each record
     */
    FlatJson(Set<String> elements, RawFields fields) {
        own = fields;
        this.fields = fields;
        this.elements = elements;
        arrays = elements.stream().map(element -> element.substring(0, element.lastIndexOf('.'))).collect(Collectors.toSet());
    }

    /** Of the values read last. */
    long characters() {
        return characters;
    }

    /**
     * Adds a value, or what is in it, to the fields of an object around records.
     *
     * @param parser at the value
     * @param name by which it stands in the object
     * @param before characters of the object's earlier values
     * @throws FieldTwiceException when a dotted name stands twice; the value is read to its end
     */
    void member(JsonParser parser, String name, RawFields into, long before) throws IOException {
        strict = true;
        twice = null;
        characters = before;
        fields = into;
        try {
            member(parser, parser.currentToken(), root.below(name, own));
        } finally {
            fields = own;
        }
        if (twice != null) {
            throw new FieldTwiceException(twice);
        }
    }

    /**
     * @param parser at the object's opening bracket; afterwards at its closing one, also when a name stands twice
     * @return the same object for every record
     * @throws JsonParseException when the text is broken or the object has more than {@value #MOST_FIELDS} fields or
     *     {@value #MOST_CHARACTERS} characters of values
     * @throws FieldTwiceException when a dotted name stands twice
     */
    RawFields read(JsonParser parser) throws IOException {
        strict = parser.isEnabled(StreamReadFeature.STRICT_DUPLICATE_DETECTION.mappedFeature());
        fields.clear();
        twice = null;
        characters = 0;
        read(parser, root);
        if (twice != null) {
            throw new FieldTwiceException(twice);
        }
        return fields;
    }

    private void read(JsonParser parser, Name object) throws IOException {
        long number = ++object.objects;
        for (String key = parser.nextFieldName(); key != null; key = parser.nextFieldName()) {
            Name name = object.below(key, own);
            if (!strict && (name.seenIn == number || !object.isRemembered(key))) {
                throw new FieldTwiceException(name.dotted);
            }
            name.seenIn = number;
            member(parser, parser.nextToken(), name);
        }
    }

    private void member(JsonParser parser, JsonToken token, Name name) throws IOException {
        if (token == JsonToken.START_OBJECT) {
            read(parser, name);
        } else if (token == JsonToken.START_ARRAY && arrays.contains(name.dotted)) {
            elements(parser, name);
        } else if (token != JsonToken.VALUE_NULL) {
            if (!value(parser, token, name)) {
                twice = name.dotted;
            }
            if (fields.size() > MOST_FIELDS) {
                throw new JsonParseException(parser, "more than " + MOST_FIELDS + " fields in one report");
            }
        }
    }

    private void elements(JsonParser parser, Name array) throws IOException {
        int index = 0;
        for (JsonToken token = parser.nextToken(); token != JsonToken.END_ARRAY; token = parser.nextToken()) {
            Name element = new Name(array.prefix + index, array.prefix + index + ".");
            if (elements.contains(element.dotted)) {
                member(parser, token, element);
            } else {
                parser.skipChildren();
            }
            index++;
        }
    }

    /** False when the name stands twice. */
    private boolean value(JsonParser parser, JsonToken token, Name name) throws IOException {
        if (name.field == null) {
            String text = token == JsonToken.START_ARRAY ? array(parser, name.dotted) : text(parser);
            return name.mappedPlace >= 0 && fields == own ? fields.putMapped(name.mappedPlace, text) : fields.put(name.dotted, text);
        }
        if (token == JsonToken.VALUE_NUMBER_INT && parser.getTextLength() <= DIGITS_OF_A_LONG) {
            int length = parser.getTextLength();
            char[] digits = parser.getTextCharacters();
            int from = parser.getTextOffset();
            if (digits[from] != '-') {
                count(parser, length);
                long number = 0;
                for (int i = from; i < from + length; i++) {
                    number = 10 * number + digits[i] - '0';
                }
                return fields.put(name.field, number);
            }
        }
        return fields.put(name.field, token == JsonToken.START_ARRAY ? array(parser, name.dotted) : text(parser));
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
