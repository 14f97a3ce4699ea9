package org.wearledger.report;

import java.util.List;
import java.util.function.Function;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/** Markdown headings, bullets and tables, wrapped for a 100-column console; tables are as wide as their figures. */
final class MarkdownLines {
    private static final int COLUMNS = 100;

    private final StringBuilder text = new StringBuilder();

    void title(String title) {
        text.append("# ").append(inline(title)).append("\n\n");
    }

    void heading(String heading) {
        text.append(text.length() > 1 && text.charAt(text.length() - 2) == '\n' ? "## " : "\n## ").append(heading).append("\n\n");
    }

    void bullet(String words) {
        int column = 1;
        text.append('-');
        for (String word : inline(words).split("(?<!\\s=) (?!=+ )")) {
            if (column > 2 && column + 1 + word.length() > COLUMNS) {
                text.append("\n ");
                column = 1;
            }
            String written = column <= 2 ? asText(word) : word;
            text.append(' ').append(written);
            column += 1 + written.length();
        }
        text.append('\n');
    }

    /** A bullet that begins with its topic. */
    void note(MethodNotes.Note note) {
        bullet(note.topic() + ": " + note.text());
    }

    /** A bullet each up to {@code most}, then how many more are in a file. */
    <T> void bullets(List<T> rows, int most, String file, Function<T, String> entry) {
        rows.stream().limit(most).map(entry).forEach(this::bullet);
        if (rows.size() > most) {
            bullet("and " + (rows.size() - most) + " more in " + file);
        }
    }

    /**
     * The first column to the left, the others, which are figures, to the right; a blank line follows.
     *
     * @param rows the headings first; all of one length
     */
    void table(List<List<String>> rows) {
        table(rows, column -> column > 0);
    }

    /** The same with figures to the right in the columns of which that is true. */
    void table(List<List<String>> rows, IntPredicate hasFigures) {
        List<List<String>> cells = rows.stream().map(row -> row.stream().map(cell -> inline(cell).replace("|", "\\|")).toList()).toList();
        int[] widths = IntStream.range(0, rows.get(0).size()).map(i -> cells.stream().mapToInt(row -> row.get(i).length()).max().orElseThrow()).toArray();
        for (int i = 0; i < cells.size(); i++) {
            row(cells.get(i), widths, hasFigures);
            if (i == 0) {
                row(IntStream.range(0, widths.length).mapToObj(column -> hasFigures.test(column) ? "-".repeat(widths[column] - 1) + ":" : "-".repeat(widths[column])).toList(), widths,
                    hasFigures);
            }
        }
        text.append('\n');
    }

    private void row(List<String> cells, int[] widths, IntPredicate hasFigures) {
        text.append('|');
        for (int i = 0; i < widths.length; i++) {
            String pad = " ".repeat(widths[i] - cells.get(i).length());
            text.append(' ').append(hasFigures.test(i) ? pad + cells.get(i) : cells.get(i) + pad).append(" |");
        }
        text.append('\n');
    }

    /** A word that begins a line, where it would make a heading, a quotation or a list. */
    private static String asText(String word) {
        return word.matches("#{1,6}|[-+]|>.*|=+|_+|-{2,}|~{3,}.*") ? "\\" + word : word.replaceFirst("^(\\d{1,9})([.)])$", "$1\\\\$2");
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
