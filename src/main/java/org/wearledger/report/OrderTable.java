package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.util.List;
import java.util.stream.IntStream;
import org.wearledger.model.Budget;
import org.wearledger.model.ItemOrder;

/** What is ordered of each item in each quarter: from stock first, then in whole packs, at the price of so many. */
final class OrderTable {
    static final String NAME = "Orders";

    private final Budget budget;
    private final BudgetTables tables;

    OrderTable(Budget budget, BudgetTables tables) {
        this.budget = budget;
        this.tables = tables;
    }

    /** One order, in its row of the sheet; {@code first} is the row of the item's first quarter. */
    private record Row(ItemOrder order, int number, int first) {
        /** A column from the item's first quarter to this one, or to the one before. */
        String upTo(String letter, int last) {
            return last < first ? "0" : "SUM(" + letter + first + ":" + letter + last + ")";
        }
    }

    Table<?> table() {
        int quarters = budget.settings().quarters();
        List<Row> rows = IntStream.range(0, budget.orders().size()).mapToObj(i -> new Row(budget.orders().get(i), i + BudgetTables.HEADER_ROWS + 1,
            i / quarters * quarters + BudgetTables.HEADER_ROWS + 1)).toList();
        String currency = budget.currency();
        return new Table<>(NAME, List.of(
            text("item", "What is bought", row -> row.order.item()),
            text("quarter", "Bought in", row -> budget.quarters().get(row.order.quarter()).label()),
            integer("index", "Quarter no.", "", row -> row.order.quarter() + 1),
            Column.<Row>integer("needed", "Needed by the lines", "", row -> row.order.needed())
                .workedOut("SUMIFS(" + tables.lineColumn("quantity") + "," + tables.criterion("item", "{item}") + "," + tables.criterion("boughtIndex", "{index}") + ")"),
            Column.<Row>integer("fromStock", "From stock", "", row -> row.order.fromStock())
                .workedOut(row -> "MIN({needed},MAX(0," + Names.lookup(Names.STOCKS, "{item}") + "-" + row.upTo("E", row.number - 1) + "))"),
            Column.<Row>integer("bought", "To order, in whole packs", "", row -> row.order.bought())
                .workedOut(row -> "ROUNDUP(MAX(0," + row.upTo("D", row.number) + "-" + row.upTo("E", row.number) + "-" + row.upTo("F", row.number - 1) + ")/" + Names.lookup(Names.PACK_SIZES, "{item}")
                    + ",0)*" + Names.lookup(Names.PACK_SIZES, "{item}")),
            Column.<Row>money("saved", "Saved by stock", currency, row -> row.order.saved()).workedOut("ROUND(" + Names.lookup(Names.UNIT_COSTS, "{item}") + "*{fromStock},2)"),
            Column.<Row>money("packs", "Whole packs and price breaks", currency, row -> row.order.packs())
                .workedOut("ROUND(IF({bought}>=" + Names.lookup(Names.BREAK_QUANTITIES, "{item}") + "," + Names.lookup(Names.BREAK_COSTS, "{item}") + "," + Names.lookup(Names.UNIT_COSTS, "{item}")
                    + ")*{bought},2)-ROUND(" + Names.lookup(Names.UNIT_COSTS, "{item}") + "*({needed}-{fromStock}),2)")), rows);
    }

    /** What a column adds up to in the quarter of a row of the sheet of figures. */
    String sumOf(String column) {
        return budget.orders().isEmpty() ? "0" : "SUMIFS(" + BudgetTables.range(table(), column) + "," + BudgetTables.range(table(), "index") + ",{index})";
    }
}
