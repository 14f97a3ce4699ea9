package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** A mapping as its file has it: reads the JSON and tells all that is wrong with it at once. */
final class MappingDocument {
    private static final ObjectMapper JSON = JsonMapper.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();
    private static final Set<String> BESIDE_FIELDS = Set.of("constants", "decimal", "encoding", "grouping", "inventory", "notes", "notReported", "records", "repairs");
    private static final Set<String> TIMES = Set.of(ReportField.COLLECTED_AT.dotted(), ReportField.IN_SERVICE_ON.dotted(), ReportField.USER_SINCE.dotted());

    private final JsonNode root;
    private final List<String> unknownFields = new ArrayList<>();
    private final List<String> faults = new ArrayList<>();

    private MappingDocument(JsonNode root) {
        this.root = root;
    }

    /**
     * @param name to print
     * @throws InputMissingException when the file is not there or is no mapping; the message says where and what is allowed
     */
    static FieldMapping load(Path file, String name) throws IOException {
        MappingDocument document = new MappingDocument(json(file, name));
        FieldMapping mapping = document.mapping();
        List<String> faults = document.faults();
        if (faults.isEmpty()) {
            return mapping;
        }
        StringBuilder message = new StringBuilder(name + ": ");
        if (faults.size() == 1) {
            throw new InputMissingException(message.append(faults.get(0)).toString());
        }
        message.append(faults.size()).append(" faults:");
        for (int i = 0; i < faults.size(); i++) {
            message.append(" (").append(i + 1).append(") ").append(faults.get(i));
        }
        throw new InputMissingException(message.toString());
    }

    private static JsonNode json(Path file, String name) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new InputMissingException("no such file: " + name);
        }
        try {
            return JSON.readTree(text(file, name));
        } catch (JsonProcessingException e) {
            throw new InputMissingException(name + ": " + JsonFault.of(e, text(file, name)));
        }
    }

    private static String text(Path file, String name) throws IOException {
        try {
            return Files.readString(file).replaceFirst("^\uFEFF", "");
        } catch (CharacterCodingException e) {
            throw new InputMissingException("save " + name + " as UTF-8: it holds bytes that are none, and headings with accents would not be found");
        }
    }

    private FieldMapping mapping() {
        if (!root.isObject()) {
            faults.add("a mapping is {\"fields\": ...}; this is " + root);
        }
        Set<String> keys = new TreeSet<>(BESIDE_FIELDS);
        keys.add("fields");
        requireKeys("the mapping", root, keys);
        NumberForm numbers = numbers();
        LinkedHashMap<String, MappedSource> sources = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> entry : members("fields")) {
            if (isKnown(entry.getKey(), entry.getValue())) {
                sources.put(entry.getKey(), source(entry.getKey(), entry.getKey(), entry.getValue(), numbers));
            }
        }
        LinkedHashMap<String, String> constants = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> entry : members("constants")) {
            if (isKnown(entry.getKey(), entry.getValue())) {
                constants.put(entry.getKey(), constant(entry.getKey(), entry.getValue()));
            }
        }
        HashSet<String> notReported = notReported(root.path("notReported"));
        TableMapping inventory = table("inventory", SideTables.INVENTORY_COLUMNS, numbers);
        TableMapping repairs = table("repairs", SideTables.REPAIRS_COLUMNS, numbers);
        ExportForm form = form(sources);
        if (form.isPlain() && sources.isEmpty() && constants.isEmpty() && inventory.isNone() && repairs.isNone() && repairs.words().isEmpty() && faults().isEmpty()) {
            faults.add("a mapping has \"fields\" and may have \"constants\"; this one has neither");
        }
        return new FieldMapping(sources, constants, notReported, inventory, repairs, form, Pseudonyms.none());
    }

    /** What is no column is a word of the table, where it has words of its own. */
    private TableMapping table(String name, List<String> known, NumberForm numbers) {
        TableMapping table = TableMapping.none();
        for (Map.Entry<String, JsonNode> entry : members(name)) {
            if (known.contains(entry.getKey())) {
                table.columns().put(entry.getKey(), source(entry.getKey(), TableMapping.asField(entry.getKey()), entry.getValue(), numbers));
            } else if (name.equals("repairs")) {
                table.words().put(Headings.folded(entry.getKey()), constant(entry.getKey(), entry.getValue()));
            } else {
                String near = Headings.nearest(entry.getKey(), known);
                faults.add("\"" + entry.getKey() + "\" is no column of the " + name + (near == null ? "" : " (near: " + near + ")") + "; see schemas/side-tables.md");
            }
        }
        return table;
    }

    private ExportForm form(LinkedHashMap<String, MappedSource> sources) {
        String encoding = textOrNull("the mapping", root, "encoding");
        String records = textOrNull("the mapping", root, "records");
        if (encoding != null && !isEncoding(encoding)) {
            faults.add("\"encoding\" is \"" + encoding + "\", which this Java does not know; allowed are names such as windows-1252, ISO-8859-15, IBM850, UTF-16LE");
        }
        if (records != null && !records.matches("(/[^/]+)+")) {
            faults.add("\"records\" is \"" + records + "\"; it leads from the outermost object to the records, such as /devices");
        }
        HashSet<String> froms = sources.values().stream().map(MappedSource::from).collect(Collectors.toCollection(HashSet::new));
        ExportForm form = new ExportForm(encoding, records == null ? List.of() : ExportForm.names(records), froms);
        return encoding == null && records == null && form.elements().isEmpty() ? ExportForm.NONE : form;
    }

    private static boolean isEncoding(String name) {
        try {
            return Charset.isSupported(name);
        } catch (IllegalCharsetNameException e) {
            return false;
        }
    }

    private NumberForm numbers() {
        String decimal = sign("decimal", "[.,]", "\".\" and \",\"");
        String grouping = sign("grouping", "[., ']", "\".\", \",\", \" \" and \"'\"");
        if (decimal != null && decimal.equals(grouping)) {
            faults.add("\"decimal\" and \"grouping\" are both \"" + decimal + "\"; one of them is another sign");
        }
        return NumberForm.of(decimal, grouping);
    }

    /** {@code null} where none is said. */
    private String sign(String key, String allowed, String inWords) {
        JsonNode node = root.path(key);
        if (!node.isMissingNode() && !node.asText().matches(allowed)) {
            faults.add("\"" + key + "\" is " + node + "; allowed are " + inWords);
        }
        return node.isMissingNode() ? null : node.asText();
    }

    private Set<Map.Entry<String, JsonNode>> members(String key) {
        JsonNode node = root.path(key);
        if (!node.isMissingNode() && !node.isObject()) {
            faults.add("\"" + key + "\" is " + node + "; it holds fields by their names, as {\"machine.id\": ...}");
        }
        return node.properties();
    }

    private String constant(String field, JsonNode node) {
        if (!node.isTextual() && !node.isNumber()) {
            faults.add(field + " has the constant " + node + "; write it as text or a number");
        }
        return node.asText();
    }

    /** Names that are no fields make one fault together: the list to look them up in is named once. */
    private List<String> faults() {
        List<String> all = new ArrayList<>();
        if (!unknownFields.isEmpty()) {
            all.add(String.join(", ", unknownFields) + (unknownFields.size() == 1 ? " is no field" : " are no fields") + " of the report form; see schemas/csv-columns.md");
        }
        all.addAll(faults);
        return all;
    }

    private boolean isKnown(String field, JsonNode right) {
        if (ReportField.named(field) != null) {
            return true;
        }
        String from = from(right);
        List<String> near = FieldNames.near(field);
        unknownFields.add("\"" + field + "\"" + (BESIDE_FIELDS.contains(field)
            ? " (it stands beside \"fields\", not in it)"
            : ReportField.named(from) != null ? " (right of it stands " + from + ": the field goes left, the heading right)"
            : near.isEmpty() ? "" : " (near: " + String.join(", ", near) + ")"));
        return false;
    }

    private static String from(JsonNode right) {
        return right.isTextual() ? right.asText() : right.path("from").asText("");
    }

    private MappedSource source(String field, String as, JsonNode node, NumberForm numbers) {
        requireKeys(field, node, Set.of("from", "unit", "format", "zone"));
        String from = from(node);
        if (isTextIfAny(field, node, "from") && from.isEmpty()) {
            faults.add(field + " needs a heading or a pointer, as text or as \"from\"");
        }
        String unit = textOrNull(field, node, "unit");
        Set<String> units = FieldUnits.allowed(as);
        if (unit != null && !units.contains(unit)) {
            faults.add(field + " has unit \"" + unit + "\"; " + units.stream().filter(unit::equalsIgnoreCase).findFirst().map(near -> "write \"" + near + "\"; ").orElse("") + (units.isEmpty() ? "leave the unit out: this field has none to choose" : "allowed are " + String.join(", ", units)));
        }
        String format = textOrNull(field, node, "format");
        String zone = textOrNull(field, node, "zone");
        judgeTime(field, as, format, zone);
        return new MappedSource(from.startsWith("/") ? dotted(from) : from, unit,
            format == null ? null : new DatePattern(format), zone, numbers);
    }

    /** A pointer as records hold it. */
    private static String dotted(String pointer) {
        return String.join(".", ExportForm.names(pointer));
    }

    private void judgeTime(String field, String as, String format, String zone) {
        if ((format != null || zone != null) && !TIMES.contains(as)) {
            faults.add(field + " has a format or a zone; leave them out: this field is no date or time");
            return;
        }
        String slip = format == null ? null : new DatePattern(format).slip();
        if (slip != null) {
            faults.add(field + " has format \"" + format + "\"; " + slip);
        }
        try {
            if (zone != null) {
                ZoneId.of(zone);
            }
        } catch (DateTimeException e) {
            faults.add(field + ": " + e.getMessage() + "; write it with its region, such as Europe/Berlin");
            return;
        }
        if (zone != null && format == null) {
            faults.add(field + " has a zone without a format, and so no use for it; give the format of its times, such as yyyy-MM-dd'T'HH:mm:ss");
        }
    }

    private HashSet<String> notReported(JsonNode node) {
        HashSet<String> values = new HashSet<>();
        for (JsonNode value : node.isArray() ? node : JSON.createArrayNode()) {
            if (!value.isTextual()) {
                faults.add("\"notReported\" holds " + value + "; allowed are texts, such as [\"n/a\", \"-\"]");
                return values;
            }
            values.add(Headings.folded(value.asText()));
        }
        if (values.isEmpty() && !node.isMissingNode()) {
            faults.add("\"notReported\" is a list of texts, such as [\"n/a\", \"-\"]");
        }
        return values;
    }

    private void requireKeys(String what, JsonNode node, Set<String> allowed) {
        for (Map.Entry<String, JsonNode> entry : node.properties()) {
            if (!allowed.contains(entry.getKey())) {
                faults.add(what + " has \"" + entry.getKey() + "\"; allowed are " + String.join(", ", new TreeSet<>(allowed)));
            }
        }
    }

    private String textOrNull(String field, JsonNode node, String key) {
        return isTextIfAny(field, node, key) && node.has(key) ? node.path(key).asText() : null;
    }

    /** What is there and no text is a fault: left out in silence, a unit would be lost. */
    private boolean isTextIfAny(String field, JsonNode node, String key) {
        JsonNode value = node.path(key);
        boolean right = value.isMissingNode() || value.isTextual();
        if (!right) {
            faults.add(field + " has \"" + key + "\" " + value + "; write it as text");
        }
        return right;
    }
}
