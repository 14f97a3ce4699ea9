package org.wearledger.model;

import java.io.Serializable;
import java.util.Comparator;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What joins readings of one drive: model and serial, both trimmed, inner white space and NULs folded, upper case.
 * Example: {@code of(" Kestrel  K2 ", "kx-01")} equals {@code of("KESTREL K2", "KX-01")}.
 */
public record DriveId(String model, String serial) implements Serializable, Comparable<DriveId> {
    private static final Comparator<DriveId> ORDER = Comparator.comparing(DriveId::model).thenComparing(DriveId::serial);

    /** Serial numbers that name no drive: firmware defaults and fill-ins. Joining on them would mix unrelated drives. */
    private static final Set<String> PLACEHOLDERS = Set.of("NONE", "N/A", "NA", "NULL", "UNKNOWN", "DEFAULT",
        "DEFAULT STRING", "SERIAL", "SERIAL NUMBER", "NOT SPECIFIED", "NOT AVAILABLE");
    private static final Pattern FILL_IN = Pattern.compile("TO BE FILLED.*");
    /** Counting up from 0 or 1: 12345678, 123456789, 0123456789, 0123456789ABCDEF. */
    private static final Pattern COUNTING = Pattern.compile("0?12345678(9(0|A(B(C(D(E(F)?)?)?)?)?)?)?");
    private static final int FEWEST_ALPHANUMERICS = 3;
    private static final Pattern BLANKS = Pattern.compile("[\\s\\u0000]+");

    /** The id of a drive so named, each part folded by {@link #fold}. */
    public static DriveId of(String model, String serial) {
        return new DriveId(fold(model), fold(serial));
    }

    /** The folding used wherever names are joined. */
    public static String fold(String text) {
        // As nearly all are, and millions are asked for; what is in capitals already comes back itself.
        return isPlain(text) ? text.toUpperCase(Locale.ROOT) : BLANKS.matcher(text).replaceAll(" ").strip().toUpperCase(Locale.ROOT);
    }

    /** Whether the text is letters, digits and marks of ASCII with single blanks inside. */
    private static boolean isPlain(String text) {
        char before = ' ';
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < ' ' || c > '~' || c == ' ' && before == ' ') {
                return false;
            }
            before = c;
        }
        return before != ' ';
    }

    /**
     * Whether a serial number names no drive.
     *
     * @param serial folded as by {@link #fold}
     */
    public static boolean isPlaceholder(String serial) {
        return serial.chars().filter(Character::isLetterOrDigit).count() < FEWEST_ALPHANUMERICS
            || serial.chars().filter(c -> c != ' ').distinct().count() < 2
            || PLACEHOLDERS.contains(serial)
            || FILL_IN.matcher(serial).matches()
            || COUNTING.matcher(serial).matches();
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
