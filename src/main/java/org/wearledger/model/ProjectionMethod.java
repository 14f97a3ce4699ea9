package org.wearledger.model;

import java.util.Locale;

/** What the standings {@code due} and {@code watch} rest on. */
public enum ProjectionMethod {
    /** Probabilities from the pooled wear model. */
    POOLED,
    /** The date of the straight line, without an uncertainty: the baseline. */
    STRAIGHT_LINE;

    /** The command line's word, such as {@code straight-line}. */
    public String label() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
