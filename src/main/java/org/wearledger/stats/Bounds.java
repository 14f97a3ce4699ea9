package org.wearledger.stats;

/** A closed confidence interval. */
public record Bounds(double low, double high) {
    /** Both ends lie on one side of 0. */
    public boolean excludesZero() {
        return low > 0 || high < 0;
    }
}
