package org.wearledger.intake;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.StringTokenizer;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.wearledger.model.Attachment;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * The fields of one record, converted one by one. A fault in a field that a verdict rests on refuses the record, the first
 * such fault only; a fault elsewhere is noted and the field taken as not reported.
 */
final class Fields {
    static final Set<String> REQUIRED = Set.of("schemaVersion", "collectedAt", "machine.id", "drive.serial", "drive.model");
    private static final Set<String> DECISIVE = HealthField.ALL.stream().filter(HealthField::isDecisive).map(field -> HealthField.GROUP + field.ownName())
        .collect(Collectors.toUnmodifiableSet());
    private static final String ARRAY_FIELD = "health.temperatureSensorsKelvin";
    static final String TEXT_EXPECTED = "text in UTF-8, or UTF-16 with a byte order mark";
    /** Before the remedy of a fault that leaves the record in use. */
    static final String NOT_REPORTED = "the field is taken as not reported; ";
    static final String TEXT_REMEDY = "export as UTF-8";
    private static final BigInteger COUNTER_LIMIT = BigInteger.ONE.shiftLeft(128);
    /** No drive of this kind is older: the first specification is of that year. */
    static final LocalDate FIRST_IN_SERVICE = LocalDate.ofInstant(Health.FIRST_SPECIFICATION, ZoneOffset.UTC);
    /** Of one drive; the largest that are sold hold an eighth of it, from memory. */
    static final long MOST_CAPACITY_BYTES = 1_000_000_000_000_000L;
    static final long LEAST_MEMORY_BYTES = 64L << 20;
    static final long MOST_MEMORY_BYTES = 64L << 40;
    static final String MEMORY_EXPECTED = "64 MiB to 64 TiB, in bytes";
    private static final int MOST_DIGITS = 39;
    private static final int DIGITS_OF_A_LONG = 18;
    private static final int MOST_SENSORS = 8;
    /** Generous; a cell of a workbook holds 32,767. */
    private static final int MOST_NAME_CHARACTERS = 4_096;
    private static final int MOST_QUOTED = 100;
    /** What stands in for bytes that are no UTF-8. */
    static final char UNDECODABLE = '\uFFFD';

    private final SourcePlace source;
    private final Map<String, String> texts;
    private final List<Problem> notes = new ArrayList<>();
    private Problem refusal;

    Fields(RawRecord raw) {
        source = raw.source();
        texts = raw.fields();
        notes.addAll(raw.notes());
    }

    /** Whether a fault in it refuses the record. */
    static boolean isDecisive(String field) {
        return REQUIRED.contains(field) || DECISIVE.contains(field);
    }

    SourcePlace source() {
        return source;
    }

    Map<String, String> texts() {
        return texts;
    }

    List<Problem> notes() {
        return notes;
    }

    /** {@code null} while nothing refuses the record. */
    Problem refusal() {
        return refusal;
    }

    /** Bytes that are no UTF-8 anywhere in the record. */
    void judgeGarbled() {
        TreeSet<String> garbled = null;
        for (Map.Entry<String, String> field : texts.entrySet()) {
            if (Problem.writable(field.getValue()).indexOf(UNDECODABLE) >= 0) {
                garbled = garbled == null ? new TreeSet<>() : garbled;
                garbled.add(field.getKey());
            }
        }
        if (garbled == null) {
            return;
        }
        String found = "bytes that are no UTF-8 in " + String.join(", ", garbled);
        if (garbled.stream().anyMatch(REQUIRED::contains)) {
            refuse(ProblemKind.FIELD_INVALID, found, TEXT_EXPECTED, TEXT_REMEDY);
        } else {
            note(ProblemKind.OPTIONAL_FIELD_INVALID, found, TEXT_EXPECTED, TEXT_REMEDY);
        }
    }

    String text(String name) {
        String value = texts.get(name);
        if (value == null) {
            return null;
        }
        String stripped = Problem.writable(value).replace('\0', ' ').strip();
        return stripped.isEmpty() && !name.equals("drive.serial") ? null : stripped;
    }

    /** A name that people read and that joins: without characters that nobody sees. */
    String name(String field) {
        String text = text(field);
        if (text == null || text.length() <= MOST_NAME_CHARACTERS && VisibleName.isVisible(text)) {
            return text;
        }
        if (text.length() > MOST_NAME_CHARACTERS) {
            judgeLongName(field, text.length());
            return null;
        }
        String visible = VisibleName.of(text);
        if (visible.isEmpty() && REQUIRED.contains(field)) {
            refuse(ProblemKind.FIELD_MISSING, field + " holds nothing but " + VisibleName.hiddenIn(text), "characters that can be seen", "give the name");
            return null;
        }
        note(ProblemKind.HIDDEN_CHARACTERS, field + " holds " + VisibleName.hiddenIn(text), "characters that can be seen",
            "read as \"" + shortened(visible) + "\"; take them out of the export");
        return visible.isEmpty() ? null : visible;
    }

    private void judgeLongName(String field, int characters) {
        String found = field + " of " + characters + " characters";
        String expected = "at most " + MOST_NAME_CHARACTERS;
        if (REQUIRED.contains(field)) {
            refuse(ProblemKind.FIELD_INVALID, found, expected, "give the name alone");
        } else {
            note(ProblemKind.OPTIONAL_FIELD_INVALID, found, expected, NOT_REPORTED + "give the name alone");
        }
    }

    private static boolean isDigits(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) < '0' || text.charAt(i) > '9') {
                return false;
            }
        }
        return !text.isEmpty();
    }

    /** {@code null} when it is none, or has more digits than any counter. */
    private static BigInteger whole(String text) {
        return text.length() > MOST_DIGITS || !isDigits(text) ? null
            : text.length() <= DIGITS_OF_A_LONG ? BigInteger.valueOf(Long.parseLong(text)) : new BigInteger(text);
    }

    private BigInteger counter(String name) {
        return field(name, () -> "an exact whole number below 2^128, digits only", text -> {
            BigInteger value = whole(text);
            return value == null || value.compareTo(COUNTER_LIMIT) >= 0 ? null : value;
        });
    }

    Long wholeUpTo(String name, long most) {
        return field(name, () -> "a whole number, 0 to " + most, text -> {
            if (text.length() <= DIGITS_OF_A_LONG) {
                // Most are short, and millions are read.
                Long value = isDigits(text) ? (Long) Long.parseLong(text) : null;
                return value == null || value > most ? null : value;
            }
            BigInteger value = whole(text);
            return value == null || value.compareTo(BigInteger.valueOf(most)) > 0 ? null : value.longValueExact();
        });
    }

    /** Bytes of memory; no machine that carries such a drive has less or more. */
    Long memory(String name) {
        Long bytes = wholeLong(name);
        if (bytes == null || bytes == 0 || bytes >= LEAST_MEMORY_BYTES && bytes <= MOST_MEMORY_BYTES) {
            return bytes;
        }
        note(ProblemKind.OPTIONAL_FIELD_INVALID, quoted(name, text(name)), MEMORY_EXPECTED, NOT_REPORTED + "check the unit, which is bytes");
        return null;
    }

    Long wholeLong(String name) {
        return wholeUpTo(name, Long.MAX_VALUE - 1);
    }

    /** Adds the field to those of the drive, unless it is not reported or at fault. */
    void read(HealthField field, Health.Builder into) {
        String name = HealthField.GROUP + field.ownName();
        if (field.isList()) {
            into.sensors(sensors().stream().mapToInt(kelvin -> kelvin).toArray());
        } else {
            into.set(field, field.isCounter() ? counter(name) : (Number) wholeUpTo(name, field.largest()));
        }
    }

    private List<Integer> sensors() {
        List<Integer> sensors = field(ARRAY_FIELD, () -> "up to eight whole numbers, 0 to 65535", text -> {
            List<Integer> kelvins = new ArrayList<>();
            for (StringTokenizer parts = new StringTokenizer(text); parts.hasMoreTokens();) {
                String part = parts.nextToken();
                if (part.length() > 5 || !isDigits(part) || Integer.parseInt(part) > 65_535 || kelvins.size() == MOST_SENSORS) {
                    return null;
                }
                kelvins.add(Integer.valueOf(part));
            }
            return kelvins;
        });
        return sensors == null ? List.of() : sensors;
    }

    /** A date in which a drive of this kind may have gone into service; one after the report is none. */
    LocalDate serviceDate(String name, Instant collectedAt) {
        LocalDate date = date(name);
        LocalDate last = collectedAt == null ? LocalDate.MAX : LocalDate.ofInstant(collectedAt, ZoneOffset.UTC).plusDays(1);
        if (date == null || !date.isBefore(FIRST_IN_SERVICE) && !date.isAfter(last)) {
            return date;
        }
        note(ProblemKind.OPTIONAL_FIELD_INVALID, quoted(name, text(name)), "a date from " + FIRST_IN_SERVICE + " to the report's", NOT_REPORTED + "correct the export");
        return null;
    }

    LocalDate date(String name) {
        return field(name, () -> "a date such as 2025-01-06", text -> {
            try {
                return LocalDate.parse(text);
            } catch (DateTimeParseException e) {
                return null;
            }
        });
    }

    Attachment attachment() {
        Attachment attachment = field("drive.attachment", () -> "soldered, socketed or unknown", text -> {
            for (Attachment each : Attachment.values()) {
                if (each.label().equalsIgnoreCase(text)) {
                    return each;
                }
            }
            return null;
        });
        return attachment == null ? Attachment.UNKNOWN : attachment;
    }

    /** The converted field; {@code null} when it is not reported, or when it is at fault, which is then on record. */
    private <T> T field(String name, Supplier<String> expected, Function<String, T> convert) {
        String text = text(name);
        if (text == null) {
            return null;
        }
        T value = convert.apply(text);
        if (value == null) {
            judgeUnusable(name, text, expected.get());
        }
        return value;
    }

    private void judgeUnusable(String name, String text, String expected) {
        boolean decisive = DECISIVE.contains(name);
        Misread misread = switch (name) {
            case "machine.inServiceOn", "machine.userSince" -> new Misread(ProblemKind.FIELD_INVALID, Misread.time(text).what(), "write it as 2025-01-06");
            case "drive.attachment", ARRAY_FIELD -> Misread.OTHER;
            default -> FieldUnits.isOfPercent(name) ? Misread.percent(text) : Misread.number(text);
        };
        String found = quoted(name, text) + misread.behindComma();
        if (decisive) {
            refuse(misread.kind(), found, expected, misread.remedy());
        } else {
            note(ProblemKind.OPTIONAL_FIELD_INVALID, found, expected, NOT_REPORTED + (misread.what().isEmpty() ? "correct the export" : misread.remedy()));
        }
    }

    static String quoted(String name, String text) {
        return name + " is \"" + shortened(text) + "\"";
    }

    private static String shortened(String text) {
        return text.length() <= MOST_QUOTED ? text : text.substring(0, MOST_QUOTED) + "...";
    }

    void refuse(ProblemKind kind, String found, String expected, String remedy) {
        if (refusal == null) {
            refusal = problem(kind, found, expected, remedy);
        }
    }

    void note(ProblemKind kind, String found, String expected, String remedy) {
        notes.add(problem(kind, found, expected, remedy));
    }

    private Problem problem(ProblemKind kind, String found, String expected, String remedy) {
        return new Problem(kind, source, subject(texts), found, expected, remedy);
    }

    /** The machine's name, or else the drive's number, as far as it is told. */
    static String subject(Map<String, String> texts) {
        return shortened(VisibleName.of(texts.getOrDefault("machine.id", texts.getOrDefault("drive.serial", ""))));
    }
}
