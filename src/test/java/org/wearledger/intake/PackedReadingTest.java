package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

class PackedReadingTest {
    private static final BigInteger MOST = BigInteger.ONE.shiftLeft(128).subtract(BigInteger.ONE);
    private static final Reading FULL = new Reading(SourcePlace.line("a/b.jsonl", 12), Instant.parse("2025-01-06T09:30:00.123456789Z"),
        new Machine("LT-1", "A-1", "K\u00f6ln", "CC-1", "Torvane 14", 8L << 30, 1L, LocalDate.of(2022, 1, 6), LocalDate.of(2024, 9, 2)),
        new Drive("KX1", "Kestrel K2", "F1", 256_060_514_304L, Attachment.SOLDERED),
        new Health(255, 310, 100, 10, 20, 0, MOST, BigInteger.ZERO, BigInteger.ONE, BigInteger.TEN, BigInteger.valueOf(Long.MAX_VALUE),
            BigInteger.valueOf(Long.MAX_VALUE).add(BigInteger.ONE), BigInteger.TWO, BigInteger.TWO, BigInteger.TWO, BigInteger.TWO, 1L, 0xFFFF_FFFFL,
            List.of(310, 0, 311), 4L, 5L, 6L, 7L));

    @Test
    void everythingComesBackExactly() {
        assertThat(PackedReading.unpack(PackedReading.pack(FULL))).isEqualTo(FULL);
        Reading bare = new Reading(SourcePlace.wholeFile("c.json"), Instant.EPOCH, new Machine("LT-2", null, null, null, null, null, null, null),
            new Drive("KX2", "Kestrel K2", null, null, Attachment.UNKNOWN), new Health(null, null, null, null, null, null, null, null, null, null, null,
            null, null, null, null, null, null, null, List.of(), null, null, null, null));
        assertThat(PackedReading.unpack(PackedReading.pack(bare))).isEqualTo(bare);
    }

    @Test
    void aReadingTakesLittleRoom() {
        assertThat(PackedReading.pack(FULL).length).isLessThan(300);
    }
}
