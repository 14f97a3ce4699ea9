package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.CentreFunding;

/** The funding request by cost centre and period: what its lines cause, and its share of the rest by machines. */
final class CentreTable {
    static final String NAME = "Cost centres";

    private final Budget budget;
    private final BudgetTables tables;
    private Table<Row> table;

    CentreTable(Budget budget, BudgetTables tables) {
        this.budget = budget;
        this.tables = tables;
    }

    /**
     * One cost centre in one period.
     *
     * @param first the row of the sheet in which the centre's first quarter stands
     * @param upTo machines of this centre and all before it
     */
    private record Row(CentreFunding funding, BudgetPeriod period, int first, int upTo) {
    }

    /** By cost centre, then by period. */
    Table<?> table() {
        if (table == null) {
            table = build();
        }
        return table;
    }

    private Table<Row> build() {
        String currency = budget.currency();
        return new Table<>(NAME, List.of(
            text("site", "Site", row -> Places.site(row.funding.centre())),
            text("costCentre", "Cost centre", row -> Places.name(row.funding.centre())),
            text("period", "Fiscal period", row -> row.period.label()),
            integer("placeNumber", "Place no. (for the sums)", "", row -> tables.places().number(row.funding.centre())),
            integer("periodNumber", "Period no.", "", row -> number(row.period)),
            integer("machines", "Machines", "", row -> row.funding.machines()),
            integer("machinesUpTo", "Machines, with those above", "", Row::upTo),
            Column.<Row>money("own", "From its own lines, with tax", currency, row -> row.funding.own()).workedOut(this::own),
            Column.<Row>money("shared", "Its share of the rest, by machines", currency, row -> row.funding.shared())
                .workedOut(row -> (isQuarter(row.period) ? "" : ofQuarters("shared", row) + "+") + part(row, "{machinesUpTo}") + "-" + part(row, "({machinesUpTo}-{machines})")),
            new Column<>("request", "Funding request", currency, CellType.MONEY, row -> row.period.priced() ? row.funding.request() : PeriodTable.INCOMPLETE,
                row -> "IF(" + Names.INCOMPLETE + ">0,\"" + PeriodTable.INCOMPLETE + "\",{own}+{shared})")), rows());
    }

    private List<Row> rows() {
        int periods = budget.quarters().size();
        int[] upTo = {0};
        return IntStream.range(0, budget.centres().size()).mapToObj(i -> {
            CentreFunding funding = budget.centres().get(i);
            upTo[0] += i % periods == 0 ? funding.machines() : 0;
            return new Row(funding, budget.quarters().get(i % periods), BudgetTables.HEADER_ROWS + 1 + i / periods * periods, upTo[0]);
        }).toList();
    }

    private int number(BudgetPeriod period) {
        return budget.quarters().indexOf(period) + 1;
    }

    private String part(Row row, String machines) {
        return "ROUND(" + tables.cell("ofNoCentre", row.period) + "*" + machines + "/" + Names.MACHINES_COVERED + ",2)";
    }

    private String own(Row row) {
        if (!isQuarter(row.period)) {
            return ofQuarters("own", row);
        }
        String bought = tables.criterion("placeNumber", "{placeNumber}") + "," + tables.criterion("boughtIndex", "{periodNumber}") + ")";
        String needed = "SUMIFS(" + tables.lineColumn("riskPerYear") + "," + tables.criterion("placeNumber", "{placeNumber}") + "," + tables.criterion("needIndex", "\"<=\"&{periodNumber}") + "," + tables.criterion("riskUntil", "\">=\"&{periodNumber}") + ",";
        return "ROUND((SUMIFS(" + tables.lineColumn("amount") + "," + bought + "+" + Names.MACHINE_SHARE + "*SUMIFS(" + tables.lineColumn("dearer") + "," + bought
            + "+ROUND((" + needed + tables.criterion("boughtIndex", "\">\"&{periodNumber}") + ")+" + needed + tables.criterion("boughtIndex", "0") + "))*" + tables.cell("years", row.period)
            + ",2)-SUMIFS(" + tables.lineColumn("countedBefore") + "," + bought
            + "-" + Names.WARRANTY_SHARE + "*SUMIFS(" + tables.lineColumn("claimed") + "," + bought + "+SUMIFS(" + tables.lineColumn("ofOrder") + "," + bought + ")*" + PeriodTable.WITH_TAX + ",2)";
    }

    private boolean isQuarter(BudgetPeriod period) {
        return period.isOneQuarter() && number(period) <= budget.settings().quarters();
    }

    private String ofQuarters(String column, Row row) {
        String letter = table().letter(column);
        int first = row.first + row.period.first();
        return "SUM(" + letter + first + ":" + letter + (first + row.period.quarters() - 1) + ")";
    }

    /** What a column adds up to over the cost centres, in the period of a row of the sheet of figures. */
    String sumOf(String column, BudgetPeriod period) {
        return budget.centres().isEmpty() ? "0" : "SUMIFS(" + BudgetTables.range(table(), column) + "," + BudgetTables.range(table(), "periodNumber") + "," + number(period) + ")";
    }

    /** The cells of some cost centres in a period, each by itself. */
    Stream<String> cells(List<CentreFunding> centres) {
        String letter = table().letter("request");
        return centres.stream().map(centre -> "'" + NAME + "'!" + letter + (BudgetTables.HEADER_ROWS + 1 + budget.centres().indexOf(centre)));
    }
}
