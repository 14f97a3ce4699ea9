package org.wearledger.report;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.Name;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.MoneySettings;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;

/**
 * The one sheet to change: every amount of the workbook is worked out from it. Formulas know cells by name. What is typed and is no number is named beside
 * it, and formulas go on with what was swept.
 */
final class AssumptionsSheet {
    static final String NAME = "Assumptions";
    /** Behind these stand what only formulas read. */
    private static final int COLUMNS_SHOWN = 12;
    private static final int HIDDEN_COLUMNS = 13;
    private static final int MOST_YEARS = 50;
    private static final int HUNDRED = 100;
    private static final int MOST_FAILURES_A_YEAR = 4;
    private static final int MOST_OF_ALL = 1_000_000;
    private static final String NO_CURRENCY = "(no prices)";
    private static final String NO_PRICE = "no price: type one";
    private static final String KNOWN = Names.COSTS_OF_ONE + ",\">0\"," + Names.ITEM_MACHINES;
    private static final String NO_NUMBER = "not a number: type one";

    /** Of the upper part: what is typed, what formulas use, who set it and when. */
    private static final String TYPED = "B";
    private static final String USED = "C";
    static final String SET_BY = "F";
    static final String SET_ON = "G";
    private static final String FAULT = "H";
    private static final String ITEM_FAULT = "L";

    private final SXSSFWorkbook workbook;
    private final SheetWriter sheet;
    private final Budget budget;
    private final LocalDate asOf;
    private final BudgetTables tables;
    private final Set<String> called;
    /** The currency of all amounts. */
    private final String house;
    private final Map<String, Integer> rows = new LinkedHashMap<>();

    AssumptionsSheet(SXSSFWorkbook workbook, Styles styles, Budget budget, LocalDate asOf, BudgetTables tables) {
        this.tables = tables;
        called = budget.lines().stream().flatMap(line -> Stream.of(line.item(), line.upperItem())).collect(Collectors.toSet());
        this.workbook = workbook;
        this.budget = budget;
        this.asOf = asOf;
        house = budget.currency().isEmpty() ? NO_CURRENCY : budget.currency();
        sheet = new SheetWriter(workbook.createSheet(NAME), styles);
        sheet.columnWidths(38, 11, 11, 11, 15, 17, 12, 22, 10, 11, 11, 22, 12, 13, 22, 14, 12, 12, 12, 12, 12, 12, 8, 10, 8);
    }

    void write() {
        BudgetSettings settings = budget.settings();
        BudgetSettings.Unplanned unplanned = settings.unplanned();
        MoneySettings money = settings.money();
        sheet.above("Type into the framed cells: amounts and order dates follow.");
        sheet.note("Dates of need, probabilities and expected numbers stay as swept: for those, sweep again.");
        sheet.gap();
        sheet.line(true, "Assumption", "Value", "Used", "As swept", "Unit", "Set by", "On", "Fault");
        int first = sheet.row() + 1;
        frozen(Names.AS_OF, "As-of date", asOf);
        frozen(Names.MACHINES_COVERED, "Machines that random failures are allowed for", budget.machines());
        set(Names.LEAD_TIME_DAYS, "Lead time, from order to delivery", budget.leadTimeDays(), "days");
        set(Names.INSTALL_SLOT_DAYS, "Install slot, from delivery to installation", settings.installSlotDays(), "days");
        set(Names.MACHINE_SHARE, "Share of boards that turn out to be machines", new Figure(money.machineShare(), 4), "of boards");
        set(Names.REFRESH_SHARE, "Replace the machine where a board costs more than", new Figure(money.refreshShare(), 4), "of the machine");
        set(Names.REFRESH_AGE, "Replace a machine that is older when its drive is due", new Figure(money.refreshAgeYears(), 2), "years");
        set(Names.WARRANTY_SHARE, "Share of warranty claims that the maker meets", new Figure(money.warrantyShare(), 4), "of claims");
        set(Names.FAILURES_PER_MACHINE_YEAR, "Random failures, which wear does not foretell", new Figure(settings.failuresPerMachineYear(), 4), "a machine and year");
        set(Names.FAILURE_CHANCE_WHEN_WAITING, "Chance that a drive fails while it is put off", new Figure(settings.failuresPerMachineYear(), 4), "a year");
        set(Names.FAILURES_OF_URGENT, "The same of a drive that reports failure", new Figure(money.urgentFailuresPerYear(), 4), "a year");
        set(Names.VAT_PERCENT, "Value added tax", new Figure(money.vatPercent(), 2), "%");
        set(Names.DOWNTIME_HOURS, "Unplanned replacement: hours without the machine", orZero(unplanned.downtimeHours()), "hours");
        set(Names.DOWNTIME_COST_PER_HOUR, "Unplanned replacement: cost of such an hour", orZero(unplanned.costPerHour()), budget.currency());
        set(Names.RUSH_FEE, "Unplanned replacement: rush fee", orZero(unplanned.rushFee()), budget.currency());
        set(Names.RECOVERY_COST, "Unplanned replacement: data recovery", orZero(unplanned.recoveryCost()), budget.currency());
        List<String> currencies = currencies();
        int firstRate = sheet.row() + 1;
        sheet.line(false, house + ", the currency of all amounts", null, 1, 1, house);
        currencies.stream().skip(1).forEach(currency -> set("Rate." + currency, "1 " + currency + " in " + house, new Figure(rate(currency), 6), currency));
        int lastTyped = sheet.row();
        workedOut(Names.EXTRA_WHEN_UNPLANNED, "Unplanned replacement: extra in all", new Formula("ROUND(" + Names.DOWNTIME_HOURS + "*"
            + Names.DOWNTIME_COST_PER_HOUR + "+" + Names.RUSH_FEE + "+" + Names.RECOVERY_COST + ",2)", unplanned.extra(), CellType.MONEY), budget.currency());
        int firstItem = sheet.row() + 6;
        int lastItem = firstItem + Math.max(1, budget.items().size()) - 1;
        int missing = (int) budget.items().stream().filter(this::isMissed).count();
        faults(FAULT + first + ":" + FAULT + lastTyped, ITEM_FAULT + firstItem + ":" + ITEM_FAULT + lastItem, missing, first, firstItem);
        workedOut(Names.MEAN_COST, "Mean cost of replacing any one machine's drive", new Formula("IF(SUMIF(" + KNOWN + ")=0,0,ROUND(SUMPRODUCT("
            + Names.ITEM_MACHINES + "," + Names.COSTS_OF_ONE + ")/SUMIF(" + KNOWN + "),2))", PricedItem.meanCost(budget.items()), CellType.MONEY), budget.currency());
        sheet.gap();
        sheet.line(true, "What is bought", "Unit price", "Labour", "Wiping, disposal", "Currency", "Smallest pack", "Price break from", "Price then", "Stock on hand", "Cost of one (" + budget.currency() + ")",
            "The same, as swept", "Fault", "Drives it would replace", "Price of", "Supplier", "Account", "Capex or opex", "Rate", "Unit cost", "Labour cost", "Disposal cost", "Unit cost at break", "Pack", "Break from", "Stock");
        names(firstItem, lastItem);
        name(Names.CURRENCIES, "$E$" + firstRate + ":$E$" + lastTyped);
        name(Names.RATES, "$" + USED + "$" + firstRate + ":$" + USED + "$" + lastTyped);
        budget.items().forEach(this::item);
        SXSSFSheet cells = workbook.getSheet(NAME);
        cells.createFreezePane(1, 0);
        IntStream.range(COLUMNS_SHOWN, COLUMNS_SHOWN + HIDDEN_COLUMNS).forEach(column -> cells.setColumnHidden(column, true));
        workbook.setPrintArea(workbook.getSheetIndex(NAME), 0, COLUMNS_SHOWN - 1, 0, sheet.row() - 1);
    }

    private void faults(String typed, String ofItems, int missing, int first, int firstItem) {
        String lines = tables.lineColumn("fault");
        workedOut(Names.INCOMPLETE, "Cells to mend: till then the funding request is incomplete", new Formula(some(typed) + "+" + some(ofItems) + "+" + some(lines), missing, CellType.INTEGER), "cells");
        String where = "IF(" + some(typed) + ">0,\"" + NAME + ", row \"&(" + (first - 1) + "+" + firstOf(typed) + "),IF(" + some(ofItems) + ">0,\"" + NAME + ", row \"&(" + (firstItem - 1) + "+" + firstOf(ofItems)
            + "),\"" + BudgetTables.LINES + ", row \"&(" + BudgetTables.HEADER_ROWS + "+" + firstOf(lines) + ")))";
        OptionalInt item = IntStream.range(0, budget.items().size()).filter(i -> isMissed(budget.items().get(i))).findFirst();
        workedOut(Names.FIRST_FAULT, "The first of them", new Formula("IF(" + Names.INCOMPLETE + "=0,\"none\"," + where + ")", item.isEmpty() ? "none" : NAME + ", row " + (firstItem + item.getAsInt()), CellType.TEXT), "");
    }

    private static String some(String cells) {
        return "COUNTIF(" + cells + ",\"?*\")";
    }

    private static String firstOf(String cells) {
        return "MATCH(\"?*\"," + cells + ",0)";
    }

    /** Whether a line buys it, or may, and nobody knows for how much. */
    private boolean isMissed(PricedItem item) {
        return item.price() == null && called.contains(item.item());
    }

    /** The row of an assumption, by its name: the page of the budget shows it. */
    int rowOf(String name) {
        return rows.get(name);
    }

    private static String from(BudgetSettings.RateSource source) {
        return switch (source) {
            case ASSUMED -> "default, a guess";
            case GIVEN -> "option of the sweep";
            case LEARNED -> "learned";
        };
    }

    private List<String> currencies() {
        List<String> currencies = new ArrayList<>(List.of(house));
        budget.items().stream().filter(item -> item.price() != null).map(item -> item.price().currency().toUpperCase(Locale.ROOT)).distinct().sorted().filter(currency -> !currencies.contains(currency))
            .forEach(currencies::add);
        return currencies;
    }

    private double rate(String currency) {
        return budget.items().stream().map(PricedItem::price).filter(price -> price != null && price.currency().equalsIgnoreCase(currency)).findFirst().map(price -> price.rate().doubleValue()).orElse(1.0);
    }

    private void names(int first, int last) {
        Map.ofEntries(Map.entry('A', Names.ITEMS), Map.entry('B', Names.UNIT_PRICES), Map.entry('W', Names.PACK_SIZES), Map.entry('X', Names.BREAK_QUANTITIES), Map.entry('Y', Names.STOCKS),
                Map.entry('J', Names.COSTS_OF_ONE), Map.entry('M', Names.ITEM_MACHINES), Map.entry('P', Names.ITEM_ACCOUNTS), Map.entry('Q', Names.ITEM_KINDS), Map.entry('S', Names.UNIT_COSTS), Map.entry('T', Names.LABOUR_COSTS), Map.entry('U', Names.DISPOSAL_COSTS),
                Map.entry('V', Names.BREAK_COSTS)).entrySet().stream().sorted(Map.Entry.comparingByKey())
            .forEach(column -> name(column.getValue(), "$" + column.getKey() + "$" + first + ":$" + column.getKey() + "$" + last));
    }

    private void item(PricedItem item) {
        Price price = item.price();
        Price.Terms terms = price == null ? Price.Terms.NONE : price.terms();
        int row = sheet.row() + 1;
        String currency = price == null ? house : price.currency().toUpperCase(Locale.ROOT);
        sheet.line(false, item.item(), input(price == null ? null : price.unitPrice()), input(price == null ? BigDecimal.ZERO : orZero(price.labour())),
            input(price == null ? BigDecimal.ZERO : orZero(price.disposalFee())), currency, new Input(terms.packSize()), new Input(terms.breakQuantity()), input(terms.breakPrice()), new Input(terms.stock()),
            new Formula("S" + row + "+T" + row + "+U" + row, item.costOfOne(), CellType.MONEY), price != null ? item.costOfOne() : isMissed(item) ? NO_PRICE : "no price: not counted",
            new Formula("IF(ISBLANK(B" + row + ")," + (price != null ? "\"" + NO_PRICE + "\"" : "IF(COUNTIF(" + tables.lineColumn("item") + ",A" + row + ")+COUNTIF(" + tables.lineColumn("upperItem") + ",A" + row + ")>0,\"" + NO_PRICE + "\",\"\")") + ",IF(OR(COUNT(B" + row + ":D" + row + ",F" + row + ",I" + row + ")<5,COUNTA(G" + row + ":H" + row + ")<>COUNT(G" + row + ":H" + row + ")),\"" + NO_NUMBER + "\",IF(OR(COUNTIF(B" + row + ":D" + row + ",\"<0\")>0,COUNTIF(F" + row + ":I" + row + ",\"<0\")>0,F" + row + "<1),\"too small\",\"\")))", isMissed(item) ? NO_PRICE : "", CellType.TEXT),
            item.machines(), price == null ? null : price.priceDate(), price == null ? null : price.supplier(), terms.account(), terms.capexOrOpex(),
            new Formula("INDEX(" + Names.RATES + ",MATCH(E" + row + "," + Names.CURRENCIES + ",0))", price == null ? 1.0 : rate(currency), CellType.decimal(4)),
            converted("B", row, price == null ? null : price.unitPrice(), price), converted("C", row, price == null ? null : price.labour(), price),
            converted("D", row, price == null ? null : price.disposalFee(), price),
            new Formula("IF(ISNUMBER(H" + row + "),ROUND(H" + row + "*R" + row + ",2),S" + row + ")",
                price == null ? BigDecimal.ZERO : price.converted(terms.breakPrice() == null ? price.unitPrice() : terms.breakPrice()), CellType.MONEY),
            new Formula("MAX(1," + BudgetTables.numberOr0("F" + row) + ")", terms.packSize(), CellType.INTEGER), new Formula(BudgetTables.numberOr0("G" + row), terms.breakQuantity(), CellType.INTEGER),
            new Formula("MAX(0," + BudgetTables.numberOr0("I" + row) + ")", terms.stock(), CellType.INTEGER));
    }

    private static Formula converted(String column, int row, BigDecimal amount, Price price) {
        return new Formula("ROUND(" + BudgetTables.numberOr0(column + row) + "*R" + row + ",2)", price == null ? BigDecimal.ZERO : price.converted(amount), CellType.MONEY);
    }

    /** An empty frame where nothing is known. */
    private static Object input(BigDecimal value) {
        return new Input(value, CellType.MONEY);
    }

    private static BigDecimal orZero(BigDecimal value) {
        return value == null ? BigDecimal.ZERO : value;
    }

    private void frozen(String name, String label, Object value) {
        sheet.line(false, label, null, value, value);
        named(name);
    }

    private void workedOut(String name, String label, Formula formula, String unit) {
        sheet.line(false, label + " (worked out)", null, formula, formula.result(), unit);
        named(name);
    }

    private void set(String name, String label, Object value, String unit) {
        int row = sheet.row() + 1;
        sheet.line(false, label, new Input(value), new Formula("IF(ISNUMBER(" + TYPED + row + ")," + TYPED + row + ",D" + row + ")", value, type(value)), value, unit, new Input(setBy(name), CellType.TEXT), new Input(null, CellType.DATE),
            new Formula("IF(NOT(ISNUMBER(" + TYPED + row + ")),\"" + NO_NUMBER + "\",IF(" + TYPED + row + "<0,\"too small\",IF(" + TYPED + row + ">" + most(name) + ",\"too large: at most " + most(name) + "\",\"\")))", "", CellType.TEXT));
        named(name);
    }

    /** Who set it before anybody types. */
    String setBy(String name) {
        BudgetSettings settings = budget.settings();
        MoneySettings money = settings.money();
        MoneySettings standard = MoneySettings.withDefaults();
        return switch (name) {
            case Names.MACHINE_SHARE -> from(money.machineShareFrom());
            case Names.FAILURES_PER_MACHINE_YEAR, Names.FAILURE_CHANCE_WHEN_WAITING -> from(settings.failuresFrom());
            case Names.REFRESH_SHARE -> from(money.refreshShare() == standard.refreshShare());
            case Names.REFRESH_AGE -> from(money.refreshAgeYears() == standard.refreshAgeYears());
            case Names.WARRANTY_SHARE -> from(money.warrantyShare() == standard.warrantyShare());
            case Names.VAT_PERCENT -> from(money.vatPercent() == standard.vatPercent());
            case Names.FAILURES_OF_URGENT -> from(true);
            default -> null;
        };
    }

    private static String from(boolean standard) {
        return from(standard ? BudgetSettings.RateSource.ASSUMED : BudgetSettings.RateSource.GIVEN);
    }

    private static int most(String name) {
        return switch (name) {
            case Names.MACHINE_SHARE, Names.REFRESH_SHARE, Names.WARRANTY_SHARE, Names.FAILURES_PER_MACHINE_YEAR, Names.FAILURE_CHANCE_WHEN_WAITING -> 1;
            case Names.REFRESH_AGE -> MOST_YEARS;
            case Names.VAT_PERCENT -> HUNDRED;
            case Names.FAILURES_OF_URGENT -> MOST_FAILURES_A_YEAR;
            default -> MOST_OF_ALL;
        };
    }

    private static CellType type(Object value) {
        return value instanceof Figure figure ? CellType.decimal(figure.decimals()) : value instanceof BigDecimal ? CellType.MONEY : CellType.INTEGER;
    }

    private void named(String name) {
        rows.put(name, sheet.row());
        if (!name.startsWith("Rate.")) {
            name(name, "$" + USED + "$" + sheet.row());
        }
    }

    private void name(String name, String cells) {
        Name defined = workbook.createName();
        defined.setNameName(name);
        defined.setRefersToFormula(NAME + "!" + cells);
    }
}
