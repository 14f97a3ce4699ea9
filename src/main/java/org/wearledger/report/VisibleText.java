package org.wearledger.report;

import java.util.Set;
import java.util.function.IntPredicate;

/**
 * Text that shows all it holds. Input may hold characters that hide, end a line, steer a terminal or turn the direction of what
 * follows (Unicode technical report 36 names the dangers); each is written out, as {@code \}{@code u202E}.
 */
public final class VisibleText {
    /** Letters and a joiner that are drawn as nothing. */
    private static final Set<Integer> BLANK_LETTERS = Set.of(0x115F, 0x1160, 0x17B4, 0x17B5, 0x3164, 0xFFA0, 0x034F);

    private VisibleText() {
    }

    /** Of one line, cell or name. */
    public static String of(String text) {
        return written(text, VisibleText::isHidden);
    }

    /** Of a text of several lines, whose line feeds are the program's own. */
    public static String ofLines(String text) {
        return written(text, c -> c != '\n' && isHidden(c));
    }

    private static String written(String text, IntPredicate hidden) {
        if (isPlain(text) || text.codePoints().noneMatch(hidden)) {
            return text;
        }
        StringBuilder visible = new StringBuilder();
        text.codePoints().forEach(c -> {
            if (hidden.test(c)) {
                // As Java and JSON write them, a pair where one is too small.
                for (char unit : Character.toChars(c)) {
                    visible.append(String.format("\\u%04X", (int) unit));
                }
            } else {
                visible.appendCodePoint(c);
            }
        });
        return visible.toString();
    }

    /** Nearly all there is, and quickly told. */
    private static boolean isPlain(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (!isPlain(text.charAt(i))) {
                return false;
            }
        }
        return true;
    }

    private static boolean isPlain(int c) {
        return c >= ' ' && c <= '~';
    }

    private static boolean isHidden(int c) {
        if (isPlain(c)) {
            return false;
        }
        return switch (Character.getType(c)) {
            case Character.CONTROL, Character.FORMAT, Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR, Character.SURROGATE,
                Character.PRIVATE_USE -> true;
            // The last two ranges select among the shapes of the character before them.
            default -> BLANK_LETTERS.contains(c) || c >= 0xFE00 && c <= 0xFE0F || c >= 0xE0100 && c <= 0xE01EF;
        };
    }
}
