package org.wearledger.report;

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
            case "amount" -> column.workedOut(row -> row.orders().isEmpty() ? null : amount(row));
            case "byOn" -> column.workedOut(row -> row.orders().isEmpty() ? null : earliestOrder(row));
            case "decision" -> new Column<>(column.name(), column.heading(), column.unit(), column.type(), row -> row.orders().isEmpty() || column.valueOf(row) != null ? column.valueOf(row) : "",
                row -> row.orders().isEmpty() ? null : decided(row));
            default -> column;
        };
    }

    private String amount(WorkRow row) {
        String bought = each(row, "+", line -> "IF(" + money.cell("boughtIndex", line) + ">0," + money.cell("amount", line) + ",0)");
        return "IF(" + bought + "=0,\"\"," + bought + ")";
    }

    /** Where nothing is bought, the day that the sweep gave. */
    private String earliestOrder(WorkRow row) {
        String days = each(row, ",", line -> money.cell("orderByOn", line));
        return "IF(COUNT(" + days + ")=0,DATE(" + row.byOn().getYear() + "," + row.byOn().getMonthValue() + "," + row.byOn().getDayOfMonth() + "),MIN(" + days + "))";
    }

    private String decided(WorkRow row) {
        return each(row, "&", line -> "IF(" + money.cell("decision", line) + "=\"accept\",\"\",TRIM(" + money.cell("decision", line) + "&\" \"&" + money.cell("deferredTo", line) + "))");
    }

    private static String each(WorkRow row, String between, Function<PlannedReplacement, String> formula) {
        return row.orders().stream().map(formula).collect(Collectors.joining(between));
    }
}
