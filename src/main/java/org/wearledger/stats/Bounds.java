package org.wearledger.stats;

/** A closed confidence interval. */
public record Bounds(double low, double high) {
    public boolean excludesZero() {
        return low > 0 || high < 0;
    }
}
