package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.SweepResult;

/** The sweep in five pictures, each beside its figures. */
final class FleetPictures {
    private static final int MOST_MODELS = 15;
    private static final int BINS = 12;

    private final SweepResult result;
    private final BudgetTables budget;
    private final BarCharts charts;

    /** @param budget {@code null} without one to show */
    FleetPictures(SweepResult result, BudgetTables budget, SXSSFWorkbook workbook, Styles styles) {
        this.result = result;
        this.budget = budget;
        charts = new BarCharts(workbook, "Pictures", styles);
    }

    void draw() {
        if (budget != null) {
            budget(result.plan().budget());
        }
        consumed();
        memory();
        models();
        machineModels();
    }

    /** What is asked for, as the parts that it is the sum of, and how far beyond that it may go. */
    private void budget(Budget budget) {
        List<BudgetPeriod> quarters = budget.quarters().subList(0, budget.settings().quarters());
        Periods periods = new Periods(this.budget.periodsOnTheSheet(), this.budget.firstRowOfMoney());
        String currency = budget.currency().isEmpty() ? "" : " (" + budget.currency() + ")";
        charts.stacked("To ask for by fiscal quarter" + (quarters.stream().allMatch(BudgetPeriod::isContingencyKnown) ? "" : ", at least") + currency + "; hollow: beyond that, up to the cap", "Quarter",
            "Cost" + currency, quarters.stream().map(BudgetPeriod::label).toList(), List.of(
                series("Plan", periods, "{plan}", quarters, BudgetPeriod::plan),
                series("Contingency (up to P80)", periods, "SUM({contingencyForWear},{contingencyForPrices})", quarters,
                    p -> orZero(p, () -> p.contingencyForWear().add(p.contingencyForPrices()))),
                series("Random failures", periods, "{allowance}", quarters, BudgetPeriod::allowance)),
            series("Beyond it, up to the cap (P90)", periods, "IF({cap}=\"\",0,ROUND({cap}-{toAskFor},2))", quarters, p -> orZero(p, () -> p.cap().subtract(p.toAskFor()))));
    }

    private static BigDecimal orZero(BudgetPeriod period, Supplier<BigDecimal> amount) {
        return period.isContingencyKnown() ? amount.get() : BigDecimal.ZERO;
    }

    /** The sheet "Budget", and the row in which its quarters begin. */
    private record Periods(Table<BudgetPeriod> table, int firstRow) {
    }

    /** @param formula of columns of the sheet "Budget" */
    private static BarCharts.Series series(String name, Periods periods, String formula, List<BudgetPeriod> quarters,
                                           Function<BudgetPeriod, BigDecimal> value) {
        return new BarCharts.Series(name, quarters.stream().map(value).map(BigDecimal::doubleValue).toArray(Double[]::new),
            IntStream.range(0, quarters.size()).mapToObj(i -> periods.table.resolved(formula.replace("{", "'" + periods.table.name() + "'!{"), periods.firstRow + i)).toList());
    }

    private void consumed() {
        double[] percents = result.machines().stream().flatMap(machine -> machine.activeDrives().stream())
            .map(drive -> drive.wear().consumedPercent()).filter(p -> p != null).mapToDouble(Double::doubleValue).toArray();
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
        charts.compared("Drives by consumed endurance", "Written, % of rated", "Drives", labels, List.of(new BarCharts.Series("drives", counts)));
    }

    private void memory() {
        List<MemoryBand> bands = result.fleet().memoryBands().stream().filter(band -> band.gigabytesPerDay().size() > 0).toList();
        charts.ranges("Write rate by memory size: median, with a line over the middle half (a cause to check, no proof)", "Memory",
            "GB a day", bands.stream().map(band -> (band.memoryGibibytes() == 0 ? "not reported" : band.memoryGibibytes() + " GiB") + ", n = "
                + band.gigabytesPerDay().size()).toList(),
            values("median", bands, band -> band.gigabytesPerDay().median()),
            values("lower quartile", bands, band -> band.gigabytesPerDay().lowerQuartile()),
            values("upper quartile", bands, band -> band.gigabytesPerDay().upperQuartile()), List.of());
    }

    private void models() {
        List<ModelSummary> models = result.fleet().models().stream().filter(model -> model.group() > 0)
            .sorted(Comparator.comparingDouble(ModelSummary::typicalPercentPerYear).reversed().thenComparing(ModelSummary::driveModel))
            .limit(MOST_MODELS).toList();
        charts.ranges("Typical wear by drive model, with a line over its 95 % interval; where lines overlap, do not rely on the order", "Drive model",
            "% of rated a year", models.stream().map(model -> model.driveModel() + ", n = " + model.consumedPercentPerYear().size()).toList(),
            values("typical", models, ModelSummary::typicalPercentPerYear),
            values("low", models, model -> model.typicalInterval95().low()),
            values("high", models, model -> model.typicalInterval95().high()), List.of());
    }

    /** Those that stand out as they are or adjusted, so that what adjusting does can be seen. */
    private void machineModels() {
        List<ComparedGroup> models = result.fleet().machineModels().stream().filter(model -> model.best().separation() != Separation.NOT_COMPARED)
            .sorted(Comparator.comparingDouble((ComparedGroup model) -> -Math.max(model.best().raw(), model.best().adjusted())).thenComparing(ComparedGroup::name))
            .limit(MOST_MODELS).sorted(ModelTables.MOST_FIRST).toList();
        charts.ranges("Written per " + ModelsText.measure(models) + " by machine model: among machines alike, with a line over its 95 % interval; hollow: not adjusted", "Machine model",
            "Times the typical machine", models.stream().map(model -> model.name() + ", n = " + model.best().drives()).toList(),
            values("adjusted", models, model -> model.best().adjusted()),
            values("low", models, model -> model.best().interval95().low()),
            values("high", models, model -> model.best().interval95().high()),
            List.of(values("not adjusted", models, model -> model.best().raw())));
    }

    private static <T> BarCharts.Series values(String name, List<T> rows, Function<T, Double> value) {
        return new BarCharts.Series(name, rows.stream().map(value).toArray(Double[]::new));
    }
}
