package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/**
 * Reads exports that name their fields otherwise: which heading of a CSV file, or which JSON pointer, holds which field of the
 * report form, and in what unit. A field that is not mapped keeps its own name, so a file in the report form is read as ever.
 *
 * <p>Numbers are converted exactly and then rounded half up to whole bytes, data units (512,000 bytes) or kelvin. A value that is
 * no plain number is handed on as it stands, and the record is judged by it as any other.
 */
public final class FieldMapping implements Serializable {
    private static final ObjectMapper JSON = new ObjectMapper();
    /** Not to be asked of an export that does not know the report form. */
    private static final String VERSION = "schemaVersion";
    private static final Pattern PLAIN_NUMBER = Pattern.compile("-?\\d{1,39}(\\.\\d{1,12})?");
    private static final BigDecimal BYTES_PER_DATA_UNIT = BigDecimal.valueOf(512_000);
    private static final BigDecimal CELSIUS_ZERO = new BigDecimal("273.15");
    private static final Map<String, BigDecimal> BYTES = new TreeMap<>(Map.ofEntries(Map.entry("bytes", BigDecimal.ONE), size("KB", 1000, 1),
        size("MB", 1000, 2), size("GB", 1000, 3), size("TB", 1000, 4), size("KiB", 1024, 1), size("MiB", 1024, 2), size("GiB", 1024, 3),
        size("TiB", 1024, 4), Map.entry("sectors", BigDecimal.valueOf(512)), Map.entry("dataUnits", BYTES_PER_DATA_UNIT)));

    /**
     * @param from a heading, or a pointer such as {@code /drive/size}, written with dots as records hold it
     * @param unit {@code null} for the report form's own
     * @param format of a date or time, {@code null} for the report form's own
     * @param zone of times without an offset, {@code null} for UTC
     */
    private record Source(String from, String unit, String format, String zone) implements Serializable {
        DatePattern pattern() {
            return new DatePattern(format);
        }
    }

    private final LinkedHashMap<String, Source> sources;
    private final LinkedHashMap<String, String> constants;
    private final boolean decimalComma;
    /** Values that mean "not reported", folded. */
    private final HashSet<String> notReported;
    private final Pseudonyms pseudonyms;

    private FieldMapping(LinkedHashMap<String, Source> sources, LinkedHashMap<String, String> constants, boolean decimalComma, HashSet<String> notReported,
                         Pseudonyms pseudonyms) {
        this.sources = sources;
        this.constants = constants;
        this.decimalComma = decimalComma;
        this.notReported = notReported;
        this.pseudonyms = pseudonyms;
    }

    /** The same, with names of machines, drives and files replaced in what is read. */
    public FieldMapping with(Pseudonyms names) {
        return new FieldMapping(sources, constants, decimalComma, notReported, names);
    }

    /** Under which names the readings are told. */
    public Pseudonyms pseudonyms() {
        return pseudonyms;
    }

    private static Map.Entry<String, BigDecimal> size(String unit, int base, int power) {
        return Map.entry(unit, BigDecimal.valueOf(base).pow(power));
    }

    /** Nothing is called otherwise. */
    public static FieldMapping none() {
        return new FieldMapping(new LinkedHashMap<>(), new LinkedHashMap<>(), false, new HashSet<>(), Pseudonyms.none());
    }

    /** @throws InputMissingException when the file is not there or is no mapping; the message says where and what is allowed */
    public static FieldMapping load(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new InputMissingException("no such file: " + file);
        }
        JsonNode root;
        try {
            root = JSON.readTree(Files.readString(file));
        } catch (CharacterCodingException e) {
            throw new InputMissingException(file + ": the mapping is no text in UTF-8");
        } catch (JsonProcessingException e) {
            String at = e.getLocation() == null ? "" : " at line " + e.getLocation().getLineNr();
            throw new InputMissingException(file + ": broken JSON" + at + ": " + e.getOriginalMessage().lines().findFirst().orElse(""));
        }
        requireKeys(file, "the mapping", root, Set.of("fields", "constants", "decimal", "notReported"));
        LinkedHashMap<String, Source> sources = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> entry : root.path("fields").properties()) {
            sources.put(known(file, entry.getKey()), source(file, entry.getKey(), entry.getValue()));
        }
        LinkedHashMap<String, String> constants = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> entry : root.path("constants").properties()) {
            constants.put(known(file, entry.getKey()), entry.getValue().asText());
        }
        if (sources.isEmpty() && constants.isEmpty()) {
            throw new InputMissingException(file + ": a mapping has \"fields\" and may have \"constants\"; this one has neither");
        }
        String decimal = root.path("decimal").asText(".");
        if (!decimal.equals(".") && !decimal.equals(",")) {
            throw new InputMissingException(file + ": \"decimal\" is \"" + decimal + "\"; allowed are \".\" and \",\"");
        }
        return new FieldMapping(sources, constants, decimal.equals(","), notReported(file, root.path("notReported")), Pseudonyms.none());
    }

    private static HashSet<String> notReported(Path file, JsonNode node) throws InputMissingException {
        HashSet<String> values = new HashSet<>();
        for (JsonNode value : node) {
            if (!value.isTextual()) {
                throw new InputMissingException(file + ": \"notReported\" holds " + value + "; allowed are texts, such as [\"n/a\", \"-\"]");
            }
            values.add(folded(value.asText()));
        }
        if (values.isEmpty() && !node.isMissingNode()) {
            throw new InputMissingException(file + ": \"notReported\" is a list of texts, such as [\"n/a\", \"-\"]");
        }
        return values;
    }

    private static String folded(String value) {
        return value.strip().toLowerCase(Locale.ROOT);
    }

    private static String known(Path file, String field) throws InputMissingException {
        if (!ReadingParser.isKnown(field)) {
            throw new InputMissingException(file + ": \"" + field + "\" is no field of the report form; see schemas/csv-columns.md");
        }
        return field;
    }

    private static Source source(Path file, String field, JsonNode node) throws InputMissingException {
        requireKeys(file, field, node, Set.of("from", "unit", "format", "zone"));
        String from = node.isTextual() ? node.asText() : node.path("from").asText("");
        if (from.isEmpty()) {
            throw new InputMissingException(file + ": " + field + " needs a heading or a pointer, as text or as \"from\"");
        }
        String unit = textOrNull(node.path("unit"));
        if (unit != null && !allowedUnits(field).contains(unit)) {
            throw new InputMissingException(file + ": " + field + " has unit \"" + unit + "\"; "
                + (allowedUnits(field).isEmpty() ? "leave the unit out: this field has none to choose" : "allowed are " + String.join(", ", allowedUnits(field))));
        }
        String format = textOrNull(node.path("format"));
        String zone = textOrNull(node.path("zone"));
        String slip = format == null ? null : new DatePattern(format).slip();
        if (slip != null) {
            throw new InputMissingException(file + ": " + field + " has format \"" + format + "\"; " + slip);
        }
        try {
            if (zone != null) {
                ZoneId.of(zone);
            }
        } catch (DateTimeException e) {
            throw new InputMissingException(file + ": " + field + ": " + e.getMessage() + "; write it with its region, such as Europe/Berlin");
        }
        return new Source(from.startsWith("/") ? from.substring(1).replace('/', '.').replace("~1", "/").replace("~0", "~") : from, unit, format, zone);
    }

    private static void requireKeys(Path file, String what, JsonNode node, Set<String> allowed) throws InputMissingException {
        for (Map.Entry<String, JsonNode> entry : node.properties()) {
            if (!allowed.contains(entry.getKey())) {
                throw new InputMissingException(file + ": " + what + " has \"" + entry.getKey() + "\"; allowed are " + String.join(", ", new TreeSet<>(allowed)));
            }
        }
    }

    private static String textOrNull(JsonNode node) {
        return node.isTextual() ? node.asText() : null;
    }

    private static TreeSet<String> allowedUnits(String field) {
        boolean bytes = field.endsWith("Bytes") || field.equals("health.dataUnitsWritten") || field.equals("health.dataUnitsRead");
        return bytes ? new TreeSet<>(BYTES.keySet()) : field.endsWith("Kelvin") ? new TreeSet<>(List.of("celsius", "kelvin"))
            : field.endsWith("Hours") ? new TreeSet<>(List.of("days", "hours", "minutes")) : field.endsWith("BusyMinutes") ? new TreeSet<>(List.of("hours", "minutes"))
            : new TreeSet<>();
    }

    boolean isNone() {
        return sources.isEmpty() && constants.isEmpty();
    }

    /** Required fields that neither a heading nor a constant gives; those of the report form by their own names. */
    List<String> missing(List<String> required, List<String> headings) {
        List<String> missing = new ArrayList<>();
        for (String field : required) {
            Source source = sources.get(field);
            boolean there = constants.containsKey(field) || !isNone() && field.equals(VERSION) || headings.contains(source == null ? field : source.from());
            if (!there) {
                missing.add(source == null ? field : field + " (from \"" + source.from() + "\")");
            }
        }
        return missing;
    }

    /** Of the first of these fields whose mapped heading is missing and is near to one that is there; empty when none is. */
    String nearestOf(Set<String> fields, List<String> headings) {
        return fields.stream().sorted().map(sources::get).filter(source -> source != null && !headings.contains(source.from()))
            .map(source -> Headings.near(source.from(), headings)).filter(words -> !words.isEmpty()).findFirst().orElse("");
    }

    /** Headings and pointers that the mapping names and that are not among those met. */
    List<String> notMet(Set<String> met) {
        return sources.values().stream().map(Source::from).filter(from -> !met.contains(from)).distinct().toList();
    }

    /** The same problem in the words of the export: its heading, its unit, its format of times. */
    Problem explained(Problem problem) {
        for (Map.Entry<String, Source> entry : sources.entrySet()) {
            Source source = entry.getValue();
            if (problem.found().startsWith(entry.getKey() + " is \"")) {
                if (source.format() != null) {
                    return misfit(problem, entry.getKey(), source);
                }
                String expected = source.unit() != null ? "a plain number of " + source.unit() + (decimalComma ? ", such as 12,5" : ", such as 12.5; a comma needs \"decimal\": \",\" in the mapping")
                    : problem.expected();
                return new Problem(problem.kind(), problem.source(), problem.subject(),
                    entry.getKey() + " (from \"" + source.from() + "\")" + problem.found().substring(entry.getKey().length()), expected, problem.remedy());
            }
        }
        return problem;
    }

    private static Problem misfit(Problem problem, String field, Source source) {
        int quote = field.length() + " is \"".length();
        String text = problem.found().substring(quote, Math.max(quote, problem.found().lastIndexOf('"')));
        String named = field + " (from \"" + source.from() + "\") is \"" + text + "\"";
        if (isOfReportForm(text)) {
            // It fitted, and is wrong for another reason.
            return new Problem(problem.kind(), problem.source(), problem.subject(), named, problem.expected(), problem.remedy());
        }
        boolean optional = problem.kind() == ProblemKind.OPTIONAL_FIELD_INVALID;
        return new Problem(optional ? problem.kind() : ProblemKind.FIELD_INVALID, problem.source(), problem.subject(), named + source.pattern().misfit(text),
            "a time as the mapping says, " + source.format(), (optional ? "the field is taken as not reported; " : "") + "correct the format in the mapping, or the value");
    }

    private static boolean isOfReportForm(String text) {
        try {
            OffsetDateTime.parse(text);
            return true;
        } catch (DateTimeException e) {
            return false;
        }
    }

    /** The record under the report form's names. Fields that the export has beside those mapped stay as they are. */
    RawRecord apply(RawRecord raw) {
        if (isNone() || raw.problem() != null) {
            return raw;
        }
        Map<String, String> fields = new LinkedHashMap<>(raw.fields());
        fields.values().removeIf(value -> notReported.contains(folded(value)));
        sources.values().forEach(source -> fields.remove(source.from()));
        sources.forEach((field, source) -> {
            String value = raw.fields().get(source.from());
            if (value != null && !notReported.contains(folded(value))) {
                fields.put(field, converted(field, value.strip(), source));
            }
        });
        constants.forEach(fields::putIfAbsent);
        fields.putIfAbsent(VERSION, "1.0");
        // What the export calls its own way and nobody asked for is no misspelling.
        fields.keySet().removeIf(name -> !ReadingParser.isKnown(name));
        return RawRecord.of(raw.source(), fields);
    }

    private String converted(String field, String text, Source source) {
        String value = decimalComma && source.format() == null && text.matches("-?\\d+,\\d+") ? text.replace(',', '.') : text;
        if (source.format() != null) {
            return time(field, value, source);
        }
        // Where commas are decimal, dots part thousands: judged as it stands, not taken for a fraction.
        if (decimalComma && text.indexOf('.') >= 0 || source.unit() == null || !PLAIN_NUMBER.matcher(value).matches()) {
            return value;
        }
        BigDecimal number = new BigDecimal(value);
        BigDecimal converted = switch (source.unit()) {
            case "celsius" -> number.add(CELSIUS_ZERO);
            case "kelvin", "hours" -> field.endsWith("BusyMinutes") ? number.multiply(BigDecimal.valueOf(60)) : number;
            case "days" -> number.multiply(BigDecimal.valueOf(24));
            case "minutes" -> field.endsWith("Hours") ? number.divide(BigDecimal.valueOf(60), 12, RoundingMode.HALF_UP) : number;
            default -> field.endsWith("Bytes") ? number.multiply(BYTES.get(source.unit()))
                : number.multiply(BYTES.get(source.unit())).divide(BYTES_PER_DATA_UNIT, 12, RoundingMode.HALF_UP);
        };
        return converted.setScale(0, RoundingMode.HALF_UP).toPlainString();
    }

    /** As RFC 3339, or a date alone; what does not fit the format stays as it is and is told as a fault of the record. */
    private static String time(String field, String value, Source source) {
        try {
            if (field.equals("machine.inServiceOn")) {
                return source.pattern().date(value).toString();
            }
            ZoneId zone = source.zone() == null ? ZoneId.of("UTC") : ZoneId.of(source.zone());
            var parsed = source.pattern().time(value);
            return parsed instanceof OffsetDateTime at ? at.toInstant().toString()
                : parsed instanceof LocalDateTime local ? local.atZone(zone).toInstant().toString()
                : ((LocalDate) parsed).atStartOfDay(zone).toInstant().toString();
        } catch (DateTimeException e) {
            return value;
        }
    }
}
