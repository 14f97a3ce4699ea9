package org.wearledger.report;

import java.time.LocalDate;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.PlannedReplacement;

/** What the table for IT says of orders, as formulas: it follows the prices and decisions that are typed on the sheets of money. */
final class WorkFormulas {
    private final BudgetTables money;

    WorkFormulas(BudgetTables money) {
        this.money = money;
    }

    Table<WorkRow> in(Table<WorkRow> work) {
        return new Table<>(work.name(), work.columns().stream().map(this::following).toList(), work.rows());
    }

    private Column<WorkRow> following(Column<WorkRow> column) {
        return switch (column.name()) {
            case "what" -> column.workedOut(row -> row.orders().isEmpty() || ShortWords.what(row).length() > Formula.MOST_LITERAL ? null : what(row));
            case "amount" -> column.workedOut(row -> row.orders().isEmpty() ? null : amount(row));
            case "byOn" -> column.workedOut(row -> row.orders().isEmpty() ? null : day(row));
            case "item" -> column.workedOut(row -> row.orders().size() == 1 ? money.cell("item", row.orders().get(0)) : null);
            case "decision" -> new Column<>(column.name(), column.heading(), column.unit(), column.type(), row -> row.orders().isEmpty() || column.valueOf(row) != null ? column.valueOf(row) : "",
                row -> row.orders().isEmpty() ? null : decided(row));
            default -> column;
        };
    }

    /** With the item that is bought now; where somebody decided otherwise, what else is to be done. */
    private String what(WorkRow row) {
        PlannedReplacement line = row.orders().get(0);
        String said = "SUBSTITUTE(" + Formula.quoted(ShortWords.what(row)) + "," + Formula.quoted("order " + line.item()) + ",\"order \"&" + money.cell("item", line) + ")";
        String others = ShortWords.what(row.withoutOrders());
        return "IF(" + decided(row) + "=\"\"," + said + "," + Formula.quoted(others.isEmpty() ? "" : others + "; ") + "&\"purchase: \"&" + decided(row) + ")";
    }

    private String amount(WorkRow row) {
        String bought = each(row, "+", line -> "IF(" + money.cell("boughtIndex", line) + ">0," + money.cell("amount", line) + ",0)");
        return "IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\",IF(" + bought + "=0,\"\"," + bought + "))";
    }

    /** The last day to order; where somebody decided otherwise, the day of what else is to be done. */
    private String day(WorkRow row) {
        String days = each(row, ",", line -> money.cell("orderByOn", line));
        LocalDate other = row.withoutOrders().byOn() == null ? row.byOn() : row.withoutOrders().byOn();
        return "IF(OR(COUNT(" + days + ")=0," + decided(row) + "<>\"\"),DATE(" + other.getYear() + "," + other.getMonthValue() + "," + other.getDayOfMonth() + "),MIN(" + days + "))";
    }

    private String decided(WorkRow row) {
        return each(row, "&", line -> "IF(" + money.cell("decision", line) + "=\"accept\",\"\",TRIM(" + money.cell("decision", line) + "&\" \"&" + money.cell("deferredTo", line) + "))");
    }

    private static String each(WorkRow row, String between, Function<PlannedReplacement, String> formula) {
        return row.orders().stream().map(formula).collect(Collectors.joining(between));
    }
}
