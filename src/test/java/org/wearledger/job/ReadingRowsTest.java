package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.math.BigInteger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.junit.jupiter.api.Test;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

class ReadingRowsTest {
    /** The standard's counters end at 2^128 - 1; a column's whole numbers at 2^63 - 1. */
    private static final BigInteger LARGEST_OF_A_COLUMN = BigInteger.valueOf(Long.MAX_VALUE);
    private static final BigInteger LARGEST = BigInteger.ONE.shiftLeft(128).subtract(BigInteger.ONE);

    private static Health health(BigInteger written) {
        return Health.builder().set(HealthField.CRITICAL_WARNING, 4).set(HealthField.COMPOSITE_TEMPERATURE, 310).set(HealthField.AVAILABLE_SPARE, 97)
            .set(HealthField.AVAILABLE_SPARE_THRESHOLD, 10).set(HealthField.PERCENTAGE_USED, 255).set(HealthField.DATA_UNITS_WRITTEN, written)
            .set(HealthField.HOST_READ_COMMANDS, 0).set(HealthField.HOST_WRITE_COMMANDS, 10).set(HealthField.POWER_ON_HOURS, 17_520)
            .set(HealthField.ERROR_LOG_ENTRIES, LARGEST_OF_A_COLUMN).set(HealthField.WARNING_TEMPERATURE_MINUTES, 0).sensors(310, 0, 312)
            .set(HealthField.THERMAL_MANAGEMENT_1_TRANSITIONS, 1).set(HealthField.THERMAL_MANAGEMENT_2_TRANSITIONS, 2)
            .set(HealthField.THERMAL_MANAGEMENT_1_SECONDS, 3).set(HealthField.THERMAL_MANAGEMENT_2_SECONDS, 4_294_967_295L).build();
    }

    private static Reading reading(BigInteger written) {
        return new Reading(SourcePlace.line("2025-q1/a.jsonl", 7), Instant.parse("2025-01-06T09:30:00.123456789Z"),
            new Machine("LT-01", null, "North", null, "Torvane 15", 8L << 30, null, LocalDate.parse("2021-01-04"), LocalDate.parse("2024-09-02")),
            new Drive("KX-01", "Kestrel K2", null, 256_060_514_304L, Attachment.SOLDERED), health(written));
    }

    @Test
    void aRowHoldsEveryDigitAndNanosecond() {
        for (BigInteger written : Arrays.asList(null, BigInteger.ZERO, LARGEST_OF_A_COLUMN, LARGEST_OF_A_COLUMN.add(BigInteger.ONE), LARGEST)) {
            Reading reading = reading(written);
            assertThat(ReadingRows.reading(asSparkGivesItBack(ReadingRows.row(reading)))).as("%s data units written", written).isEqualTo(reading);
        }
    }

    @Test
    void aCounterBeyondAColumnStandsAsText() {
        Row row = ReadingRows.row(reading(LARGEST));
        assertThat(row.get(ReadingRows.SCHEMA.fieldIndex("dataUnitsWritten"))).isNull();
        assertThat(row.getJavaMap(ReadingRows.SCHEMA.fieldIndex("largeCounters")).toString())
            .isEqualTo("{dataUnitsWritten=340282366920938463463374607431768211455}");
        assertThat(ReadingRows.row(reading(BigInteger.ONE)).get(ReadingRows.SCHEMA.fieldIndex("largeCounters"))).isNull();
    }

    /** A pack that another tool wrote anew may lack what every reading has. */
    @Test
    void aRowWithoutANameIsNoReading() {
        for (String name : List.of("machineId", "driveSerial", "driveModel")) {
            Row row = asSparkGivesItBack(ReadingRows.row(reading(BigInteger.ONE)));
            Object[] values = IntStream.range(0, row.length()).mapToObj(i -> i == ReadingRows.SCHEMA.fieldIndex(name) ? null : row.get(i)).toArray();
            assertThatThrownBy(() -> ReadingRows.reading(RowFactory.create(values))).as(name).isInstanceOf(NullPointerException.class);
        }
    }

    /** Arrays come back as Scala's sequences. */
    private static Row asSparkGivesItBack(Row row) {
        Object[] values = new Object[row.length()];
        for (int i = 0; i < values.length; i++) {
            values[i] = row.get(i) instanceof Object[] array ? scala.jdk.javaapi.CollectionConverters.asScala(Arrays.asList(array)).toSeq() : row.get(i);
        }
        return RowFactory.create(values);
    }

    @Test
    void thePageOnTheOutputsNamesEveryColumn() throws IOException {
        String page = Files.readString(Path.of("notebooks-free-docs/outputs.md")).replaceFirst("(?s).*\n## A pack\n", "").replaceFirst("(?s)\n## .*", "");
        assertThat(ReadingRows.SCHEMA.fieldNames()).allSatisfy(column -> assertThat(page).contains("`" + column + "`"));
    }
}
