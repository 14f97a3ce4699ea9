package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.BacktestCase;
import org.wearledger.model.BacktestReport.Coverage;
import org.wearledger.model.BacktestReport.PitBin;
import org.wearledger.model.BacktestReport.Reliability;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.BacktestRun;

/** Writes all outputs of a backtest: four tables, a workbook with pictures of them, and a summary. */
public final class BacktestWriter {
    private static final int ROWS_IN_MEMORY = 500;
    private static final String TITLE = "Backtest of the forecasts";

    private BacktestWriter() {
    }

    /** Writes {@code backtest.md}, {@code backtest.xlsx} the tables and the problems as CSV into {@code folder}, which exists. */
    public static void write(BacktestRun run, Path folder, CsvForm form) throws IOException {
        CsvWriter csv = new CsvWriter(form);
        BacktestReport report = run.report();
        List<Table<?>> tables = BacktestTables.of(report);
        for (Table<?> table : tables) {
            csv.write(table, folder.resolve(table.name().toLowerCase(Locale.ROOT).replace(' ', '-') + ".csv"));
        }
        csv.write(Tables.problems(ProblemWords.listed(run.problems())), folder.resolve(SweepWriter.PROBLEMS_CSV));
        Files.writeString(folder.resolve("backtest.md"), BacktestText.of(run), StandardCharsets.UTF_8);
        try (SXSSFWorkbook workbook = new SXSSFWorkbook(ROWS_IN_MEMORY);
             OutputStream out = Files.newOutputStream(folder.resolve("backtest.xlsx"))) {
            Styles styles = new Styles(workbook, TITLE);
            WorkbookProperties.set(workbook, TITLE, run.version(), null);
            pictures(report, workbook, styles);
            tables.forEach(table -> new SheetWriter(workbook.createSheet(table.name()), styles).dataSheet(table, row -> false));
            workbook.write(out);
        }
    }

    private static void pictures(BacktestReport report, SXSSFWorkbook workbook, Styles styles) {
        BarCharts charts = new BarCharts(workbook, "Pictures", styles);
        List<Coverage> ninety = report.coverages().stream().filter(c -> c.level() == 0.9).toList();
        List<String> horizons = ninety.stream().map(Coverage::horizonQuarters).distinct().map(h -> Wording.count(h, "quarter")).toList();
        List<BarCharts.Series> shares = new ArrayList<>();
        for (BacktestCase.Method method : BacktestCase.Method.values()) {
            Double[] values = ninety.stream().filter(c -> c.method() == method).map(c -> 100 * c.share()).toArray(Double[]::new);
            if (values.length == horizons.size()) {
                shares.add(new BarCharts.Series(method.label(), values));
            }
        }
        charts.compared("How many of the 90 % intervals contained what came", "Horizon", "Contained (%)", horizons, shares);

        List<PitBin> pit = report.pitBins().stream().filter(b -> b.method() == BacktestCase.Method.POOLED && b.horizonQuarters() == 1).toList();
        charts.compared("Where what came lay in the forecast, 1 quarter ahead, pooled model (level if right)", "Share of the forecast below it",
            "Forecasts", pit.stream().map(PitBin::label).toList(),
            List.of(new BarCharts.Series("pooled", pit.stream().map(b -> (double) b.forecasts()).toArray(Double[]::new))));

        List<Reliability> reliability = report.reliabilities().stream()
            .filter(r -> r.method() == BacktestCase.Method.POOLED && r.horizonQuarters() == 4).toList();
        charts.compared("Crossing within 4 quarters: stated probability and share that crossed, pooled model (equal if right)",
            "Stated probability, by tenths", "Share (%)", reliability.stream().map(r -> r.tenth() * 10 + " to " + (r.tenth() + 1) * 10
                + " % (n = " + r.forecasts() + ")").toList(),
            List.of(new BarCharts.Series("stated, mean", reliability.stream().map(r -> 100 * r.meanProbability()).toArray(Double[]::new)),
                new BarCharts.Series("crossed", reliability.stream().map(r -> 100.0 * r.crossed() / r.forecasts()).toArray(Double[]::new))));
    }
}
