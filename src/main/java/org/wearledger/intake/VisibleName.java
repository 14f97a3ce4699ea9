package org.wearledger.intake;

import java.util.stream.Collectors;

/**
 * A name without what cannot be seen in it: zero-width characters, marks that turn the direction of writing, control
 * characters such as line ends. They come with copied cells and would make two names of one drive.
 */
final class VisibleName {
    private static final int DELETE = 0x7F;

    private VisibleName() {
    }

    /** Quick for names of ASCII. */
    static boolean isVisible(String name) {
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            if (c < ' ' || c == DELETE) {
                return false;
            }
            if (c > DELETE) {
                return name.codePoints().noneMatch(VisibleName::isHidden);
            }
        }
        return true;
    }

    /** Control characters and odd blanks become one blank; format characters (Unicode category Cf) and halves of a character vanish. */
    static String of(String name) {
        StringBuilder visible = new StringBuilder(name.length());
        name.codePoints().forEach(c -> {
            if (isBlank(c)) {
                visible.append(' ');
            } else if (!isHidden(c)) {
                visible.appendCodePoint(c);
            }
        });
        return visible.toString().strip();
    }

    /** The hidden characters by code point, each once, in order of appearance. */
    static String hiddenIn(String name) {
        return name.codePoints().filter(VisibleName::isHidden).distinct().mapToObj(c -> String.format("U+%04X", c)).collect(Collectors.joining(", "));
    }

    private static boolean isHidden(int c) {
        int type = Character.getType(c);
        return isBlank(c) && c != ' ' || type == Character.FORMAT || type == Character.SURROGATE;
    }

    private static boolean isBlank(int c) {
        return switch (Character.getType(c)) {
            case Character.CONTROL, Character.SPACE_SEPARATOR, Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR -> true;
            default -> false;
        };
    }
}
