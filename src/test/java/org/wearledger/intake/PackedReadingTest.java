package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

class PackedReadingTest {
    private static final BigInteger MOST = BigInteger.ONE.shiftLeft(128).subtract(BigInteger.ONE);
    private static final Reading FULL = new Reading(SourcePlace.line("a/b.jsonl", 12), Instant.parse("2025-01-06T09:30:00.123456789Z"),
        new Machine("LT-1", "A-1", "K\u00f6ln", "CC-1", "Torvane 14", 8L << 30, 1L, LocalDate.of(2022, 1, 6), LocalDate.of(2024, 9, 2)),
        new Drive("KX1", "Kestrel K2", "F1", 256_060_514_304L, Attachment.SOLDERED),
        everything());

    /** Every field; counters around the end of a long, the others at their largest. */
    private static Health everything() {
        Health.Builder health = Health.builder().sensors(310, 0, 65_535);
        HealthField.ALL.stream().filter(field -> !field.isList()).forEach(field -> health.set(field, field.isCounter() ? 10 : field.largest()));
        return health.set(HealthField.DATA_UNITS_READ, MOST).set(HealthField.DATA_UNITS_WRITTEN, 0).set(HealthField.CONTROLLER_BUSY_MINUTES, Long.MAX_VALUE)
            .set(HealthField.POWER_CYCLES, BigInteger.ONE.shiftLeft(63)).build();
    }

    @Test
    void everythingComesBackExactly() {
        assertThat(FULL.health().exact(HealthField.POWER_CYCLES)).isEqualTo("9223372036854775808");
        assertThat(PackedReading.unpack(PackedReading.pack(FULL))).isEqualTo(FULL);
        Reading bare = new Reading(SourcePlace.wholeFile("c.json"), Instant.EPOCH, new Machine("LT-2", null, null, null, null, null, null, null),
            new Drive("KX2", "Kestrel K2", null, null, Attachment.UNKNOWN), Health.NOTHING);
        assertThat(PackedReading.unpack(PackedReading.pack(bare))).isEqualTo(bare);
    }

    @Test
    void aReadingTakesLittleRoom() {
        assertThat(PackedReading.pack(FULL).length).isLessThan(300);
    }
}
