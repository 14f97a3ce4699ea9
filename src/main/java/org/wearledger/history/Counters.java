package org.wearledger.history;

import java.math.BigInteger;

/** How one counter stands in two readings. A reading that does not report it says neither. */
final class Counters {
    private Counters() {
    }

    static boolean fell(BigInteger before, BigInteger after) {
        return before != null && after != null && after.compareTo(before) < 0;
    }

    static boolean rose(BigInteger before, BigInteger after) {
        return fell(after, before);
    }

    /** It grew or stands as it did. */
    static boolean wentOn(BigInteger before, BigInteger after) {
        return before != null && after != null && after.compareTo(before) >= 0;
    }
}
