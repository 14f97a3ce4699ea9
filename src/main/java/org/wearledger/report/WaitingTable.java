package org.wearledger.report;

import static org.wearledger.report.Column.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.IntStream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;

/**
 * What waiting costs beside what it saves: a replacement that is not planned costs its price and an extra; one that is put off by
 * a year saves a year's cost of its money.
 */
final class WaitingTable {
    private final Budget budget;
    private final BigDecimal extra;
    private final double chance;

    WaitingTable(Budget budget) {
        this.budget = budget;
        extra = budget.settings().unplanned().extra();
        chance = budget.settings().failuresPerMachineYear();
    }

    private record Row(BudgetPeriod period, int number) {
    }

    Table<?> table() {
        String currency = budget.currency();
        Table<BudgetPeriod> periods = new BudgetTables(budget, Integer.MAX_VALUE).periods();
        List<Row> rows = IntStream.range(0, budget.quarters().size()).mapToObj(i -> new Row(budget.quarters().get(i), i + 2)).toList();
        return new Table<>("Cost of waiting", List.of(
            text("period", "Planned for", row -> row.period.label()),
            Column.<Row>integer("named", "Named replacements", "", row -> row.period.named())
                .workedOut(row -> cell(periods, "named", row)),
            Column.<Row>money("planned", "Cost when planned", currency, row -> row.period.namedAmount())
                .workedOut(row -> cell(periods, "namedAmount", row)),
            Column.<Row>money("unplanned", "Cost if each waits until it fails", currency, row -> row.period.namedAmount().add(extraOf(row)))
                .workedOut("{planned}+{named}*" + Names.EXTRA_WHEN_UNPLANNED),
            Column.<Row>money("expectedExtra", "Expected extra of waiting a year", currency, this::expectedExtra)
                .workedOut("ROUND({named}*" + Names.FAILURE_CHANCE_WHEN_WAITING + "*" + Names.EXTRA_WHEN_UNPLANNED + ",2)"),
            Column.<Row>money("saved", "Saved by waiting a year", currency, this::saved)
                .workedOut("ROUND({planned}*" + Names.COST_OF_MONEY_PER_YEAR + ",2)"),
            Column.<Row>decimal("breakEvenPercent", "Waiting pays while the chance of failing within the year is below", "%", 1, this::breakEven)
                .workedOut("IF({named}*" + Names.EXTRA_WHEN_UNPLANNED + "=0,\"\",ROUND(100*{saved}/({named}*" + Names.EXTRA_WHEN_UNPLANNED
                    + "),1))")), rows);
    }

    private static String cell(Table<BudgetPeriod> periods, String column, Row row) {
        return "'" + periods.name() + "'!" + periods.letter(column) + row.number;
    }

    private BigDecimal extraOf(Row row) {
        return extra.multiply(BigDecimal.valueOf(row.period.named()));
    }

    private BigDecimal expectedExtra(Row row) {
        return extraOf(row).multiply(BigDecimal.valueOf(chance)).setScale(2, RoundingMode.HALF_UP);
    }

    private BigDecimal saved(Row row) {
        return row.period.namedAmount().multiply(BigDecimal.valueOf(AssumptionsSheet.COST_OF_MONEY)).setScale(2, RoundingMode.HALF_UP);
    }

    private Double breakEven(Row row) {
        return extraOf(row).signum() == 0 ? null
            : (Double) (100 * saved(row).doubleValue() / extraOf(row).doubleValue());
    }
}
