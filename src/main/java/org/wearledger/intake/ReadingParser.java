package org.wearledger.intake;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.regex.Pattern;
import org.wearledger.model.Drive;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.MappedField;
import org.wearledger.model.Outcome;
import org.wearledger.model.Reading;

/**
 * One flat record to one reading. Names, units and ranges are those of {@code schemas/}. A fault in a field that a
 * verdict rests on refuses the record; a fault elsewhere is noted and the field taken as not reported. A data-unit
 * counter or temperature of 0 is "not reported", as the specification says.
 */
final class ReadingParser {
    private static final int FEWEST_ZEROS = 4;
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
            fields.refuse(fields.of(Finding.EMPTY_RECORD));
            return null;
        }
        if (ReportField.SCHEMA_VERSION.dotted().equals(fields.text(ReportField.SCHEMA_VERSION))) {
            fields.refuse(fields.of(Finding.HEADER_AGAIN));
            return null;
        }
        if (!missing.isEmpty()) {
            Finding finding = missing.size() > 1 ? Finding.SEVERAL_MISSING : missing.get(0) == ReportField.SERIAL ? Finding.SERIAL_MISSING : Finding.REQUIRED_MISSING;
            fields.refuse(fields.of(finding).about(missing.stream().map(field -> MappedField.of(field.dotted())).toList()));
            return null;
        }
        fields.judgeGarbled();
        String version = fields.text(ReportField.SCHEMA_VERSION);
        if (!version.equals("1.0") && !VERSION_1.matcher(version).matches()) {
            fields.refuse(fields.of(Finding.VERSION_UNKNOWN).with(Fact.TEXT, version));
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
            boolean known = field == ReportField.COLLECTED_AT && fields.values().time() != null;
            if (!known && fields.text(field) == null) {
                missing = missing.isEmpty() ? new ArrayList<>() : missing;
                missing.add(field);
            }
        }
        return missing;
    }

    private Instant collectedAt() {
        Instant known = fields.values().time();
        Instant at = known != null ? known : UsualTime.instant(fields.text(ReportField.COLLECTED_AT));
        if (at == null) {
            Misread misread = Misread.time(fields.text(ReportField.COLLECTED_AT));
            fields.refuse(misread.told(fields.ofValue(fields.of(Finding.TIME_INVALID), ReportField.COLLECTED_AT)).under(misread.kind()));
        } else if (at.isBefore(Health.FIRST_SPECIFICATION)) {
            fields.refuse(fields.ofValue(fields.of(Finding.TIME_EARLY), ReportField.COLLECTED_AT).with(Fact.ADVICE, "SET_CLOCK"));
        } else if (at.isAfter(LATEST)) {
            fields.refuse(fields.ofValue(fields.of(Finding.TIME_LATE), ReportField.COLLECTED_AT).with(Fact.ADVICE, "SET_CLOCK"));
        }
        return at;
    }

    private Health healthOfPage(Instant collectedAt) {
        byte[] page;
        try {
            page = Base64.getDecoder().decode(fields.text(ReportField.LOG_PAGE));
        } catch (IllegalArgumentException e) {
            fields.refuse(fields.of(Finding.PAGE_NO_BASE64).with(Fact.TEXT, e.getMessage()));
            return null;
        }
        if (page.length != HealthLogPage.LENGTH_BYTES) {
            fields.refuse(fields.of(Finding.PAGE_LENGTH).with(Fact.BYTES, page.length));
            return null;
        }
        if (HealthLogPage.isWithoutData(page)) {
            fields.refuse(fields.of(Finding.PAGE_BLANK).with(Fact.TEXT, fields.text(ReportField.PAGE_FILE)).with(Fact.VALUE, page[0] == 0 ? "00h" : "FFh"));
            return null;
        }
        if (fields.values().hasHealth()) {
            fields.note(fields.of(Finding.HEALTH_TWICE));
        }
        Health.Builder raw = HealthLogPage.decode(page);
        if (raw.value(HealthField.AVAILABLE_SPARE) > 100) {
            fields.refuse(fields.of(Finding.PAGE_SPARE).with(Fact.VALUE, raw.value(HealthField.AVAILABLE_SPARE)));
        }
        return PlausibleHealth.of(raw, collectedAt, fields);
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
            fields.refuse(fields.of(Finding.HEALTH_ZERO));
            return null;
        }
        if (!fields.values().hasHealth()) {
            fields.refuse(fields.of(Finding.HEALTH_MISSING));
            return null;
        }
        Health.Builder health = Health.builder();
        for (HealthField field : HealthField.ALL) {
            fields.read(field, health);
        }
        return PlausibleHealth.of(health, collectedAt, fields);
    }
}
