package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.SweepResult;

/** The page on the outputs says of every table which columns it has, in their order, and nothing of columns that are not. A row may describe several columns, and a section several tables. */
class OutputsPageTest {
    private static final Path PAGE = Path.of("notebooks-free-docs/outputs.md");
    private static final Pattern HEADING = Pattern.compile("## (.+)");
    private static final Pattern ROW = Pattern.compile("\\| (`\\w+`(?:, `\\w+`)*) \\| ([^|]*) \\| [^|]*\\| ([^|]*)\\|");
    private static final String OF_SEVERAL = ", ";
    private static final String NEVER_EMPTY = "";
    private static final String CURRENCY = " (EUR)";

    @TestFactory
    Stream<DynamicTest> everyTableIsDescribed() throws IOException {
        Map<String, List<String>> described = described();
        return tables().entrySet().stream().map(table -> DynamicTest.dynamicTest(table.getKey(),
            () -> assertThat(described.get(table.getKey())).containsSubsequence(columns(table.getValue()))));
    }

    /** On one small fleet; a cell that is empty there would belie the page. */
    @TestFactory
    Stream<DynamicTest> whatIsNeverEmptyIsFilled() throws IOException {
        Map<String, Map<String, String>> emptyWhen = new LinkedHashMap<>();
        read((section, row) -> names(row).forEach(name -> emptyWhen.computeIfAbsent(section, key -> new LinkedHashMap<>()).put(name, row.group(3).strip())));
        return tables().entrySet().stream().map(table -> DynamicTest.dynamicTest(table.getKey(),
            () -> assertThat(emptyColumns(table.getValue())).allSatisfy(column ->
                assertThat(emptyWhen.get(table.getKey()).get(column)).as(column).isNotEqualTo(NEVER_EMPTY))));
    }

    private static <T> Set<String> emptyColumns(Table<T> table) {
        return table.columns().stream().filter(column -> table.rows().stream().map(column::valueOf).anyMatch(value -> value == null || value.equals("")))
            .map(Column::name).collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void noTableOrColumnIsDescribedThatIsNotWritten() throws IOException {
        Map<String, Table<?>> tables = tables();
        assertThat(described().keySet()).containsExactlyInAnyOrderElementsOf(tables.keySet());
        Set<String> all = tables.values().stream().flatMap(table -> columns(table).stream()).collect(Collectors.toSet());
        assertThat(described()).allSatisfy((section, columns) -> assertThat(all).as(section).containsAll(columns));
        List<String> own = described().get("machines.csv");
        assertThat(own).as("of a section of one table, no other column").hasSameSizeAs(columns(tables.get("machines.csv")));
    }

    @Test
    void everyFileOfASweepHasItsSection() throws IOException {
        String page = Files.readString(PAGE);
        assertThat(SweepWriter.FILE_NAMES).allSatisfy(file -> assertThat(page).contains("`" + file + "`"));
    }

    /** Section of the page to the table it describes. */
    private static Map<String, Table<?>> tables() {
        SweepResult result = Sweeps.small();
        BudgetTables budget = new BudgetTables(result);
        BacktestReport backtest = new BacktestReport(0, "", "", List.of(), List.of(), List.of(), List.of());
        Map<String, Table<?>> tables = new LinkedHashMap<>();
        tables.put("machines.csv", Tables.machines(result));
        tables.put("replacements.csv", budget.lines());
        tables.put("budget.csv", budget.periods());
        tables.put("totals.csv", budget.totals());
        tables.put("items.csv", budget.items());
        tables.put("work-list.csv", CareTables.work(result));
        tables.put("customers.csv", CustomerCounts.table(result));
        tables.put("coverage.csv", CareTables.coverage(result));
        tables.put("changes.csv", CareTables.changes(result));
        tables.put("warranty.csv", CareTables.warranties(result));
        tables.put("sites.csv", ModelTables.sites(result));
        tables.put("repair-costs.csv", RepairTables.repairs(result));
        tables.put("stock.csv", RepairTables.stock(result));
        tables.put("failures.csv", FailureTable.of(result));
        tables.put("models.csv", ModelTables.drives(result));
        tables.put("machine-models.csv", ModelTables.machines(result));
        tables.put("problems.csv", Tables.problems(ProblemWords.sorted(result.problems())));
        tables.put("Backtest: interval-coverage.csv", BacktestTables.coverage(backtest));
        tables.put("Backtest: scores.csv", BacktestTables.scores(backtest));
        tables.put("Backtest: pit.csv", BacktestTables.pit(backtest));
        tables.put("Backtest: forecast-reliability.csv", BacktestTables.reliability(backtest));
        return tables;
    }

    private static List<String> columns(Table<?> table) {
        return table.columns().stream().map(column -> column.name() + ": " + column.headingWithUnit().replace(CURRENCY, "")).toList();
    }

    private static Map<String, List<String>> described() throws IOException {
        Map<String, List<String>> described = new LinkedHashMap<>();
        read((section, row) -> {
            List<String> names = names(row);
            List<String> headings = names.size() == 1 ? List.of(row.group(2)) : List.of(row.group(2).split(" / "));
            assertThat(headings).as(row.group()).hasSameSizeAs(names);
            IntStream.range(0, names.size()).forEach(i -> described.computeIfAbsent(section, key -> new ArrayList<>()).add(names.get(i) + ": " + headings.get(i)));
        });
        return described;
    }

    private static List<String> names(Matcher row) {
        return List.of(row.group(1).replace("`", "").split(OF_SEVERAL));
    }

    private static void read(BiConsumer<String, Matcher> eachRow) throws IOException {
        String section = "";
        for (String line : Files.readAllLines(PAGE)) {
            Matcher heading = HEADING.matcher(line);
            Matcher row = ROW.matcher(line);
            if (heading.matches()) {
                section = heading.group(1);
            } else if (row.matches()) {
                for (String table : section.split(OF_SEVERAL)) {
                    eachRow.accept(table, row);
                }
            }
        }
    }
}
