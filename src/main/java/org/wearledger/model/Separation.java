package org.wearledger.model;

import java.util.Locale;

/** How surely a model's writes or wear differ from those of the typical one. */
public enum Separation {
    /** More, also among machines alike in all that was adjusted for. */
    MORE_THAN_TYPICAL,
    /** Less, also among machines alike. */
    LESS_THAN_TYPICAL,
    /** It differs as it stands, and its machines' memory accounts for half of that or more. */
    EXPLAINED_BY_MEMORY,
    /** The same for the sites where its machines are. */
    EXPLAINED_BY_SITE,
    /** The same for its drives' capacity. */
    EXPLAINED_BY_CAPACITY,
    /** The same for the drive models in its machines. */
    EXPLAINED_BY_DRIVE_MODEL,
    /** The same for the machine models that its drives are in. */
    EXPLAINED_BY_MACHINE_MODEL,
    /** What was seen is no more than chance can make. */
    CANNOT_BE_SEPARATED,
    /** Too few drives, or too many models, to compare. */
    NOT_COMPARED;

    /** Whether it is more or less than the typical one. */
    public boolean standsOut() {
        return this == MORE_THAN_TYPICAL || this == LESS_THAN_TYPICAL;
    }

    /** The words of the outputs, such as {@code explained by memory} or {@code no clear difference}. */
    public String label() {
        return this == CANNOT_BE_SEPARATED ? "no clear difference" : name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
