package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.function.Function;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.ItemDemand;
import org.wearledger.model.PricedItem;

/** The purchases that the model expects, by period and item: frozen numbers, which the workbook's formulas price. */
final class ModelOutputs {
    static final String NAME = "Model outputs";

    private final Budget budget;
    private final Table<ItemDemand> table;

    ModelOutputs(Budget budget) {
        this.budget = budget;
        table = new Table<>(NAME, columns(), budget.demand());
    }

    Table<ItemDemand> table() {
        return table;
    }

    /** The cells of a period that has any: they stand together. */
    String cells(BudgetPeriod period, String column) {
        List<String> periods = table.rows().stream().map(ItemDemand::period).toList();
        return BudgetTables.range(table, column, periods.indexOf(period.label()), periods.lastIndexOf(period.label()));
    }

    /** What numbers of a period cost. */
    BigDecimal cost(BudgetPeriod period, Function<ItemDemand, Double> number) {
        return table.rows().stream().filter(row -> row.period().equals(period.label())).map(row -> BigDecimal.valueOf(number.apply(row)).multiply(costOfOne(row.item())))
            .reduce(BigDecimal.ZERO, BigDecimal::add).setScale(2, RoundingMode.HALF_UP);
    }

    private List<Column<ItemDemand>> columns() {
        String currency = budget.currency();
        return List.of(
            text("period", "Fiscal period", ItemDemand::period),
            text("item", "What is bought", ItemDemand::item),
            text("upperItem", "Dearer choice", ItemDemand::upperItem),
            decimal("expected", "Expected replacements for wear (model output)", "", 4, ItemDemand::expected),
            Column.<ItemDemand>money("expectedAmount", "Expected cost", currency, row -> expectedAmount(row.expected(), row.item()))
                .workedOut("{expected}*{costOfOne}"),
            Column.<ItemDemand>money("expectedUpperAmount", "Expected cost of the dearer choice", currency, row -> expectedAmount(row.expected(), row.upperItem()))
                .workedOut("{expected}*{costOfDearer}"),
            integer("orderQuantity", "To have ready, by the costs of being short", "", ItemDemand::orderQuantity),
            Column.<ItemDemand>money("costOfOne", "Cost of one", currency, row -> costOfOne(row.item())).workedOut(Names.lookup(Names.COSTS_OF_ONE, "{item}")),
            bought("boughtP50", "Bought at the P50", row -> row.bought().p50()),
            bought("boughtP80", "Bought at the P80", row -> row.bought().p80()),
            Column.<ItemDemand>money("costOfDearer", "Cost of one, dearer choice", currency, row -> costOfOne(row.upperItem()))
                .workedOut(Names.lookup(Names.COSTS_OF_ONE, "{upperItem}")),
            bought("dearerBoughtP80", "Dearer choices bought at the P80", row -> row.dearerBought().p80()),
            bought("dearerBoughtP90", "Dearer choices bought at the P90", row -> row.dearerBought().p90()),
            bought("further", "Expected beyond the lines", ItemDemand::further),
            bought("reserve", "Reserve beyond lines and expected further ones", ItemDemand::reserve),
            bought("worst", "Dearer choices beyond the lines, in nine of ten cases", ItemDemand::worst));
    }

    private static Column<ItemDemand> bought(String name, String heading, Function<ItemDemand, Double> number) {
        return decimal(name, heading + " (model output)", "", 4, number);
    }

    private BigDecimal expectedAmount(double expected, String item) {
        return BigDecimal.valueOf(expected).multiply(costOfOne(item));
    }

    private BigDecimal costOfOne(String item) {
        return budget.items().stream().filter(priced -> priced.item().equals(item)).findFirst().map(PricedItem::costOfOne).orElse(BigDecimal.ZERO);
    }
}
