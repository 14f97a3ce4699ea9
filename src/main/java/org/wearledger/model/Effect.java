package org.wearledger.model;

/** What a problem did to the data it was found in. */
public enum Effect {
    /** The file gave no reading. */
    FILE_REFUSED("file refused"),
    /** The file gave readings, and some of its records were not reached. */
    FILE_READ_IN_PART("file read in part"),
    /** This record of the file gave no reading. */
    RECORD_REFUSED("record refused"),
    /** A reading, well formed, that a named rule keeps out of the histories. */
    READING_SET_ASIDE("reading set aside"),
    /** A side-table row that is not used. */
    ROW_REFUSED("row refused"),
    /** The data is used; the reader should know. */
    NOTED("noted");

    private final String label;

    Effect(String label) {
        this.label = label;
    }

    /** The outputs' words, such as {@code reading set aside}. */
    public String label() {
        return label;
    }
}
