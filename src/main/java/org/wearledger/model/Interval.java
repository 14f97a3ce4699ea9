package org.wearledger.model;

import java.io.Serializable;

/** A closed interval; {@code high} is positive infinity when it is open above. */
public record Interval(double low, double high) implements Serializable {
}
