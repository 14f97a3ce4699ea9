package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;

/** The budget by quarter, fiscal year and in all, as the formulas by which it follows the lines and the model's outputs. */
final class PeriodTable {
    private final Budget budget;
    private final BudgetTables tables;
    private final List<PlaceTotal> totals;

    /** @param totals of the lines by quarter */
    PeriodTable(Budget budget, BudgetTables tables, List<PlaceTotal> totals) {
        this.budget = budget;
        this.tables = tables;
        this.totals = totals;
    }

    /** One row for each quarter, then the fiscal years and the whole. */
    Table<BudgetPeriod> table() {
        String currency = budget.currency();
        return new Table<>(BudgetTables.BUDGET, List.of(
            text("period", "Fiscal period", BudgetPeriod::label),
            date("from", "From", BudgetPeriod::from),
            date("until", "Until", BudgetPeriod::until),
            Column.<BudgetPeriod>integer("named", "Named replacements", "", BudgetPeriod::named)
                .workedOut(p -> p.isOneQuarter() ? "COUNTIFS(" + tables.criterion("needQuarter", "{period}") + ")" : sum("named", p)),
            Column.<BudgetPeriod>money("plan", "Plan (named, or P50 with those not named)", currency, BudgetPeriod::plan)
                .workedOut(unless("{namedAmount}", "MAX({namedAmount},{costP50})")),
            Column.<BudgetPeriod>money("contingencyForWear", "Contingency up to P80: more wear than planned", currency, BudgetPeriod::contingencyForWear)
                .workedOut(p -> p.cost() == null ? null : unless("\"\"", "MAX(0,{costP80}-{plan})")),
            Column.<BudgetPeriod>money("contingencyForPrices", "Contingency up to P80: dearer choices", currency, BudgetPeriod::contingencyForPrices)
                .workedOut(p -> p.cost() == null ? null : unless("\"\"", "MAX(0,MAX(0,{dearerCostP80}-{plan})-{contingencyForWear})")),
            Column.<BudgetPeriod>money("allowance", "Allowance for random failures", currency, BudgetPeriod::allowance)
                .workedOut(p -> p.isOneQuarter() ? "ROUND({randomFailures}*" + Names.MEAN_COST + ",2)" : sum("allowance", p)),
            Column.<BudgetPeriod>money("toAskFor", "To ask for", currency, BudgetPeriod::toAskFor)
                .workedOut("SUM({plan},{contingencyForWear},{contingencyForPrices},{allowance})"),
            Column.<BudgetPeriod>money("cap", "Cap (P90)", currency, BudgetPeriod::cap)
                .workedOut(p -> p.cost() == null ? "{toAskFor}" : unless("\"\"", "MAX({dearerCostP90}+{allowance},{toAskFor})")),
            Column.<BudgetPeriod>money("namedAmount", "Cost of named replacements", currency, BudgetPeriod::namedAmount)
                .workedOut(p -> p.isOneQuarter() ? "SUMIFS(" + tables.lineColumn("amount") + "," + tables.criterion("needQuarter", "{period}") + ")" : sum("namedAmount", p)),
            decimal("expected", "Expected replacements for wear, named or not (model output)", "", 4, BudgetPeriod::expected),
            integer("countP50", "Replacements, P50 (model output)", "", level(BudgetPeriod::counts, BudgetPeriod.Levels::p50)),
            integer("countP80", "Replacements, P80 (model output)", "", level(BudgetPeriod::counts, BudgetPeriod.Levels::p80)),
            integer("countP90", "Replacements, P90 (model output)", "", level(BudgetPeriod::counts, BudgetPeriod.Levels::p90)),
            integer("countP90Independent", "P90 if drives had nothing in common: too low", "", p -> p.counts() == null ? null : p.independentP90()),
            integer("orderQuantity", "To have ready, by the costs of being short", "", BudgetPeriod::orderQuantity),
            Column.<BudgetPeriod>decimal("years", "Length", "years", 4, BudgetPeriod::years).workedOut(p -> p.isOneQuarter() ? null : sum("years", p)),
            Column.<BudgetPeriod>decimal("randomFailures", "Random failures allowed for", "", 4, BudgetPeriod::randomFailures)
                .workedOut(p -> p.isOneQuarter() ? "ROUND(" + Names.MACHINES_COVERED + "*" + Names.FAILURES_PER_MACHINE_YEAR + "*{years},4)"
                    : sum("randomFailures", p)),
            expected("expectedAmount", "Expected cost", BudgetPeriod::cost),
            quantile("costP50", "Cost, P50", BudgetPeriod::cost, BudgetPeriod.Levels::p50, "costOfOne", "boughtP50"),
            quantile("costP80", "Cost, P80", BudgetPeriod::cost, BudgetPeriod.Levels::p80, "costOfOne", "boughtP80"),
            expected("expectedUpperAmount", "Expected cost, dearer choices", BudgetPeriod::dearerCost),
            quantile("dearerCostP80", "Cost, P80, dearer choices", BudgetPeriod::dearerCost, BudgetPeriod.Levels::p80, "costOfDearer", "dearerBoughtP80"),
            quantile("dearerCostP90", "Cost, P90, dearer choices", BudgetPeriod::dearerCost, BudgetPeriod.Levels::p90, "costOfDearer", "dearerBoughtP90"),
            Column.<BudgetPeriod>money("amountToCheck", "Cost of named replacements, to be checked first", currency, this::amountToCheck)
                .workedOut(p -> p.isOneQuarter() ? "SUMIFS(" + tables.lineColumn("amount") + "," + tables.toCheck() + "," + tables.criterion("needQuarter", "{period}") + ")"
                    : sum("amountToCheck", p))),
            budget.quarters());
    }

    /** On the sheet, beside what is asked for now stands what the sweep asked for. */
    Table<BudgetPeriod> onTheSheet() {
        Table<BudgetPeriod> table = table();
        List<Column<BudgetPeriod>> columns = new ArrayList<>(table.columns());
        columns.addAll(BudgetTables.BUDGET_COLUMNS_OF_ITS_FILE_PRINTED, List.of(
            money("toAskForAsSwept", "To ask for, as swept", budget.currency(), BudgetPeriod::toAskFor),
            Column.<BudgetPeriod>money("typedSince", "Changed since, by what was typed on Assumptions", budget.currency(), p -> BigDecimal.ZERO)
                .workedOut("ROUND({toAskFor}-{toAskForAsSwept},2)")));
        return new Table<>(table.name(), columns, table.rows());
    }

    /** Quantiles of a cost make sense only when every purchase has its price. */
    private static String unless(String pricesMissing, String otherwise) {
        return "IF(" + Names.PRICES_MISSING + ">0," + pricesMissing + "," + otherwise + ")";
    }

    private Column<BudgetPeriod> expected(String name, String heading, Function<BudgetPeriod, BudgetPeriod.Cost> cost) {
        return Column.<BudgetPeriod>money(name, heading, budget.currency(), p -> cost.apply(p) == null ? null : cost.apply(p).expected())
            .workedOut(p -> cost.apply(p) == null ? null : expectedCost(p, name));
    }

    /** The purchases that make the cost up, at their prices. */
    private Column<BudgetPeriod> quantile(String name, String heading, Function<BudgetPeriod, BudgetPeriod.Cost> cost,
                                          Function<BudgetPeriod.Levels<BigDecimal>, BigDecimal> level, String price, String bought) {
        return Column.<BudgetPeriod>money(name, heading, budget.currency(), p -> cost.apply(p) == null ? null : level.apply(cost.apply(p).amounts()))
            .workedOut(p -> cost.apply(p) == null ? null : budget.demand().isEmpty() ? "0"
                : "ROUND(SUMPRODUCT(" + tables.modelOutputs().cells(p, price) + "," + tables.modelOutputs().cells(p, bought) + "),2)");
    }

    private static <L extends java.io.Serializable> Function<BudgetPeriod, L> level(Function<BudgetPeriod, BudgetPeriod.Levels<L>> levels,
                                                                                    Function<BudgetPeriod.Levels<L>, L> level) {
        return period -> levels.apply(period) == null ? null : level.apply(levels.apply(period));
    }

    /** Of the rows of the period's quarters. */
    private String sum(String column, BudgetPeriod period) {
        String letter = onTheSheet().letter(column);
        int first = tables.firstRowOfMoney() + period.first();
        return "SUM(" + letter + first + ":" + letter + (first + period.quarters() - 1) + ")";
    }

    private String expectedCost(BudgetPeriod period, String column) {
        return !period.isOneQuarter() ? sum(column, period) : budget.demand().isEmpty() ? "0" : "ROUND(SUM(" + tables.modelOutputs().cells(period, column) + "),2)";
    }

    /** Over the period's quarters. */
    private BigDecimal amountToCheck(BudgetPeriod period) {
        Set<String> quarters = budget.quarters().subList(period.first(), period.first() + period.quarters()).stream().map(BudgetPeriod::label).collect(Collectors.toSet());
        return totals.stream().filter(row -> quarters.contains(row.quarter())).map(PlaceTotal::amountToCheck).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }
}
