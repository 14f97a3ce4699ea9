package org.wearledger.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.wearledger.report.Overview;

/** A sweep on one screen: its lines, as wide as the terminal. */
final class Screen {
    /** Set by the launcher where the output goes to a terminal. */
    static final String COLUMNS = "wearledger.columns";
    private static final int USUAL_COLUMNS = 120;
    private static final int LEAST_COLUMNS = 80;
    private static final int MOST_ROWS = 15;
    private static final int MOST_LINES = 22;
    private static final int LONGEST_CELL = 42;
    private static final int LEAST_FOR_THE_LAST = 30;
    private static final int GAP = 2;

    private final Overview overview;
    private final int columns;

    /** @param columns of the terminal, {@code null} for none */
    Screen(Overview overview, Integer columns) {
        this.overview = overview;
        this.columns = columns == null ? USUAL_COLUMNS : Math.max(LEAST_COLUMNS, columns);
    }

    List<String> lines() {
        int rows = Math.min(MOST_ROWS, overview.machines());
        List<String> table = table(overview.table(rows), columns);
        while (table.size() > MOST_LINES && rows > 1) {
            table = table(overview.table(--rows), columns);
        }
        Stream<String> money = wrapped(Stream.of(overview.money()).filter(line -> !line.isEmpty()));
        Stream<String> more = Stream.of(overview.more(rows)).filter(line -> !line.isEmpty());
        Stream<String> work = rows == 0 ? Stream.of("No machine needs anything now.") : Stream.concat(table.stream(), more);
        return Stream.of(wrapped(overview.warnings().stream()), Stream.of(overview.counts()), money, Stream.of(""), work, Stream.of(""), wrapped(overview.notes().stream().map(note -> "- " + note)))
            .flatMap(lines -> lines).toList();
    }

    private Stream<String> wrapped(Stream<String> lines) {
        return lines.flatMap(line -> laidOut(List.of(List.of(line)), columns).stream());
    }

    /** What to do wraps in the last column; where there is no room for it beside the reason, both stand in one. */
    static List<String> table(List<List<String>> rows, int columns) {
        int last = rows.get(0).size() - 1;
        return laidOut(columns - width(rows, last) >= LEAST_FOR_THE_LAST ? rows
            : rows.stream().map(row -> Stream.concat(row.subList(0, last - 1).stream(), Stream.of(row.get(last - 1) + ": " + row.get(last))).toList()).toList(), columns);
    }

    private static List<String> laidOut(List<List<String>> rows, int columns) {
        int last = rows.get(0).size() - 1;
        int indent = width(rows, last);
        List<String> lines = new ArrayList<>();
        for (List<String> row : rows) {
            StringBuilder line = new StringBuilder();
            IntStream.range(0, last).forEach(i -> line.append(row.get(i)).append(" ".repeat(Math.max(1, widest(rows, i) + GAP - row.get(i).length()))));
            for (String word : row.get(last).split(" ")) {
                if (line.length() + word.length() > columns && line.length() > indent) {
                    lines.add(line.toString().stripTrailing());
                    line.setLength(0);
                    line.append(" ".repeat(indent + GAP));
                }
                line.append(word).append(' ');
            }
            lines.add(line.toString().stripTrailing());
        }
        return lines;
    }

    /** Of the columns before this one. */
    private static int width(List<List<String>> rows, int column) {
        return IntStream.range(0, column).map(i -> widest(rows, i) + GAP).sum();
    }

    private static int widest(List<List<String>> rows, int column) {
        return Math.min(LONGEST_CELL, rows.stream().mapToInt(row -> row.get(column).length()).max().orElseThrow());
    }
}
