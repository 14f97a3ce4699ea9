package org.wearledger.history;

/** Decimal units and the binary ones (IEC 80000-13) that are taken for them. */
enum BinaryUnit {
    MEBIBYTE("M", 2),
    GIBIBYTE("G", 3),
    TEBIBYTE("T", 4);

    private static final double STEP = Math.log(1024 / 1000.0);

    private final String prefix;
    private final int power;

    BinaryUnit(String prefix, int power) {
        this.prefix = prefix;
        this.power = power;
    }

    String decimal() {
        return prefix + "B";
    }

    String binary() {
        return prefix + "iB";
    }

    /** Of the binary unit over the decimal one: 0.0474, 0.0711, 0.0949. */
    double logarithm() {
        return power * STEP;
    }
}
