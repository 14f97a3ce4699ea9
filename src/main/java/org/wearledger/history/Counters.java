package org.wearledger.history;


/** How one counter stands in two readings. A reading that does not report it says neither. */
final class Counters {
    private Counters() {
    }

    static boolean fell(Long before, Long after) {
        return before != null && after != null && after < before;
    }

    static boolean rose(Long before, Long after) {
        return fell(after, before);
    }

    /** It grew or stands as it did. */
    static boolean wentOn(Long before, Long after) {
        return before != null && after != null && after >= before;
    }

    static boolean isBelowHalf(long after, long before) {
        return after < before - after;
    }
}
