package org.wearledger.history;

import org.wearledger.model.Health;

/** Two units so near that one is taken for the other: decimal and binary ones (IEC 80000-13), and MB for data units of 512,000 bytes. */
enum NearUnits {
    MEBIBYTE("MiB", "MB", 1.048576),
    GIBIBYTE("GiB", "GB", 1.073741824),
    TEBIBYTE("TiB", "TB", 1.099511627776),
    MEGABYTE_FOR_UNIT("MB", "data units", 1e6 / Health.BYTES_PER_DATA_UNIT.doubleValue()),
    MEBIBYTE_FOR_UNIT("MiB", "data units", 1_048_576 / Health.BYTES_PER_DATA_UNIT.doubleValue());

    private final String larger;
    private final String smaller;
    private final double logarithm;

    NearUnits(String larger, String smaller, double ratio) {
        this.larger = larger;
        this.smaller = smaller;
        logarithm = Math.log(ratio);
    }

    String larger() {
        return larger;
    }

    String smaller() {
        return smaller;
    }

    /** Of the larger unit over the smaller one: 0.0474, 0.0711, 0.0949, 0.669, 0.717. */
    double logarithm() {
        return logarithm;
    }
}
