package org.wearledger.job;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import scala.jdk.javaapi.CollectionConverters;

/**
 * A reading as a row of typed columns, named as in the report form, to be kept in Parquet and read by any tool that knows it.
 *
 * <p>The standard's counters are unsigned 128-bit, a column's whole numbers signed 64-bit. A counter of 2^63 or more, which no honest
 * drive reaches, leaves its column empty and stands in {@code largeCounters} as decimal text, so that no digit is lost.
 */
final class ReadingRows {
    private static final DataType TEXT = DataTypes.StringType;
    private static final DataType WHOLE = DataTypes.LongType;
    private static final DataType SMALL = DataTypes.IntegerType;

    static final StructType SCHEMA = schema();
    private static final int LARGE_COUNTERS = SCHEMA.fieldIndex("largeCounters");
    private static final int USER_SINCE = SCHEMA.fieldIndex("machineUserSince");

    /** By the names in a reading, and all that tells two of a drive apart. */
    static final Column[] ORDER = Stream.of("machineId", "driveSerial", "driveModel", "collectedAt", "collectedNanos", "sourceFile", "sourceIndex")
        .map(functions::col).toArray(Column[]::new);

    private ReadingRows() {
    }

    private static StructType schema() {
        StructType schema = new StructType()
            .add("sourceFile", TEXT).add("sourceIndex", WHOLE).add("sourcePlace", TEXT)
            .add("collectedAt", DataTypes.TimestampType).add("collectedNanos", SMALL)
            .add("machineId", TEXT).add("machineAssetTag", TEXT).add("machineSite", TEXT).add("machineCostCentre", TEXT).add("machineModel", TEXT)
            .add("machineMemoryBytes", WHOLE).add("machineSwapUsedBytes", WHOLE).add("machineInServiceOn", DataTypes.DateType)
            .add("driveSerial", TEXT).add("driveModel", TEXT).add("driveFirmware", TEXT).add("driveCapacityBytes", WHOLE).add("driveAttachment", TEXT);
        for (HealthField field : HealthField.ALL) {
            DataType number = isSmall(field) ? SMALL : WHOLE;
            schema = schema.add(field.ownName(), field.isList() ? DataTypes.createArrayType(SMALL) : number);
        }
        // The last since version 2 of packs.
        return schema.add("largeCounters", DataTypes.createMapType(TEXT, TEXT)).add("machineUserSince", DataTypes.DateType);
    }

    private static boolean isSmall(HealthField field) {
        return field.bytes() < Integer.BYTES;
    }

    static Row row(Reading r) {
        Machine m = r.machine();
        Drive d = r.drive();
        // Timestamps hold microseconds.
        int belowMicrosecond = r.collectedAt().getNano() % 1_000;
        List<Object> columns = new ArrayList<>(Arrays.asList(r.source().file(), r.source().index(), r.source().place(),
            r.collectedAt().minusNanos(belowMicrosecond), belowMicrosecond,
            m.id(), m.assetTag(), m.site(), m.costCentre(), m.model(), m.memoryBytes(), m.swapUsedBytes(), m.inServiceOn(),
            d.serial(), d.model(), d.firmware(), d.capacityBytes(), d.attachment().label()));
        Map<String, String> large = new HashMap<>();
        for (HealthField field : HealthField.ALL) {
            columns.add(field.isList() ? r.health().temperatureSensorsKelvin().toArray() : column(field, r.health(), large));
        }
        columns.add(large.isEmpty() ? null : CollectionConverters.asScala(large));
        columns.add(m.userSince());
        return RowFactory.create(columns.toArray());
    }

    private static Object column(HealthField field, Health health, Map<String, String> large) {
        Long whole = health.get(field);
        if (whole != null && health.isLarge(field)) {
            large.put(field.ownName(), health.exact(field).toString());
            return null;
        }
        return whole != null && isSmall(field) ? (Object) whole.intValue() : whole;
    }

    /** What {@link #row} was given. */
    static Reading reading(Row row) {
        Columns c = new Columns(row);
        SourcePlace source = new SourcePlace(c.text(), c.whole(), c.text());
        Instant collectedAt = c.time().plusNanos(c.small());
        Machine machine = new Machine(c.needed(), c.text(), c.text(), c.text(), c.text(), c.whole(), c.whole(), c.date(), (LocalDate) row.get(USER_SINCE));
        Drive drive = new Drive(c.needed(), c.needed(), c.text(), c.whole(), Attachment.valueOf(c.text().toUpperCase(Locale.ROOT)));
        return new Reading(source, collectedAt, machine, drive, c.health());
    }

    /** The row's columns one after another. */
    private static final class Columns {
        private final Row row;
        private int at;

        Columns(Row row) {
            this.row = row;
        }

        String text() {
            return (String) row.get(at++);
        }

        String needed() {
            return Objects.requireNonNull(text());
        }

        Long whole() {
            return (Long) row.get(at++);
        }

        Integer small() {
            return (Integer) row.get(at++);
        }

        Instant time() {
            return (Instant) row.get(at++);
        }

        LocalDate date() {
            return (LocalDate) row.get(at++);
        }

        Health health() {
            Map<String, String> large = row.isNullAt(LARGE_COUNTERS) ? Map.of() : row.getJavaMap(LARGE_COUNTERS);
            Health.Builder health = Health.builder();
            for (HealthField field : HealthField.ALL) {
                String exact = large.get(field.ownName());
                Object value = row.get(at++);
                if (field.isList()) {
                    health.sensors(row.<Integer>getList(at - 1).stream().mapToInt(kelvin -> kelvin).toArray());
                } else {
                    health.set(field, exact != null ? new BigInteger(exact) : (Number) value);
                }
            }
            return health.build();
        }
    }
}
