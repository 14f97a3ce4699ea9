package org.wearledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.SweepResult;

/** What the summary says of drive models and of machine models. */
final class ModelsText {
    /** Of every comparison of models. */
    static final String SELECTION = "only machines that reported are compared; they are not all machines";
    private static final int MOST_MODELS = 10;
    private static final int MOST_IN_SHORT = 3;

    private final SweepResult result;
    private final MarkdownLines lines;

    ModelsText(SweepResult result, MarkdownLines lines) {
        this.result = result;
        this.lines = lines;
    }

    void write() {
        machines();
        drives();
        ratings();
    }

    private static List<ComparedGroup> moreThanTypical(List<ComparedGroup> compared) {
        return compared.stream().filter(model -> model.separation() == Separation.MORE_THAN_TYPICAL).toList();
    }

    private static Map<Separation, List<ComparedGroup>> others(List<ComparedGroup> compared) {
        Map<Separation, List<ComparedGroup>> others = compared.stream().collect(Collectors.groupingBy(ComparedGroup::separation, TreeMap::new, Collectors.toList()));
        others.remove(Separation.MORE_THAN_TYPICAL);
        return others;
    }

    private void machines() {
        List<ComparedGroup> compared = ModelTables.compared(result.fleet().machineModels());
        if (compared.isEmpty()) {
            return;
        }
        lines.heading("Machine models by what they write");
        lines.bullet(SELECTION);
        lines.bullet("times the typical machine in GB per " + ModelTables.measure(compared) + ", among machines alike in memory and site, with 95 % interval; " + SweepWriter.MACHINE_MODELS_CSV + " has each");
        lines.bullets(moreThanTypical(compared), MOST_MODELS, SweepWriter.MACHINE_MODELS_CSV, ModelsText::machineEntry);
        others(compared).forEach(this::other);
    }

    private static String machineEntry(ComparedGroup model) {
        ModelFactor factor = model.best();
        return model.name() + ": " + times(factor.adjusted()) + Wording.between(factor.interval95(), 1, 2) + ", n = " + factor.drives() + "; not adjusted "
            + Wording.number(factor.raw(), 2);
    }

    /** With the models that look as if they wrote more: who compares them without adjusting will ask. */
    private void other(Separation separation, List<ComparedGroup> models) {
        List<ComparedGroup> seeming = models.stream().filter(model -> isExplained(separation) && model.best().raw() > 1)
            .sorted(Comparator.comparingDouble(model -> -model.best().raw())).toList();
        lines.bullet(separation.label() + ": " + Wording.count(models.size(), "model") + (seeming.isEmpty() ? ""
            : "; not adjusted " + Wording.named(seeming, MOST_IN_SHORT, model -> model.name() + " " + Wording.number(model.best().raw(), 2))));
    }

    static boolean isExplained(Separation separation) {
        return separation.name().startsWith("EXPLAINED");
    }

    private static String times(double factor) {
        return Wording.number(factor, 2) + " times";
    }

    /** The fastest wearing first, of those that are rated. */
    static List<ModelSummary> rated(SweepResult result) {
        return ModelTables.fastestFirst(result.fleet().models()).stream().filter(model -> model.group() > 0).toList();
    }

    /** The headings, then as many models: percent of the rated endurance a year, with 95 % interval. */
    static List<List<String>> driveTable(List<ModelSummary> rated, int most) {
        List<List<String>> table = new ArrayList<>(List.of(List.of("Drive model", "GB", "Drives", "By the rating", "By its controllers", "Result")));
        rated.stream().limit(most).map(ModelsText::driveRow).forEach(table::add);
        return table;
    }

    private void drives() {
        List<ModelSummary> rated = rated(result);
        if (rated.isEmpty()) {
            return;
        }
        lines.heading("Drive models by wear per year");
        lines.table(driveTable(rated, MOST_MODELS), column -> column > 0 && column < 5);
        if (rated.size() > MOST_MODELS) {
            lines.bullet("and " + (rated.size() - MOST_MODELS) + " more in " + SweepWriter.MODELS_CSV);
        }
        lines.bullet("percent of the rated endurance a year, with 95 % interval; by the controllers where they contradict the rating");
        lines.bullet(SELECTION);
        if (rated.size() > 1 && rated.stream().map(ModelSummary::typicalPercentPerYear).distinct().count() == 1) {
            lines.bullet("the models differ by no more than chance would have them differ: one figure stands for all");
        }
    }

    private static List<String> driveRow(ModelSummary model) {
        return List.of(model.driveModel(), ModelTables.capacities(model), String.valueOf(model.consumedPercentPerYear().size()),
            Wording.number(model.typicalPercentPerYear(), 1) + " %" + Wording.between(model.typicalInterval95(), 1, 1),
            ModelTables.isContradicted(model) ? Wording.number(ModelTables.yearlyWear(model), 1) + " %" : "",
            result(model));
    }

    /** Faster or slower than the rest, what explains it, and how sure its rating is. */
    private static String result(ModelSummary model) {
        String explained = model.atEqualCapacity().separation() != Separation.EXPLAINED_BY_CAPACITY ? "" : model.atEqualCapacity().raw() > 1 ? "; its small capacity explains that" : "; its large capacity explains that";
        String difference = switch (model.againstRest().separation()) {
            case MORE_THAN_TYPICAL -> "faster than the rest" + explained;
            case LESS_THAN_TYPICAL -> "slower than the rest" + explained;
            case NOT_COMPARED -> "too few to compare";
            default -> "no clear difference";
        };
        return difference + (model.ratingsAssumed() == 0 ? "" : model.ratingsAssumed() == model.drives() ? "; rating assumed" : "; " + Wording.count(model.ratingsAssumed(), "rating") + " assumed");
    }

    /** Those that promise too much first. */
    private List<ModelSummary> contradicted() {
        return result.fleet().models().stream().filter(ModelTables::isContradicted)
            .sorted(Comparator.comparingDouble((ModelSummary model) -> model.implied().ofRated()).thenComparing(ModelSummary::driveModel)).toList();
    }

    private void ratings() {
        List<ModelSummary> contradicted = contradicted();
        if (!contradicted.isEmpty()) {
            lines.heading("Ratings that the drives contradict");
            lines.bullet("check these ratings before ordering or claiming: the controllers' own estimate says otherwise");
            lines.bullets(contradicted, MOST_MODELS, SweepWriter.MODELS_CSV, ModelsText::ratingEntry);
        }
    }

    private static String ratingEntry(ModelSummary model) {
        return model.driveModel() + ": " + ModelTables.ratedTerabytes(model.implied()) + " TB; " + model.implied().fittingTerabytes().toPlainString() + " TB would fit, "
            + Wording.number(100 * model.implied().ofRated(), 0) + " % of it" + Wording.between(model.implied().interval95(), 100, 0) + ", by " + Wording.count(model.implied().drives(), "drive");
    }
}
