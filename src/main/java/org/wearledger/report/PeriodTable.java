package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.CentreFunding;
import org.wearledger.model.Funding;
import org.wearledger.model.ItemDemand;
import org.wearledger.model.PlannedReplacement;

/** The budget by quarter, fiscal year and in all, as the formulas by which it follows the lines and the model's outputs. */
final class PeriodTable {
    static final String INCOMPLETE = "incomplete";

    private final Budget budget;
    private final BudgetTables tables;
    private final OrderChecks checks;

    PeriodTable(Budget budget, BudgetTables tables, OrderChecks checks) {
        this.budget = budget;
        this.tables = tables;
        this.checks = checks;
    }

    /** One row for each quarter, then the fiscal years and the whole. */
    Table<BudgetPeriod> table() {
        String currency = budget.currency();
        return new Table<>(BudgetTables.FIGURES, List.of(
            text("period", "Fiscal period", BudgetPeriod::label),
            date("from", "From", BudgetPeriod::from),
            date("until", "Until", BudgetPeriod::until),
            Column.<BudgetPeriod>integer("named", "Identified replacements", "", BudgetPeriod::named)
                .workedOut(p -> p.isOneQuarter() ? "SUMIFS(" + tables.lineColumn("quantity") + "," + bought() + ")" : sum("named", p)),
            Column.<BudgetPeriod>money("plan", "Plan: identified and expected further replacements", currency, BudgetPeriod::plan)
                .workedOut("{identified}+{refresh}+{further}"),
            Column.<BudgetPeriod>money("contingencyForWear", "Risk reserve", currency, BudgetPeriod::contingencyForWear)
                .workedOut(p -> p.cost() == null ? unless("\"\"", "{putOff}") : unless("\"\"", "{reserve}+{putOff}")),
            Column.<BudgetPeriod>money("contingencyForPrices", "Boards that turn out to be machines", currency, BudgetPeriod::contingencyForPrices)
                .workedOut(p -> unless("\"\"", p.isOneQuarter() ? "ROUND(" + Names.MACHINE_SHARE + "*" + machines(p) + ",2)" : sum("contingencyForPrices", p))),
            Column.<BudgetPeriod>money("allowance", "Random failures", currency, BudgetPeriod::allowance)
                .workedOut(p -> p.isOneQuarter() ? "ROUND({randomFailures}*" + Names.MEAN_COST + ",2)" : sum("allowance", p)),
            Column.<BudgetPeriod>money("toAskFor", "Funding request", currency, BudgetPeriod::toAskFor)
                .workedOut(unless("\"" + INCOMPLETE + "\"", "ROUND({net}+{vat}-{relief},2)")),
            Column.<BudgetPeriod>money("cap", "Worst case (90 %)", currency, BudgetPeriod::cap)
                .workedOut(p -> unless("\"\"", "MAX({toAskFor}," + worst(p) + ")")),
            Column.<BudgetPeriod>money("namedAmount", "Cost of identified replacements", currency, BudgetPeriod::namedAmount).workedOut("{identified}+{refresh}"),
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
            Column.<BudgetPeriod>money("amountToCheck", "Cost of identified replacements, to be checked first", currency, this::amountToCheck)
                .workedOut(p -> p.isOneQuarter() ? "SUMIFS(" + tables.lineColumn("amount") + "," + tables.toCheck() + "," + bought() + ")"
                    : sum("amountToCheck", p)),
            part("identified", "Identified repairs", Funding::identified, "SUMIFS(" + tables.lineColumn("amount") + "," + bought() + "," + tables.criterion("isRefresh", "0") + ")"),
            part("refresh", "Machines replaced in place of a repair", Funding::refresh, "SUMIFS(" + tables.lineColumn("amount") + "," + bought() + "," + tables.criterion("isRefresh", "1") + ")"),
            Column.<BudgetPeriod>money("further", "Expected further replacements", currency, p -> p.funding().further())
                .workedOut(p -> p.isOneQuarter() ? unless("0", numbers(p, "further", "costOfOne")) : sum("further", p)),
            part("stock", "Stock on hand", Funding::stock, tables.orders().sumOf("saved")),
            part("packs", "Whole packs and price breaks", Funding::packs, tables.orders().sumOf("packs")),
            part("warranty", "Expected warranty recovery", Funding::warranty, "ROUND(" + Names.WARRANTY_SHARE + "*SUMIFS(" + tables.lineColumn("claimed") + "," + bought() + "),2)"),
            Column.<BudgetPeriod>money("net", "Net", currency, p -> p.funding().net())
                .workedOut("SUM({plan},{contingencyForPrices},{contingencyForWear},{allowance},{packs})-{stock}-{warranty}"),
            part("vat", "Value added tax", Funding::vat, "ROUND({net}*" + Names.VAT_PERCENT + "/100,2)"),
            Column.<BudgetPeriod>money("relief", "Less for a year: not every quarter has its bad case", currency, p -> p.funding().relief()).workedOut(this::relief),
            Column.<BudgetPeriod>money("ifMachines", "More, if every such board were a machine", currency, p -> p.isContingencyKnown() ? p.funding().allMachines() : null)
                .workedOut(p -> unless("\"\"", p.isOneQuarter() ? "ROUND((ROUND(" + machines(p) + ",2)-{contingencyForPrices})*" + WITH_TAX + ",2)" : sum("ifMachines", p))),
            money("spent", "Spent", currency, BudgetPeriod::spent),
            part("reserve", "Risk reserve alone", Funding::reserve, "{reserveForWear}"),
            part("putOff", "Risk of what is put off", Funding::putOff, unless("0", putOff()))), budget.quarters());
    }

    static final String WITH_TAX = "(1+" + Names.VAT_PERCENT + "/100)";

    /** On the sheet, the request of the sweep stands beside that of now. */
    Table<BudgetPeriod> onTheSheet() {
        Table<BudgetPeriod> table = table();
        List<Column<BudgetPeriod>> columns = new ArrayList<>(table.columns());
        columns.replaceAll(column -> !column.name().equals("toAskFor") ? column
            : new Column<>(column.name(), column.heading(), column.unit(), column.type(), p -> p.priced() ? column.valueOf(p) : INCOMPLETE, column.formula()));
        columns.addAll(List.of(
            integer("index", "Quarter no.", "", p -> p.isOneQuarter() ? p.first() + 1 : null),
            Column.<BudgetPeriod>money("reserveForWear", "Reserve for wear, of the period by itself", budget.currency(), this::reserveForWear)
                .workedOut(p -> p.cost() == null ? "0" : unless("0", "MAX(0," + numbers(p, "reserve", "costOfOne") + ")")),
            Column.<BudgetPeriod>money("amountToAsk", "Cost of identified replacements, the maker to be asked first", budget.currency(), p -> amount(p, line -> checks.first(line).equals(OrderChecks.ASK)))
                .workedOut(p -> p.isOneQuarter() ? "SUMIFS(" + tables.lineColumn("amount") + "," + tables.criterion("first", "\"" + OrderChecks.ASK + "\"") + "," + bought() + ")" : sum("amountToAsk", p)),
            Column.<BudgetPeriod>money("ofNoCentre", "To divide by machines", budget.currency(), p -> !p.priced() ? BigDecimal.ZERO : isQuarter(p) ? p.toAskFor().subtract(own(p)) : p.funding().relief().negate())
                .workedOut(p -> !isQuarter(p) ? "-{relief}" : "IF(ISNUMBER({toAskFor}),ROUND({toAskFor}-" + tables.centres().sumOf("own", p) + ",2),0)"),
            money("toAskForAsSwept", "Funding request, as swept", budget.currency(), BudgetPeriod::toAskFor),
            Column.<BudgetPeriod>money("typedSince", "Changed since, by what was typed", budget.currency(), p -> BigDecimal.ZERO)
                .workedOut("IF(ISNUMBER({toAskFor}),ROUND({toAskFor}-{toAskForAsSwept},2),0)")));
        return new Table<>(table.name(), columns, table.rows());
    }

    private BigDecimal own(BudgetPeriod p) {
        return budget.centres().stream().filter(centre -> centre.period().equals(p.label())).map(CentreFunding::own).reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    private BigDecimal reserveForWear(BudgetPeriod p) {
        return !p.priced() ? BigDecimal.ZERO : tables.modelOutputs().cost(p, ItemDemand::reserve).max(BigDecimal.ZERO);
    }

    /** Of the whole that of its years. */
    private String relief(BudgetPeriod p) {
        List<BudgetPeriod> years = budget.quarters().subList(budget.settings().quarters(), Math.max(budget.settings().quarters(), budget.quarters().size() - 1));
        String letter = onTheSheet().letter("relief");
        int firstYear = tables.firstRowOfMoney() + budget.settings().quarters();
        return p.isOneQuarter() || p.cost() == null ? "0" : !years.isEmpty() && !years.contains(p) ? "SUM(" + letter + firstYear + ":" + letter + (firstYear + years.size() - 1) + ")"
            : "ROUND(MAX(0," + sum("reserveForWear", p) + "-{reserveForWear})*" + WITH_TAX + ",2)";
    }

    /** Of the lines: those bought in the row's quarter. */
    private String bought() {
        return tables.criterion("boughtIndex", "{index}");
    }

    /** A part of the money of a quarter; of several, their sum. */
    private Column<BudgetPeriod> part(String name, String heading, Function<Funding, BigDecimal> part, String formula) {
        return Column.<BudgetPeriod>money(name, heading, budget.currency(), p -> part.apply(p.funding())).workedOut(p -> p.isOneQuarter() ? formula : "ROUND(" + sum(name, p) + ",2)");
    }

    /** Frozen numbers at their prices. */
    private String numbers(BudgetPeriod p, String number, String price) {
        return p.cost() == null || budget.demand().isEmpty() ? "0" : "ROUND(" + unrounded(p, number, price) + ",2)";
    }

    private String unrounded(BudgetPeriod p, String number, String price) {
        return p.cost() == null || budget.demand().isEmpty() ? "0" : "SUMPRODUCT(" + tables.modelOutputs().cells(p, price) + "," + tables.modelOutputs().cells(p, number) + ")";
    }

    /** What all boards of a quarter would cost more as machines. */
    private String machines(BudgetPeriod p) {
        return "MAX(0,SUMIFS(" + tables.lineColumn("dearer") + "," + bought() + ")+" + unrounded(p, "further", "costOfDearer") + "-" + unrounded(p, "further", "costOfOne") + ")";
    }

    private String putOff() {
        String needed = "SUMIFS(" + tables.lineColumn("riskPerYear") + "," + tables.criterion("needIndex", "\"<=\"&{index}") + "," + tables.criterion("riskUntil", "\">=\"&{index}") + ",";
        return "ROUND((" + needed + tables.criterion("boughtIndex", "\">\"&{index}") + ")+" + needed + tables.criterion("boughtIndex", "0") + "))*{years},2)-SUMIFS(" + tables.lineColumn("countedBefore") + "," + bought() + ")";
    }

    private String worst(BudgetPeriod p) {
        String lines = Stream.of("amount", "dearer").map(column -> "SUMIFS(" + tables.lineColumn(column) + "," + tables.criterion("boughtIndex", "\">=" + (p.first() + 1) + "\"") + ","
            + tables.criterion("boughtIndex", "\"<=" + (p.first() + p.quarters()) + "\"") + ")").reduce((one, other) -> one + "+" + other).orElseThrow();
        return "ROUND((" + unrounded(p, "worst", "costOfDearer") + "+" + lines + "+{allowance}+{putOff})*" + WITH_TAX + ",2)";
    }

    /** There is no sense in it before every purchase has its price, and every cell its number. */
    private static String unless(String incomplete, String otherwise) {
        return "IF(" + Names.INCOMPLETE + ">0," + incomplete + "," + otherwise + ")";
    }

    private Column<BudgetPeriod> expected(String name, String heading, Function<BudgetPeriod, BudgetPeriod.Cost> cost) {
        return Column.<BudgetPeriod>money(name, heading, budget.currency(), p -> cost.apply(p) == null ? null : cost.apply(p).expected())
            .workedOut(p -> cost.apply(p) == null ? null : expectedCost(p, name));
    }

    /** The purchases that make the cost up, at their prices. */
    private Column<BudgetPeriod> quantile(String name, String heading, Function<BudgetPeriod, BudgetPeriod.Cost> cost,
                                          Function<BudgetPeriod.Levels<BigDecimal>, BigDecimal> level, String price, String bought) {
        return Column.<BudgetPeriod>money(name, heading, budget.currency(), p -> cost.apply(p) == null ? null : level.apply(cost.apply(p).amounts()))
            .workedOut(p -> cost.apply(p) == null ? null : numbers(p, bought, price));
    }

    private static <L extends Serializable> Function<BudgetPeriod, L> level(Function<BudgetPeriod, BudgetPeriod.Levels<L>> levels, Function<BudgetPeriod.Levels<L>, L> level) {
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

    private BigDecimal amountToCheck(BudgetPeriod period) {
        return amount(period, checks::holds);
    }

    /** Over the period's quarters. */
    private BigDecimal amount(BudgetPeriod period, Predicate<PlannedReplacement> which) {
        List<String> quarters = budget.quarters().subList(period.first(), period.first() + period.quarters()).stream().map(BudgetPeriod::label).toList();
        return BudgetTables.sumOf(budget.lines().stream().filter(line -> line.boughtIn() != null && quarters.contains(line.boughtIn()) && which.test(line)));
    }

    /** Also where the plan has one alone. */
    private boolean isQuarter(BudgetPeriod period) {
        return period.isOneQuarter() && budget.quarters().indexOf(period) < budget.settings().quarters();
    }
}
