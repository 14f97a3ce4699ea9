package org.wearledger.intake;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Outcome;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;

/**
 * One flat record to one reading. Names, units and ranges are those of {@code schemas/}. A fault in a field that a
 * verdict rests on refuses the record; a fault elsewhere is noted and the field taken as not reported. A data-unit
 * counter or temperature of 0 is "not reported", as the specification says.
 */
final class ReadingParser {
    private static final int FEWEST_ZEROS = 4;
    private static final String READ_DIRECTLY = "read the drive directly: a bridge or virtual machine may hide it";
    /** Of no use to whoever maps headings of their own. */
    static final String SEE_COLUMNS = "; see schemas/csv-columns.md";
    private static final Pattern VERSION_1 = Pattern.compile("1(\\.\\d+)?");
    /** Later years are typing errors, and beyond what a column of times can hold. */
    private static final Instant LATEST = Instant.parse("9999-12-31T23:59:59.999999999Z");
    /** A drive with blocks to spare or above absolute zero gives neither of them as 0. */
    private static final List<ReportField> NEVER_BOTH_ZERO =
        List.of(ReportField.of(HealthField.AVAILABLE_SPARE), ReportField.of(HealthField.COMPOSITE_TEMPERATURE));

    private final Fields fields;

    private ReadingParser(RawRecord raw) {
        fields = new Fields(raw);
    }

    /** Exactly one of: a reading with its notes, or no reading and one problem that refuses the record. */
    static Outcome<Reading> parse(RawRecord raw) {
        ReadingParser parser = new ReadingParser(raw);
        Reading reading = parser.reading();
        return parser.fields.refusal() == null ? new Outcome<>(List.of(reading), parser.fields.notes())
            : new Outcome<>(List.of(), List.of(parser.fields.refusal()));
    }

    private Reading reading() {
        List<ReportField> missing = missing();
        if (fields.values().size() == 0) {
            fields.refuse(ProblemKind.FIELD_MISSING, "a record without any value", "a report", "delete it");
            return null;
        }
        if (ReportField.SCHEMA_VERSION.dotted().equals(fields.text(ReportField.SCHEMA_VERSION))) {
            fields.refuse(ProblemKind.BROKEN_CSV, "the header again", "one header, in the first line", "delete this line");
            return null;
        }
        if (!missing.isEmpty()) {
            boolean one = missing.size() == 1;
            fields.refuse(ProblemKind.FIELD_MISSING, "no " + missing.stream().map(ReportField::dotted).collect(Collectors.joining(", ")),
                one ? "a value" : "a value for each", (one && missing.get(0) == ReportField.SERIAL
                    ? "without it a reading cannot be joined to a drive" : "without " + (one ? "it" : "them") + " a record is not used")
                    + "; add " + (one ? "it" : "them") + " to the export" + SEE_COLUMNS);
            return null;
        }
        fields.judgeGarbled();
        String version = fields.text(ReportField.SCHEMA_VERSION);
        if (!version.equals("1.0") && !VERSION_1.matcher(version).matches()) {
            fields.refuse(ProblemKind.SCHEMA_VERSION_UNKNOWN, "schemaVersion " + version, "1.0", "export in the format of schemas/");
        }
        Instant collectedAt = collectedAt();
        Machine machine = new Machine(fields.name(ReportField.MACHINE_ID), fields.name(ReportField.ASSET_TAG), fields.name(ReportField.SITE),
            fields.name(ReportField.COST_CENTRE), fields.name(ReportField.MACHINE_MODEL), fields.memory(),
            fields.wholeLong(ReportField.SWAP_USED_BYTES), fields.serviceDate(ReportField.IN_SERVICE_ON, collectedAt), fields.date(ReportField.USER_SINCE));
        Drive drive = new Drive(fields.name(ReportField.SERIAL), fields.name(ReportField.DRIVE_MODEL), fields.name(ReportField.FIRMWARE),
            fields.wholeUpTo(ReportField.CAPACITY_BYTES, Fields.MOST_CAPACITY_BYTES), fields.attachment());
        Health health = fields.text(ReportField.LOG_PAGE) != null ? healthOfPage(collectedAt) : healthOfFields(collectedAt);
        return fields.refusal() == null ? new Reading(fields.source(), collectedAt, machine, drive, health) : null;
    }

    /** By name. */
    private List<ReportField> missing() {
        List<ReportField> missing = List.of();
        for (ReportField field : ReportField.REQUIRED) {
            if (fields.text(field) == null) {
                missing = missing.isEmpty() ? new ArrayList<>() : missing;
                missing.add(field);
            }
        }
        return missing;
    }

    private Instant collectedAt() {
        String text = fields.text(ReportField.COLLECTED_AT);
        Instant at = UsualTime.instant(text);
        if (at == null) {
            Misread misread = Misread.time(text);
            fields.refuse(misread.kind(), Fields.quoted("collectedAt", text) + misread.behindComma(), "a time as in RFC 3339, such as 2025-01-06T09:30:00Z", misread.remedy());
        } else if (at.isBefore(Health.FIRST_SPECIFICATION)) {
            fields.refuse(ProblemKind.FIELD_INVALID, Fields.quoted("collectedAt", text), "a time since 2011", "set the machine's clock and collect again");
        } else if (at.isAfter(LATEST)) {
            fields.refuse(ProblemKind.FIELD_INVALID, Fields.quoted("collectedAt", text), "a year of four digits", "set the machine's clock and collect again");
        }
        return at;
    }

    private Health healthOfPage(Instant collectedAt) {
        byte[] page;
        try {
            page = Base64.getDecoder().decode(fields.text(ReportField.LOG_PAGE));
        } catch (IllegalArgumentException e) {
            fields.refuse(ProblemKind.LOG_PAGE_INVALID, "healthLogPage is no base64: " + e.getMessage(),
                "base64 of the 512-byte log page", "encode the page again");
            return null;
        }
        if (page.length != HealthLogPage.LENGTH_BYTES) {
            fields.refuse(ProblemKind.LOG_PAGE_INVALID, "healthLogPage of " + page.length + " bytes", "exactly 512 bytes",
                "save the whole log page 02h and nothing else");
            return null;
        }
        if (HealthLogPage.isWithoutData(page)) {
            fields.refuse(ProblemKind.LOG_PAGE_WITHOUT_DATA, "every byte of healthLogPage is " + (page[0] == 0 ? "00h" : "FFh"),
                "a page filled by the drive", READ_DIRECTLY);
            return null;
        }
        if (fields.values().hasHealth()) {
            fields.note(ProblemKind.HEALTH_GIVEN_TWICE, "both health and healthLogPage", "one of them",
                "the raw page is used; leave the other out");
        }
        Health.Builder raw = HealthLogPage.decode(page);
        if (raw.value(HealthField.AVAILABLE_SPARE) > 100) {
            fields.refuse(ProblemKind.LOG_PAGE_INVALID, "available spare of " + raw.value(HealthField.AVAILABLE_SPARE) + " %", "0 to 100",
                "read the page again; this value is reserved by the specification");
        }
        return PlausibleHealth.of(raw, collectedAt, fields::note);
    }

    /** The page of a bridge or virtual machine, given field by field. */
    private boolean hasOnlyZeros() {
        // Asked first, since it settles nearly every record.
        for (ReportField field : NEVER_BOTH_ZERO) {
            if (!isZero(field)) {
                return false;
            }
        }
        int zeros = 0;
        for (HealthField each : HealthField.ALL) {
            ReportField field = ReportField.of(each);
            if (fields.values().has(field)) {
                if (!isZero(field)) {
                    return false;
                }
                zeros++;
            }
        }
        return zeros >= FEWEST_ZEROS;
    }

    private boolean isZero(ReportField field) {
        return fields.values().isNumber(field) ? fields.values().number(field) == 0 : "0".equals(fields.text(field));
    }

    private Health healthOfFields(Instant collectedAt) {
        if (hasOnlyZeros()) {
            fields.refuse(ProblemKind.LOG_PAGE_WITHOUT_DATA, "every figure of health is 0", "figures given by the drive", READ_DIRECTLY);
            return null;
        }
        if (!fields.values().hasHealth()) {
            fields.refuse(ProblemKind.FIELD_MISSING, "neither health nor healthLogPage", "one of them", "add what the drive reports to the export" + SEE_COLUMNS);
            return null;
        }
        Health.Builder health = Health.builder();
        for (HealthField field : HealthField.ALL) {
            fields.read(field, health);
        }
        return PlausibleHealth.of(health, collectedAt, fields::note);
    }
}
