package org.wearledger.model;

import java.io.Serializable;

/**
 * The wear a year of one drive model against all other drives of the fleet.
 *
 * @param own drives of the model whose wear a year is known
 * @param others the same of all other models
 * @param shiftPercentPerYear Hodges-Lehmann estimate of own minus others; NaN where too few are compared
 * @param interval95 its 95 % interval from the Mann-Whitney test
 * @param separation more, less, not separated after Holm's correction over all models, or not compared
 */
public record AgainstRest(int own, int others, double shiftPercentPerYear, Interval interval95, Separation separation) implements Serializable {
    /** On both sides; with fewer nothing is compared. */
    public static final int LEAST_DRIVES = 10;

    /** There is too little on one side. */
    public static AgainstRest tooFew(int own, int others) {
        return new AgainstRest(own, others, Double.NaN, new Interval(Double.NaN, Double.NaN), Separation.NOT_COMPARED);
    }
}
