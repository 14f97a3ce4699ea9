package org.wearledger.model;

import java.io.Serializable;
import java.util.Comparator;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * What joins readings of one drive: model and serial, both trimmed, inner white space and NULs folded, upper case.
 * Example: {@code of(" Kestrel  K2 ", "kx-01")} equals {@code of("KESTREL K2", "KX-01")}.
 */
public record DriveId(String model, String serial) implements Serializable, Comparable<DriveId> {
    private static final Comparator<DriveId> ORDER = Comparator.comparing(DriveId::model).thenComparing(DriveId::serial);

    private static final Pattern BLANKS = Pattern.compile("[\\s\\u0000]+");

    /** The id of a drive so named, each part folded by {@link #fold}. */
    public static DriveId of(String model, String serial) {
        return new DriveId(fold(model), fold(serial));
    }

    /** The folding used wherever names are joined. */
    public static String fold(String text) {
        return isFolded(text) ? text : BLANKS.matcher(text).replaceAll(" ").strip().toUpperCase(Locale.ROOT);
    }

    /** Whether the text is plain capitals, digits and marks with single blanks inside, as most names are: millions are asked for. */
    private static boolean isFolded(String text) {
        char before = ' ';
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < ' ' || c > '~' || c >= 'a' && c <= 'z' || c == ' ' && before == ' ') {
                return false;
            }
            before = c;
        }
        return before != ' ';
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
