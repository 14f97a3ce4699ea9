package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.CostCentre;
import org.wearledger.model.ItemOrder;
import org.wearledger.model.LineDecision;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/**
 * The budget as tables, with the formulas by which the workbook works its money out anew: what a line buys and costs from the sheet "Assumptions" and
 * from what is decided about it, everything else from the lines. What the model says (dates, probabilities, expected numbers) is frozen.
 */
final class BudgetTables {
    static final String LINES = "Purchases";
    /** The sheet that holds every figure of the plan; the sheet "Budget" shows them on a page. */
    static final String FIGURES = "Budget figures";
    static final String CHECK_FIRST = "Check first";
    static final int HEADER_ROWS = 1;
    private static final double DAYS_PER_YEAR = 365.25;
    private static final int MOST_QUARTERS = 400;
    private static final String LATEST_ORDER = "{orderFrom}";
    /** In view on the sheet, in this order: what is decided, what it is, what it costs. */
    private static final List<String> SHOWN = List.of("machineId", "site", "costCentre", "item", "quantity", "amount", "decision", "deferredTo", "boughtIn", "orderByOn", "checkFirst",
        "orderNow", "decisionReason", "needOn", "refresh");

    private final Budget budget;
    private final OrderChecks checks;
    private final Places places;
    private final Table<PlannedReplacement> lines;
    private final Table<PlannedReplacement> linesOnTheSheet;
    private final ModelOutputs modelOutputs;
    private final OrderTable orders;
    private final CentreTable centres;
    private final Map<PlannedReplacement, Integer> rowOf = new IdentityHashMap<>();
    private Table<BudgetPeriod> figures;

    /** @param result with a budget */
    BudgetTables(SweepResult result) {
        budget = result.plan().budget();
        checks = new OrderChecks(result);
        places = new Places(budget.centres());
        lines = new Table<>(LINES, lineColumns(), budget.lines());
        Stream<String> others = lines.columns().stream().map(Column::name).filter(name -> !SHOWN.contains(name));
        linesOnTheSheet = new Table<>(LINES, Stream.concat(lines.showing(Stream.concat(SHOWN.stream(), others).toList()).columns().stream().map(this::onlyIfBought), helpers().stream()).toList(), budget.lines());
        modelOutputs = new ModelOutputs(budget);
        orders = new OrderTable(budget, this);
        centres = new CentreTable(budget, this);
        IntStream.range(0, budget.lines().size()).forEach(i -> rowOf.put(budget.lines().get(i), i));
    }

    /** As its file has them. */
    Table<PlannedReplacement> lines() {
        return lines;
    }

    /** What people decide about first, then the rest, then what only formulas read. */
    Table<PlannedReplacement> linesOnTheSheet() {
        return linesOnTheSheet;
    }

    Places places() {
        return places;
    }

    ModelOutputs modelOutputs() {
        return modelOutputs;
    }

    CentreTable centres() {
        return centres;
    }

    OrderTable orders() {
        return orders;
    }

    private List<Column<PlannedReplacement>> lineColumns() {
        String currency = budget.currency();
        return List.of(
            text("machineId", "Machine", line -> line.machine().id()),
            text("assetTag", "Asset tag", line -> line.machine().assetTag()),
            text("site", "Site", line -> Places.site(CostCentre.of(line.machine()))),
            text("costCentre", "Cost centre", line -> Places.name(CostCentre.of(line.machine()))),
            text("standing", "Standing", line -> line.standing().label()),
            text("replaces", "What is replaced", PlannedReplacement::replaces),
            Column.<PlannedReplacement>text("item", "What is bought", PlannedReplacement::item)
                .workedOut(line -> line.repair().machineItem() == null ? null : "IF({refresh}=\"\",{repairItem},{machineItem})"),
            date("needOn", "Needed by (model output)", PlannedReplacement::needOn),
            text("needQuarter", "Need quarter", PlannedReplacement::quarter),
            Column.<PlannedReplacement>date("orderByOn", "Order by", PlannedReplacement::orderByOn)
                .workedOut("IF({boughtIndex}=0,\"\",MAX(" + Names.AS_OF + "," + LATEST_ORDER + "))"),
            Column.<PlannedReplacement>text("orderNow", "Order at once", line -> line.late() ? checks.atOnce(line) : "")
                .workedOut(line -> "IF({boughtIndex}=0,\"\",IF(" + LATEST_ORDER + "<" + Names.AS_OF + ",\"" + checks.atOnce(line) + "\",\"\"))"),
            Column.<PlannedReplacement>longText("checkFirst", CHECK_FIRST, line -> isClaimLost(line) && checks.holds(line) ? checks.before(line) + CLAIM_LOST : checks.before(line))
                .workedOut(line -> line.claim() && checks.holds(line) && checks.before(line).length() < Formula.MOST_LITERAL ? Formula.quoted(checks.before(line)) + "&IF({boughtIndex}=0,\"\",IF({claimUntil}<INDEX(" + Names.QUARTER_STARTS
                    + ",MAX(1,{boughtIndex})),\"" + CLAIM_LOST + "\",\"\"))" : null),
            integer("quantity", "Quantity", "", PlannedReplacement::quantity),
            text("currency", "Currency", line -> line.price() == null ? "NO PRICE" : currency),
            looked("unitPrice", "Unit price", currency, Price::unitPrice, Names.UNIT_COSTS),
            looked("labour", "Labour", currency, Price::labour, Names.LABOUR_COSTS),
            looked("disposalFee", "Wiping and disposal fee", currency, Price::disposalFee, Names.DISPOSAL_COSTS),
            Column.<PlannedReplacement>money("amount", "Amount", currency, PlannedReplacement::amount)
                .workedOut("ROUND(" + numberOr0("{quantity}") + "*({unitPrice}+{labour}+{disposalFee}),2)"),
            date("priceDate", "Price of", line -> line.price() == null ? null : line.price().priceDate()),
            Column.<PlannedReplacement>text("upperItem", "Dearer choice, if that is what it takes", PlannedReplacement::upperItem)
                .workedOut(line -> line.repair().machineItem() == null ? null : "IF({refresh}=\"\",\"" + line.repair().upperItem() + "\",{machineItem})"),
            Column.<PlannedReplacement>money("upperAmount", "Amount of the dearer choice", currency, PlannedReplacement::upperAmount)
                .workedOut("ROUND(" + numberOr0("{quantity}") + "*" + Names.lookup(Names.COSTS_OF_ONE, "{upperItem}") + ",2)"),
            decimal("crossesByQuarterEndPercent", "Probability by the quarter's end (model output)", "%", 1, line -> 100 * line.probability()),
            date("figuresOn", "Figures of", PlannedReplacement::figuresOn),
            text("figures", "Figures are", line -> line.stale() ? "stale: " + line.staleBecause() : "of this sweep"),
            yesNo("inInventory", "In inventory", PlannedReplacement::inInventory),
            text("machineModel", "Machine model", line -> line.machine().model()),
            text("attachment", "Attachment", line -> line.attachment().label()),
            text("driveModel", "Drive model", PlannedReplacement::driveModel),
            text("driveSerial", "Drive serial", line -> line.drive().serial()),
            integer("placeNumber", "Place no. (for the sums)", "", line -> places.number(CostCentre.of(line.machine()))),
            text("reason", "Reason", PlannedReplacement::reason),
            text("decision", "Decision", line -> line.decision().choice().label()),
            text("deferredTo", "Defer to", line -> line.decision().deferredTo()),
            longText("decisionReason", "Why so decided", line -> line.decision().reason()),
            Column.<PlannedReplacement>text("boughtIn", "Bought in", line -> isInPlan(line) ? line.boughtIn() : "")
                .workedOut("IF({fault}<>\"\",{fault},IF({boughtIndex}=0,\"\",INDEX(" + Names.QUARTERS + ",{boughtIndex})))"),
            Column.<PlannedReplacement>text("refresh", "Machine replaced because", line -> refresh(line)).workedOut(this::refreshFormula),
            text("repairItem", "What a repair takes", line -> line.repair().item()),
            text("machineItem", "Machine of the price list", line -> line.repair().machineItem()),
            yesNo("claim", "Warranty claim open", PlannedReplacement::claim),
            ofItem("account", "Account", Names.ITEM_ACCOUNTS, Price.Terms::account),
            ofItem("capexOrOpex", "Capex or opex", Names.ITEM_KINDS, Price.Terms::capexOrOpex),
            date("claimUntil", "Claim until", PlannedReplacement::claimUntil));
    }

    /** What is not bought is not ordered: the sheet leaves it empty, the file keeps it for the next sweep. */
    private Column<PlannedReplacement> onlyIfBought(Column<PlannedReplacement> column) {
        return switch (column.name()) {
            case "orderByOn" -> column.only(this::isInPlan);
            case "orderNow" -> new Column<>(column.name(), column.heading(), column.unit(), column.type(), line -> isInPlan(line) ? column.valueOf(line) : "", column.formula());
            default -> column;
        };
    }

    /** What formulas read. Numbers are added up, since a spreadsheet's criteria take signs in a text for more than a text. */
    private List<Column<PlannedReplacement>> helpers() {
        return List.of(
            date("inServiceOn", "In service since", line -> line.machine().inServiceOn()),
            date("refreshOn", "Refresh on", line -> line.machine().refreshOn()),
            date("supportEndsOn", "Support ends on", line -> line.machine().supportEndsOn()),
            Column.<PlannedReplacement>text("fault", "Fault", line -> "").workedOut(FAULT),
            integer("needIndex", "Need quarter no.", "", line -> quarter(line.quarter())),
            Column.<PlannedReplacement>integer("boughtIndex", "Bought in quarter no., 0 for none", "", line -> line.boughtIn() == null ? 0 : quarter(line.boughtIn()))
                .workedOut("IF(OR({decision}=\"reject\",{decision}=\"bought\"),0,IF(AND({decision}=\"defer\",{deferredTo}<>\"\"),IFERROR(MATCH({deferredTo}," + Names.QUARTERS + ",0),0),{needIndex}))"),
            Column.<PlannedReplacement>date("orderFrom", "To be ordered", this::orderFrom)
                .workedOut("IF({boughtIndex}>{needIndex},INDEX(" + Names.QUARTER_STARTS + ",{boughtIndex}),{needOn}-" + Names.LEAD_TIME_DAYS + "-" + Names.INSTALL_SLOT_DAYS + ")"),
            Column.<PlannedReplacement>integer("isRefresh", "1: machine in place of a repair", "", line -> line.isRefresh() ? 1 : 0).workedOut("IF({refresh}=\"\",0,1)"),
            Column.<PlannedReplacement>money("dearer", "More at the dearer choice", budget.currency(), line -> line.upperAmount().subtract(line.amount()).max(BigDecimal.ZERO))
                .workedOut("MAX(0,{upperAmount}-{amount})"),
            Column.<PlannedReplacement>money("riskPerYear", "Risk a year while it is put off", budget.currency(), this::riskPerYear)
                .workedOut(line -> "IF({decision}=\"bought\",0,ROUND(({amount}+" + numberOr0("{quantity}") + "*" + Names.EXTRA_WHEN_UNPLANNED + ")*"
                    + rate(line) + ",2))"),
            Column.<PlannedReplacement>money("claimed", "Claimed from the maker", budget.currency(), this::claimed)
                .workedOut(line -> line.claim() ? "IF({isRefresh}+({boughtIndex}=0)>0,0,IF({claimUntil}<INDEX(" + Names.QUARTER_STARTS + ",MAX(1,{boughtIndex})),0,ROUND({unitPrice}*(" + numberOr0("{quantity}") + "-" + share("fromStock") + "),2)))" : null),
            Column.<PlannedReplacement>decimal("ofOrder", "Its part of packs, less stock", budget.currency(), 2, this::ofOrder).workedOut(line -> "IF({boughtIndex}=0,0," + share("packs") + "-" + share("saved") + ")"),
            Column.<PlannedReplacement>integer("riskUntil", "At risk until quarter no.", "", line -> quarter(line.quarter()) - 1 + Math.min(MOST_QUARTERS, (int) Math.ceil(budget.settings().quartersAtRisk(line.standing()))))
                .workedOut(line -> "{needIndex}-1+MIN(" + MOST_QUARTERS + ",ROUNDUP(4/MAX(" + rate(line) + ",0.001),0))"),
            Column.<PlannedReplacement>money("countedBefore", "Counted as a risk before it is bought", budget.currency(), this::countedBefore).workedOut(line -> "IF({boughtIndex}<={needIndex},0,ROUND({amount}*" + rate(line)
                + "*SUMIFS(" + figures("years") + "," + figures("index") + ",\">=\"&{needIndex}," + figures("index") + ",\"<\"&MIN({boughtIndex},{riskUntil}+1)),2))"),
            text("first", "To be done first", checks::first));
    }

    /** What somebody typed into a line and cannot mean. */
    private static final String FAULT = "IF(NOT(ISNUMBER({quantity})),\"quantity: number\",IF({decision}=\"defer\",IF({deferredTo}=\"\",\"defer: to when?\","
        + "IF(IFERROR(MATCH({deferredTo}," + Names.QUARTERS + ",0),{needIndex}+1)<={needIndex},\"defer: to later\",\"\")),IF(AND({decision}<>\"accept\",{decision}<>\"reject\",{decision}<>\"bought\"),\"which decision?\","
        + "IF({deferredTo}<>\"\",\"quarter: defer?\",\"\"))))";

    private String figures(String column) {
        return range(periodsOnTheSheet(), column, 0, budget.settings().quarters() - 1);
    }

    private BigDecimal countedBefore(PlannedReplacement line) {
        int need = quarter(line.quarter()) - 1;
        int bought = isInPlan(line) ? quarter(line.boughtIn()) - 1 : need;
        double length = IntStream.range(need, Math.max(need, bought)).filter(quarter -> quarter - need < budget.settings().quartersAtRisk(line.standing()))
            .mapToDouble(quarter -> budget.quarters().get(quarter).years()).sum();
        return line.amount().multiply(BigDecimal.valueOf(budget.settings().failuresPerYearOf(line.standing()))).multiply(BigDecimal.valueOf(length));
    }

    private LocalDate orderFrom(PlannedReplacement line) {
        int bought = isInPlan(line) ? quarter(line.boughtIn()) : 0;
        return bought > quarter(line.quarter()) ? budget.quarters().get(bought - 1).from() : line.needOn().minusDays(budget.leadTimeDays() + (long) budget.settings().installSlotDays());
    }

    private BigDecimal riskPerYear(PlannedReplacement line) {
        return line.decision().choice() == LineDecision.Choice.BOUGHT ? BigDecimal.ZERO : line.amount().add(budget.settings().unplanned().extra()).multiply(BigDecimal.valueOf(budget.settings().failuresPerYearOf(line.standing())));
    }

    private static String rate(PlannedReplacement line) {
        return line.standing() == Standing.URGENT ? Names.FAILURES_OF_URGENT : Names.FAILURE_CHANCE_WHEN_WAITING;
    }

    /** The line's part of what is ordered of its item in its quarter. */
    private String share(String column) {
        String ofItsOrder = BudgetTables.range(orders.table(), "item") + ",{item}," + BudgetTables.range(orders.table(), "index") + ",{boughtIndex})";
        return numberOr0("{quantity}") + "*SUMIFS(" + BudgetTables.range(orders.table(), column) + "," + ofItsOrder + "/MAX(1,SUMIFS(" + BudgetTables.range(orders.table(), "needed") + "," + ofItsOrder + ")";
    }

    private BigDecimal ofOrder(PlannedReplacement line) {
        return !isInPlan(line) ? BigDecimal.ZERO : order(line).packs().subtract(order(line).saved()).divide(BigDecimal.valueOf(order(line).needed()), 2, RoundingMode.HALF_UP);
    }

    private ItemOrder order(PlannedReplacement line) {
        return budget.orders().stream().filter(order -> order.quarter() == quarter(line.boughtIn()) - 1 && order.item().equals(line.item())).findFirst().orElseThrow();
    }

    private boolean isClaimLost(PlannedReplacement line) {
        return line.claim() && isInPlan(line) && line.claimUntil().isBefore(budget.quarters().get(quarter(line.boughtIn()) - 1).from());
    }

    private BigDecimal claimed(PlannedReplacement line) {
        return !line.claim() ? null : line.isRefresh() || !isInPlan(line) || isClaimLost(line) ? BigDecimal.ZERO
            : figure(line.price(), Price::unitPrice).multiply(BigDecimal.valueOf(order(line).needed() - order(line).fromStock())).divide(BigDecimal.valueOf(order(line).needed()), 2, RoundingMode.HALF_UP);
    }

    private int quarter(String label) {
        return budget.quarters().subList(0, budget.settings().quarters()).stream().map(BudgetPeriod::label).toList().indexOf(label) + 1;
    }

    private boolean isInPlan(PlannedReplacement line) {
        return line.boughtIn() != null && quarter(line.boughtIn()) > 0;
    }

    private static final String CLAIM_LOST = ": over before it is bought";
    private static final String AT_DATE = "planned for refresh";
    private static final String UNSUPPORTED = "end of support";
    private static final String OLD = "beyond the refresh age";
    private static final String DEAR = "board too dear";

    static String refresh(PlannedReplacement line) {
        return line.repair().refresh() == null ? "" : switch (line.repair().refresh()) {
            case REFRESH_DATE -> AT_DATE;
            case SUPPORT_END -> UNSUPPORTED;
            case AGE -> OLD;
            case BOARD_TOO_DEAR -> DEAR;
        };
    }

    private String refreshFormula(PlannedReplacement line) {
        String dear = !Price.isBoard(line.repair().item()) ? "\"\"" : "IF(AND(" + Names.lookup(Names.COSTS_OF_ONE, "{machineItem}") + ">0," + Names.lookup(Names.COSTS_OF_ONE, "{repairItem}") + ">" + Names.REFRESH_SHARE + "*"
            + Names.lookup(Names.COSTS_OF_ONE, "{machineItem}") + "),\"" + DEAR + "\",\"\")";
        return line.repair().machineItem() == null ? null : "IF(AND(ISNUMBER({refreshOn}),{refreshOn}<={needOn}),\"" + AT_DATE + "\",IF(AND(ISNUMBER({supportEndsOn}),{supportEndsOn}<={needOn}),\"" + UNSUPPORTED + "\",IF(AND(ISNUMBER({inServiceOn}),{needOn}-{inServiceOn}>="
            + Names.REFRESH_AGE + "*" + DAYS_PER_YEAR + "),\"" + OLD + "\"," + dear + ")))";
    }

    /** A text or an empty cell counts 0: the sheet says so beside it, and does not break. */
    static String numberOr0(String cell) {
        return "IF(ISNUMBER(" + cell + ")," + cell + ",0)";
    }

    private static Column<PlannedReplacement> looked(String name, String heading, String currency, Function<Price, BigDecimal> figure,
                                                     String prices) {
        return Column.<PlannedReplacement>money(name, heading, currency, line -> figure(line.price(), figure))
            .workedOut(Names.lookup(prices, "{item}") + "+0");
    }

    private static Column<PlannedReplacement> ofItem(String name, String heading, String cells, Function<Price.Terms, String> term) {
        return Column.<PlannedReplacement>text(name, heading, line -> line.price() == null ? null : term.apply(line.price().terms())).workedOut(Names.lookup(cells, "{item}") + "&\"\"");
    }

    /** In the currency of the whole list. */
    private static BigDecimal figure(Price price, Function<Price, BigDecimal> figure) {
        return price == null ? BigDecimal.ZERO : price.converted(figure.apply(price));
    }

    /** The lines by quarter, site and cost centre. */
    Table<PlaceTotal> totals() {
        return new Table<>("Totals", List.of(
            text("quarter", "Need quarter", PlaceTotal::quarter),
            text("site", "Site", row -> Places.site(row.place())),
            text("costCentre", "Cost centre", row -> Places.name(row.place())),
            integer("replacements", "Replacements", "", PlaceTotal::lines),
            money("amount", "Amount", budget.currency(), PlaceTotal::amount),
            integer("placeNumber", "Place no. (for the sums)", "", PlaceTotal::placeNumber),
            money("amountToCheck", "Of it to be checked first", budget.currency(), PlaceTotal::amountToCheck)), PlaceTotal.of(budget.lines(), places, checks::holds));
    }

    /** Of the lines: those with a text. */
    String toCheck() {
        return criterion("checkFirst", "\"?*\"");
    }

    /** What stands above the sheets of money, {@code null} for nothing. */
    Object aboveMoney() {
        return checks.above(this);
    }

    /** The cell of a line of the plan. */
    String cell(String column, PlannedReplacement line) {
        return "'" + LINES + "'!$" + linesOnTheSheet.letter(column) + "$" + (HEADER_ROWS + 1 + rowOf.get(line));
    }

    /** The cell of the sheet of figures. */
    String cell(String column, BudgetPeriod period) {
        return "'" + FIGURES + "'!" + periodsOnTheSheet().letter(column) + (firstRowOfMoney() + budget.quarters().indexOf(period));
    }

    /** The number of the first row below the heading of the sheet of figures; the first row of a sheet is 1. */
    int firstRowOfMoney() {
        return HEADER_ROWS + 1;
    }

    /** Of the lines. */
    String criterion(String column, String cell) {
        return lineColumn(column) + "," + cell;
    }

    String lineColumn(String column) {
        return range(linesOnTheSheet, column);
    }

    static String range(Table<?> table, String column) {
        return range(table, column, 0, Math.max(table.rows().size(), 1) - 1);
    }

    /** @param first index of a row of the table, as is {@code last}, which is in it */
    static String range(Table<?> table, String column, int first, int last) {
        String letter = "$" + table.letter(column) + "$";
        return "'" + table.name() + "'!" + letter + (HEADER_ROWS + 1 + first) + ":" + letter + (HEADER_ROWS + 1 + last);
    }

    /** One row for each quarter, then the fiscal years and the whole. */
    Table<BudgetPeriod> periods() {
        return new PeriodTable(budget, this, checks).table();
    }

    /** The same as the sheet of figures has it, which tells what changed since the sweep. */
    Table<BudgetPeriod> periodsOnTheSheet() {
        if (figures == null) {
            figures = new PeriodTable(budget, this, checks).onTheSheet();
        }
        return figures;
    }

    /** What a machine may call for, planned or not; the workbook has it on the sheet "Assumptions". */
    Table<PricedItem> items() {
        return new Table<>("Items", List.of(
            text("item", "What is bought", PricedItem::item),
            text("currency", "Currency", item -> item.price() == null ? "NO PRICE" : budget.currency()),
            money("costOfOne", "Cost of one, with labour and disposal", budget.currency(), item -> item.price() == null ? null : item.costOfOne()),
            integer("machines", "Machines whose replacement it would be", "", PricedItem::machines)), budget.items());
    }

    static BigDecimal sumOf(Stream<PlannedReplacement> lines) {
        return lines.map(PlannedReplacement::amount).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }
}
