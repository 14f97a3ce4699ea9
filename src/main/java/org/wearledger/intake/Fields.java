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
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * The fields of one record, converted one by one. A fault in a field that a verdict rests on refuses the record, the first
 * such fault only; a fault elsewhere is noted and the field taken as not reported.
 */
final class Fields {
    static final List<String> REQUIRED = ReportField.REQUIRED.stream().map(ReportField::dotted).toList();
    private static final BigInteger MOST_OF_A_COUNTER = BigInteger.ONE.shiftLeft(128).subtract(BigInteger.ONE);
    /** No drive of this kind is older: the first specification is of that year. */
    static final LocalDate FIRST_IN_SERVICE = LocalDate.ofInstant(Health.FIRST_SPECIFICATION, ZoneOffset.UTC);
    /** Of one drive; the largest that are sold hold an eighth of it, from memory. */
    static final long MOST_CAPACITY_BYTES = 1_000_000_000_000_000L;
    static final long LEAST_MEMORY_BYTES = 64L << 20;
    static final long MOST_MEMORY_BYTES = 64L << 40;
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
        judge(of(Finding.GARBLED).about(garbled.stream().map(MappedField::of).toList()), garbled.stream().anyMatch(REQUIRED::contains));
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
            judge(of(Finding.NAME_LONG).about(field.dotted()).with(Fact.COUNT, text.length()).with(Fact.MOST, MOST_NAME_CHARACTERS), field.isRequired());
            return null;
        }
        String visible = VisibleName.of(text);
        if (visible.isEmpty() && field.isRequired()) {
            refuse(of(Finding.NAME_UNSEEN).about(field.dotted()).with(Fact.HIDDEN, VisibleName.hiddenIn(text)));
            return null;
        }
        note(of(Finding.NAME_HIDDEN).about(field.dotted()).with(Fact.HIDDEN, VisibleName.hiddenIn(text)).with(Fact.TEXT, shortened(visible)));
        return visible.isEmpty() ? null : visible;
    }

    private void judge(Problem problem, boolean refuses) {
        if (refuses) {
            refuse(problem);
        } else {
            note(problem.under(ProblemKind.OPTIONAL_FIELD_INVALID));
        }
    }

    /** Below zero when the text is no whole number of up to 18 digits. */
    static long digits(String text) {
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
            judgeUnusable(field, text, of(Finding.WHOLE_INVALID).with(Fact.MOST, most));
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
        note(ofValue(of(Finding.MEMORY_INVALID), ReportField.MEMORY_BYTES).with(Fact.ADVICE, "BYTES"));
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
            judgeUnusable(field, text, of(Finding.COUNTER_INVALID));
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
            judgeUnusable(field, text, of(Finding.SENSORS_INVALID));
        }
    }

    /** A date in which a drive of this kind may have gone into service; one after the report is none. */
    LocalDate serviceDate(ReportField field, Instant collectedAt) {
        LocalDate date = date(field);
        LocalDate last = collectedAt == null ? LocalDate.MAX : LocalDate.ofInstant(collectedAt, ZoneOffset.UTC).plusDays(1);
        if (date == null || !date.isBefore(FIRST_IN_SERVICE) && !date.isAfter(last)) {
            return date;
        }
        note(ofValue(of(Finding.DATE_OF_SERVICE), field).with(Fact.LEAST, FIRST_IN_SERVICE).with(Fact.ADVICE, "CORRECT"));
        return null;
    }

    LocalDate date(ReportField field) {
        String text = text(field);
        if (text == null) {
            return null;
        }
        LocalDate date = UsualTime.date(text);
        if (date == null) {
            judgeUnusable(field, text, of(Finding.DATE_INVALID));
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
        judgeUnusable(ReportField.ATTACHMENT, text, of(Finding.ATTACHMENT_INVALID));
        return Attachment.UNKNOWN;
    }

    private void judgeUnusable(ReportField field, String text, Problem problem) {
        Misread misread = problem.finding() == Finding.DATE_INVALID ? Misread.date(text)
            : problem.finding() == Finding.ATTACHMENT_INVALID || problem.finding() == Finding.SENSORS_INVALID ? Misread.OTHER
            : FieldUnits.isOfPercent(field.dotted()) ? Misread.percent(text) : Misread.number(text);
        // Elsewhere, that a number may have been changed is no news where nothing shows it.
        Misread told = misread.slip() == null && !field.isDecisive() ? Misread.OTHER : misread;
        judge(told.told(ofValue(problem, field)).under(told.kind()), field.isDecisive());
    }

    /** The problem, of what stands in the field. */
    Problem ofValue(Problem problem, ReportField field) {
        return problem.about(field.dotted()).with(Fact.TEXT, shortened(text(field)));
    }

    static String shortened(String text) {
        return text.length() <= MOST_QUOTED ? text : text.substring(0, MOST_QUOTED) + "...";
    }

    void refuse(Problem problem) {
        refusal = refusal == null ? problem : refusal;
    }

    void note(Problem problem) {
        if (!(notes instanceof ArrayList)) {
            notes = new ArrayList<>(notes);
        }
        notes.add(problem);
    }

    /** A problem of this record. */
    Problem of(Finding finding) {
        return Problem.of(finding, source, subject(values));
    }

    /** The machine's name, or else the drive's number, where it is known. */
    static String subject(RawFields values) {
        String name = values.get(values.has(ReportField.MACHINE_ID) ? ReportField.MACHINE_ID : ReportField.SERIAL);
        return name == null ? "" : shortened(VisibleName.of(name));
    }
}
