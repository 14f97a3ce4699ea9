package org.wearledger.history;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

/** The mean size of a command: data units x 512,000 / commands. A drive's whole life of them lies within 512 bytes and 8 MiB. */
final class MeanCommand {
    private MeanCommand() {
    }

    /** In bytes, to one place, for the reader; {@code null} when a part of it is not reported or there was no command. */
    static BigDecimal bytes(Health h, HealthField dataUnits, HealthField commands) {
        Long units = h.get(dataUnits);
        Long times = h.get(commands);
        return !isKnown(units, times) ? null
            : new BigDecimal(h.exact(dataUnits).multiply(Health.BYTES_PER_DATA_UNIT)).divide(new BigDecimal(h.exact(commands)), 1, rounding(units, times));
    }

    /** What lies outside by a hair must not read as lying on the bound. */
    private static RoundingMode rounding(long dataUnits, long commands) {
        if (isBelowSmallest(dataUnits, commands)) {
            return RoundingMode.DOWN;
        }
        return isAboveLargest(dataUnits, commands) ? RoundingMode.UP : RoundingMode.HALF_UP;
    }

    /** False also where it is not known. */
    static boolean isPossible(Long dataUnits, Long commands) {
        return isKnown(dataUnits, commands) && !isBelowSmallest(dataUnits, commands) && !isAboveLargest(dataUnits, commands);
    }

    /** False also where it is not known. */
    static boolean isImpossible(Long dataUnits, Long commands) {
        return isKnown(dataUnits, commands) && (isBelowSmallest(dataUnits, commands) || isAboveLargest(dataUnits, commands));
    }

    private static boolean isKnown(Long dataUnits, Long commands) {
        return dataUnits != null && commands != null && commands > 0;
    }

    private static boolean isBelowSmallest(long dataUnits, long commands) {
        // 512,000 bytes a unit against 512 a command.
        return dataUnits <= (commands - 1) / 1_000;
    }

    /** 512,000 bytes a unit against 8 MiB a command, both over 4,096. */
    static boolean isAboveLargest(long dataUnits, long commands) {
        return WriteLimits.isMore(dataUnits, 125, commands, 2_048);
    }
}
