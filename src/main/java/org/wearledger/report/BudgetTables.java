package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;
import org.wearledger.model.SweepResult;

/**
 * The budget as tables, with the formulas by which the workbook works its money out anew: amounts of lines from the prices on the
 * sheet "Assumptions", everything else from the lines. What the model says (dates, probabilities, expected numbers) is frozen.
 */
final class BudgetTables {
    static final String LINES = "Replacements";
    static final String BUDGET = "Budget";
    static final String CHECK_FIRST = "Check first";
    /** Columns that print legibly on one page's width. */
    static final int BUDGET_COLUMNS_OF_ITS_FILE_PRINTED = 10;
    static final int BUDGET_COLUMNS_PRINTED = BUDGET_COLUMNS_OF_ITS_FILE_PRINTED + 2;
    static final int LINE_COLUMNS_PRINTED = 18;
    static final int HEADER_ROWS = 1;
    private static final String LEAD = Names.LEAD_TIME_DAYS + "-" + Names.INSTALL_SLOT_DAYS;
    private static final String LATEST_ORDER = "{needOn}-" + LEAD;

    private final Budget budget;
    private final OrderChecks checks;
    private final Table<PlannedReplacement> lines;
    private final ModelOutputs modelOutputs;
    private final Places places;
    private final List<PlaceTotal> totals;
    private final boolean hasChecks;

    /** @param result with a budget */
    BudgetTables(SweepResult result) {
        budget = result.plan().budget();
        checks = new OrderChecks(result);
        places = new Places(budget.lines());
        hasChecks = budget.lines().stream().anyMatch(checks::holds);
        lines = new Table<>(LINES, lineColumns(), budget.lines());
        modelOutputs = new ModelOutputs(budget);
        totals = PlaceTotal.of(budget.lines(), places, checks::holds);
    }

    Table<PlannedReplacement> lines() {
        return lines;
    }

    ModelOutputs modelOutputs() {
        return modelOutputs;
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
            Column.<PlannedReplacement>text("orderNow", "Order at once", line -> line.late() ? checks.atOnce(line) : "")
                .workedOut(line -> "IF(" + LATEST_ORDER + "<" + Names.AS_OF + ",\"" + checks.atOnce(line) + "\",\"\")"),
            longText("checkFirst", CHECK_FIRST, checks::before),
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
            text("figures", "Figures are", line -> line.stale() ? "stale: " + line.staleBecause() : "of this sweep"),
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

    /** The lines by quarter, site and cost centre. */
    Table<PlaceTotal> totals() {
        String criteria = criterion("needQuarter", "{quarter}") + "," + criterion("placeNumber", "{placeNumber}") + ")";
        return new Table<>("Totals", List.of(
            text("quarter", "Need quarter", PlaceTotal::quarter),
            text("site", "Site", row -> row.place().site()),
            text("costCentre", "Cost centre", row -> row.place().costCentre()),
            Column.<PlaceTotal>integer("replacements", "Replacements", "", PlaceTotal::lines)
                .workedOut("COUNTIFS(" + criteria),
            Column.<PlaceTotal>money("amount", "Amount", budget.currency(), PlaceTotal::amount)
                .workedOut("SUMIFS(" + lineColumn("amount") + "," + criteria),
            integer("placeNumber", "Place no. (for the sums)", "", PlaceTotal::placeNumber),
            Column.<PlaceTotal>money("amountToCheck", "Of it to be checked first", budget.currency(), PlaceTotal::amountToCheck)
                .workedOut("SUMIFS(" + lineColumn("amount") + "," + toCheck() + "," + criteria)), totals);
    }

    /** Of the lines: those with a text. */
    String toCheck() {
        return criterion("checkFirst", "\"?*\"");
    }

    /** What stands above the sheets of money, {@code null} for nothing. */
    Object aboveMoney() {
        String quarter = budget.quarters().get(0).label();
        String all = "SUMIFS(" + lineColumn("amount") + "," + toCheck();
        return checks.above(all + "," + criterion("needQuarter", "\"" + quarter + "\"") + ")", all + ")");
    }

    /** The number of the first row below the heading, on the sheets of money; the first row of a sheet is 1. */
    int firstRowOfMoney() {
        return HEADER_ROWS + 1 + (hasChecks ? 1 : 0);
    }

    /** Of the lines. */
    String criterion(String column, String cell) {
        return lineColumn(column) + "," + cell;
    }

    String lineColumn(String column) {
        return range(lines, column);
    }

    static String range(Table<?> table, String column) {
        return range(table, column, 0, Math.max(table.rows().size(), 1) - 1);
    }

    /** @param first index of a row of the table, likewise {@code last}, which is in it */
    static String range(Table<?> table, String column, int first, int last) {
        String letter = "$" + table.letter(column) + "$";
        return "'" + table.name() + "'!" + letter + (HEADER_ROWS + 1 + first) + ":" + letter + (HEADER_ROWS + 1 + last);
    }

    /** One row for each quarter, then the fiscal years and the whole. */
    Table<BudgetPeriod> periods() {
        return new PeriodTable(budget, this, totals).table();
    }

    /** The same as the sheet "Budget" has it, which tells what changed since the sweep. */
    Table<BudgetPeriod> periodsOnTheSheet() {
        return new PeriodTable(budget, this, totals).onTheSheet();
    }

    /** What a machine may call for, planned or not; the workbook has it on the sheet "Assumptions". */
    Table<PricedItem> items() {
        return new Table<>("Items", List.of(
            text("item", "What is bought", PricedItem::item),
            text("currency", "Currency", item -> item.price() == null ? "NO PRICE" : item.price().currency()),
            money("costOfOne", "Cost of one, with labour and disposal", budget.currency(), item -> item.price() == null ? null : item.costOfOne()),
            integer("machines", "Machines whose replacement it would be", "", PricedItem::machines)), budget.items());
    }

    /** What to buy: the lines by quarter and item. */
    Table<Purchase> purchases() {
        Map<List<String>, List<PlannedReplacement>> groups = new TreeMap<>(Comparator.comparing((List<String> key) -> key.get(0))
            .thenComparing(key -> key.get(1)));
        budget.lines().forEach(line -> groups.computeIfAbsent(List.of(line.quarter(), line.item()), key -> new ArrayList<>()).add(line));
        List<Purchase> purchases = new ArrayList<>();
        groups.forEach((key, own) -> purchases.add(new Purchase(key.get(0), key.get(1), own)));
        return new Table<>("Purchases", List.of(
            text("needQuarter", "Need quarter", Purchase::quarter),
            text("item", "What is bought", Purchase::item),
            text("supplier", "Supplier", row -> row.lines().get(0).price() == null ? null : row.lines().get(0).price().supplier()),
            Column.<Purchase>integer("quantity", "Quantity", "", row -> row.lines().size())
                .workedOut("COUNTIFS(" + criterion("needQuarter", "{needQuarter}") + "," + criterion("item", "{item}") + ")"),
            Column.<Purchase>money("amount", "Amount", budget.currency(), row -> sumOf(row.lines().stream()))
                .workedOut("SUMIFS(" + lineColumn("amount") + "," + criterion("needQuarter", "{needQuarter}") + "," + criterion("item", "{item}") + ")"),
            date("firstNeedOn", "First needed by (model output)", row -> first(row, PlannedReplacement::needOn)),
            Column.<Purchase>date("firstOrderOn", "First to be ordered by", row -> first(row, PlannedReplacement::orderByOn))
                .workedOut("MAX(" + Names.AS_OF + ",{firstNeedOn}-" + LEAD + ")")), purchases);
    }

    private static LocalDate first(Purchase purchase, Function<PlannedReplacement, LocalDate> day) {
        return purchase.lines().stream().map(day).min(Comparator.naturalOrder()).orElseThrow();
    }

    record Purchase(String quarter, String item, List<PlannedReplacement> lines) {
    }

    /** Orders to place, by the quarter in which they fall; moves with the lead time. */
    Table<BudgetPeriod> orders() {
        List<BudgetPeriod> quarters = budget.quarters().subList(0, budget.settings().quarters());
        return new Table<>("Orders", List.of(
            text("quarter", "Order in", BudgetPeriod::label),
            date("from", "From", BudgetPeriod::from),
            date("until", "Until", BudgetPeriod::until),
            Column.<BudgetPeriod>integer("orders", "Orders to place", "", p -> (int) ordered(p).count())
                .workedOut("COUNTIFS(" + within() + ")"),
            Column.<BudgetPeriod>money("amount", "Amount", budget.currency(), p -> sumOf(ordered(p)))
                .workedOut("SUMIFS(" + lineColumn("amount") + "," + within() + ")")), quarters);
    }

    private Stream<PlannedReplacement> ordered(BudgetPeriod period) {
        return budget.lines().stream().filter(line -> !line.orderByOn().isBefore(period.from()) && !line.orderByOn().isAfter(period.until()));
    }

    static BigDecimal sumOf(Stream<PlannedReplacement> lines) {
        return lines.map(PlannedReplacement::amount).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }

    private String within() {
        return criterion("orderByOn", "\">=\"&{from}") + "," + criterion("orderByOn", "\"<=\"&{until}");
    }
}
