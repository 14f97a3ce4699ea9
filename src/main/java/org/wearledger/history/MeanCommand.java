package org.wearledger.history;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import org.wearledger.model.Health;

/** The mean size of a command: data units x 512,000 / commands. A drive's whole life of them lies within 512 bytes and 8 MiB. */
final class MeanCommand {
    static final BigDecimal SMALLEST_BYTES = BigDecimal.valueOf(512);
    static final BigDecimal LARGEST_BYTES = BigDecimal.valueOf(8L << 20);

    private MeanCommand() {
    }

    /** In bytes, to one place; {@code null} when a part of it is not reported or there was no command. */
    static BigDecimal bytes(BigInteger dataUnits, BigInteger commands) {
        return dataUnits == null || commands == null || commands.signum() <= 0 ? null
            : new BigDecimal(dataUnits.multiply(Health.BYTES_PER_DATA_UNIT)).divide(new BigDecimal(commands), 1, RoundingMode.HALF_UP);
    }

    /** False also for {@code null}. */
    static boolean isPossible(BigDecimal bytes) {
        return bytes != null && bytes.compareTo(SMALLEST_BYTES) >= 0 && bytes.compareTo(LARGEST_BYTES) <= 0;
    }
}
