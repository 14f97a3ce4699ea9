package org.wearledger.report;

/** A number with a fixed count of decimals, where a loose cell would show one. */
record Figure(double value, int decimals) {
}
