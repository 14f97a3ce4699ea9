package org.wearledger.report;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import org.apache.poi.ss.usermodel.Name;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Price;
import org.wearledger.model.PricedItem;

/** The one sheet to change: every amount of the workbook is worked out from it. Cells are known to formulas by name. */
final class AssumptionsSheet {
    static final String NAME = "Assumptions";
    /** Per year; a stated guess, to be changed in the workbook. */
    static final double COST_OF_MONEY = 0.05;

    private final SXSSFWorkbook workbook;
    private final SheetWriter sheet;
    private final Budget budget;
    private final LocalDate asOf;

    AssumptionsSheet(SXSSFWorkbook workbook, Styles styles, Budget budget, LocalDate asOf) {
        this.workbook = workbook;
        this.budget = budget;
        this.asOf = asOf;
        sheet = new SheetWriter(workbook.createSheet(NAME), styles);
        sheet.columnWidths(46, 13, 13, 13, 13, 13, 13, 13, 12, 20, 20);
    }

    void write() {
        BudgetSettings settings = budget.settings();
        BudgetSettings.Unplanned unplanned = settings.unplanned();
        sheet.above("Change what stands here: every amount and order date follows.");
        sheet.note("Model outputs (need dates, probabilities, expected numbers) and the work list stay: for those, sweep again.");
        sheet.note("In a frame: yours to change. Without one: worked out, or as the sweep found it.");
        sheet.note(BudgetText.NEAR);
        sheet.gap();
        sheet.line(true, "Assumption", "Value", "As swept", "Unit");
        set(Names.AS_OF, "As-of date (frozen)", asOf, "");
        set(Names.LEAD_TIME_DAYS, "Lead time, from order to delivery", budget.leadTimeDays(), "days");
        set(Names.INSTALL_SLOT_DAYS, "Install slot, from delivery to installation", settings.installSlotDays(), "days");
        set(Names.MACHINES_COVERED, "Machines that the allowance covers, also those without a report", budget.machines(), "machines");
        set(Names.FAILURES_PER_MACHINE_YEAR, "Random failures, which no wear figure foretells (" + settings.failuresFrom().name().toLowerCase(Locale.ROOT) + ", see Method)",
            new Figure(settings.failuresPerMachineYear(), 4), "per machine and year");
        set(Names.DOWNTIME_HOURS, "Unplanned replacement: hours without the machine", orZero(unplanned.downtimeHours()), "hours");
        set(Names.DOWNTIME_COST_PER_HOUR, "Unplanned replacement: cost of such an hour", orZero(unplanned.costPerHour()), budget.currency());
        set(Names.RUSH_FEE, "Unplanned replacement: rush fee", orZero(unplanned.rushFee()), budget.currency());
        set(Names.RECOVERY_COST, "Unplanned replacement: data recovery", orZero(unplanned.recoveryCost()), budget.currency());
        set(Names.EXTRA_WHEN_UNPLANNED, "Unplanned replacement: extra in all", new Formula("ROUND(" + Names.DOWNTIME_HOURS + "*"
            + Names.DOWNTIME_COST_PER_HOUR + "+" + Names.RUSH_FEE + "+" + Names.RECOVERY_COST + ",2)", unplanned.extra(), CellType.MONEY), budget.currency());
        set(Names.FAILURE_CHANCE_WHEN_WAITING, "Chance that a drive kept a year beyond its plan fails (no source: set your own)",
            new Figure(settings.failuresPerMachineYear(), 4), "per year");
        set(Names.COST_OF_MONEY_PER_YEAR, "Cost of money (no source: set your own)", new Figure(COST_OF_MONEY, 4), "per year");
        int first = sheet.row() + 5;
        int last = first + Math.max(1, budget.items().size()) - 1;
        set(Names.PRICES_MISSING, "Purchases without a price: until it is 0 there is no P50, P80 or P90", new Formula("COUNTIF(" + Names.COSTS_OF_ONE + ",0)",
            (int) budget.items().stream().filter(item -> item.price() == null).count(), CellType.INTEGER), "purchases");
        set(Names.MEAN_COST, "Mean cost of replacing any one machine's drive", new Formula("IF(SUM(" + Names.ITEM_MACHINES + ")=0,0,ROUND(SUMPRODUCT("
            + Names.ITEM_MACHINES + "," + Names.COSTS_OF_ONE + ")/SUM(" + Names.ITEM_MACHINES + "),2))", PricedItem.meanCost(budget.items()), CellType.MONEY), budget.currency());
        sheet.gap();
        String unit = budget.currency().isEmpty() ? "" : " (" + budget.currency() + ")";
        sheet.line(true, "What is bought", "Unit price" + unit, "As swept" + unit, "Labour" + unit, "Wiping, disposal" + unit, "Cost of one (worked out)" + unit,
            "Cost of one, as swept" + unit, "Drives it would replace (model output)", "Price of", "Supplier", "Note");
        Map.of('A', Names.ITEMS, 'B', Names.UNIT_PRICES, 'D', Names.LABOURS, 'E', Names.DISPOSAL_FEES, 'F', Names.COSTS_OF_ONE, 'H', Names.ITEM_MACHINES)
            .entrySet().stream().sorted(Map.Entry.comparingByKey())
            .forEach(column -> name(column.getValue(), "$" + column.getKey() + "$" + first + ":$" + column.getKey() + "$" + last));
        for (PricedItem item : budget.items()) {
            item(item);
        }
    }

    private void item(PricedItem item) {
        Price price = item.price();
        int row = sheet.row() + 1;
        BigDecimal unitPrice = price == null ? BigDecimal.ZERO : price.unitPrice();
        sheet.line(false, item.item(), new Input(unitPrice), unitPrice, new Input(price == null ? BigDecimal.ZERO : orZero(price.labour())),
            new Input(price == null ? BigDecimal.ZERO : orZero(price.disposalFee())),
            new Formula("ROUND(B" + row + ",2)+ROUND(D" + row + ",2)+ROUND(E" + row + ",2)", item.costOfOne(), CellType.MONEY), item.costOfOne(), item.machines(),
            price == null ? null : price.priceDate(), price == null ? null : price.supplier(),
            price == null ? "NO PRICE: fill in; amounts lack it until then" : null);
    }

    private static BigDecimal orZero(BigDecimal value) {
        return value == null ? BigDecimal.ZERO : value;
    }

    private void set(String name, String label, Object value, String unit) {
        boolean workedOut = value instanceof Formula;
        boolean frozen = name.equals(Names.AS_OF);
        sheet.line(false, workedOut ? label + " (worked out)" : label, workedOut || frozen ? value : new Input(value), frozen ? null : workedOut ? ((Formula) value).result() : value, unit);
        name(name, "$B$" + sheet.row());
    }

    private void name(String name, String cells) {
        Name defined = workbook.createName();
        defined.setNameName(name);
        defined.setRefersToFormula(NAME + "!" + cells);
    }
}
