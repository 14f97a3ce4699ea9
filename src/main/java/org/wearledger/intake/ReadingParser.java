package org.wearledger.intake;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.StringJoiner;
import java.util.TreeSet;
import java.util.regex.Pattern;
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
    /** The field of the raw page, which gives all of {@code health}. */
    static final String LOG_PAGE = "healthLogPage";
    private static final Set<String> KNOWN = Set.of("schemaVersion", "collectedAt", "machine.id", "machine.assetTag",
        "machine.site", "machine.costCentre", "machine.model", "machine.memoryBytes", "machine.swapUsedBytes",
        "machine.inServiceOn", "machine.userSince", "drive.serial", "drive.model", "drive.firmware", "drive.capacityBytes", "drive.attachment",
        LOG_PAGE);
    private static final Set<String> HEALTH_FIELDS = healthFields();
    private static final String[] REQUIRED_IN_ORDER = Fields.REQUIRED.stream().sorted().toArray(String[]::new);
    /** A drive with blocks to spare or above absolute zero gives neither of them as 0. */
    private static final String[] NEVER_BOTH_ZERO = {"health.availableSparePercent", "health.compositeTemperatureKelvin"};
    private static final String HEADER_AGAIN = "schemaVersion";
    private static final int FEWEST_ZEROS = 4;
    private static final String READ_DIRECTLY = "read the drive directly: a bridge or virtual machine may hide it";
    /** Of no use to whoever maps headings of their own. */
    static final String SEE_COLUMNS = "; see schemas/csv-columns.md";
    private static final Pattern VERSION_1 = Pattern.compile("1(\\.\\d+)?");

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

    static boolean isKnown(String field) {
        return KNOWN.contains(field) || HEALTH_FIELDS.contains(field);
    }

    /** Every field of the report form. */
    static Set<String> known() {
        Set<String> all = new TreeSet<>(KNOWN);
        all.addAll(HEALTH_FIELDS);
        return all;
    }

    private static Set<String> healthFields() {
        return Set.copyOf(HealthField.ALL.stream().map(field -> HealthField.GROUP + field.ownName()).toList());
    }

    private Reading reading() {
        StringJoiner missing = new StringJoiner(", ");
        for (String name : REQUIRED_IN_ORDER) {
            if (fields.text(name) == null) {
                missing.add(name);
            }
        }
        if (fields.texts().isEmpty()) {
            fields.refuse(ProblemKind.FIELD_MISSING, "a record without any value", "a report", "delete it");
            return null;
        }
        if (HEADER_AGAIN.equals(fields.text(HEADER_AGAIN))) {
            fields.refuse(ProblemKind.BROKEN_CSV, "the header again", "one header, in the first line", "delete this line");
            return null;
        }
        if (missing.length() > 0) {
            boolean one = Fields.REQUIRED.contains(missing.toString());
            fields.refuse(ProblemKind.FIELD_MISSING, "no " + missing, one ? "a value" : "a value for each", (missing.toString().equals("drive.serial")
                ? "without it a reading cannot be joined to a drive" : "without " + (one ? "it" : "them") + " a record is not used")
                + "; add " + (one ? "it" : "them") + " to the export" + SEE_COLUMNS);
            return null;
        }
        fields.judgeGarbled();
        String version = fields.text("schemaVersion");
        if (!version.equals("1.0") && !VERSION_1.matcher(version).matches()) {
            fields.refuse(ProblemKind.SCHEMA_VERSION_UNKNOWN, "schemaVersion " + version, "1.0", "export in the format of schemas/");
        }
        Instant collectedAt = collectedAt();
        Machine machine = new Machine(fields.name("machine.id"), fields.name("machine.assetTag"), fields.name("machine.site"),
            fields.name("machine.costCentre"), fields.name("machine.model"), fields.memory("machine.memoryBytes"),
            fields.wholeLong("machine.swapUsedBytes"), fields.serviceDate("machine.inServiceOn", collectedAt), fields.date("machine.userSince"));
        Drive drive = new Drive(fields.name("drive.serial"), fields.name("drive.model"), fields.name("drive.firmware"),
            fields.wholeUpTo("drive.capacityBytes", Fields.MOST_CAPACITY_BYTES), fields.attachment());
        Health health = fields.text(LOG_PAGE) != null ? healthOfPage(collectedAt) : healthOfFields(collectedAt);
        return fields.refusal() == null ? new Reading(fields.source(), collectedAt, machine, drive, health) : null;
    }

    /** Later years are typing errors, and beyond what a column of times can hold. */
    private static final Instant LATEST = Instant.parse("9999-12-31T23:59:59.999999999Z");

    private Instant collectedAt() {
        String text = fields.text("collectedAt");
        try {
            Instant at = OffsetDateTime.parse(text).toInstant();
            if (at.isBefore(Health.FIRST_SPECIFICATION)) {
                fields.refuse(ProblemKind.FIELD_INVALID, Fields.quoted("collectedAt", text), "a time since 2011", "set the machine's clock and collect again");
            } else if (at.isAfter(LATEST)) {
                fields.refuse(ProblemKind.FIELD_INVALID, Fields.quoted("collectedAt", text), "a year of four digits", "set the machine's clock and collect again");
            }
            return at;
        } catch (DateTimeParseException e) {
            Misread misread = Misread.time(text);
            fields.refuse(misread.kind(), Fields.quoted("collectedAt", text) + misread.behindComma(), "a time as in RFC 3339, such as 2025-01-06T09:30:00Z", misread.remedy());
            return null;
        }
    }

    private Health healthOfPage(Instant collectedAt) {
        byte[] page;
        try {
            page = Base64.getDecoder().decode(fields.text(LOG_PAGE));
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
        if (hasHealthField()) {
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

    private boolean hasHealthField() {
        for (String name : fields.texts().keySet()) {
            if (HEALTH_FIELDS.contains(name)) {
                return true;
            }
        }
        return false;
    }

    /** The page of a bridge or virtual machine, given field by field. */
    private boolean hasOnlyZeros() {
        // Asked first, since it settles nearly every record.
        for (String name : NEVER_BOTH_ZERO) {
            if (!"0".equals(fields.text(name))) {
                return false;
            }
        }
        int zeros = 0;
        for (Map.Entry<String, String> field : fields.texts().entrySet()) {
            if (HEALTH_FIELDS.contains(field.getKey())) {
                if (!field.getValue().strip().equals("0")) {
                    return false;
                }
                zeros++;
            }
        }
        return zeros >= FEWEST_ZEROS;
    }

    private Health healthOfFields(Instant collectedAt) {
        if (hasOnlyZeros()) {
            fields.refuse(ProblemKind.LOG_PAGE_WITHOUT_DATA, "every figure of health is 0", "figures given by the drive", READ_DIRECTLY);
            return null;
        }
        if (!hasHealthField()) {
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
