package org.wearledger.report;

/** A cell that is there to be changed: framed. */
record Input(Object value) {
}
