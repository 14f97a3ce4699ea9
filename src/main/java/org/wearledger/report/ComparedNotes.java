package org.wearledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.SweepResult;
import org.wearledger.report.MethodNotes.Note;

/** What machines, shops and drives differ in, one line for each question. */
final class ComparedNotes {
    private static final int MOST_MACHINES = 7;
    private static final int MOST = 3;
    private static final int MOST_SITES = 2;
    private static final int MOST_DRIVES = 5;
    /** Of fewer machines none is named as one that writes or wears little. */
    private static final int LEAST_MACHINES = 20;
    /** Of models that do not differ so many fall below the lower end of their 95 % interval. */
    private static final double BELOW_BY_CHANCE = 0.025;

    private final SweepResult result;
    private final boolean inFull;
    private final List<Note> notes = new ArrayList<>();

    private ComparedNotes(SweepResult result, boolean inFull) {
        this.result = result;
        this.inFull = inFull;
    }

    static List<Note> of(SweepResult result) {
        return new ComparedNotes(result, false).all();
    }

    /** Of drive models alone, with their wear a year, which is mostly that of their users. */
    static List<Note> ofDrives(SweepResult result) {
        ComparedNotes notes = new ComparedNotes(result, true);
        notes.drives();
        return notes.notes;
    }

    private List<Note> all() {
        List<ComparedGroup> machines = ModelsText.compared(result.fleet().machineModels());
        List<ComparedGroup> sites = ModelsText.compared(result.fleet().sites());
        if (!machines.isEmpty()) {
            notes.add(new Note("Machine models that write most", "times typical GB per " + ModelsText.measure(machines) + ", alike in memory and shop: "
                + orNone(with(machines, Separation.MORE_THAN_TYPICAL), MOST_MACHINES) + "; " + SweepWriter.MACHINE_MODELS_CSV));
            seeming(machines);
        }
        drives();
        memory();
        if (!sites.isEmpty()) {
            notes.add(new Note("Shops by what their machines write", "times the typical, alike in memory and model: more: " + orNone(with(sites, Separation.MORE_THAN_TYPICAL), MOST_SITES)
                + "; less: " + orNone(with(sites, Separation.LESS_THAN_TYPICAL).stream().sorted(Comparator.comparing(site -> site.best().adjusted())).toList(), MOST_SITES) + "; " + SweepWriter.SITES_CSV));
        }
        least(machines);
        return notes;
    }

    /** Each size against the next, where the two can be told apart. */
    private void memory() {
        List<MemoryContrast> told = result.fleet().memoryContrasts().stream().filter(contrast -> contrast.shiftInterval95().low() > 0 || contrast.shiftInterval95().high() < 0).toList();
        if (!result.fleet().memoryContrasts().isEmpty()) {
            notes.add(new Note("Memory", (told.isEmpty() ? "no two sizes can be told apart" : told.stream().limit(MOST).map(contrast -> contrast.smallerGibibytes() + " against " + contrast.largerGibibytes() + " GiB "
                + (contrast.shiftGigabytesPerDay() > 0 ? "+" : "") + Wording.number(contrast.shiftGigabytesPerDay(), 1) + " GB a day" + ModelsText.between(contrast.shiftInterval95(), 1, 1))
                .collect(Collectors.joining(", "))) + ": a cause to check, no proof"));
        }
    }

    /** Who compares models without adjusting will ask. */
    private void seeming(List<ComparedGroup> machines) {
        Map<Separation, List<ComparedGroup>> seeming = machines.stream().filter(model -> ModelsText.isExplained(model.best().separation()) && model.best().raw() > 1)
            .sorted(Comparator.comparingDouble(model -> -model.best().raw())).collect(Collectors.groupingBy(model -> model.best().separation(), TreeMap::new, Collectors.toList()));
        if (!seeming.isEmpty()) {
            notes.add(new Note("Machine models that only seem to", "not adjusted " + seeming.entrySet().stream().map(each -> ModelsText.named(each.getValue(), MOST,
                model -> model.name() + " " + Wording.number(model.best().raw(), 1)) + ", " + each.getKey().label()).collect(Collectors.joining("; "))));
        }
    }

    private void drives() {
        List<ModelSummary> told = result.fleet().models().stream().filter(model -> model.implied() != null).toList();
        if (!told.isEmpty()) {
            List<ModelSummary> faster = told.stream().filter(model -> ModelTables.isContradicted(model) && model.implied().ofRated() < 1).sorted(Comparator.comparing(model -> model.implied().ofRated())).toList();
            notes.add(new Note("Drive models that wear faster than rated", "times what the rating promises, by percentage used: "
                + (faster.isEmpty() ? "none for certain" : ModelsText.named(faster, MOST_DRIVES, ComparedNotes::faster)) + "; not so for certain: " + (told.size() - faster.size()) + "; " + SweepWriter.MODELS_CSV));
        }
        List<ModelSummary> yearly = result.fleet().models().stream().filter(model -> model.group() > 0).sorted(Comparator.comparingDouble(ModelTables::yearlyWear).reversed()).toList();
        if (!yearly.isEmpty() && (told.isEmpty() || inFull)) {
            notes.add(new Note("Drive models by wear a year", "in % of what they last, mostly by what their users write and by capacity: " + ModelsText.named(yearly, MOST, model -> model.driveModel()
                + (model.capacitiesGigabytes().isEmpty() ? "" : " (" + ModelTables.capacities(model) + " GB)") + " " + Wording.number(ModelTables.yearlyWear(model), 1)) + "; alike in capacity, memory, shop and machine model, times the typical (95 %): "
                + orNone(yearly.stream().filter(model -> model.atEqualCapacity().separation() == Separation.MORE_THAN_TYPICAL).map(ComparedNotes::atEqualCapacity).toList(), MOST)));
        }
    }

    private static String faster(ModelSummary model) {
        ImpliedRating implied = model.implied();
        return model.driveModel() + " " + Wording.number(1 / implied.ofRated(), 1) + " (" + Wording.number(1 / implied.interval95().high(), 1) + " to " + Wording.number(1 / implied.interval95().low(), 1)
            + "; n " + implied.drives() + ")";
    }

    /** Nobody's recommendation: what was seen, and how easily it comes about. */
    private void least(List<ComparedGroup> machines) {
        List<ComparedGroup> many = machines.stream().filter(model -> model.best().drives() >= LEAST_MACHINES).toList();
        List<ModelSummary> drives = result.fleet().models().stream().filter(model -> model.atEqualCapacity().drives() >= LEAST_MACHINES).toList();
        if (many.isEmpty() && drives.isEmpty()) {
            return;
        }
        List<ComparedGroup> little = with(many, Separation.LESS_THAN_TYPICAL).stream().sorted(Comparator.comparing(model -> model.best().adjusted())).toList();
        List<ComparedGroup> lasting = drives.stream().filter(model -> model.atEqualCapacity().separation() == Separation.LESS_THAN_TYPICAL
            && (model.implied() == null || model.implied().interval95().high() >= 1)).map(ComparedNotes::atEqualCapacity).sorted(Comparator.comparing(model -> model.best().adjusted())).toList();
        notes.add(new Note("Models that write or wear least", "of those with " + LEAST_MACHINES + " machines or more, times the typical: machine models: " + orNone(little, MOST)
            + "; drive models that keep to their rating: " + orNone(lasting, MOST) + ". Of " + (many.size() + drives.size()) + " compared about "
            + Math.max(1, Math.round(BELOW_BY_CHANCE * (many.size() + drives.size()))) + " would look so by chance. Only of machines that came in"));
    }

    private static ComparedGroup atEqualCapacity(ModelSummary model) {
        return new ComparedGroup(model.driveModel(), model.drives(), Double.NaN, model.atEqualCapacity(), ModelFactor.NOT_COMPARED, model.atEqualCapacity());
    }

    private static List<ComparedGroup> with(List<ComparedGroup> groups, Separation separation) {
        return groups.stream().filter(group -> group.best().separation() == separation).toList();
    }

    private static String orNone(List<ComparedGroup> groups, int most) {
        Function<ComparedGroup, String> words = group -> group.name() + " " + Wording.number(group.best().adjusted(), 1) + " (" + Wording.number(group.best().interval95().low(), 1) + " to "
            + Wording.number(group.best().interval95().high(), 1) + "; n " + group.best().drives() + ")";
        return groups.isEmpty() ? "none can be separated" : ModelsText.named(groups, most, words);
    }
}
