package org.wearledger.model;

import java.util.Locale;

/** How the drive sits in the machine. A soldered drive is replaced with its board or machine. */
public enum Attachment {
    /** Part of the board; replaced with it, or with the machine. */
    SOLDERED,
    /** In a socket; replaced alone. */
    SOCKETED,
    /** Not reported, and not in the inventory. */
    UNKNOWN;

    /** The outputs' word, such as {@code soldered}. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
