package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.ss.util.CellReference;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.CentreFunding;
import org.wearledger.model.CostCentre;
import org.wearledger.model.PricedItem;
import org.wearledger.model.SweepResult;

/**
 * The page that is signed: the funding request by cost centre and by quarter, then what it is the sum of. Each cell shows one of the sheets of figures; a check
 * says whether all ways of adding up agree.
 */
final class BudgetPage {
    static final String NAME = "Budget";
    private static final int MOST_QUARTERS = 4;
    private static final int MOST_YEARS = 2;
    private static final int MOST_CENTRES = 12;
    private static final int LABEL_CHARACTERS = 44;
    private static final int AMOUNT_CHARACTERS = 12;

    private final SheetWriter sheet;
    private final SweepResult result;
    private final Budget budget;
    private final BudgetTables tables;
    private final Table<BudgetPeriod> figures;
    private final Map<String, BigDecimal> lastRequests;
    /** In the order of the columns. */
    private final List<BudgetPeriod> periods;
    /** The rows of what is added up, by label. */
    private final Map<String, Integer> rows = new HashMap<>();

    /** @param lastRequests of the earlier sweep, by period */
    BudgetPage(SheetWriter sheet, SweepResult result, BudgetTables tables, Map<String, BigDecimal> lastRequests) {
        this.sheet = sheet;
        this.result = result;
        budget = result.plan().budget();
        this.tables = tables;
        this.lastRequests = lastRequests;
        figures = tables.periodsOnTheSheet();
        int quarters = budget.settings().quarters();
        List<BudgetPeriod> sums = budget.quarters().subList(quarters, budget.quarters().size());
        periods = Stream.concat(budget.quarters().stream().limit(Math.min(quarters, MOST_QUARTERS)), sums.stream().limit(Math.min(MOST_YEARS, Math.max(1, sums.size() - 1)))).toList();
    }

    /** @param assumptions written already, for the rows of who set what */
    void write(AssumptionsSheet assumptions) {
        int width = budget.quarters().stream().map(BudgetPeriod::cap).filter(cap -> cap != null).mapToInt(cap -> Wording.amount(cap, "").length() + 2).max().orElse(0);
        sheet.columnWidths(IntStream.rangeClosed(0, periods.size()).map(i -> i == 0 ? LABEL_CHARACTERS : Math.max(AMOUNT_CHARACTERS, width)).toArray());
        toSign();
        sheet.gap();
        centres();
        sheet.gap();
        parts();
        sheet.gap();
        explanations();
        assumptions(assumptions);
        sheet.gap();
        BudgetPeriod quarter = periods.get(0);
        String signed = "Approved: funding request of " + quarter.label() + ", ";
        String currency = budget.currency().isEmpty() ? "" : " " + budget.currency();
        sheet.above(new Formula("\"" + signed + "\"&IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\",FIXED(" + tables.cell("toAskFor", quarter) + ",2)&\"" + currency + "\")",
            signed + (quarter.priced() ? Wording.amount(quarter.toAskFor(), budget.currency()) : PeriodTable.INCOMPLETE), CellType.TEXT));
        sheet.moveTo(sheet.row() + 1);
        sheet.cells(false, "Name ______________________________     Date ______________     Signature ______________________________");
    }

    /** How many it has. */
    int columns() {
        return periods.size() + 1;
    }

    /** Which figure to sign is found at once. */
    private void toSign() {
        BudgetPeriod quarter = periods.get(0);
        BudgetPeriod year = budget.quarters().get(Math.min(budget.settings().quarters(), budget.quarters().size() - 1));
        sheet.above("Replacement budget" + (result.asOf() == null ? "" : ", sweep of " + result.asOf()) + (budget.currency().isEmpty() ? "" : ", in " + budget.currency()));
        sheet.line(true, "To sign: funding request of " + quarter.label(), figure("toAskFor", quarter));
        sheet.line(false, "For planning: that of " + year.label(), figure("toAskFor", year));
        sheet.line(false, "Worst case of wear in " + quarter.label(), figure("cap", quarter));
        sheet.line(false, "More, if all its boards become machines", figure("ifMachines", quarter));
        sheet.line(false, "More, if no warranty claim is met", new Formula("ROUND(" + tables.cell("warranty", quarter) + "*" + PeriodTable.WITH_TAX + ",2)",
            quarter.funding().warranty().multiply(BigDecimal.valueOf(100 + budget.settings().money().vatPercent())).divide(BigDecimal.valueOf(100), 2, java.math.RoundingMode.HALF_UP), CellType.MONEY));
        sheet.line(false, "As swept, before changes by hand", figure("toAskForAsSwept", quarter));
        boolean complete = quarter.priced();
        sheet.above(new Formula("IF(" + Names.INCOMPLETE + "=0,\"\",\"Incomplete. Mend first: \"&" + Names.FIRST_FAULT + "&\".\")", complete ? "" : "Incomplete. Mend first: " + AssumptionsSheet.NAME + ".", CellType.TEXT));
    }

    private Formula figure(String column, BudgetPeriod period) {
        Column<BudgetPeriod> of = figures.columns().get(figures.indexOf(column));
        Object value = of.valueOf(period);
        return new Formula(tables.cell(column, period), value == null ? "" : value, of.type());
    }

    /** The same, as long as nothing is to be mended. */
    private Formula complete(String column, BudgetPeriod period) {
        Formula figure = figure(column, period);
        return new Formula("IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\"," + figure.text() + ")", period.priced() ? figure.result() : PeriodTable.INCOMPLETE, figure.type());
    }

    private void centres() {
        line(true, "Funding request by site, cost centre", period -> new Heading(period.label()));
        Map<CostCentre, List<CentreFunding>> centres = budget.centres().stream().collect(Collectors.groupingBy(CentreFunding::centre, TreeMap::new, Collectors.toList()));
        BudgetPeriod whole = budget.quarters().get(budget.quarters().size() - 1);
        List<CostCentre> dearest = centres.keySet().stream().sorted(Comparator.comparing((CostCentre centre) -> of(centres.get(centre), whole).request()).reversed())
            .limit(centres.size() > MOST_CENTRES + 1 ? MOST_CENTRES : centres.size()).sorted().toList();
        int first = sheet.row() + 1;
        dearest.forEach(centre -> line(false, Places.site(centre) + ", " + Places.name(centre), period -> requested(List.of(of(centres.get(centre), period)), period)));
        List<CostCentre> others = centres.keySet().stream().filter(centre -> !dearest.contains(centre)).toList();
        if (!others.isEmpty()) {
            int last = sheet.row();
            line(false, others.size() + " others (hidden sheet " + CentreTable.NAME + ")", period -> new Formula("IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\"," + tables.centres().sumOf("request", period)
                + "-SUM(" + letter(period) + first + ":" + letter(period) + last + "))", requested(others.stream().map(centre -> of(centres.get(centre), period)).toList(), period).result(), CellType.MONEY));
        }
        int last = sheet.row();
        line(true, ALL_CENTRES, period -> new Formula("IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\"," + (last < first ? tables.cell("toAskFor", period) : "SUM(" + letter(period) + first + ":" + letter(period) + last + ")") + ")",
            period.priced() ? period.toAskFor() : PeriodTable.INCOMPLETE, CellType.MONEY));
    }

    private static final String ALL_CENTRES = "Funding request, all sites";

    private static CentreFunding of(List<CentreFunding> ofOneCentre, BudgetPeriod period) {
        return ofOneCentre.stream().filter(funding -> funding.period().equals(period.label())).findFirst().orElseThrow();
    }

    private Formula requested(List<CentreFunding> centres, BudgetPeriod period) {
        return new Formula(tables.centres().cells(centres).collect(Collectors.joining("+")),
            period.priced() ? centres.stream().map(CentreFunding::request).reduce(BigDecimal.ZERO, BigDecimal::add) : PeriodTable.INCOMPLETE, CellType.MONEY);
    }

    private String letter(BudgetPeriod period) {
        return CellReference.convertNumToColString(1 + periods.indexOf(period));
    }

    private static final String IDENTIFIED = "Identified replacements";
    private static final String FURTHER = "+ Expected further replacements";
    private static final String MACHINES = "+ Boards that turn out to be machines";
    private static final String WARRANTY = "- Expected warranty recovery";
    private static final String TAX = "+ Value added tax";
    private static final String RELIEF = "- Less for a year than for its quarters";
    private static final String REQUEST = "= Funding request";
    private static final String LAST = "Last request";

    private void parts() {
        line(true, "What it is the sum of", period -> new Heading(period.label()));
        line(true, IDENTIFIED, period -> figure("namedAmount", period));
        line(false, "    of it figures to be checked first", this::toCheck);
        line(false, "    of it the maker to be asked first", period -> figure("amountToAsk", period));
        line(false, "    of it ready to order", this::ready);
        line(false, "    of it machines in place of a repair", period -> figure("refresh", period));
        line(false, FURTHER, period -> figure("further", period));
        line(true, "= Plan", period -> complete("plan", period));
        line(false, MACHINES, period -> figure("contingencyForPrices", period));
        line(false, "+ Risk reserve", period -> figure("reserve", period));
        line(false, "+ Risk of what is put off", period -> figure("putOff", period));
        line(false, "+ Random failures", period -> figure("allowance", period));
        line(false, "- Stock on hand", period -> negative("stock", period, period.funding().stock()));
        line(false, "+ Whole packs, less price breaks", period -> figure("packs", period));
        line(false, WARRANTY, period -> negative("warranty", period, period.funding().warranty()));
        line(true, "= Net", period -> complete("net", period));
        line(false, TAX, period -> figure("vat", period));
        line(false, RELIEF, period -> negative("relief", period, period.funding().relief()));
        line(true, REQUEST, period -> figure("toAskFor", period));
        if (!lastRequests.isEmpty()) {
            line(false, LAST, period -> lastRequests.get(period.label()));
            line(false, "Change since the last request", this::change);
        }
        if (result.plan().comparison() != null && result.plan().comparison().outcome() != null) {
            say(Wording.sentenceCase(ComparisonText.outcome(result.plan().comparison().outcome())) + ".");
        }
        if (budget.quarters().stream().anyMatch(period -> period.spent() != null)) {
            line(false, "Spent so far", BudgetPeriod::spent);
        }
        sheet.line(false, "Check: cost centres, quarters and parts agree", check());
    }

    private Formula toCheck(BudgetPeriod period) {
        return new Formula(tables.cell("amountToCheck", period) + "-" + tables.cell("amountToAsk", period),
            ((BigDecimal) figure("amountToCheck", period).result()).subtract((BigDecimal) figure("amountToAsk", period).result()), CellType.MONEY);
    }

    private Formula ready(BudgetPeriod period) {
        return new Formula(tables.cell("namedAmount", period) + "-" + tables.cell("amountToCheck", period), period.namedAmount().subtract((BigDecimal) figure("amountToCheck", period).result()), CellType.MONEY);
    }

    private Formula negative(String column, BudgetPeriod period, BigDecimal amount) {
        return new Formula("-" + tables.cell(column, period), amount.negate(), CellType.MONEY);
    }

    private Object change(BudgetPeriod period) {
        BigDecimal before = lastRequests.get(period.label());
        return before == null ? null : new Formula("IF(ISNUMBER(" + cell(REQUEST, period) + "),ROUND(" + cell(REQUEST, period) + "-" + cell(LAST, period) + ",2),\"\")",
            period.priced() ? period.toAskFor().subtract(before) : "", CellType.MONEY);
    }

    private String cell(String label, BudgetPeriod period) {
        return letter(period) + rows.get(label);
    }

    /** Cost centres against the request, the parts against it, and quarters against the whole, in all columns together. */
    private Formula check() {
        List<String> differences = new ArrayList<>();
        for (BudgetPeriod period : periods) {
            differences.add("ABS(" + cell(ALL_CENTRES, period) + "-" + cell(REQUEST, period) + ")");
            differences.add("ABS(" + cell(IDENTIFIED, period) + "+" + cell(FURTHER, period) + "+SUM(" + cell(MACHINES, period) + ":" + cell(WARRANTY, period) + ")+" + cell(TAX, period) + "+" + cell(RELIEF, period)
                + "-" + cell(REQUEST, period) + ")");
        }
        BudgetPeriod whole = budget.quarters().get(budget.quarters().size() - 1);
        String letter = figures.letter("net");
        differences.add("ABS(SUM('" + figures.name() + "'!" + letter + tables.firstRowOfMoney() + ":" + letter + (tables.firstRowOfMoney() + budget.settings().quarters() - 1) + ")-" + tables.cell("net", whole) + ")");
        differences.add("ABS(SUMIFS(" + tables.lineColumn("amount") + "," + tables.criterion("boughtIndex", "\">0\"") + ")-" + tables.cell("namedAmount", whole) + ")");
        String off = "ROUND(" + String.join("+", differences) + ",2)";
        return new Formula("IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\",IF(" + off + "=0,\"yes, to the cent\",\"NO, off by \"&FIXED(" + off + ",2)))", periods.get(0).priced() ? "yes, to the cent" : PeriodTable.INCOMPLETE, CellType.TEXT);
    }

    private interface Cells {
        Object of(BudgetPeriod period);
    }

    private void line(boolean bold, String label, Cells cells) {
        sheet.line(bold, Stream.concat(Stream.of(label), periods.stream().map(cells::of)).toArray());
        rows.put(label, sheet.row());
    }

    /** One line for each part; what is assumed follows the sheet of assumptions. */
    private void explanations() {
        sheet.above("How each part is worked out");
        say("Identified: lines of the sheet " + BudgetTables.LINES + ", each with its machine. To sign only what is ready, defer there what is to be checked.");
        say("Expected further: nobody knows which. Of ten drives with one chance in ten each, about one reaches its limit.");
        say(new Formula("\"Boards that turn out to be machines: \"&" + percent(Names.MACHINE_SHARE) + "&\" of what a machine costs more than its board. The rest stands above: more, if all do.\"",
            "Boards that turn out to be machines: " + shown(100 * budget.settings().money().machineShare()) + " % of what a machine costs more than its board. The rest stands above: more, if all do.", CellType.TEXT));
        say("Risk reserve: for wear in four of five quarters; 0 where the plan suffices. In simulated fleets the whole request sufficed in 73 of 100 quarters.");
        say(new Formula("\"Put off: chance of failing meanwhile (\"&" + percent(Names.FAILURE_CHANCE_WHEN_WAITING) + "&\" a year; \"&" + percent(Names.FAILURES_OF_URGENT) + "&\" where it reports failure) x cost, taken off where it is bought.\"",
            "Put off: chance of failing meanwhile (" + shown(100 * budget.settings().failuresPerMachineYear()) + " % a year; " + shown(100 * budget.settings().money().urgentFailuresPerYear())
                + " % where it reports failure) x cost, taken off where it is bought.", CellType.TEXT));
        say(new Formula(Names.MACHINES_COVERED + "&\" machines x \"&" + percent(Names.FAILURES_PER_MACHINE_YEAR) + "&\" a year x mean cost \"&FIXED(" + Names.MEAN_COST + ",2)&\", by the days of the quarter: random failures, which no wear figure foretells.\"",
            budget.machines() + " machines x " + shown(100 * budget.settings().failuresPerMachineYear()) + " % a year x mean cost " + Wording.amount(PricedItem.meanCost(budget.items()), "") + ", by the days of the quarter: random failures, which no wear figure foretells.", CellType.TEXT));
        say(new Formula("\"Warranty: \"&" + percent(Names.WARRANTY_SHARE) + "&\" of the price of parts to be bought that a maker may still replace. Labour is not claimed.\"",
            "Warranty: " + shown(100 * budget.settings().money().warrantyShare()) + " % of the price of parts to be bought that a maker may still replace. Labour is not claimed.", CellType.TEXT));
        say("Stock is what the price list says is on hand, 0 where it says nothing. Prices are without tax. Not every quarter of a year has its bad case.");
        say("Worst case: wear in nine of ten cases, each board a machine, random failures as above; without stock, packs and recovery.");
        say("Cost centres pay for their own lines, with stock, packs and recovery. The rest is divided by machines.");
    }

    private void say(Object text) {
        sheet.cells(false, text);
    }

    private static String percent(String name) {
        return "ROUND(100*" + name + ",1)&\" %\"";
    }

    private static String shown(double number) {
        return BigDecimal.valueOf(number).setScale(1, java.math.RoundingMode.HALF_UP).stripTrailingZeros().toPlainString();
    }

    /** Each with its value and who set it when. */
    private void assumptions(AssumptionsSheet assumptions) {
        sheet.gap();
        sheet.line(true, "Assumption", new Heading("Value"), "On", "Set by");
        for (String[] shown : new String[][] {{Names.MACHINE_SHARE, "Boards that turn out to be machines, share"}, {Names.REFRESH_SHARE, "Machine, where a board costs more than"},
            {Names.REFRESH_AGE, "Machine, when older than, years"}, {Names.WARRANTY_SHARE, "Warranty claims met, share"}, {Names.FAILURES_PER_MACHINE_YEAR, "Random failures, a machine and year"},
            {Names.VAT_PERCENT, "Value added tax, %"}}) {
            int row = assumptions.rowOf(shown[0]);
            String setBy = AssumptionsSheet.NAME + "!" + AssumptionsSheet.SET_BY + row;
            sheet.cells(false, shown[1], new Formula(shown[0], value(shown[0]), CellType.decimal(2)), typed(AssumptionsSheet.SET_ON, row),
                new Formula("IF(" + AssumptionsSheet.NAME + "!C" + row + "=" + AssumptionsSheet.NAME + "!D" + row + "," + setBy + "&\"\",IF(" + setBy + "=\"" + assumptions.setBy(shown[0]) + "\",\"changed by hand\"," + setBy + "&\"\"))",
                    assumptions.setBy(shown[0]), CellType.TEXT));
        }
        budget.items().stream().map(PricedItem::price).filter(price -> price != null && price.priceDate() != null).map(price -> price.priceDate()).min(Comparator.naturalOrder())
            .ifPresent(oldest -> sheet.line(false, "Oldest price of the list", oldest));
    }

    private Object value(String name) {
        double value = switch (name) {
            case Names.MACHINE_SHARE -> budget.settings().money().machineShare();
            case Names.REFRESH_SHARE -> budget.settings().money().refreshShare();
            case Names.REFRESH_AGE -> budget.settings().money().refreshAgeYears();
            case Names.WARRANTY_SHARE -> budget.settings().money().warrantyShare();
            case Names.VAT_PERCENT -> budget.settings().money().vatPercent();
            default -> budget.settings().failuresPerMachineYear();
        };
        return new Figure(value, 2);
    }

    private static Formula typed(String column, int row) {
        String cell = AssumptionsSheet.NAME + "!" + column + row;
        return new Formula("IF(" + cell + "=\"\",\"\"," + cell + ")", "", CellType.DATE);
    }
}
