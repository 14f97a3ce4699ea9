package org.wearledger.report;

import static org.wearledger.report.Column.date;
import static org.wearledger.report.Column.decimal;
import static org.wearledger.report.Column.integer;
import static org.wearledger.report.Column.money;
import static org.wearledger.report.Column.text;
import static org.wearledger.report.Column.yesNo;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.ItemDemand;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;

/**
 * The budget as tables, with the formulas by which the workbook works its money out anew: amounts of lines from the prices on the
 * sheet "Assumptions", everything else from the lines. What the model says (dates, probabilities, expected numbers) is frozen.
 */
final class BudgetTables {
    static final String LINES = "Replacements";
    static final String MODEL_OUTPUTS = "Model outputs";
    static final String BUDGET = "Budget";
    /** Columns that print legibly on one page's width. */
    static final int BUDGET_COLUMNS_PRINTED = 10;
    static final int LINE_COLUMNS_PRINTED = 17;
    private static final int HEADER_ROWS = 1;
    private static final String LEAD = Names.LEAD_TIME_DAYS + "-" + Names.INSTALL_SLOT_DAYS;
    private static final String LATEST_ORDER = "{needOn}-" + LEAD;

    private final Budget budget;
    private final int mostRows;
    private final Table<PlannedReplacement> lines;
    private final Table<ItemDemand> demand;
    private final Places places;
    private final List<Totals> totals;

    BudgetTables(Budget budget, int mostRows) {
        this.budget = budget;
        this.mostRows = mostRows;
        places = new Places(budget.lines());
        lines = new Table<>(LINES, lineColumns(), budget.lines());
        demand = new Table<>(MODEL_OUTPUTS, demandColumns(), budget.demand());
        totals = Totals.of(budget.lines(), places, mostRows);
    }

    Table<PlannedReplacement> lines() {
        return lines;
    }

    Table<ItemDemand> demand() {
        return demand;
    }

    private List<Column<PlannedReplacement>> lineColumns() {
        String currency = budget.currency();
        return List.of(
            text("machineId", "Machine", line -> line.machine().id()),
            text("assetTag", "Asset tag", line -> line.machine().assetTag()),
            text("site", "Site", line -> Places.Place.of(line).site()),
            text("costCentre", "Cost centre", line -> Places.Place.of(line).costCentre()),
            text("standing", "Standing", line -> line.standing().label()),
            text("replaces", "What is replaced", PlannedReplacement::replaces),
            text("item", "What is bought", PlannedReplacement::item),
            date("needOn", "Needed by (model output)", PlannedReplacement::needOn),
            text("needQuarter", "Need quarter", PlannedReplacement::quarter),
            Column.<PlannedReplacement>date("orderByOn", "Order by", PlannedReplacement::orderByOn)
                .workedOut("MAX(" + Names.AS_OF + "," + LATEST_ORDER + ")"),
            Column.<PlannedReplacement>text("orderNow", "Order at once", line -> line.late() ? "order now" : "")
                .workedOut("IF(" + LATEST_ORDER + "<" + Names.AS_OF + ",\"order now\",\"\")"),
            integer("quantity", "Quantity", "", PlannedReplacement::quantity),
            text("currency", "Currency", line -> line.price() == null ? "NO PRICE" : line.price().currency()),
            looked("unitPrice", "Unit price", currency, Price::unitPrice, Names.UNIT_PRICES),
            looked("labour", "Labour", currency, Price::labour, Names.LABOURS),
            looked("disposalFee", "Wiping and disposal fee", currency, Price::disposalFee, Names.DISPOSAL_FEES),
            Column.<PlannedReplacement>money("amount", "Amount", currency, PlannedReplacement::amount)
                .workedOut("ROUND({quantity}*{unitPrice},2)+ROUND({quantity}*{labour},2)+ROUND({quantity}*{disposalFee},2)"),
            date("priceDate", "Price of", line -> line.price() == null ? null : line.price().priceDate()),
            text("upperItem", "Dearer choice, if that is what it takes", PlannedReplacement::upperItem),
            Column.<PlannedReplacement>money("upperAmount", "Amount of the dearer choice", currency, PlannedReplacement::upperAmount)
                .workedOut("ROUND({quantity}*" + Names.lookup(Names.COSTS_OF_ONE, "{upperItem}") + ",2)"),
            decimal("crossesByQuarterEndPercent", "Probability by the quarter's end (model output)", "%", 1, line -> 100 * line.probability()),
            date("figuresOn", "Figures of", PlannedReplacement::figuresOn),
            text("figures", "Figures are", line -> line.stale() ? "stale: not reported this sweep" : "of this sweep"),
            yesNo("inInventory", "In inventory", PlannedReplacement::inInventory),
            text("machineModel", "Machine model", line -> line.machine().model()),
            text("attachment", "Attachment", line -> line.attachment().label()),
            text("driveModel", "Drive model", PlannedReplacement::driveModel),
            text("driveSerial", "Drive serial", line -> line.drive().serial()),
            integer("placeNumber", "Place no. (for the sums)", "", line -> places.number(Places.Place.of(line))),
            text("reason", "Reason", PlannedReplacement::reason));
    }

    private static Column<PlannedReplacement> looked(String name, String heading, String currency, Function<Price, BigDecimal> figure,
                                                     String prices) {
        return Column.<PlannedReplacement>money(name, heading, currency, line -> figure(line.price(), figure))
            .workedOut(Names.lookup(prices, "{item}") + "+0");
    }

    private static BigDecimal figure(Price price, Function<Price, BigDecimal> figure) {
        return price == null || figure.apply(price) == null ? BigDecimal.ZERO : figure.apply(price);
    }

    private BigDecimal costOfOne(String item) {
        return budget.items().stream().filter(priced -> priced.item().equals(item)).findFirst()
            .map(PricedItem::costOfOne).orElse(BigDecimal.ZERO);
    }

    private List<Column<ItemDemand>> demandColumns() {
        String currency = budget.currency();
        return List.of(
            text("quarter", "Quarter", ItemDemand::quarter),
            text("item", "What is bought", ItemDemand::item),
            text("upperItem", "Dearer choice", ItemDemand::upperItem),
            decimal("expected", "Expected replacements for wear (model output)", "", 4, ItemDemand::expected),
            Column.<ItemDemand>money("expectedAmount", "Expected cost", currency,
                    row -> expectedAmount(row.expected(), row.item()))
                .workedOut("{expected}*" + Names.lookup(Names.COSTS_OF_ONE, "{item}")),
            Column.<ItemDemand>money("expectedUpperAmount", "Expected cost of the dearer choice", currency,
                    row -> expectedAmount(row.expected(), row.upperItem()))
                .workedOut("{expected}*" + Names.lookup(Names.COSTS_OF_ONE, "{upperItem}")),
            integer("orderQuantity", "To have ready, by the costs of being short", "", ItemDemand::orderQuantity));
    }

    private BigDecimal expectedAmount(double expected, String item) {
        return BigDecimal.valueOf(expected).multiply(costOfOne(item));
    }

    /** The lines by quarter, site and cost centre. */
    Table<Totals> totals() {
        String criteria = criterion("needQuarter", "{quarter}") + "," + criterion("placeNumber", "{placeNumber}") + ")";
        return new Table<>("Totals", List.of(
            text("quarter", "Need quarter", Totals::quarter),
            text("site", "Site", row -> row.place().site()),
            text("costCentre", "Cost centre", row -> row.place().costCentre()),
            Column.<Totals>integer("replacements", "Replacements", "", Totals::lines)
                .workedOut(row -> "COUNTIFS(" + criteria + plus(row.unlisted())),
            Column.<Totals>money("amount", "Amount", budget.currency(), Totals::amount)
                .workedOut(row -> "SUMIFS(" + lineColumn("amount") + "," + criteria + plus(row.unlistedAmount())),
            integer("placeNumber", "Place no. (for the sums)", "", Totals::placeNumber)), totals);
    }

    private String criterion(String column, String cell) {
        return lineColumn(column) + "," + cell;
    }

    String lineColumn(String column) {
        return range(lines.firstRows(mostRows), column);
    }

    private static String range(Table<?> table, String column) {
        String letter = table.letter(column);
        return "'" + table.name() + "'!$" + letter + "$" + (HEADER_ROWS + 1) + ":$" + letter + "$" + (HEADER_ROWS + Math.max(table.rows().size(), 1));
    }

    private static String plus(Number unlisted) {
        return unlisted.doubleValue() == 0 ? "" : "+" + (unlisted instanceof BigDecimal decimal ? decimal.toPlainString() : unlisted);
    }

    /** One row for each quarter, then the fiscal years and the whole. */
    Table<BudgetPeriod> periods() {
        String currency = budget.currency();
        return new Table<>(BUDGET, List.of(
            text("period", "Fiscal period", BudgetPeriod::label),
            date("from", "From", BudgetPeriod::from),
            date("until", "Until", BudgetPeriod::until),
            Column.<BudgetPeriod>integer("named", "Named replacements", "", BudgetPeriod::named)
                .workedOut(p -> p.isOneQuarter() ? "COUNTIFS(" + criterion("needQuarter", "{period}") + ")" + plus(unlistedLines(p)) : sum("named", p)),
            Column.<BudgetPeriod>money("plan", "Plan (named, or P50)", currency, BudgetPeriod::plan)
                .workedOut(unless("{namedAmount}", "MAX({namedAmount},{costP50})")),
            Column.<BudgetPeriod>money("contingencyForWear", "Contingency up to P80: more wear than planned", currency, BudgetPeriod::contingencyForWear)
                .workedOut(unless("0", "MAX(0,{costP80}-{plan})")),
            Column.<BudgetPeriod>money("contingencyForPrices", "Contingency up to P80: dearer choices", currency, BudgetPeriod::contingencyForPrices)
                .workedOut(unless("0", "MAX(0,MAX(0,{dearerCostP80}-{plan})-{contingencyForWear})")),
            Column.<BudgetPeriod>money("allowance", "Allowance for random failures", currency, BudgetPeriod::allowance)
                .workedOut(p -> p.isOneQuarter() ? "ROUND({randomFailures}*" + Names.MEAN_COST + ",2)" : sum("allowance", p)),
            Column.<BudgetPeriod>money("toAskFor", "To ask for", currency, BudgetPeriod::toAskFor)
                .workedOut("{plan}+{contingencyForWear}+{contingencyForPrices}+{allowance}"),
            Column.<BudgetPeriod>money("cap", "Cap (P90)", currency, BudgetPeriod::cap)
                .workedOut(p -> p.cost() == null ? "{toAskFor}" : unless("{toAskFor}", "MAX({dearerCostP90}+{allowance},{toAskFor})")),
            Column.<BudgetPeriod>money("namedAmount", "Cost of the named", currency, BudgetPeriod::namedAmount)
                .workedOut(p -> p.isOneQuarter() ? "SUMIFS(" + lineColumn("amount") + "," + criterion("needQuarter", "{period}") + ")" + plus(unlistedAmount(p))
                    : sum("namedAmount", p)),
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
            factor("factorP50", "P50 / expected (model output)", BudgetPeriod::cost, BudgetPeriod.Levels::p50),
            factor("factorP80", "P80 / expected (model output)", BudgetPeriod::cost, BudgetPeriod.Levels::p80),
            quantile("costP50", "Cost, P50", BudgetPeriod::cost, BudgetPeriod.Levels::p50, "{factorP50}*{expectedAmount}"),
            quantile("costP80", "Cost, P80", BudgetPeriod::cost, BudgetPeriod.Levels::p80, "{factorP80}*{expectedAmount}"),
            expected("expectedUpperAmount", "Expected cost, dearer choices", BudgetPeriod::dearerCost),
            factor("dearerFactorP80", "Dearer choices, P80 / expected (model output)", BudgetPeriod::dearerCost, BudgetPeriod.Levels::p80),
            factor("dearerFactorP90", "Dearer choices, P90 / expected (model output)", BudgetPeriod::dearerCost, BudgetPeriod.Levels::p90),
            quantile("dearerCostP80", "Cost, P80, dearer choices", BudgetPeriod::dearerCost, BudgetPeriod.Levels::p80, "{dearerFactorP80}*{expectedUpperAmount}"),
            quantile("dearerCostP90", "Cost, P90, dearer choices", BudgetPeriod::dearerCost, BudgetPeriod.Levels::p90, "{dearerFactorP90}*{expectedUpperAmount}")),
            budget.quarters());
    }

    /** Quantiles of a cost make sense only when every purchase has its price. */
    private static String unless(String pricesMissing, String otherwise) {
        return "IF(" + Names.PRICES_MISSING + ">0," + pricesMissing + "," + otherwise + ")";
    }

    private Column<BudgetPeriod> expected(String name, String heading, Function<BudgetPeriod, BudgetPeriod.Cost> cost) {
        return Column.<BudgetPeriod>money(name, heading, budget.currency(), p -> cost.apply(p) == null ? null : cost.apply(p).expected())
            .workedOut(p -> cost.apply(p) == null ? null : expectedCost(p, name));
    }

    private static Column<BudgetPeriod> factor(String name, String heading, Function<BudgetPeriod, BudgetPeriod.Cost> cost,
                                               Function<BudgetPeriod.Levels<Double>, Double> level) {
        return decimal(name, heading, "", 9, p -> cost.apply(p) == null ? null : level.apply(cost.apply(p).factors()));
    }

    private Column<BudgetPeriod> quantile(String name, String heading, Function<BudgetPeriod, BudgetPeriod.Cost> cost,
                                          Function<BudgetPeriod.Levels<BigDecimal>, BigDecimal> level, String product) {
        return Column.<BudgetPeriod>money(name, heading, budget.currency(), p -> cost.apply(p) == null ? null : level.apply(cost.apply(p).amounts()))
            .workedOut(p -> cost.apply(p) == null ? null : "ROUND(" + product + ",2)");
    }

    private static <L extends java.io.Serializable> Function<BudgetPeriod, L> level(Function<BudgetPeriod, BudgetPeriod.Levels<L>> levels,
                                                                                    Function<BudgetPeriod.Levels<L>, L> level) {
        return period -> levels.apply(period) == null ? null : level.apply(levels.apply(period));
    }

    /** Of the rows of the period's quarters. */
    private String sum(String column, BudgetPeriod period) {
        String letter = periods().letter(column);
        int first = HEADER_ROWS + 1 + period.first();
        return "SUM(" + letter + first + ":" + letter + (first + period.quarters() - 1) + ")";
    }

    private String expectedCost(BudgetPeriod period, String column) {
        return period.isOneQuarter() ? "ROUND(SUMIFS(" + range(demand, column) + "," + range(demand, "quarter") + ",{period}),2)" : sum(column, period);
    }

    private int unlistedLines(BudgetPeriod period) {
        return totals.stream().filter(row -> row.quarter().equals(period.label())).mapToInt(Totals::unlisted).sum();
    }

    private BigDecimal unlistedAmount(BudgetPeriod period) {
        return totals.stream().filter(row -> row.quarter().equals(period.label())).map(Totals::unlistedAmount)
            .reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    /** What to buy: the lines by quarter and item. */
    Table<Purchase> purchases() {
        Map<List<String>, List<PlannedReplacement>> groups = new TreeMap<>(java.util.Comparator.comparing((List<String> key) -> key.get(0))
            .thenComparing(key -> key.get(1)));
        budget.lines().forEach(line -> groups.computeIfAbsent(List.of(line.quarter(), line.item()), key -> new ArrayList<>()).add(line));
        List<Purchase> purchases = new ArrayList<>();
        groups.forEach((key, own) -> purchases.add(new Purchase(key.get(0), key.get(1), own)));
        return new Table<>("Purchases", List.of(
            text("needQuarter", "Need quarter", Purchase::quarter),
            text("item", "What is bought", Purchase::item),
            text("supplier", "Supplier", row -> row.lines().get(0).price() == null ? null : row.lines().get(0).price().supplier()),
            Column.<Purchase>integer("quantity", "Quantity", "", row -> row.lines().size()).workedOut(row -> "COUNTIFS("
                + criterion("needQuarter", "{needQuarter}") + "," + criterion("item", "{item}") + ")" + plus(unlisted(row).count())),
            Column.<Purchase>money("amount", "Amount", budget.currency(), row -> sumOf(row.lines().stream())).workedOut(row -> "SUMIFS("
                + lineColumn("amount") + "," + criterion("needQuarter", "{needQuarter}") + "," + criterion("item", "{item}") + ")" + plus(sumOf(unlisted(row)))),
            date("firstNeedOn", "First needed by (model output)", row -> first(row, PlannedReplacement::needOn)),
            Column.<Purchase>date("firstOrderOn", "First to be ordered by", row -> first(row, PlannedReplacement::orderByOn))
                .workedOut("MAX(" + Names.AS_OF + ",{firstNeedOn}-" + LEAD + ")")), purchases);
    }

    private static LocalDate first(Purchase purchase, Function<PlannedReplacement, LocalDate> day) {
        return purchase.lines().stream().map(day).min(java.util.Comparator.naturalOrder()).orElseThrow();
    }

    record Purchase(String quarter, String item, List<PlannedReplacement> lines) {
    }

    private java.util.stream.Stream<PlannedReplacement> unlisted(Purchase purchase) {
        return unlisted().filter(line -> line.quarter().equals(purchase.quarter()) && line.item().equals(purchase.item()));
    }

    /** Orders to place, by the quarter in which they fall; moves with the lead time. */
    Table<BudgetPeriod> orders() {
        List<BudgetPeriod> quarters = budget.quarters().subList(0, budget.settings().quarters());
        return new Table<>("Orders", List.of(
            text("quarter", "Order in", BudgetPeriod::label),
            date("from", "From", BudgetPeriod::from),
            date("until", "Until", BudgetPeriod::until),
            Column.<BudgetPeriod>integer("orders", "Orders to place", "", p -> (int) ordered(p).count())
                .workedOut(p -> "COUNTIFS(" + within() + ")" + plus(unlistedOrders(p))),
            Column.<BudgetPeriod>money("amount", "Amount", budget.currency(), p -> sumOf(ordered(p)))
                .workedOut(p -> "SUMIFS(" + lineColumn("amount") + "," + within() + ")" + plus(unlistedOrderAmount(p)))), quarters);
    }

    private java.util.stream.Stream<PlannedReplacement> ordered(BudgetPeriod period) {
        return budget.lines().stream().filter(line -> isIn(line, period));
    }

    private static boolean isIn(PlannedReplacement line, BudgetPeriod period) {
        return !line.orderByOn().isBefore(period.from()) && !line.orderByOn().isAfter(period.until());
    }

    private java.util.stream.Stream<PlannedReplacement> unlisted(BudgetPeriod period) {
        return unlisted().filter(line -> isIn(line, period));
    }

    /** Lines that the sheet of lines has no room for. */
    private java.util.stream.Stream<PlannedReplacement> unlisted() {
        return budget.lines().stream().skip(mostRows);
    }

    private long unlistedOrders(BudgetPeriod period) {
        return unlisted(period).count();
    }

    private BigDecimal unlistedOrderAmount(BudgetPeriod period) {
        return sumOf(unlisted(period));
    }

    private static BigDecimal sumOf(java.util.stream.Stream<PlannedReplacement> lines) {
        return lines.map(PlannedReplacement::amount).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }

    private String within() {
        return criterion("orderByOn", "\">=\"&{from}") + "," + criterion("orderByOn", "\"<=\"&{until}");
    }
}
