package org.wearledger.model;

import java.io.Serializable;
import java.math.BigInteger;
import java.time.Instant;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * What one report says of the {@linkplain HealthField fields} of the log page, in the specification's units; any may be missing, and
 * is then {@code null}.
 *
 * <p>Counters are unsigned 128-bit in the specification. One of 2^63 or more, which no honest drive reaches, counts as
 * {@link Long#MAX_VALUE}; {@link #exact} has all of its digits.
 */
public final class Health implements Serializable {
    /** Bytes in one data unit: 1,000 units of 512 bytes. */
    public static final BigInteger BYTES_PER_DATA_UNIT = BigInteger.valueOf(512_000);
    /** The first NVM Express specification is of 2011: no report and no counter can be older. */
    public static final Instant FIRST_SPECIFICATION = Instant.parse("2011-01-01T00:00:00Z");
    private static final int NOTHING_REMAINING = 100;
    /** The most that the byte of percentage used holds: so much or more. */
    public static final int USED_AT_ITS_LIMIT = 255;

    private static final int RELIABILITY_DEGRADED = 1 << 2;
    private static final int MEDIA_READ_ONLY = 1 << 3;
    private static final int SPARE_BELOW_THRESHOLD = 1;
    private static final int[] NO_SENSORS = {};
    private static final int FIELDS = HealthField.ALL.size();
    /** A report without any of the fields. */
    public static final Health NOTHING = new Builder().build();

    /** A bit for each field that is reported. */
    private final int reported;
    private final long[] values;
    private final int[] sensors;
    /** Counters of 2^63 or more; {@code null} for none. */
    private final EnumMap<HealthField, BigInteger> large;

    private Health(Builder from) {
        reported = from.reported;
        values = from.values;
        sensors = from.sensors;
        large = from.large == null || from.large.isEmpty() ? null : from.large;
    }

    /** One that reports nothing yet. */
    public static Builder builder() {
        return new Builder();
    }

    /** One that reports what this does. */
    public Builder toBuilder() {
        Builder builder = new Builder();
        builder.reported = reported;
        System.arraycopy(values, 0, builder.values, 0, FIELDS);
        builder.sensors = sensors;
        builder.large = large == null ? null : new EnumMap<>(large);
        return builder;
    }

    /** Collects the fields of one report. Not for several threads. */
    public static final class Builder {
        private int reported;
        private long[] values = new long[FIELDS];
        private int[] sensors = NO_SENSORS;
        private EnumMap<HealthField, BigInteger> large;

        private Builder() {
        }

        /** Reports the field. */
        public Builder set(HealthField field, long value) {
            if (large != null) {
                large.remove(field);
            }
            reported |= 1 << field.ordinal();
            values[field.ordinal()] = value;
            return this;
        }

        /** Reports the field, or nothing of it for {@code null}; a counter may be larger than a {@code long}. */
        public Builder set(HealthField field, Number valueOrNull) {
            clear(field);
            if (valueOrNull == null) {
                return this;
            }
            if (valueOrNull instanceof BigInteger exact && exact.bitLength() >= Long.SIZE) {
                set(field, Long.MAX_VALUE);
                large = large == null ? new EnumMap<>(HealthField.class) : large;
                large.put(field, exact);
                return this;
            }
            return set(field, valueOrNull.longValue());
        }

        /** Reports nothing of the field. */
        public Builder clear(HealthField field) {
            reported &= ~(1 << field.ordinal());
            values[field.ordinal()] = 0;
            sensors = field.isList() ? NO_SENSORS : sensors;
            if (large != null) {
                large.remove(field);
            }
            return this;
        }

        /** Reports temperature sensors; none when there are none. */
        public Builder sensors(int... kelvins) {
            sensors = kelvins.length == 0 ? NO_SENSORS : kelvins.clone();
            return this;
        }

        /** Temperature sensors so far. */
        public int[] sensors() {
            return sensors.clone();
        }

        /** With all digits, as {@link Health#exact}. */
        public BigInteger exact(HealthField field) {
            return large != null && large.containsKey(field) ? large.get(field) : has(field) ? BigInteger.valueOf(value(field)) : null;
        }

        /** Takes over the field from a report that has it. */
        public Builder fill(HealthField field, Health other) {
            if (field.isList()) {
                sensors = other.sensors;
            } else if (other.has(field)) {
                set(field, other.exact(field));
            }
            return this;
        }

        /** Whether the field is reported so far. */
        public boolean has(HealthField field) {
            return field.isList() ? sensors.length > 0 : (reported & 1 << field.ordinal()) != 0;
        }

        /** As {@link Health#value}. */
        public long value(HealthField field) {
            return values[field.ordinal()];
        }

        /** The report; the builder is of no use behind it. */
        public Health build() {
            Health built = new Health(this);
            values = null;
            return built;
        }
    }

    /**
     * Whether a percentage used may stand for a higher one: at 255, the most that its byte holds, and at 100, as which a life remaining of 0
     * is read, below which few controllers count.
     */
    public static boolean isUsedOpenAbove(int percentageUsed) {
        return percentageUsed == NOTHING_REMAINING || percentageUsed >= USED_AT_ITS_LIMIT;
    }

    /** Example: {@code 97 %}; {@code 255 % or more}. */
    public static String usedInWords(int percentageUsed) {
        return percentageUsed + (percentageUsed >= USED_AT_ITS_LIMIT ? " % or more" : " %");
    }

    /** Whether the field is reported. */
    public boolean has(HealthField field) {
        return field.isList() ? sensors.length > 0 : (reported & 1 << field.ordinal()) != 0;
    }

    /** A bit for each field that is reported, by its ordinal; the sensors have none. */
    public int reported() {
        return reported;
    }

    /** The field's value, 0 when it is not reported. */
    public long value(HealthField field) {
        return values[field.ordinal()];
    }

    /** The field's value, {@code null} when it is not reported. */
    public Long get(HealthField field) {
        return has(field) ? (Long) values[field.ordinal()] : null;
    }

    private Integer small(HealthField field) {
        return has(field) ? (Integer) (int) values[field.ordinal()] : null;
    }

    /** The value with all its digits, {@code null} when it is not reported. */
    public BigInteger exact(HealthField field) {
        BigInteger exact = exactOrNull(field);
        return exact != null ? exact : has(field) ? BigInteger.valueOf(value(field)) : null;
    }

    /** Whether it is larger than a {@code long}. */
    public boolean isLarge(HealthField field) {
        return exactOrNull(field) != null;
    }

    private BigInteger exactOrNull(HealthField field) {
        return large == null ? null : large.get(field);
    }

    /** As the log page has it. */
    public Integer criticalWarning() {
        return small(HealthField.CRITICAL_WARNING);
    }

    /** In percent, of what the drive had when new. */
    public Integer availableSparePercent() {
        return small(HealthField.AVAILABLE_SPARE);
    }

    /** In percent. */
    public Integer availableSpareThresholdPercent() {
        return small(HealthField.AVAILABLE_SPARE_THRESHOLD);
    }

    /** The controller's own estimate, 0 to 255. */
    public Integer percentageUsed() {
        return small(HealthField.PERCENTAGE_USED);
    }

    /** Of 512,000 bytes each. */
    public Long dataUnitsRead() {
        return get(HealthField.DATA_UNITS_READ);
    }

    /** Of 512,000 bytes each. */
    public Long dataUnitsWritten() {
        return get(HealthField.DATA_UNITS_WRITTEN);
    }

    /** Read commands of the host. */
    public Long hostReadCommands() {
        return get(HealthField.HOST_READ_COMMANDS);
    }

    /** Write commands of the host. */
    public Long hostWriteCommands() {
        return get(HealthField.HOST_WRITE_COMMANDS);
    }

    /** Times the drive was switched on. */
    public Long powerCycles() {
        return get(HealthField.POWER_CYCLES);
    }

    /** Hours under power. */
    public Long powerOnHours() {
        return get(HealthField.POWER_ON_HOURS);
    }

    /** Times the controller met data that it could not make good. */
    public Long mediaAndDataIntegrityErrors() {
        return get(HealthField.MEDIA_ERRORS);
    }

    /** In kelvin, 0 for a sensor that is not implemented; empty when none is reported. */
    public List<Integer> temperatureSensorsKelvin() {
        return IntStream.of(sensors).boxed().toList();
    }

    /** How many temperature sensors are reported. */
    public int sensors() {
        return sensors.length;
    }

    /** Kelvins of one of {@link #sensors}, from 0. */
    public int sensor(int number) {
        return sensors[number];
    }

    /** {@code dataUnitsWritten} x 512,000; {@code null} when not reported. Example: 309,667,839 is 158,549,933,568,000. */
    public BigInteger bytesWritten() {
        BigInteger units = exact(HealthField.DATA_UNITS_WRITTEN);
        return units == null ? null : units.multiply(BYTES_PER_DATA_UNIT);
    }

    /** Bit 2 of the critical warning; false when not reported. */
    public boolean reliabilityDegraded() {
        return criticalWarningHas(RELIABILITY_DEGRADED);
    }

    /** Bit 3 of the critical warning; false when not reported. */
    public boolean mediaReadOnly() {
        return criticalWarningHas(MEDIA_READ_ONLY);
    }

    /** Bit 0 of the critical warning; false when not reported. */
    public boolean spareBelowThreshold() {
        return criticalWarningHas(SPARE_BELOW_THRESHOLD);
    }

    private boolean criticalWarningHas(int bit) {
        return (value(HealthField.CRITICAL_WARNING) & bit) != 0;
    }

    /** The fields that are reported, those that only {@code other} reports among them. */
    public Health orElse(Health other) {
        Builder both = toBuilder();
        HealthField.ALL.stream().filter(field -> !has(field)).forEach(field -> both.fill(field, other));
        return both.build();
    }

    /** Every field that is reported, by its own name, as text. */
    public Map<String, String> inWords() {
        return HealthField.ALL.stream().filter(this::has).collect(Collectors.toMap(HealthField::ownName,
            field -> field.isList() ? temperatureSensorsKelvin().toString() : exact(field).toString(), (a, b) -> a, LinkedHashMap::new));
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Health health && reported == health.reported && Arrays.equals(values, health.values) && Arrays.equals(sensors, health.sensors)
            && (large == null ? health.large == null : large.equals(health.large));
    }

    @Override
    public int hashCode() {
        return 31 * Arrays.hashCode(values) + Arrays.hashCode(sensors);
    }

    @Override
    public String toString() {
        return "Health" + inWords();
    }
}
