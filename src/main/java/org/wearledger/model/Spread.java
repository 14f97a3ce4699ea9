package org.wearledger.model;

import java.io.Serializable;

/** The middle half of a sample; all {@code NaN} when {@code size} is 0. */
public record Spread(int size, double lowerQuartile, double median, double upperQuartile) implements Serializable {
}
