package org.wearledger.model;

import java.io.Serializable;

/**
 * A field of the report form, or a column of a side table, that a problem is about.
 *
 * @param name such as {@code health.dataUnitsWritten}
 * @param heading under which a mapping reads it; {@code null} for its own name, empty where the heading is withheld
 * @param unit in which a mapping reads it; {@code null} for its own
 */
public record MappedField(String name, String heading, String unit) implements Serializable {
    /** Under its own name, in its own unit. */
    public static MappedField of(String name) {
        return new MappedField(name, null, null);
    }

    /** Whether a mapping reads it under another name. */
    public boolean isMapped() {
        return heading != null;
    }

    /** The same without its heading, which may name a machine. */
    public MappedField withheld() {
        return isMapped() ? new MappedField(name, "", unit) : this;
    }
}
