package org.wearledger.intake;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.wearledger.model.HealthField;
import org.wearledger.model.HealthField.Quantity;

/** A field of the report form: those of the drive's log page as {@link HealthField} has them, and those that say whose it is. */
final class ReportField {
    static final ReportField SCHEMA_VERSION = required(0, "schemaVersion");
    static final ReportField COLLECTED_AT = required(1, "collectedAt");
    static final ReportField MACHINE_ID = required(2, "machine.id");
    static final ReportField ASSET_TAG = optional(3, "machine.assetTag");
    static final ReportField SITE = optional(4, "machine.site");
    static final ReportField COST_CENTRE = optional(5, "machine.costCentre");
    static final ReportField MACHINE_MODEL = optional(6, "machine.model");
    static final ReportField MEMORY_BYTES = bytes(7, "machine.memoryBytes");
    static final ReportField SWAP_USED_BYTES = bytes(8, "machine.swapUsedBytes");
    static final ReportField IN_SERVICE_ON = optional(9, "machine.inServiceOn");
    static final ReportField USER_SINCE = optional(10, "machine.userSince");
    static final ReportField SERIAL = required(11, "drive.serial");
    static final ReportField DRIVE_MODEL = required(12, "drive.model");
    static final ReportField FIRMWARE = optional(13, "drive.firmware");
    static final ReportField CAPACITY_BYTES = bytes(14, "drive.capacityBytes");
    static final ReportField ATTACHMENT = optional(15, "drive.attachment");
    /** The raw page, which gives all of {@code health}. */
    static final ReportField LOG_PAGE = optional(16, "healthLogPage");
    /** The name of a file of the raw page, in the folder of the report. */
    static final ReportField PAGE_FILE = optional(17, "file");
    private static final ReportField[] HEALTH = HealthField.ALL.stream()
        .map(field -> new ReportField(PAGE_FILE.slot + 1 + field.ordinal(), field.dotted(), false, field.isDecisive(), field.quantity()))
        .toArray(ReportField[]::new);
    static final List<ReportField> ALL = Stream.concat(Stream.of(SCHEMA_VERSION, COLLECTED_AT, MACHINE_ID, ASSET_TAG, SITE, COST_CENTRE, MACHINE_MODEL,
        MEMORY_BYTES, SWAP_USED_BYTES, IN_SERVICE_ON, USER_SINCE, SERIAL, DRIVE_MODEL, FIRMWARE, CAPACITY_BYTES, ATTACHMENT, LOG_PAGE, PAGE_FILE), Arrays.stream(HEALTH)).toList();
    /** By name. */
    static final List<ReportField> REQUIRED = ALL.stream().filter(field -> field.required).sorted((a, b) -> a.name.compareTo(b.name)).toList();
    /** A bit for each field of health. */
    static final long HEALTH_BITS = Arrays.stream(HEALTH).mapToLong(ReportField::bit).sum();
    private static final Map<String, ReportField> BY_NAME = new HashMap<>();

    static {
        ALL.forEach(field -> BY_NAME.put(field.name, field));
    }

    private final int slot;
    private final String name;
    private final boolean required;
    private final boolean decisive;
    private final Quantity quantity;

    private ReportField(int slot, String name, boolean required, boolean decisive, Quantity quantity) {
        this.slot = slot;
        this.name = name;
        this.required = required;
        this.decisive = decisive;
        this.quantity = quantity;
    }

    private static ReportField required(int slot, String name) {
        return new ReportField(slot, name, true, true, null);
    }

    private static ReportField optional(int slot, String name) {
        return new ReportField(slot, name, false, false, null);
    }

    private static ReportField bytes(int slot, String name) {
        return new ReportField(slot, name, false, false, Quantity.BYTES);
    }

    /** {@code null} for a name that is none of the report form. */
    static ReportField named(String name) {
        return BY_NAME.get(name);
    }

    static ReportField of(HealthField field) {
        return HEALTH[field.ordinal()];
    }

    /** Its place among {@link #ALL}. */
    int slot() {
        return slot;
    }

    long bit() {
        return 1L << slot;
    }

    /** With dots: {@code machine.id}. */
    String dotted() {
        return name;
    }

    /** Whether a record without it is refused. */
    boolean isRequired() {
        return required;
    }

    /** Whether a fault in it refuses the record. */
    boolean isDecisive() {
        return decisive;
    }

    /** {@code null} for a text or a time. */
    Quantity quantity() {
        return quantity;
    }

    @Override
    public String toString() {
        return name;
    }
}
