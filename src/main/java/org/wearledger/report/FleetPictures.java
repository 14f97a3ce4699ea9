package org.wearledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.SweepResult;

/** The sweep in four pictures, each beside its figures. */
final class FleetPictures {
    private static final int MOST_MODELS = 15;
    private static final int BINS = 12;

    private final SweepResult result;
    private final BarCharts charts;

    FleetPictures(SweepResult result, SXSSFWorkbook workbook, Styles styles) {
        this.result = result;
        charts = new BarCharts(workbook, "Pictures", styles);
    }

    void draw() {
        if (result.budget() != null) {
            budget(result.budget());
        }
        consumed();
        memory();
        models();
    }

    private void budget(Budget budget) {
        List<BudgetPeriod> quarters = budget.quarters().subList(0, budget.settings().quarters());
        Table<BudgetPeriod> periods = new BudgetTables(budget, Integer.MAX_VALUE).periods();
        List<BarCharts.Series> series = new ArrayList<>();
        series.add(series("Plan (P50)", periods, "plan", quarters, p -> p.plan().doubleValue()));
        if (quarters.get(0).cost() != null) {
            series.add(series("P80, dearer choices", periods, "dearerCostP80", quarters, p -> p.dearerCost().amounts().p80().doubleValue()));
            series.add(series("P90, dearer choices", periods, "dearerCostP90", quarters, p -> p.dearerCost().amounts().p90().doubleValue()));
        }
        charts.add("Replacements for wear by fiscal quarter" + (budget.currency().isEmpty() ? "" : ", " + budget.currency()), "Quarter",
            "Cost" + (budget.currency().isEmpty() ? "" : " (" + budget.currency() + ")"), quarters.stream().map(BudgetPeriod::label).toList(), series);
    }

    private static BarCharts.Series series(String name, Table<BudgetPeriod> periods, String column, List<BudgetPeriod> quarters,
                                           Function<BudgetPeriod, Double> value) {
        return new BarCharts.Series(name, quarters.stream().map(value).toArray(Double[]::new),
            IntStream.range(0, quarters.size()).mapToObj(i -> "'" + periods.name() + "'!" + periods.letter(column) + (i + 2)).toList());
    }

    private void consumed() {
        double[] percents = result.machines().stream().flatMap(machine -> machine.activeDrives().stream())
            .map(DriveAssessment::consumedPercent).filter(p -> p != null).mapToDouble(Double::doubleValue).toArray();
        if (percents.length == 0) {
            return;
        }
        Double[] counts = new Double[BINS];
        java.util.Arrays.fill(counts, 0.0);
        for (double percent : percents) {
            counts[percent < 100 ? (int) (percent / 10) : percent < 150 ? BINS - 2 : BINS - 1]++;
        }
        List<String> labels = new ArrayList<>(IntStream.range(0, 10).mapToObj(i -> i * 10 + " to " + (i + 1) * 10).toList());
        labels.add("100 to 150");
        labels.add("150 and more");
        charts.add("Drives by consumed endurance", "Written, % of rated", "Drives", labels, List.of(new BarCharts.Series("drives", counts)));
    }

    private void memory() {
        List<MemoryBand> bands = result.memoryBands().stream().filter(band -> band.gigabytesPerDay().size() > 0).toList();
        charts.add("Write rate by memory size: middle half of the machines (a cause to check, no proof)", "Memory", "GB a day",
            bands.stream().map(band -> (band.memoryGibibytes() == 0 ? "not reported" : band.memoryGibibytes() + " GiB") + ", n = "
                + band.gigabytesPerDay().size()).toList(),
            List.of(values("lower quartile", bands, band -> band.gigabytesPerDay().lowerQuartile()),
                values("median", bands, band -> band.gigabytesPerDay().median()),
                values("upper quartile", bands, band -> band.gigabytesPerDay().upperQuartile())));
    }

    private void models() {
        List<ModelSummary> models = result.models().stream().filter(model -> model.group() > 0)
            .sorted(Comparator.comparingDouble(ModelSummary::typicalPercentPerYear).reversed().thenComparing(ModelSummary::driveModel))
            .limit(MOST_MODELS).toList();
        charts.add("Typical wear by drive model with 95 % interval; overlapping ones cannot be separated", "Drive model", "% of rated a year",
            models.stream().map(model -> model.driveModel() + ", n = " + model.consumedPercentPerYear().size()).toList(),
            List.of(values("low", models, model -> model.typicalInterval95().low()),
                values("typical", models, ModelSummary::typicalPercentPerYear),
                values("high", models, model -> model.typicalInterval95().high())));
    }

    private static <T> BarCharts.Series values(String name, List<T> rows, Function<T, Double> value) {
        return new BarCharts.Series(name, rows.stream().map(value).toArray(Double[]::new));
    }
}
