package org.wearledger.model;

import java.io.Serializable;

/** Five-number view of a sample: size, quartiles and extremes; all {@code NaN} when {@code size} is 0. */
public record Spread(int size, double least, double lowerQuartile, double median, double upperQuartile, double most)
    implements Serializable {
}
