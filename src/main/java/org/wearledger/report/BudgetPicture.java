package org.wearledger.report;

import java.math.BigDecimal;
import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;

/** The money by quarter as a chart whose bars follow the sheet of figures. */
final class BudgetPicture {
    private final Budget budget;
    private final BudgetTables tables;

    BudgetPicture(Budget budget, BudgetTables tables) {
        this.budget = budget;
        this.tables = tables;
    }

    /** The funding request by its parts, and the worst case above it. */
    void draw(BarCharts charts) {
        List<BudgetPeriod> quarters = budget.quarters().subList(0, budget.settings().quarters());
        Periods periods = new Periods(tables.periodsOnTheSheet(), tables.firstRowOfMoney());
        String currency = budget.currency().isEmpty() ? "" : " (" + budget.currency() + ")";
        charts.stacked("Funding request by fiscal quarter" + (quarters.stream().allMatch(BudgetPeriod::isContingencyKnown) ? "" : ", at least") + currency + "; hollow: beyond that, up to the worst case", "Quarter",
            "Cost" + currency, quarters.stream().map(BudgetPeriod::label).toList(), List.of(
                series("Plan", periods, "{plan}", quarters, BudgetPeriod::plan),
                series("Risk reserve and boards as machines", periods, "SUM({contingencyForWear},{contingencyForPrices})", quarters,
                    p -> orZero(p, () -> p.contingencyForWear().add(p.contingencyForPrices()))),
                series("Random failures", periods, "{allowance}", quarters, BudgetPeriod::allowance)),
            series("Beyond it, up to the worst case", periods, "IF({cap}=\"\",0,ROUND({cap}-{toAskFor},2))", quarters, p -> orZero(p, () -> p.cap().subtract(p.toAskFor()))));
    }

    private static BigDecimal orZero(BudgetPeriod period, Supplier<BigDecimal> amount) {
        return period.isContingencyKnown() ? amount.get() : BigDecimal.ZERO;
    }

    /** The sheet of figures, and the row in which its quarters begin. */
    private record Periods(Table<BudgetPeriod> table, int firstRow) {
    }

    /** @param formula of columns of the sheet of figures */
    private static BarCharts.Series series(String name, Periods periods, String formula, List<BudgetPeriod> quarters,
                                           Function<BudgetPeriod, BigDecimal> value) {
        return new BarCharts.Series(name, quarters.stream().map(value).map(BigDecimal::doubleValue).toArray(Double[]::new),
            IntStream.range(0, quarters.size()).mapToObj(i -> periods.table.resolved(formula.replace("{", "'" + periods.table.name() + "'!{"), periods.firstRow + i)).toList());
    }
}
