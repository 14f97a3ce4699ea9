package org.wearledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.apache.poi.ss.util.CellReference;

/** A named table: columns and the rows they are read from. */
record Table<T>(String name, List<Column<T>> columns, List<T> rows) {
    private static final Pattern CELL = Pattern.compile("\\{(\\w+)}");

    Table {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
    }

    Table<T> sortedBy(Comparator<? super T> order) {
        return new Table<>(name, columns, rows.stream().sorted(order).toList());
    }

    /** The letter of a column. */
    String letter(String column) {
        return CellReference.convertNumToColString(indexOf(column));
    }

    /** The same with one column more. */
    Table<T> with(int at, Column<T> column) {
        List<Column<T>> all = new ArrayList<>(columns);
        all.add(at, column);
        return new Table<>(name, all, rows);
    }

    /** A formula with the cells of row number {@code row} put in for the names of their columns. */
    String resolved(String formula, int row) {
        return CELL.matcher(formula).replaceAll(match -> letter(match.group(1)) + row);
    }

    /** With these columns alone, in this order. */
    Table<T> showing(List<String> names) {
        return new Table<>(name, names.stream().map(shown -> columns.stream().filter(column -> column.name().equals(shown)).findFirst().orElseThrow()).toList(), rows);
    }

    /** These columns, as far as there are such, in this order before all others. */
    Table<T> inFront(List<String> names) {
        List<Column<T>> ordered = new ArrayList<>();
        names.forEach(first -> columns.stream().filter(column -> column.name().equals(first)).forEach(ordered::add));
        columns.stream().filter(column -> !names.contains(column.name())).forEach(ordered::add);
        return new Table<>(name, ordered, rows);
    }

    /** How many of these columns there are. */
    int count(List<String> names) {
        return (int) columns.stream().filter(column -> names.contains(column.name())).count();
    }

    Table<T> named(String other) {
        return new Table<>(other, columns, rows);
    }

    Table<T> without(String column) {
        return new Table<>(name, columns.stream().filter(c -> !c.name().equals(column)).toList(), rows);
    }

    /** With these columns empty in all rows but some. */
    Table<T> emptying(Predicate<Column<T>> which, Predicate<T> but) {
        return new Table<>(name, columns.stream().map(column -> which.test(column) ? column.only(but) : column).toList(), rows);
    }

    /** Without columns that are empty in all rows. */
    Table<T> withoutEmptyColumns() {
        return new Table<>(name, columns.stream().filter(column -> rows.stream().anyMatch(row -> column.valueOf(row) != null)).toList(), rows);
    }

    /** Where a column stands, from 0. */
    int indexOf(String column) {
        return IntStream.range(0, columns.size()).filter(i -> columns.get(i).name().equals(column)).findFirst().orElseThrow(() -> new IllegalArgumentException("no column " + column + " in " + name));
    }

    Table<T> only(Predicate<T> which) {
        return new Table<>(name, columns, rows.stream().filter(which).toList());
    }

    Table<T> firstRows(int most) {
        return rows.size() <= most ? this : new Table<>(name, columns, rows.subList(0, most));
    }
}
