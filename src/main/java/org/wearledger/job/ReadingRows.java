package org.wearledger.job;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
    /** Bits that a column of whole numbers holds beside its sign. */
    private static final int COUNTER_BITS = 63;

    static final StructType SCHEMA = new StructType()
        .add("sourceFile", TEXT).add("sourceIndex", WHOLE).add("sourcePlace", TEXT)
        .add("collectedAt", DataTypes.TimestampType).add("collectedNanos", SMALL)
        .add("machineId", TEXT).add("machineAssetTag", TEXT).add("machineSite", TEXT).add("machineCostCentre", TEXT).add("machineModel", TEXT)
        .add("machineMemoryBytes", WHOLE).add("machineSwapUsedBytes", WHOLE).add("machineInServiceOn", DataTypes.DateType)
        .add("driveSerial", TEXT).add("driveModel", TEXT).add("driveFirmware", TEXT).add("driveCapacityBytes", WHOLE).add("driveAttachment", TEXT)
        .add("criticalWarning", SMALL).add("compositeTemperatureKelvin", SMALL).add("availableSparePercent", SMALL)
        .add("availableSpareThresholdPercent", SMALL).add("percentageUsed", SMALL).add("enduranceGroupCriticalWarningSummary", SMALL)
        .add("dataUnitsRead", WHOLE).add("dataUnitsWritten", WHOLE).add("hostReadCommands", WHOLE).add("hostWriteCommands", WHOLE)
        .add("controllerBusyMinutes", WHOLE).add("powerCycles", WHOLE).add("powerOnHours", WHOLE).add("unsafeShutdowns", WHOLE)
        .add("mediaAndDataIntegrityErrors", WHOLE).add("errorLogEntries", WHOLE).add("warningTemperatureMinutes", WHOLE)
        .add("criticalTemperatureMinutes", WHOLE).add("temperatureSensorsKelvin", DataTypes.createArrayType(SMALL))
        .add("thermalManagement1Transitions", WHOLE).add("thermalManagement2Transitions", WHOLE)
        .add("thermalManagement1Seconds", WHOLE).add("thermalManagement2Seconds", WHOLE)
        .add("largeCounters", DataTypes.createMapType(TEXT, TEXT))
        // Since version 2 of packs.
        .add("machineUserSince", DataTypes.DateType);
    private static final int LARGE_COUNTERS = SCHEMA.fieldIndex("largeCounters");
    private static final int USER_SINCE = SCHEMA.fieldIndex("machineUserSince");

    /** By the names in a reading, and all that tells two of a drive apart. */
    static final Column[] ORDER = Stream.of("machineId", "driveSerial", "driveModel", "collectedAt", "collectedNanos", "sourceFile", "sourceIndex")
        .map(functions::col).toArray(Column[]::new);

    private ReadingRows() {
    }

    static Row row(Reading r) {
        Machine m = r.machine();
        Drive d = r.drive();
        Health h = r.health();
        Map<String, String> large = new HashMap<>();
        // Timestamps hold microseconds.
        int belowMicrosecond = r.collectedAt().getNano() % 1_000;
        return RowFactory.create(r.source().file(), r.source().index(), r.source().place(),
            r.collectedAt().minusNanos(belowMicrosecond), belowMicrosecond,
            m.id(), m.assetTag(), m.site(), m.costCentre(), m.model(), m.memoryBytes(), m.swapUsedBytes(), m.inServiceOn(),
            d.serial(), d.model(), d.firmware(), d.capacityBytes(), d.attachment().label(),
            h.criticalWarning(), h.compositeTemperatureKelvin(), h.availableSparePercent(), h.availableSpareThresholdPercent(), h.percentageUsed(),
            h.enduranceGroupCriticalWarningSummary(),
            whole("dataUnitsRead", h.dataUnitsRead(), large), whole("dataUnitsWritten", h.dataUnitsWritten(), large),
            whole("hostReadCommands", h.hostReadCommands(), large), whole("hostWriteCommands", h.hostWriteCommands(), large),
            whole("controllerBusyMinutes", h.controllerBusyMinutes(), large), whole("powerCycles", h.powerCycles(), large),
            whole("powerOnHours", h.powerOnHours(), large), whole("unsafeShutdowns", h.unsafeShutdowns(), large),
            whole("mediaAndDataIntegrityErrors", h.mediaAndDataIntegrityErrors(), large), whole("errorLogEntries", h.errorLogEntries(), large),
            h.warningTemperatureMinutes(), h.criticalTemperatureMinutes(), h.temperatureSensorsKelvin().toArray(),
            h.thermalManagement1Transitions(), h.thermalManagement2Transitions(), h.thermalManagement1Seconds(), h.thermalManagement2Seconds(),
            large.isEmpty() ? null : CollectionConverters.asScala(large), m.userSince());
    }

    private static Long whole(String name, BigInteger counter, Map<String, String> large) {
        if (counter == null || counter.bitLength() <= COUNTER_BITS) {
            return counter == null ? null : counter.longValueExact();
        }
        large.put(name, counter.toString());
        return null;
    }

    /** What {@link #row} was given. */
    static Reading reading(Row row) {
        Columns c = new Columns(row);
        SourcePlace source = new SourcePlace(c.text(), c.whole(), c.text());
        Instant collectedAt = c.time().plusNanos(c.small());
        Machine machine = new Machine(c.text(), c.text(), c.text(), c.text(), c.text(), c.whole(), c.whole(), c.date(), (LocalDate) row.get(USER_SINCE));
        Drive drive = new Drive(c.text(), c.text(), c.text(), c.whole(), Attachment.valueOf(c.text().toUpperCase(Locale.ROOT)));
        Health health = new Health(c.small(), c.small(), c.small(), c.small(), c.small(), c.small(),
            c.counter(), c.counter(), c.counter(), c.counter(), c.counter(), c.counter(), c.counter(), c.counter(), c.counter(), c.counter(),
            c.whole(), c.whole(), c.numbers(), c.whole(), c.whole(), c.whole(), c.whole());
        return new Reading(source, collectedAt, machine, drive, health);
    }

    /** The row's columns one after another. */
    private static final class Columns {
        private final Row row;
        private final Map<String, String> large;
        private int at;

        Columns(Row row) {
            this.row = row;
            large = row.isNullAt(LARGE_COUNTERS) ? Map.of() : row.getJavaMap(LARGE_COUNTERS);
        }

        String text() {
            return (String) row.get(at++);
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

        BigInteger counter() {
            String exact = large.isEmpty() ? null : large.get(SCHEMA.fieldNames()[at]);
            Long whole = whole();
            return exact != null ? new BigInteger(exact) : whole == null ? null : BigInteger.valueOf(whole);
        }

        List<Integer> numbers() {
            return row.getList(at++);
        }
    }
}
