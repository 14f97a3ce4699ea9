package org.wearledger.model;

import java.io.Serializable;
import java.math.BigInteger;
import java.time.LocalDate;

/**
 * One kept reading in a drive's history.
 *
 * @param epoch 0 for the first run of counters, one more after each time a counter went back
 * @param totalBytesWritten host bytes since the first reading's counters began: last value of every earlier epoch plus this reading's; {@code null} when not reported
 */
public record HistoryPoint(Reading reading, int epoch, BigInteger totalBytesWritten) implements Serializable {
    /** The day of the reading, in UTC. */
    public LocalDate collectedOn() {
        return reading.collectedOn();
    }
}
