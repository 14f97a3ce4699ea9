package org.wearledger.model;

import java.util.Locale;

/** Whose a machine is: only own machines are planned for, and missed when they do not report. */
public enum Ownership {
    /** Of the house that sweeps. */
    OWN,
    /** Of a customer, who brought it in: judged and compared, and nothing more. */
    CUSTOMER;

    /** The word of tables, such as {@code own}. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
