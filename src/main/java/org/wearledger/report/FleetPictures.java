package org.wearledger.report;

import java.time.temporal.IsoFields;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.SweepResult;
import org.wearledger.model.TrendQuarter;

/** The fleet in pictures, each where it is read. */
final class FleetPictures {
    private static final int MOST_MODELS = 15;
    private static final int MOST_QUARTERS = 12;
    private static final int BINS = 12;

    private final SweepResult result;
    private final BarCharts charts;

    FleetPictures(SweepResult result, BarCharts charts) {
        this.result = result;
        this.charts = charts;
    }

    /** How worn the fleet was, quarter by quarter, and beside it how many machines were past their rating; of one quarter alone, how its drives are spread. */
    void trend(BarCharts.Spot left, BarCharts.Spot right) {
        List<TrendQuarter> all = result.fleet().trend().stream().filter(quarter -> quarter.drives() > 0).toList();
        List<TrendQuarter> quarters = all.subList(Math.max(0, all.size() - MOST_QUARTERS), all.size());
        if (quarters.size() < 2) {
            consumed(left);
            return;
        }
        List<String> names = quarters.stream().map(FleetPictures::name).toList();
        charts.at(left).compared("Consumed endurance of the fleet", "Quarter", "% of rated", names, List.of(
            values("half of the drives below", quarters, TrendQuarter::medianConsumedPercent), values("nine of ten below", quarters, TrendQuarter::ninetiethConsumedPercent)));
        charts.at(right).compared("Machines past rating", "Quarter", "Machines", names, List.of(values("machines", quarters, quarter -> (double) quarter.machinesPastRating())));
    }

    /** Example: {@code 2024 Q3}, by the calendar. */
    private static String name(TrendQuarter quarter) {
        return quarter.from().getYear() + " Q" + quarter.from().get(IsoFields.QUARTER_OF_YEAR);
    }

    private void consumed(BarCharts.Spot spot) {
        double[] percents = result.machines().stream().flatMap(machine -> machine.activeDrives().stream())
            .map(drive -> drive.wear().consumedPercent()).filter(p -> p != null).mapToDouble(Double::doubleValue).toArray();
        if (percents.length == 0) {
            return;
        }
        Double[] counts = new Double[BINS];
        Arrays.fill(counts, 0.0);
        for (double percent : percents) {
            counts[percent < 100 ? (int) (percent / 10) : percent < 150 ? BINS - 2 : BINS - 1]++;
        }
        List<String> labels = new ArrayList<>(IntStream.range(0, 10).mapToObj(i -> i * 10 + " to " + (i + 1) * 10).toList());
        labels.add("100 to 150");
        labels.add("150 and more");
        charts.at(spot).compared("Drives by consumed endurance", "Written, % of rated", "Drives", labels, List.of(new BarCharts.Series("drives", counts)));
    }

    /** Whether there is one to draw. */
    boolean models(BarCharts.Spot spot) {
        List<ModelSummary> models = result.fleet().models().stream().filter(model -> model.group() > 0)
            .sorted(Comparator.comparingDouble(ModelSummary::typicalPercentPerYear).reversed().thenComparing(ModelSummary::driveModel))
            .limit(MOST_MODELS).toList();
        if (models.isEmpty()) {
            return false;
        }
        charts.at(spot).ranges("Typical wear by drive model, with its 95 % interval", "Drive model",
            "% of rated a year", models.stream().map(model -> model.driveModel() + ", n = " + model.consumedPercentPerYear().size()).toList(),
            values("typical", models, ModelSummary::typicalPercentPerYear),
            values("low", models, model -> model.typicalInterval95().low()),
            values("high", models, model -> model.typicalInterval95().high()), List.of());
        return true;
    }

    /** Those that stand out as they are or adjusted, so that what adjusting does can be seen. */
    boolean machineModels(BarCharts.Spot spot) {
        List<ComparedGroup> models = result.fleet().machineModels().stream().filter(model -> model.best().separation() != Separation.NOT_COMPARED)
            .sorted(Comparator.comparingDouble((ComparedGroup model) -> -Math.max(model.best().raw(), model.best().adjusted())).thenComparing(ComparedGroup::name))
            .limit(MOST_MODELS).sorted(ModelTables.MOST_FIRST).toList();
        if (models.isEmpty()) {
            return false;
        }
        charts.at(spot).ranges("Written per " + ModelTables.measure(models) + " by machine model, among machines alike, with its 95 % interval; hollow: not adjusted", "Machine model",
            "Times the typical machine", models.stream().map(model -> model.name() + ", n = " + model.best().drives()).toList(),
            values("adjusted", models, model -> model.best().adjusted()),
            values("low", models, model -> model.best().interval95().low()),
            values("high", models, model -> model.best().interval95().high()),
            List.of(values("not adjusted", models, model -> model.best().raw())));
        return true;
    }

    private static <T> BarCharts.Series values(String name, List<T> rows, Function<T, Double> value) {
        return new BarCharts.Series(name, rows.stream().map(value).toArray(Double[]::new));
    }
}
