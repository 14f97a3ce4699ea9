package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.DriveId;
import org.wearledger.model.Failures;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** The tables of drive models and of machine models. */
final class ModelTables {
    /** What was compared before what was not, the largest factor first. */
    static final Comparator<ComparedGroup> MOST_FIRST = Comparator.comparing((ComparedGroup model) -> model.best().separation() == Separation.NOT_COMPARED)
        .thenComparing(Comparator.comparingDouble((ComparedGroup model) -> model.best().adjusted()).reversed()).thenComparing(ComparedGroup::name);

    /** By what the drives last. */
    private static final Comparator<ModelSummary> FASTEST_FIRST = Comparator.comparingDouble((ModelSummary model) -> Double.isNaN(yearlyWear(model)) ? 0 : -yearlyWear(model))
        .thenComparing(ModelSummary::driveModel);

    private ModelTables() {
    }

    static Table<ModelSummary> drives(SweepResult result) {
        List<Column<ModelSummary>> columns = new ArrayList<>();
        columns.add(text("driveModel", "Drive model", ModelSummary::driveModel));
        columns.add(integer("drives", "Drives", "", ModelSummary::drives));
        for (Standing standing : Standing.values()) {
            columns.add(integer(Tables.camelCase(standing.label()), Wording.sentenceCase(standing.label()), "drives",
                model -> model.standings().getOrDefault(standing, 0)));
        }
        columns.addAll(Tables.spread("consumedPercent", "Consumed of rated", "%", 1, ModelSummary::consumedPercent));
        columns.addAll(Tables.spread("gigabytesPerDay", "Write rate", "GB/day", 2, ModelSummary::gigabytesPerDay));
        columns.addAll(Tables.spread("consumedPercentPerYear", "Consumed per year", "%", 2, ModelSummary::consumedPercentPerYear));
        columns.add(integer("ratingsAssumed", "Ratings assumed", "drives", ModelSummary::ratingsAssumed));
        columns.add(longText("comparison", "Finding", model -> DifferenceWords.of(model.againstRest()) + byControllers(model)));
        columns.add(decimal("typicalPercentPerYear", "Typical wear", "% a year", 2, ModelSummary::typicalPercentPerYear));
        columns.add(decimal("typicalLow95PercentPerYear", "95 % interval low", "% a year", 2, model -> model.typicalInterval95().low()));
        columns.add(decimal("typicalHigh95PercentPerYear", "95 % interval high", "% a year", 2, model -> model.typicalInterval95().high()));
        columns.add(integer("wearGroup", "Wear group, 1 is fastest", "", model -> model.group() == 0 ? null : model.group()));
        Map<String, Failures.OfModel> failures = result.fleet().repairs().failures().models().stream().collect(Collectors.toMap(Failures.OfModel::driveModel, Function.identity()));
        columns.add(decimal("failuresPerYearPercent", "Failures without wear", "% a year", 2, failing(failures, Failures.OfModel::perYear)));
        columns.add(decimal("failuresLow95PercentPerYear", "Failures without wear, 95 % interval low", "% a year", 2, failing(failures, model -> model.perYear95().low())));
        columns.add(decimal("failuresHigh95PercentPerYear", "Failures without wear, 95 % interval high", "% a year", 2, failing(failures, model -> model.perYear95().high())));
        columns.add(text("capacityGigabytes", "Capacities, GB", ModelTables::capacities));
        columns.addAll(factor("equalCapacity", "Wear at equal capacity", ModelSummary::atEqualCapacity));
        columns.add(decimal("percentageUsedMedian", "Percentage used, median", "%", 0, ModelSummary::medianPercentageUsed));
        columns.add(integer("impliedDrives", "Implied endurance, drives", "", implied(ImpliedRating::drives)));
        columns.add(decimal("impliedOfRatedPercent", "Implied endurance of rated", "%", 0, implied(rating -> 100 * rating.ofRated())));
        columns.add(decimal("impliedLow95Percent", "Implied endurance of rated, 95 % interval low", "%", 0, implied(rating -> 100 * rating.interval95().low())));
        columns.add(decimal("impliedHigh95Percent", "Implied endurance of rated, 95 % interval high", "%", 0, implied(rating -> 100 * rating.interval95().high())));
        columns.add(decimal("fittingTerabytes", "Rating that would fit", "TB", 0,
            implied(rating -> rating.contradictsRating() ? rating.fittingTerabytes() : null)));
        return new Table<>("Models", columns, result.fleet().models());
    }

    private static Function<ModelSummary, Double> failing(Map<String, Failures.OfModel> failures, ToDoubleFunction<Failures.OfModel> rate) {
        return model -> {
            Failures.OfModel own = failures.get(DriveId.fold(model.driveModel()));
            return own == null ? null : (Double) (100 * rate.applyAsDouble(own));
        };
    }

    private static <R> Function<ModelSummary, R> implied(Function<ImpliedRating, R> figure) {
        return model -> model.implied() == null ? null : figure.apply(model.implied());
    }

    /** In percent a year: of the rating, or of what the drives last where they contradict it. */
    static double yearlyWear(ModelSummary model) {
        return isContradicted(model) ? model.typicalPercentPerYear() / model.implied().ofRated() : model.typicalPercentPerYear();
    }

    static List<ModelSummary> fastestFirst(List<ModelSummary> models) {
        return models.stream().sorted(FASTEST_FIRST).toList();
    }

    static boolean isContradicted(ModelSummary model) {
        return model.implied() != null && model.implied().contradictsRating();
    }

    /** What its wear by the rating is to be read with; empty where the controllers agree, or tell nothing. */
    static String byControllers(ModelSummary model) {
        ImpliedRating implied = model.implied();
        if (isContradicted(model)) {
            return "; its drives last " + implied.fittingTerabytes().toPlainString() + " TB by their controllers, not the " + ratedTerabytes(implied)
                + (Double.isNaN(yearlyWear(model)) ? "" : ": then " + Wording.number(yearlyWear(model), 1) + " % a year");
        }
        return implied == null || !implied.differsFromRating() ? "" : "; by its controllers it would wear " + (implied.ofRated() > 1 ? "slower" : "faster") + ", but they tell too little to be sure";
    }

    /** Example: {@code assumed 307}. */
    static String ratedTerabytes(ImpliedRating implied) {
        return (implied.rated().assumed() ? "assumed " : "rated ") + Wording.number(implied.rated().ratedTerabytesWritten(), 0);
    }

    /** Example: {@code 256, 512}. */
    static String capacities(ModelSummary model) {
        return model.capacitiesGigabytes().stream().map(String::valueOf).collect(Collectors.joining(", "));
    }

    static Table<ComparedGroup> machines(SweepResult result) {
        return groups("Machine models", "machineModel", "Machine model", result.fleet().machineModels());
    }

    /** Empty where there is one site only. */
    static Table<ComparedGroup> sites(SweepResult result) {
        return groups("Sites", "site", "Site", compared(result.fleet().sites()));
    }

    /** By hours, where these were compared: seven columns to read, then those to look up. */
    static Table<ComparedGroup> onSheet(Table<ComparedGroup> table) {
        String best = measure(table.rows()).equals("day") ? "perDay" : "perHour";
        return table.showing(List.of(table.columns().get(0).name(), "drives", "result", best + "Factor", best + "Low95Factor", best + "High95Factor", best + "RawFactor",
            "gigabytesPerHourMedian", "wearFactor", "wearLow95Factor", "wearHigh95Factor"));
    }

    /** The same of drive models, those that wear fastest by what they last first. */
    static Table<ModelSummary> drivesOnSheet(SweepResult result) {
        Table<ModelSummary> drives = drives(result).with(0, text("rating", "Rating", model -> model.ratingsAssumed() == 0 ? "the maker's" : model.ratingsAssumed() < model.drives() ? "assumed of some" : "assumed"))
            .with(0, decimal("lastingPercentPerYear", "Typical wear of what its drives last", "% a year", 2, ModelTables::yearlyWear));
        return drives.showing(List.of("driveModel", "drives", "comparison", "typicalPercentPerYear", "typicalLow95PercentPerYear", "typicalHigh95PercentPerYear", "fittingTerabytes",
            "capacityGigabytes", "rating", "lastingPercentPerYear", "equalCapacityResult", "equalCapacityFactor", "impliedOfRatedPercent", "impliedLow95Percent", "impliedHigh95Percent"))
            .sortedBy(FASTEST_FIRST);
    }

    private static Table<ComparedGroup> groups(String sheet, String name, String heading, List<ComparedGroup> groups) {
        List<Column<ComparedGroup>> columns = new ArrayList<>();
        columns.add(text(name, heading, ComparedGroup::name));
        columns.add(integer("drives", "Drives", "", ComparedGroup::drives));
        columns.add(text("result", "Result", group -> group.separation().label()));
        columns.add(decimal("gigabytesPerHourMedian", "Written per power-on hour, median", "GB", 2, ComparedGroup::gigabytesPerHour));
        columns.addAll(factor("perHour", "Written per hour", ComparedGroup::perHour));
        columns.addAll(factor("perDay", "Written per day", ComparedGroup::perDay));
        columns.addAll(factor("wear", "Wear", ComparedGroup::wear));
        return new Table<>(sheet, columns, groups).sortedBy(MOST_FIRST);
    }

    /** Against the typical one. */
    private static <T> List<Column<T>> factor(String name, String heading, Function<T, ModelFactor> factor) {
        return List.of(
            text(name + "Result", heading + ", result", row -> factor.apply(row).separation().label()),
            decimal(name + "Factor", heading + ", times typical", "", 2, row -> factor.apply(row).adjusted()),
            decimal(name + "Low95Factor", heading + ", 95 % interval low", "", 2, row -> factor.apply(row).interval95().low()),
            decimal(name + "High95Factor", heading + ", 95 % interval high", "", 2, row -> factor.apply(row).interval95().high()),
            decimal(name + "RawFactor", heading + ", not adjusted", "", 2, row -> factor.apply(row).raw()),
            integer(name + "Drives", heading + ", drives", "", row -> factor.apply(row).drives()));
    }

    /** The largest factor first. */
    static List<ComparedGroup> compared(List<ComparedGroup> groups) {
        return groups.stream().filter(model -> model.best().separation() != Separation.NOT_COMPARED).sorted(MOST_FIRST).toList();
    }

    static String measure(List<ComparedGroup> compared) {
        return compared.stream().anyMatch(model -> model.perHour().separation() != Separation.NOT_COMPARED) ? "power-on hour" : "day";
    }
}
