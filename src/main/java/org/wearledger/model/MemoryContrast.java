package org.wearledger.model;

import java.io.Serializable;

/**
 * Write rate of the smaller memory band against the larger.
 *
 * @param shiftGigabytesPerDay Hodges-Lehmann estimate of smaller minus larger
 * @param shiftInterval95 its 95 % interval from the Mann-Whitney test
 * @param twoSidedP Mann-Whitney p value, after Holm's correction over all pairs compared
 * @param words the reading of it, as a cause to check
 */
public record MemoryContrast(int smallerGibibytes, int largerGibibytes, int smallerMachines, int largerMachines,
                             double shiftGigabytesPerDay, Interval shiftInterval95, double twoSidedP, String words)
    implements Serializable {
}
