package org.wearledger.history;


/** Counters of 128 bits that a tool cut to fewer: such a counter runs over its end and begins anew from zero, alone. */
final class Overrun {
    private static final int[] WIDTHS_IN_BITS = {8, 16, 32};
    /** From here on, of the width, the next report may lie beyond its end. */
    private static final long LAST_SHARE = 10;

    private Overrun() {
    }

    /** The width whose last tenth holds the value, 0 when none does. Example: 65,100 is near the end of 16 bits. */
    static int bits(long value) {
        for (int bits : WIDTHS_IN_BITS) {
            long limit = 1L << bits;
            if (Long.SIZE - Long.numberOfLeadingZeros(value) == bits) {
                return value >= limit - limit / LAST_SHARE ? bits : 0;
            }
        }
        // What is too large for a long stands for 64 bits.
        return value == Long.MAX_VALUE ? Long.SIZE : 0;
    }
}
