package org.wearledger.report;

/** Markdown headings and bullets, wrapped for a 100-column console. */
final class MarkdownLines {
    private static final int COLUMNS = 100;

    private final StringBuilder text = new StringBuilder();

    void title(String title) {
        text.append("# ").append(inline(title)).append("\n\n");
    }

    void heading(String heading) {
        text.append("\n## ").append(heading).append("\n\n");
    }

    void bullet(String words) {
        int column = 1;
        text.append('-');
        for (String word : inline(words).split(" ")) {
            if (column > 2 && column + 1 + word.length() > COLUMNS) {
                text.append("\n ");
                column = 1;
            }
            text.append(' ').append(word);
            column += 1 + word.length();
        }
        text.append('\n');
    }

    String text() {
        return text.toString();
    }

    /**
     * Names come from reports: what hides must not reach the console, nor markup the rendered page. A backslash counts as itself but
     * before a mark, where it would undo the next one.
     */
    private static String inline(String words) {
        return VisibleText.of(words).replaceAll(" +", " ").strip().replaceAll("\\\\(?=\\p{Punct})|[*`<\\[]|&(?=#?\\w+;)", "\\\\$0");
    }
}
