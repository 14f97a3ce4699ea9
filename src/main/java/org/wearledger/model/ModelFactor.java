package org.wearledger.model;

import java.io.Serializable;

/**
 * One model against the typical one: the mean of the models that do not stand out. A factor of 2 is twice as much. Without a
 * comparison the figures are NaN.
 *
 * @param drives behind it
 * @param raw geometric mean over the typical one, as it stands
 * @param adjusted the same among machines alike in memory, site and what else the measure is adjusted for, drawn towards 1 by how few the drives are
 * @param interval95 of {@code adjusted}
 */
public record ModelFactor(int drives, double raw, double adjusted, Interval interval95, Separation separation) implements Serializable {
    /** There was nothing to compare with, or too little. */
    public static final ModelFactor NOT_COMPARED = new ModelFactor(0, Double.NaN, Double.NaN, new Interval(Double.NaN, Double.NaN), Separation.NOT_COMPARED);
}
