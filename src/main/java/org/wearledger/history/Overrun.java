package org.wearledger.history;

import java.math.BigInteger;

/** Counters of 128 bits that a tool cut to fewer: such a counter runs over its end and begins anew from zero, alone. */
final class Overrun {
    private static final int[] WIDTHS_IN_BITS = {8, 16, 32, 64};
    /** From here on, of the width, the next report may lie beyond its end. */
    private static final BigInteger LAST_SHARE = BigInteger.TEN;

    private Overrun() {
    }

    /** The width whose last tenth holds the value, 0 when none does. Example: 65,100 is near the end of 16 bits. */
    static int bits(BigInteger value) {
        for (int bits : WIDTHS_IN_BITS) {
            if (value.bitLength() == bits) {
                BigInteger limit = BigInteger.ONE.shiftLeft(bits);
                return value.compareTo(limit.subtract(limit.divide(LAST_SHARE))) >= 0 ? bits : 0;
            }
        }
        return 0;
    }
}
