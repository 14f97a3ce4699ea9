package org.wearledger.report;

/**
 * A cell that is there to be changed: framed.
 *
 * @param value {@code null} for an empty frame
 * @param type of what is typed there; {@code null} as that of the value
 */
record Input(Object value, CellType type) {
    Input(Object value) {
        this(value, null);
    }
}
