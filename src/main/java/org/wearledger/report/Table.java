package org.wearledger.report;

import java.util.Comparator;
import java.util.List;

/** A named table: columns and the rows they are read from. */
record Table<T>(String name, List<Column<T>> columns, List<T> rows) {
    Table {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
    }

    Table<T> sortedBy(Comparator<? super T> order) {
        return new Table<>(name, columns, rows.stream().sorted(order).toList());
    }

    Table<T> firstRows(int most) {
        return rows.size() <= most ? this : new Table<>(name, columns, rows.subList(0, most));
    }
}
