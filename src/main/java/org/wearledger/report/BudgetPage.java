package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.PricedItem;

/**
 * The page that is approved: places by quarters, then what the request is the sum of. Each cell shows one of the sheet of figures, or adds lines up; a check
 * says whether both ways agree.
 */
final class BudgetPage {
    static final String NAME = "Budget";
    private static final int MOST_QUARTERS = 4;
    private static final int MOST_PLACES = 7;

    private final SheetWriter sheet;
    private final Budget budget;
    private final BudgetTables tables;
    private final Table<BudgetPeriod> figures;
    private final Map<String, BigDecimal> lastRequests;
    /** In the order of the columns. */
    private final List<BudgetPeriod> periods;
    private final int width;

    /** @param lastRequests of the earlier sweep, by period */
    BudgetPage(SheetWriter sheet, Budget budget, BudgetTables tables, Map<String, BigDecimal> lastRequests) {
        this.sheet = sheet;
        this.budget = budget;
        this.tables = tables;
        this.lastRequests = lastRequests;
        figures = tables.periodsOnTheSheet();
        int quarters = budget.settings().quarters();
        periods = Stream.concat(budget.quarters().stream().limit(Math.min(quarters, MOST_QUARTERS)), budget.quarters().stream().skip(quarters)).toList();
        width = budget.quarters().stream().map(BudgetPeriod::cap).filter(cap -> cap != null).mapToInt(cap -> Wording.amount(cap, "").length()).max().orElse(0);
    }

    /** @param assumptions written already, for the rows of who set what */
    void write(AssumptionsSheet assumptions, Object toCheck) {
        sheet.columnWidths(IntStream.rangeClosed(0, periods.size()).map(i -> i == 0 ? 58 : Math.max(13, width + 3)).toArray());
        approval();
        sheet.gap();
        places();
        parts();
        assumptions(assumptions, toCheck);
        sheet.gap();
        sheet.line(true, "Approved by: __________________________  on: ____________");
    }

    /** How many it has. */
    int columns() {
        return periods.size() + 1;
    }

    /** This quarter and the fiscal year: which figure to sign is found at once. */
    private void approval() {
        BudgetPeriod quarter = budget.quarters().get(0);
        BudgetPeriod year = budget.quarters().get(Math.min(budget.settings().quarters(), budget.quarters().size() - 1));
        sheet.line(true, "To approve" + (budget.currency().isEmpty() ? "" : ", in " + budget.currency()), new Heading(quarter.label()), new Heading(year.label()));
        sheet.line(true, "Funding request", figure("toAskFor", quarter), figure("toAskFor", year));
        sheet.line(false, "More, if whole machines are bought instead of boards", figure("ifMachines", quarter), figure("ifMachines", year));
        sheet.line(false, "Worst case (90 %)", figure("cap", quarter), figure("cap", year));
    }

    private Formula figure(String column, BudgetPeriod period) {
        Column<BudgetPeriod> of = figures.columns().get(figures.indexOf(column));
        Object value = of.valueOf(period);
        return new Formula(cell(column, period), value == null ? "" : value, of.type());
    }

    private String cell(String column, BudgetPeriod period) {
        return "'" + figures.name() + "'!" + figures.letter(column) + (tables.firstRowOfMoney() + budget.quarters().indexOf(period));
    }

    private int firstPlace;
    private int lastPlace;

    private void places() {
        line(true, "Site, cost centre", period -> new Heading(period.label()));
        firstPlace = sheet.row() + 1;
        Map<Places.Place, List<PlannedReplacement>> places = budget.lines().stream().collect(Collectors.groupingBy(Places.Place::of, TreeMap::new, Collectors.toList()));
        List<Places.Place> dearest = places.entrySet().stream().sorted(Comparator.comparing((Map.Entry<Places.Place, List<PlannedReplacement>> place) -> BudgetTables.sumOf(place.getValue().stream()))
            .reversed()).limit(places.size() > MOST_PLACES + 1 ? MOST_PLACES : places.size()).map(Map.Entry::getKey).sorted().toList();
        dearest.forEach(place -> line(false, place.site() + ", " + place.costCentre(), period -> sum(places.get(place), period, "=" + tables.places().number(place))));
        if (dearest.size() < places.size()) {
            Collection<PlannedReplacement> others = places.entrySet().stream().filter(place -> !dearest.contains(place.getKey())).flatMap(place -> place.getValue().stream()).toList();
            int first = firstPlace;
            int last = sheet.row();
            line(false, places.size() - dearest.size() + " other cost centres", period -> new Formula(sum(List.of(), period, ">0").text() + "-SUM(" + letter(period) + first + ":" + letter(period) + last + ")",
                sum(others, period, "").result(), CellType.MONEY));
        }
        lastPlace = sheet.row();
        line(true, "Identified replacements, all sites", period -> new Formula(lastPlace < firstPlace ? "0" : "SUM(" + letter(period) + firstPlace + ":" + letter(period) + lastPlace + ")", period.namedAmount(), CellType.MONEY));
    }

    private String letter(BudgetPeriod period) {
        return org.apache.poi.ss.util.CellReference.convertNumToColString(1 + periods.indexOf(period));
    }

    private Formula sum(Collection<PlannedReplacement> lines, BudgetPeriod period, String place) {
        List<String> quarters = budget.quarters().subList(period.first(), period.first() + period.quarters()).stream().map(BudgetPeriod::label).toList();
        return new Formula("SUMIFS(" + tables.lineColumn("amount") + "," + tables.criterion("placeNumber", "\"" + place + "\"") + "," + tables.criterion("boughtIndex", "\">=" + (period.first() + 1) + "\"") + ","
            + tables.criterion("boughtIndex", "\"<=" + (period.first() + period.quarters()) + "\"") + ")",
            BudgetTables.sumOf(lines.stream().filter(line -> line.boughtIn() != null && quarters.contains(line.boughtIn()))), CellType.MONEY);
    }

    private void parts() {
        int all = sheet.row();
        line(false, "    of it machines replaced in place of a repair", period -> figure("refresh", period));
        line(false, "+ Expected further replacements", period -> figure("further", period));
        line(true, "= Plan", period -> figure("plan", period));
        line(false, "+ Boards that turn out to be machines", period -> figure("contingencyForPrices", period));
        line(false, "+ Risk reserve, to suffice in four of five quarters", period -> figure("contingencyForWear", period));
        line(false, "+ Random failures", period -> figure("allowance", period));
        line(false, "- Stock on hand", period -> negative("stock", period, period.funding().stock()));
        line(false, "+ Whole packs, less price breaks", period -> figure("packs", period));
        line(false, "- Expected warranty recovery", period -> negative("warranty", period, period.funding().warranty()));
        line(true, "= Net", period -> figure("net", period));
        line(false, "+ Value added tax", period -> figure("vat", period));
        line(false, "- Less for a year: not every quarter has its bad case", period -> negative("relief", period, period.funding().relief()));
        line(true, "= Funding request", period -> figure("toAskFor", period));
        int request = sheet.row();
        if (!lastRequests.isEmpty()) {
            line(false, "Last request", period -> lastRequests.get(period.label()));
            int last = sheet.row();
            line(false, "Change since the last request", period -> change(period, request, last));
        }
        if (budget.quarters().stream().anyMatch(period -> period.spent() != null)) {
            line(false, "Spent so far", BudgetPeriod::spent);
        }
        sheet.line(false, "Check: sites, quarters and parts add up", check(all, request));
    }

    private Formula negative(String column, BudgetPeriod period, BigDecimal amount) {
        return new Formula("-" + cell(column, period), amount.negate(), CellType.MONEY);
    }

    private Object change(BudgetPeriod period, int request, int last) {
        BigDecimal before = lastRequests.get(period.label());
        String letter = letter(period);
        return before == null ? null : new Formula("IF(ISNUMBER(" + letter + request + "),ROUND(" + letter + request + "-" + letter + last + ",2),\"\")",
            period.priced() ? period.toAskFor().subtract(before) : "", CellType.MONEY);
    }

    /** Places against quarters, quarters against years, and the parts against the request, in all columns together. */
    private Formula check(int all, int request) {
        List<String> differences = new ArrayList<>();
        for (BudgetPeriod period : periods) {
            differences.add("ABS(" + letter(period) + all + "-" + cell("namedAmount", period) + ")");
            String net = letter(period) + (all + 2) + "+" + letter(period) + all + "+SUM(" + letter(period) + (all + 4) + ":" + letter(period) + (all + 9) + ")";
            differences.add("IF(ISNUMBER(" + letter(period) + request + "),ABS(" + net + "+SUM(" + letter(period) + (request - 2) + ":" + letter(period) + (request - 1) + ")-" + letter(period) + request + "),0)");
        }
        List<BudgetPeriod> quarters = budget.quarters().subList(0, budget.settings().quarters());
        BudgetPeriod whole = budget.quarters().get(budget.quarters().size() - 1);
        differences.add("ABS(" + range("net", quarters) + "-" + cell("net", whole) + ")");
        differences.add("ABS(SUMIFS(" + tables.lineColumn("amount") + "," + tables.criterion("boughtIndex", "\">0\"") + ")-" + cell("namedAmount", whole) + ")");
        String off = "ROUND(" + String.join("+", differences) + ",2)";
        return new Formula("IF(" + off + "=0,\"yes, to the cent\",\"NO, off by \"&FIXED(" + off + ",2))", "yes, to the cent", CellType.TEXT);
    }

    private String range(String column, List<BudgetPeriod> quarters) {
        String letter = figures.letter(column);
        return "SUM('" + figures.name() + "'!" + letter + tables.firstRowOfMoney() + ":" + letter + (tables.firstRowOfMoney() + quarters.size() - 1) + ")";
    }

    private interface Cells {
        Object of(BudgetPeriod period);
    }

    private void line(boolean bold, String label, Cells cells) {
        sheet.line(bold, Stream.concat(Stream.of(label), periods.stream().map(cells::of)).toArray());
    }

    /** Two beside each other, each with its value and who set it when. */
    private void assumptions(AssumptionsSheet assumptions, Object toCheck) {
        sheet.gap();
        sheet.line(true, "Assumption", new Heading("Value"), "Set by", "On");
        for (String[] shown : new String[][] {{Names.MACHINE_SHARE, "Boards that turn out to be machines, share"}, {Names.REFRESH_SHARE, "Machine replaced where a board costs more than, share"},
            {Names.REFRESH_AGE, "Machine replaced when older than, years"}, {Names.WARRANTY_SHARE, "Warranty claims met, share"}, {Names.FAILURES_PER_MACHINE_YEAR, "Random failures, a machine and year"},
            {Names.VAT_PERCENT, "Value added tax, %"}}) {
            int row = assumptions.rowOf(shown[0]);
            sheet.line(false, shown[1], new Formula(shown[0], value(shown[0]), CellType.decimal(2)), typed(AssumptionsSheet.SET_BY, row, CellType.TEXT), typed(AssumptionsSheet.SET_ON, row, CellType.DATE));
        }
        if (toCheck != null) {
            sheet.above(toCheck);
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

    private static Formula typed(String column, int row, CellType type) {
        String cell = AssumptionsSheet.NAME + "!" + column + row;
        return new Formula("IF(" + cell + "=\"\",\"\"," + cell + ")", "", type);
    }
}
