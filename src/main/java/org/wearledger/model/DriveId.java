package org.wearledger.model;

import java.io.Serializable;
import java.util.Comparator;
import java.util.Locale;

/**
 * What joins readings of one drive: model and serial, both trimmed, inner white space and NULs folded, upper case.
 * Example: {@code of(" Kestrel  K2 ", "kx-01")} equals {@code of("KESTREL K2", "KX-01")}.
 */
public record DriveId(String model, String serial) implements Serializable, Comparable<DriveId> {
    private static final Comparator<DriveId> ORDER = Comparator.comparing(DriveId::model).thenComparing(DriveId::serial);

    /** The id of a drive so named, each part folded by {@link #fold}. */
    public static DriveId of(String model, String serial) {
        return new DriveId(fold(model), fold(serial));
    }

    /** The folding used wherever names are joined. */
    public static String fold(String text) {
        return text.replaceAll("[\\s\\u0000]+", " ").strip().toUpperCase(Locale.ROOT);
    }

    @Override
    public int compareTo(DriveId other) {
        return ORDER.compare(this, other);
    }

    @Override
    public String toString() {
        return model + " / " + serial;
    }
}
