package org.wearledger.intake;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * One flat record to one reading. Names, units and ranges are those of {@code schemas/}. A fault in a field that a
 * verdict rests on refuses the record; a fault elsewhere is noted and the field taken as not reported. A data-unit
 * counter or temperature of 0 is "not reported", as the specification says.
 */
final class ReadingParser {
    static final Set<String> REQUIRED = Set.of("schemaVersion", "collectedAt", "machine.id", "drive.serial", "drive.model");
    private static final Set<String> DECISIVE = Set.of("health.criticalWarning", "health.availableSparePercent",
        "health.percentageUsed", "health.dataUnitsWritten", "health.mediaAndDataIntegrityErrors");
    private static final Set<String> KNOWN = Set.of("schemaVersion", "collectedAt", "machine.id", "machine.assetTag",
        "machine.site", "machine.costCentre", "machine.model", "machine.memoryBytes", "machine.swapUsedBytes",
        "machine.inServiceOn", "drive.serial", "drive.model", "drive.firmware", "drive.capacityBytes", "drive.attachment",
        "healthLogPage");
    private static final Set<String> HEALTH_FIELDS = healthFields();
    private static final String TEXT_EXPECTED = "text in UTF-8, or UTF-16 with a byte order mark";
    private static final String TEXT_REMEDY = "export as UTF-8";
    private static final Pattern VERSION_1 = Pattern.compile("1(\\.\\d+)?");
    private static final Pattern DIGITS = Pattern.compile("\\d{1,39}");
    private static final BigInteger COUNTER_LIMIT = BigInteger.ONE.shiftLeft(128);
    private static final int MOST_QUOTED = 100;
    /** What stands in for bytes that are no UTF-8. */
    private static final char UNDECODABLE = '\uFFFD';
    private static final long UNSIGNED_32_MAX = 0xFFFF_FFFFL;
    /** The first NVM Express specification is of 2011: an earlier time is a clock that was not set. */
    private static final Instant EARLIEST = Instant.parse("2011-01-01T00:00:00Z");

    private final SourcePlace source;
    private final Map<String, String> fields;
    private final List<Problem> notes = new ArrayList<>();
    private Problem refusal;

    private ReadingParser(RawRecord raw) {
        source = raw.source();
        fields = raw.fields();
    }

    /** Exactly one of: a reading with its notes, or no reading and one problem that refuses the record. */
    static Outcome<Reading> parse(RawRecord raw) {
        ReadingParser parser = new ReadingParser(raw);
        Reading reading = parser.reading();
        return parser.refusal == null ? new Outcome<>(List.of(reading), parser.notes)
            : new Outcome<>(List.of(), List.of(parser.refusal));
    }

    static boolean isKnown(String field) {
        return KNOWN.contains(field) || HEALTH_FIELDS.contains(field);
    }

    private static Set<String> healthFields() {
        return Set.copyOf(Arrays.stream(Health.class.getRecordComponents()).map(c -> "health." + c.getName()).toList());
    }

    private Reading reading() {
        List<String> missing = REQUIRED.stream().filter(name -> text(name) == null).sorted().toList();
        if (!missing.isEmpty()) {
            refuse(ProblemKind.FIELD_MISSING, "no " + String.join(", ", missing), "a value for each",
                "see schemas/csv-columns.md");
            return null;
        }
        List<String> garbled = fields.keySet().stream().filter(name -> Problem.writable(fields.get(name)).indexOf(UNDECODABLE) >= 0).sorted().toList();
        if (garbled.stream().anyMatch(REQUIRED::contains)) {
            refuse(ProblemKind.FIELD_INVALID, "bytes that are no UTF-8 in " + String.join(", ", garbled), TEXT_EXPECTED, TEXT_REMEDY);
        } else if (!garbled.isEmpty()) {
            note(ProblemKind.OPTIONAL_FIELD_INVALID, "bytes that are no UTF-8 in " + String.join(", ", garbled), TEXT_EXPECTED, TEXT_REMEDY);
        }
        String version = text("schemaVersion");
        if (!VERSION_1.matcher(version).matches()) {
            refuse(ProblemKind.SCHEMA_VERSION_UNKNOWN, "schemaVersion " + version, "1.0", "export in the format of schemas/");
        }
        Instant collectedAt = collectedAt();
        Machine machine = new Machine(text("machine.id"), text("machine.assetTag"), text("machine.site"),
            text("machine.costCentre"), text("machine.model"), wholeLong("machine.memoryBytes"),
            wholeLong("machine.swapUsedBytes"), date("machine.inServiceOn"));
        Drive drive = new Drive(text("drive.serial"), text("drive.model"), text("drive.firmware"),
            wholeLong("drive.capacityBytes"), attachment());
        Health health = text("healthLogPage") != null ? healthOfPage() : healthOfFields();
        return refusal == null ? new Reading(source, collectedAt, machine, drive, health) : null;
    }

    private Instant collectedAt() {
        String text = text("collectedAt");
        try {
            Instant at = OffsetDateTime.parse(text).toInstant();
            if (at.isBefore(EARLIEST)) {
                invalid("collectedAt", "a time since 2011", "set the machine's clock and collect again");
            }
            return at;
        } catch (DateTimeParseException e) {
            invalid("collectedAt", "a time as in RFC 3339, such as 2025-01-06T09:30:00Z", "give date, time and offset");
            return null;
        }
    }

    private Health healthOfPage() {
        byte[] page;
        try {
            page = Base64.getDecoder().decode(text("healthLogPage"));
        } catch (IllegalArgumentException e) {
            refuse(ProblemKind.LOG_PAGE_INVALID, "healthLogPage is no base64: " + e.getMessage(),
                "base64 of the 512-byte log page", "encode the page again");
            return null;
        }
        if (page.length != HealthLogPage.LENGTH_BYTES) {
            refuse(ProblemKind.LOG_PAGE_INVALID, "healthLogPage of " + page.length + " bytes", "exactly 512 bytes",
                "save the whole log page 02h and nothing else");
            return null;
        }
        if (HealthLogPage.isWithoutData(page)) {
            refuse(ProblemKind.LOG_PAGE_WITHOUT_DATA, "every byte of healthLogPage is " + (page[0] == 0 ? "00h" : "FFh"),
                "a page filled by the drive", "read the drive directly: a bridge or virtual machine may hide it");
            return null;
        }
        if (fields.keySet().stream().anyMatch(HEALTH_FIELDS::contains)) {
            note(ProblemKind.HEALTH_GIVEN_TWICE, "both health and healthLogPage", "one of them",
                "the raw page is used; leave the other out");
        }
        Health raw = HealthLogPage.decode(page);
        if (raw.availableSparePercent() > 100) {
            refuse(ProblemKind.LOG_PAGE_INVALID, "available spare of " + raw.availableSparePercent() + " %", "0 to 100",
                "read the page again; this value is reserved by the specification");
        }
        return reported(raw);
    }

    private Health healthOfFields() {
        if (fields.keySet().stream().noneMatch(HEALTH_FIELDS::contains)) {
            refuse(ProblemKind.FIELD_MISSING, "neither health nor healthLogPage", "one of them", "see schemas/csv-columns.md");
            return null;
        }
        return reported(new Health(small("criticalWarning", 255), small("compositeTemperatureKelvin", 65_535),
            small("availableSparePercent", 100), small("availableSpareThresholdPercent", 100),
            small("percentageUsed", 255), small("enduranceGroupCriticalWarningSummary", 255),
            counter("dataUnitsRead"), counter("dataUnitsWritten"), counter("hostReadCommands"),
            counter("hostWriteCommands"), counter("controllerBusyMinutes"), counter("powerCycles"),
            counter("powerOnHours"), counter("unsafeShutdowns"), counter("mediaAndDataIntegrityErrors"),
            counter("errorLogEntries"), wholeUpTo("health.warningTemperatureMinutes", UNSIGNED_32_MAX),
            wholeUpTo("health.criticalTemperatureMinutes", UNSIGNED_32_MAX), sensors(),
            wholeUpTo("health.thermalManagement1Transitions", UNSIGNED_32_MAX),
            wholeUpTo("health.thermalManagement2Transitions", UNSIGNED_32_MAX),
            wholeUpTo("health.thermalManagement1Seconds", UNSIGNED_32_MAX),
            wholeUpTo("health.thermalManagement2Seconds", UNSIGNED_32_MAX)));
    }

    /** The same health with the specification's "0h: not reported" taken out, so that all formats agree. */
    private static Health reported(Health h) {
        List<Integer> sensors = new ArrayList<>(h.temperatureSensorsKelvin());
        while (!sensors.isEmpty() && sensors.get(sensors.size() - 1) == 0) {
            sensors.remove(sensors.size() - 1);
        }
        Integer kelvin = h.compositeTemperatureKelvin();
        return new Health(h.criticalWarning(), kelvin != null && kelvin == 0 ? null : kelvin, h.availableSparePercent(),
            h.availableSpareThresholdPercent(), h.percentageUsed(), h.enduranceGroupCriticalWarningSummary(),
            nonZero(h.dataUnitsRead()), nonZero(h.dataUnitsWritten()), h.hostReadCommands(), h.hostWriteCommands(),
            h.controllerBusyMinutes(), h.powerCycles(), h.powerOnHours(), h.unsafeShutdowns(),
            h.mediaAndDataIntegrityErrors(), h.errorLogEntries(), h.warningTemperatureMinutes(),
            h.criticalTemperatureMinutes(), sensors, h.thermalManagement1Transitions(),
            h.thermalManagement2Transitions(), h.thermalManagement1Seconds(), h.thermalManagement2Seconds());
    }

    private static BigInteger nonZero(BigInteger counter) {
        return counter == null || counter.signum() == 0 ? null : counter;
    }

    private String text(String name) {
        String value = fields.get(name);
        if (value == null) {
            return null;
        }
        String stripped = Problem.writable(value).replace('\0', ' ').strip();
        return stripped.isEmpty() && !name.equals("drive.serial") ? null : stripped;
    }

    private BigInteger whole(String name, BigInteger limit, String expected) {
        return field(name, expected, text -> {
            if (!DIGITS.matcher(text).matches()) {
                return null;
            }
            BigInteger value = new BigInteger(text);
            return value.compareTo(limit) < 0 ? value : null;
        });
    }

    private BigInteger counter(String name) {
        return whole("health." + name, COUNTER_LIMIT, "an exact whole number below 2^128, digits only");
    }

    private Long wholeUpTo(String name, long most) {
        BigInteger value = whole(name, BigInteger.valueOf(most).add(BigInteger.ONE), "a whole number, 0 to " + most);
        return value == null ? null : value.longValueExact();
    }

    private Long wholeLong(String name) {
        return wholeUpTo(name, Long.MAX_VALUE - 1);
    }

    private Integer small(String name, int most) {
        Long value = wholeUpTo("health." + name, most);
        return value == null ? null : value.intValue();
    }

    private List<Integer> sensors() {
        List<Integer> sensors = field("health.temperatureSensorsKelvin", "up to eight whole numbers, 0 to 65535", text -> {
            String[] parts = text.split("\\s+");
            boolean good = parts.length <= 8
                && Arrays.stream(parts).allMatch(p -> p.matches("\\d{1,5}") && Integer.parseInt(p) <= 65_535);
            return good ? Arrays.stream(parts).map(Integer::valueOf).toList() : null;
        });
        return sensors == null ? List.of() : sensors;
    }

    private LocalDate date(String name) {
        return field(name, "a date such as 2025-01-06", text -> {
            try {
                return LocalDate.parse(text);
            } catch (DateTimeParseException e) {
                return null;
            }
        });
    }

    private Attachment attachment() {
        Attachment attachment = field("drive.attachment", "soldered, socketed or unknown", text ->
            Arrays.stream(Attachment.values()).filter(a -> a.label().equals(text.toLowerCase(Locale.ROOT))).findFirst()
                .orElse(null));
        return attachment == null ? Attachment.UNKNOWN : attachment;
    }

    /** The converted field; {@code null} when it is not reported, or when it is at fault, which is then on record. */
    private <T> T field(String name, String expected, Function<String, T> convert) {
        String text = text(name);
        if (text == null) {
            return null;
        }
        T value = convert.apply(text);
        if (value == null && DECISIVE.contains(name)) {
            invalid(name, expected, "export the exact number; a spreadsheet may have changed it");
        } else if (value == null) {
            note(ProblemKind.OPTIONAL_FIELD_INVALID, name + " is \"" + shortened(text) + "\"", expected,
                "the field is taken as not reported; correct the export");
        }
        return value;
    }

    private void invalid(String name, String expected, String remedy) {
        refuse(ProblemKind.FIELD_INVALID, name + " is \"" + shortened(text(name)) + "\"", expected, remedy);
    }

    private static String shortened(String text) {
        return text.length() <= MOST_QUOTED ? text : text.substring(0, MOST_QUOTED) + "...";
    }

    private void refuse(ProblemKind kind, String found, String expected, String remedy) {
        if (refusal == null) {
            refusal = problem(kind, found, expected, remedy);
        }
    }

    private void note(ProblemKind kind, String found, String expected, String remedy) {
        notes.add(problem(kind, found, expected, remedy));
    }

    private Problem problem(ProblemKind kind, String found, String expected, String remedy) {
        String subject = fields.getOrDefault("machine.id", fields.getOrDefault("drive.serial", "")).strip();
        return new Problem(kind, source, subject, found, expected, remedy);
    }
}
