package org.wearledger.intake;

/**
 * A name without what cannot be seen in it: zero-width characters, marks that turn the direction of writing, control
 * characters such as line ends. They come with copied cells and would make two names of one drive.
 */
final class VisibleName {
    private VisibleName() {
    }

    /** Quick: true for nearly every name. */
    static boolean isVisible(String name) {
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            if (c < ' ' || c >= 0x7F && isHidden(c)) {
                return false;
            }
        }
        return true;
    }

    /** Control characters and odd blanks become one blank; format characters (Unicode category Cf) vanish. */
    static String of(String name) {
        StringBuilder visible = new StringBuilder(name.length());
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            if (isBlank(c)) {
                visible.append(' ');
            } else if (!isHidden(c)) {
                visible.append(c);
            }
        }
        return visible.toString().strip();
    }

    /** The hidden characters by code point, each once, in order of appearance. */
    static String hiddenIn(String name) {
        return name.chars().filter(c -> isHidden((char) c)).distinct().mapToObj(c -> String.format("U+%04X", c)).collect(java.util.stream.Collectors.joining(", "));
    }

    private static boolean isHidden(char c) {
        return isBlank(c) && c != ' ' || Character.getType(c) == Character.FORMAT;
    }

    private static boolean isBlank(char c) {
        return Character.getType(c) == Character.CONTROL || Character.getType(c) == Character.SPACE_SEPARATOR || c == '\u2028' || c == '\u2029';
    }
}
