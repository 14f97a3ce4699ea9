package org.wearledger.history;

import java.util.Set;
import java.util.regex.Pattern;

/** Serial numbers that name no drive: firmware defaults and fill-ins. Joining on them would mix unrelated drives. */
final class Placeholders {
    private static final Set<String> WORDS = Set.of("NONE", "N/A", "NA", "NULL", "UNKNOWN", "DEFAULT",
        "DEFAULT STRING", "SERIAL", "SERIAL NUMBER", "NOT SPECIFIED", "NOT AVAILABLE");
    private static final Pattern FILL_IN = Pattern.compile("TO BE FILLED.*");
    /** Counting up from 0 or 1: 12345678, 123456789, 0123456789, 0123456789ABCDEF. */
    private static final Pattern COUNTING = Pattern.compile("0?12345678(9(0|A(B(C(D(E(F)?)?)?)?)?)?)?");
    private static final int FEWEST_ALPHANUMERICS = 3;

    private Placeholders() {
    }

    /** @param serial folded as in {@link org.wearledger.model.DriveId#fold} */
    static boolean isPlaceholder(String serial) {
        return serial.chars().filter(Character::isLetterOrDigit).count() < FEWEST_ALPHANUMERICS
            || serial.chars().filter(c -> c != ' ').distinct().count() < 2
            || WORDS.contains(serial)
            || FILL_IN.matcher(serial).matches()
            || COUNTING.matcher(serial).matches();
    }
}
