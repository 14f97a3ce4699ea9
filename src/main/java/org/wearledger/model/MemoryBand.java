package org.wearledger.model;

import java.io.Serializable;

/** Write rates of the machines with one memory size; {@code memoryGibibytes} 0 stands for "not reported". */
public record MemoryBand(int memoryGibibytes, int machines, Spread gigabytesPerDay, Spread swapUsedGibibytes)
    implements Serializable {
}
