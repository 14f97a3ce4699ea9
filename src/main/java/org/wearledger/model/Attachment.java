package org.wearledger.model;

import java.util.Locale;

/** How the drive sits in the machine. A soldered drive is replaced with its board or machine. */
public enum Attachment {
    SOLDERED, SOCKETED, UNKNOWN;

    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
