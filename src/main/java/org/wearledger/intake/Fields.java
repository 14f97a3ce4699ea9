package org.wearledger.intake;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.StringTokenizer;
import java.util.TreeSet;
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
    static final List<String> REQUIRED = ReportField.REQUIRED.stream().map(ReportField::dotted).toList();
    static final String TEXT_EXPECTED = "text in UTF-8, or UTF-16 with a byte order mark";
    /** Before the remedy of a fault that leaves the record in use. */
    static final String NOT_REPORTED = "the field is taken as not reported; ";
    static final String TEXT_REMEDY = "export as UTF-8";
    private static final BigInteger MOST_OF_A_COUNTER = BigInteger.ONE.shiftLeft(128).subtract(BigInteger.ONE);
    /** No drive of this kind is older: the first specification is of that year. */
    static final LocalDate FIRST_IN_SERVICE = LocalDate.ofInstant(Health.FIRST_SPECIFICATION, ZoneOffset.UTC);
    /** Of one drive; the largest that are sold hold an eighth of it, from memory. */
    static final long MOST_CAPACITY_BYTES = 1_000_000_000_000_000L;
    static final long LEAST_MEMORY_BYTES = 64L << 20;
    static final long MOST_MEMORY_BYTES = 64L << 40;
    static final String MEMORY_EXPECTED = "64 MiB to 64 TiB, in bytes";
    private static final int MOST_DIGITS = 39;
    private static final int DIGITS_OF_A_LONG = 18;
    private static final int DIGITS_OF_A_SENSOR = 5;
    /** Generous; a cell of a workbook holds 32,767. */
    private static final int MOST_NAME_CHARACTERS = 4_096;
    private static final int MOST_QUOTED = 100;
    /** What stands in for bytes that are no UTF-8. */
    static final char UNDECODABLE = '\uFFFD';
    private static final Attachment[] ATTACHMENTS = Attachment.values();

    private final SourcePlace source;
    private final RawFields values;
    private List<Problem> notes;
    private Problem refusal;

    Fields(RawRecord raw) {
        source = raw.source();
        values = raw.values();
        notes = raw.notes();
    }

    /** Whether a fault in it refuses the record. */
    static boolean isDecisive(String field) {
        return ReportField.named(field).isDecisive();
    }

    SourcePlace source() {
        return source;
    }

    RawFields values() {
        return values;
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
        for (ReportField field : ReportField.ALL) {
            if (values.has(field) && !values.isNumber(field) && isGarbled(values.get(field))) {
                garbled = garbled == null ? new TreeSet<>() : garbled;
                garbled.add(field.dotted());
            }
        }
        for (Map.Entry<String, String> other : values.others().entrySet()) {
            if (isGarbled(other.getValue())) {
                garbled = garbled == null ? new TreeSet<>() : garbled;
                garbled.add(other.getKey());
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

    private static boolean isGarbled(String text) {
        return !isPlain(text) && Problem.writable(text).indexOf(UNDECODABLE) >= 0;
    }

    /** Visible ASCII from end to end, as nearly every value is. */
    private static boolean isPlain(String text) {
        int length = text.length();
        for (int i = 0; i < length; i++) {
            char c = text.charAt(i);
            if (c < ' ' || c > '~') {
                return false;
            }
        }
        return length > 0 && text.charAt(0) != ' ' && text.charAt(length - 1) != ' ';
    }

    String text(ReportField field) {
        String value = values.get(field);
        if (value == null || isPlain(value)) {
            return value;
        }
        String stripped = Problem.writable(value).replace('\0', ' ').strip();
        return stripped.isEmpty() && field != ReportField.SERIAL ? null : stripped;
    }

    /** A name that people read and that joins: without characters that nobody sees. */
    String name(ReportField field) {
        String text = text(field);
        if (text == null || text.length() <= MOST_NAME_CHARACTERS && VisibleName.isVisible(text)) {
            return text;
        }
        if (text.length() > MOST_NAME_CHARACTERS) {
            judgeLongName(field, text.length());
            return null;
        }
        String visible = VisibleName.of(text);
        if (visible.isEmpty() && field.isRequired()) {
            refuse(ProblemKind.FIELD_MISSING, field + " holds nothing but " + VisibleName.hiddenIn(text), "characters that can be seen", "give the name");
            return null;
        }
        note(ProblemKind.HIDDEN_CHARACTERS, field + " holds " + VisibleName.hiddenIn(text), "characters that can be seen",
            "read as \"" + shortened(visible) + "\"; take them out of the export");
        return visible.isEmpty() ? null : visible;
    }

    private void judgeLongName(ReportField field, int characters) {
        String found = field + " of " + characters + " characters";
        String expected = "at most " + MOST_NAME_CHARACTERS;
        if (field.isRequired()) {
            refuse(ProblemKind.FIELD_INVALID, found, expected, "give the name alone");
        } else {
            note(ProblemKind.OPTIONAL_FIELD_INVALID, found, expected, NOT_REPORTED + "give the name alone");
        }
    }

    /** Below zero when the text is no whole number of up to 18 digits. */
    private static long digits(String text) {
        if (text.isEmpty() || text.length() > DIGITS_OF_A_LONG) {
            return -1;
        }
        long number = 0;
        for (int i = 0; i < text.length(); i++) {
            int digit = text.charAt(i) - '0';
            if (digit < 0 || digit > 9) {
                return -1;
            }
            number = 10 * number + digit;
        }
        return number;
    }

    /** {@code null} when it is none, or has more digits than any counter. */
    private static BigInteger longWhole(String text) {
        return text.length() <= DIGITS_OF_A_LONG || text.length() > MOST_DIGITS || !text.chars().allMatch(c -> c >= '0' && c <= '9') ? null : new BigInteger(text);
    }

    /** Not reported, or at fault, which is then on record: below zero. */
    private long whole(ReportField field, long most) {
        if (!values.has(field)) {
            return -1;
        }
        if (values.isNumber(field) && values.number(field) <= most) {
            return values.number(field);
        }
        String text = text(field);
        if (text == null) {
            return -1;
        }
        BigInteger large = longWhole(text);
        long number = large == null ? digits(text) : large.bitLength() < Long.SIZE ? large.longValue() : -1;
        if (number < 0 || number > most) {
            judgeUnusable(field, text, "a whole number, 0 to " + most);
            return -1;
        }
        return number;
    }

    Long wholeUpTo(ReportField field, long most) {
        long number = whole(field, most);
        return number < 0 ? null : (Long) number;
    }

    Long wholeLong(ReportField field) {
        return wholeUpTo(field, Long.MAX_VALUE - 1);
    }

    /** Bytes of memory; no machine that carries such a drive has less or more. */
    Long memory() {
        Long bytes = wholeLong(ReportField.MEMORY_BYTES);
        if (bytes == null || bytes == 0 || bytes >= LEAST_MEMORY_BYTES && bytes <= MOST_MEMORY_BYTES) {
            return bytes;
        }
        note(ProblemKind.OPTIONAL_FIELD_INVALID, quoted(ReportField.MEMORY_BYTES.dotted(), text(ReportField.MEMORY_BYTES)), MEMORY_EXPECTED,
            NOT_REPORTED + "check the unit, which is bytes");
        return null;
    }

    /** Adds the field to those of the drive, unless it is not reported or at fault. */
    void read(HealthField figure, Health.Builder into) {
        ReportField field = ReportField.of(figure);
        if (figure.isList()) {
            sensors(field, into);
        } else if (!figure.isCounter()) {
            long value = whole(field, figure.largest());
            if (value >= 0) {
                into.set(figure, value);
            }
        } else if (values.isNumber(field)) {
            into.set(figure, values.number(field));
        } else {
            counter(field, figure, into);
        }
    }

    private void counter(ReportField field, HealthField figure, Health.Builder into) {
        String text = text(field);
        if (text == null) {
            return;
        }
        long number = digits(text);
        if (number >= 0) {
            into.set(figure, number);
            return;
        }
        BigInteger large = longWhole(text);
        if (large != null && large.compareTo(MOST_OF_A_COUNTER) <= 0) {
            into.set(figure, large);
        } else {
            judgeUnusable(field, text, "an exact whole number below 2^128, digits only");
        }
    }

    private void sensors(ReportField field, Health.Builder into) {
        String text = text(field);
        if (text == null) {
            return;
        }
        StringTokenizer parts = new StringTokenizer(text);
        int[] kelvins = new int[parts.countTokens()];
        boolean usable = kelvins.length <= HealthField.MOST_SENSORS;
        for (int i = 0; usable && i < kelvins.length; i++) {
            String part = parts.nextToken();
            kelvins[i] = part.length() > DIGITS_OF_A_SENSOR ? -1 : (int) digits(part);
            usable = kelvins[i] >= 0 && kelvins[i] <= HealthField.TEMPERATURE_SENSORS.largest();
        }
        if (usable) {
            into.sensors(kelvins);
        } else {
            judgeUnusable(field, text, "up to eight whole numbers, 0 to 65535");
        }
    }

    /** A date in which a drive of this kind may have gone into service; one after the report is none. */
    LocalDate serviceDate(ReportField field, Instant collectedAt) {
        LocalDate date = date(field);
        LocalDate last = collectedAt == null ? LocalDate.MAX : LocalDate.ofInstant(collectedAt, ZoneOffset.UTC).plusDays(1);
        if (date == null || !date.isBefore(FIRST_IN_SERVICE) && !date.isAfter(last)) {
            return date;
        }
        note(ProblemKind.OPTIONAL_FIELD_INVALID, quoted(field.dotted(), text(field)), "a date from " + FIRST_IN_SERVICE + " to the report's", NOT_REPORTED + "correct the export");
        return null;
    }

    LocalDate date(ReportField field) {
        String text = text(field);
        if (text == null) {
            return null;
        }
        LocalDate date = UsualTime.date(text);
        if (date == null) {
            judgeUnusable(field, text, "a date such as 2025-01-06");
        }
        return date;
    }

    Attachment attachment() {
        String text = text(ReportField.ATTACHMENT);
        if (text == null) {
            return Attachment.UNKNOWN;
        }
        for (Attachment each : ATTACHMENTS) {
            if (each.label().equalsIgnoreCase(text)) {
                return each;
            }
        }
        judgeUnusable(ReportField.ATTACHMENT, text, "soldered, socketed or unknown");
        return Attachment.UNKNOWN;
    }

    private void judgeUnusable(ReportField field, String text, String expected) {
        Misread misread = field == ReportField.IN_SERVICE_ON || field == ReportField.USER_SINCE
            ? new Misread(ProblemKind.FIELD_INVALID, Misread.time(text).what(), "write it as 2025-01-06")
            : field == ReportField.ATTACHMENT || field == ReportField.of(HealthField.TEMPERATURE_SENSORS) ? Misread.OTHER
            : FieldUnits.isOfPercent(field.dotted()) ? Misread.percent(text) : Misread.number(text);
        String found = quoted(field.dotted(), text) + misread.behindComma();
        if (field.isDecisive()) {
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
        if (!(notes instanceof ArrayList)) {
            notes = new ArrayList<>(notes);
        }
        notes.add(problem(kind, found, expected, remedy));
    }

    private Problem problem(ProblemKind kind, String found, String expected, String remedy) {
        return new Problem(kind, source, subject(values), found, expected, remedy);
    }

    /** The machine's name, or else the drive's number, as far as it is told. */
    static String subject(RawFields values) {
        String name = values.get(values.has(ReportField.MACHINE_ID) ? ReportField.MACHINE_ID : ReportField.SERIAL);
        return name == null ? "" : shortened(VisibleName.of(name));
    }
}
