package org.wearledger.model;

import java.io.Serializable;

/**
 * Write rate of the smaller memory band against the larger.
 *
 * @param shiftGigabytesPerDay Hodges-Lehmann estimate of smaller minus larger
 * @param shiftInterval95 its 95 % interval from the Mann-Whitney test
 * @param twoSidedP Mann-Whitney p value, after Holm's correction over all pairs compared
 * @param separation of the smaller band; not compared with too few machines
 */
public record MemoryContrast(int smallerGibibytes, int largerGibibytes, int smallerMachines, int largerMachines,
                             double shiftGigabytesPerDay, Interval shiftInterval95, double twoSidedP, Separation separation)
    implements Serializable {
    /** On both sides; with fewer nothing is compared. */
    public static final int LEAST_MACHINES = 5;
}
