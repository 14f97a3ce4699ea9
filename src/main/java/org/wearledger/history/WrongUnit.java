package org.wearledger.history;

import java.math.BigDecimal;
import org.wearledger.model.Health;

/**
 * Units in which data written are given by mistake, where data units of 512,000 bytes are asked for. Neighbours that no
 * evidence can tell apart are named together: drives go on writing between two reports, and 7 to 10 % lie between GB and GiB
 * or TB and TiB.
 */
enum WrongUnit {
    BYTES(1, 1),
    SECTORS(512, 512),
    KILOBYTES(1_000, 1_024),
    MEGABYTES(1e6, 1_048_576),
    GIGABYTES(1e9, 1_073_741_824),
    TERABYTES(1e12, 1_099_511_627_776.0);

    /** What a drive may have written since the neighbouring report, as a multiple of all it had written. */
    static final double MOST_GROWTH = 1.5;
    private static final double BYTES_PER_DATA_UNIT = Health.BYTES_PER_DATA_UNIT.doubleValue();
    /** A common mean size of a command, 4 to 512 KiB; to choose a unit by. */
    private static final double USUAL_LEAST_BYTES = 4 << 10;
    private static final double USUAL_MOST_BYTES = 512 << 10;

    private final double leastBytes;
    private final double mostBytes;

    WrongUnit(double leastBytes, double mostBytes) {
        this.leastBytes = leastBytes;
        this.mostBytes = mostBytes;
    }

    /** By what factor a figure in this unit stands above one in data units; below 1 for large units. */
    double factor() {
        return BYTES_PER_DATA_UNIT / mostBytes;
    }

    /**
     * The unit in which {@code later} would be what data written grew to from {@code earlier} data units; {@code null} when there
     * is none. MB are too near a data unit to be found.
     */
    static WrongUnit ofLater(double earlier, double later) {
        return byRatio(later / earlier, 1, MOST_GROWTH);
    }

    /** The unit in which {@code earlier} would be what data written grew from to {@code later} data units. */
    static WrongUnit ofEarlier(double earlier, double later) {
        return byRatio(earlier / later, 1 / MOST_GROWTH, 1);
    }

    private static WrongUnit byRatio(double ratio, double shrunk, double grown) {
        for (WrongUnit unit : values()) {
            if (unit != MEGABYTES && ratio >= BYTES_PER_DATA_UNIT / unit.mostBytes * shrunk && ratio <= BYTES_PER_DATA_UNIT / unit.leastBytes * grown) {
                return unit;
            }
        }
        return null;
    }

    /** The unit in which a mean command of {@code bytes}, worked out as of data units, would be of common size; {@code null} when there is none. */
    static WrongUnit ofMeanCommand(BigDecimal bytes) {
        for (WrongUnit unit : values()) {
            double mean = bytes.doubleValue() * unit.leastBytes / BYTES_PER_DATA_UNIT;
            if (mean >= USUAL_LEAST_BYTES && mean <= USUAL_MOST_BYTES) {
                return unit;
            }
        }
        return null;
    }
}
