package org.wearledger.report;

import static org.wearledger.report.Column.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.IntStream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Standing;

/**
 * What waiting costs beside what it saves: a replacement that is not planned costs its price and an extra; one that is put off by
 * a year saves a year's cost of its money. A drive that fails already cannot wait. Until the extra is given, only what is planned is shown: zeros would
 * say that waiting costs nothing.
 */
final class WaitingTable {
    private final Budget budget;
    private final BudgetTables tables;
    private final BigDecimal extra;
    private final double chance;

    WaitingTable(Budget budget, BudgetTables tables) {
        this.budget = budget;
        this.tables = tables;
        extra = budget.settings().unplanned().extra();
        chance = budget.settings().failuresPerMachineYear();
    }

    private record Row(BudgetPeriod period, int number, int waiting, BigDecimal planned) {
    }

    Table<?> table() {
        String currency = budget.currency();
        List<Row> rows = IntStream.range(0, budget.quarters().size()).mapToObj(this::row).toList();
        return new Table<>("Cost of waiting", List.of(
            text("period", "Planned for", row -> row.period.label()),
            Column.<Row>integer("waiting", "Named replacements, without the urgent ones", "", Row::waiting)
                .workedOut(row -> row.period.isOneQuarter() ? "COUNTIFS(" + lines(row, "") + ")" : sum("B", row)),
            Column.<Row>money("planned", "Cost when planned", currency, Row::planned)
                .workedOut(row -> row.period.isOneQuarter() ? "SUMIFS(" + lines(row, tables.lineColumn("amount") + ",") + ")" : sum("C", row)),
            Column.<Row>money("unplanned", "Cost if each waits until it fails", currency, row -> orNone(row.planned.add(extraOf(row))))
                .workedOut(onceGiven("{planned}+{waiting}*" + Names.EXTRA_WHEN_UNPLANNED)),
            Column.<Row>money("expectedExtra", "Expected extra of waiting a year", currency, this::expectedExtra)
                .workedOut(onceGiven("ROUND({waiting}*" + Names.FAILURE_CHANCE_WHEN_WAITING + "*" + Names.EXTRA_WHEN_UNPLANNED + ",2)")),
            Column.<Row>money("saved", "Saved by waiting a year", currency, this::saved)
                .workedOut(onceGiven("ROUND({planned}*" + Names.COST_OF_MONEY_PER_YEAR + ",2)")),
            Column.<Row>decimal("breakEvenPercent", "Waiting pays while the chance of failing within the year is below", "%", 1, this::breakEven)
                .workedOut("IF({waiting}*" + Names.EXTRA_WHEN_UNPLANNED + "=0,\"\",ROUND(100*{saved}/({waiting}*" + Names.EXTRA_WHEN_UNPLANNED
                    + "),1))")), rows);
    }

    private Row row(int i) {
        BudgetPeriod period = budget.quarters().get(i);
        List<PlannedReplacement> waiting = budget.lines().stream().filter(line -> line.standing() != Standing.URGENT
            && budget.quarters().subList(period.first(), period.first() + period.quarters()).stream().anyMatch(q -> q.label().equals(line.quarter()))).toList();
        return new Row(period, tables.firstRowOfMoney() + i, waiting.size(), BudgetTables.sumOf(waiting.stream()));
    }

    /** The quarter's lines that could wait. */
    private String lines(Row row, String summed) {
        return summed + tables.lineColumn("needQuarter") + ",A" + row.number + "," + tables.lineColumn("standing") + ",\"<>urgent\"";
    }

    private String sum(String column, Row row) {
        int first = tables.firstRowOfMoney() + row.period.first();
        return "SUM(" + column + first + ":" + column + (first + row.period.quarters() - 1) + ")";
    }

    private static String onceGiven(String formula) {
        return "IF(" + Names.EXTRA_WHEN_UNPLANNED + "=0,\"\"," + formula + ")";
    }

    private BigDecimal orNone(BigDecimal amount) {
        return extra.signum() == 0 ? null : amount;
    }

    private BigDecimal extraOf(Row row) {
        return extra.multiply(BigDecimal.valueOf(row.waiting));
    }

    private BigDecimal expectedExtra(Row row) {
        return orNone(extraOf(row).multiply(BigDecimal.valueOf(chance)).setScale(2, RoundingMode.HALF_UP));
    }

    private BigDecimal saved(Row row) {
        return orNone(row.planned.multiply(BigDecimal.valueOf(AssumptionsSheet.COST_OF_MONEY)).setScale(2, RoundingMode.HALF_UP));
    }

    private Double breakEven(Row row) {
        return extraOf(row).signum() == 0 ? null
            : (Double) (100 * saved(row).doubleValue() / extraOf(row).doubleValue());
    }
}
