package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.StringJoiner;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** JSON records: one object, an array of objects, objects one after another, or one object a line. */
final class JsonRecords {
    // A key given twice would otherwise silently keep the last value.
    private static final ObjectMapper JSON = JsonMapper.builder()
        .enable(com.fasterxml.jackson.core.StreamReadFeature.STRICT_DUPLICATE_DETECTION)
        .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
        .build();

    private static final String ARRAY_FIELD = "health.temperatureSensorsKelvin";

    private JsonRecords() {
    }

    static boolean isOneObject(String text) {
        try {
            return JSON.readTree(text).isObject();
        } catch (JsonProcessingException e) {
            return false;
        }
    }

    /** One object a line; a broken line does not spoil the others. */
    static RecordSource lines(String file, BufferedReader reader) {
        return new RecordSource() {
            private long lineNumber;

            @Override
            public RawRecord next() throws IOException {
                for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                    lineNumber++;
                    if (!line.isBlank()) {
                        return record(SourcePlace.line(file, lineNumber), line);
                    }
                }
                return null;
            }

            @Override
            public void close() throws IOException {
                reader.close();
            }
        };
    }

    private static RawRecord record(SourcePlace source, String line) {
        try {
            return of(source, JSON.readTree(line));
        } catch (JsonProcessingException e) {
            return RawRecord.broken(broken(source, e));
        }
    }

    /** An array of objects, or objects one after another; nothing can be read after a fault. */
    static RecordSource sequence(String file, BufferedReader reader) throws IOException {
        JsonParser parser = JSON.getFactory().createParser(reader);
        return new RecordSource() {
            private long number;
            private boolean ended;

            @Override
            public RawRecord next() throws IOException {
                if (ended) {
                    return null;
                }
                SourcePlace source = SourcePlace.record(file, number + 1);
                try {
                    JsonToken token = parser.nextToken();
                    while (token == JsonToken.START_ARRAY || token == JsonToken.END_ARRAY) {
                        token = parser.nextToken();
                    }
                    if (token == null) {
                        return null;
                    }
                    number++;
                    JsonNode node = JSON.reader().without(DeserializationFeature.FAIL_ON_TRAILING_TOKENS).readTree(parser);
                    return of(source, node);
                } catch (JsonProcessingException e) {
                    ended = true;
                    return RawRecord.broken(broken(source, e));
                }
            }

            @Override
            public void close() throws IOException {
                parser.close();
            }
        };
    }

    private static Problem broken(SourcePlace source, JsonProcessingException e) {
        String at = e.getLocation() == null ? "" : " at line " + e.getLocation().getLineNr()
            + ", column " + e.getLocation().getColumnNr();
        return new Problem(ProblemKind.BROKEN_JSON, source, "", "broken JSON" + at + ": " + firstLine(e.getOriginalMessage()),
            "one complete JSON object for each report", "export this report again");
    }

    private static String firstLine(String message) {
        // Jackson goes on to say where the open bracket stood, in terms of its own settings.
        return message.lines().findFirst().orElse("").replaceFirst("\\s*\\(start marker at .*", "").strip();
    }

    private static RawRecord of(SourcePlace source, JsonNode node) {
        if (!node.isObject()) {
            return RawRecord.broken(new Problem(ProblemKind.BROKEN_JSON, source, "",
                "a JSON " + node.getNodeType().name().toLowerCase(java.util.Locale.ROOT), "a JSON object for each report",
                "see schemas/report.schema.json"));
        }
        Map<String, String> fields = new LinkedHashMap<>();
        String twice = flatten("", node, fields);
        return twice == null ? RawRecord.of(source, fields) : RawRecord.broken(new Problem(ProblemKind.BROKEN_JSON, source, "",
            "the field " + twice + " stands twice", "each field once", "remove one of them"));
    }

    /** Fills {@code fields}; the name that stands twice, {@code null} when none does. */
    private static String flatten(String prefix, JsonNode node, Map<String, String> fields) {
        String twice = null;
        for (Map.Entry<String, JsonNode> field : node.properties()) {
            String name = prefix + field.getKey();
            JsonNode value = field.getValue();
            if (value.isObject()) {
                String inner = flatten(name + ".", value, fields);
                twice = twice == null ? inner : twice;
            } else if (!value.isNull() && fields.put(name, text(name, value)) != null) {
                twice = name;
            }
        }
        return twice;
    }

    /** An array is a value only where the schema has one; elsewhere its brackets stay, and no number is read from it. */
    private static String text(String name, JsonNode value) {
        if (!value.isArray() || !name.equals(ARRAY_FIELD)) {
            return value.isArray() ? value.toString() : value.asText();
        }
        StringJoiner joined = new StringJoiner(" ");
        value.forEach(item -> joined.add(item.isValueNode() ? item.asText() : item.toString()));
        return joined.toString();
    }
}
