package org.wearledger.intake;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A pattern of times whose every part has its fixed place, such as {@code dd.MM.yyyy HH:mm}: read without the general parser, which takes
 * several times as long as all else that a record needs. What is in any way unusual is left to that parser.
 */
final class FixedPlaces {
    private static final Pattern PART = Pattern.compile("(y+|u+|M+|d+|H+|m+|s+)|'([^']+)'|([^A-Za-z'])|(.)");
    private static final String LETTERS = "yMdHms";
    private static final FixedPlaces NONE = new FixedPlaces("", new int[0]);

    /** What stands at each place: a literal, or 0 for a digit. */
    private final String literals;
    /** Where year, month, day, hour, minute and second begin; below zero for no seconds. */
    private final int[] begins;

    private FixedPlaces(String literals, int[] begins) {
        this.literals = literals;
        this.begins = begins;
    }

    static FixedPlaces of(String pattern) {
        StringBuilder literals = new StringBuilder();
        int[] begins = {-1, -1, -1, -1, -1, -1};
        for (Matcher part = PART.matcher(pattern); part.find();) {
            if (part.group(4) != null) {
                return NONE;
            }
            if (part.group(1) == null) {
                literals.append(part.group(2) == null ? part.group(3) : part.group(2));
                continue;
            }
            int which = LETTERS.indexOf(part.group(1).replace('u', 'y').charAt(0));
            if (begins[which] >= 0 || part.group(1).length() != (which == 0 ? 4 : 2)) {
                return NONE;
            }
            begins[which] = literals.length();
            literals.append("\0".repeat(part.group(1).length()));
        }
        for (int i = 0; i < 5; i++) {
            if (begins[i] < 0) {
                return NONE;
            }
        }
        return new FixedPlaces(literals.toString(), begins);
    }

    /** {@code null} where the text is not of just this form, or no such time. */
    LocalDateTime time(String text) {
        if (literals.isEmpty() || text.length() != literals.length()) {
            return null;
        }
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (literals.charAt(i) == 0 ? c < '0' || c > '9' : c != literals.charAt(i)) {
                return null;
            }
        }
        try {
            return LocalDateTime.of(number(text, begins[0], 4), number(text, begins[1], 2), number(text, begins[2], 2), number(text, begins[3], 2), number(text, begins[4], 2),
                begins[5] < 0 ? 0 : number(text, begins[5], 2));
        } catch (DateTimeException e) {
            return null;
        }
    }

    private static int number(String text, int from, int digits) {
        int number = 0;
        for (int i = from; i < from + digits; i++) {
            number = 10 * number + text.charAt(i) - '0';
        }
        return number;
    }
}
