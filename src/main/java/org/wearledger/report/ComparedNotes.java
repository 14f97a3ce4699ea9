package org.wearledger.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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
    private static final int MOST_MACHINES = 12;
    private static final int MOST = 3;
    private static final int MOST_SITES = 2;
    private static final int MOST_DRIVES = 5;
    /** Of fewer machines none is named as one that writes or wears little. */
    private static final int LEAST_MACHINES = 20;
    /** Of models that do not differ so many fall beyond one end of their 95 % interval. */
    private static final double BEYOND_BY_CHANCE = 0.025;

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
        List<ComparedGroup> machines = ModelTables.compared(result.fleet().machineModels());
        List<ComparedGroup> sites = ModelTables.compared(result.fleet().sites());
        if (!machines.isEmpty()) {
            notes.add(new Note("Machine models that write most", "times typical GB per " + ModelTables.measure(machines) + " (95 %), alike in memory and shop: "
                + inShort(with(machines, Separation.MORE_THAN_TYPICAL)) + "; " + byChance(machines.size()) + "; " + SweepWriter.MACHINE_MODELS_CSV));
            notToldApart(machines);
        }
        drives();
        memory();
        if (!sites.isEmpty()) {
            notes.add(new Note("Shops by what their machines write", "times the typical (95 %), alike in memory and model: more: " + orNone(with(sites, Separation.MORE_THAN_TYPICAL), MOST_SITES)
                + "; less: " + orNone(with(sites, Separation.LESS_THAN_TYPICAL).stream().sorted(Comparator.comparing(site -> site.best().adjusted())).toList(), MOST_SITES) + "; " + SweepWriter.SITES_CSV));
        }
        evidence(machines);
        return notes;
    }

    /** Each size against the next, where they differ. */
    private void memory() {
        Map<Boolean, List<MemoryContrast>> byTold = result.fleet().memoryContrasts().stream()
            .collect(Collectors.partitioningBy(contrast -> contrast.separation().standsOut()));
        List<MemoryContrast> told = byTold.get(true);
        List<MemoryContrast> alike = byTold.get(false);
        if (result.fleet().memoryContrasts().isEmpty()) {
            return;
        }
        String clear = told.isEmpty() ? "no clear difference between sizes" : "95 %: " + told.stream().limit(MOST).map(ComparedNotes::difference).collect(Collectors.joining(", "));
        String unclear = told.isEmpty() || alike.isEmpty() ? "" : "; no clear difference: " + Wording.named(alike, MOST, ComparedNotes::sizes);
        notes.add(new Note("Memory", clear + ": a cause to check, no proof" + unclear));
    }

    private static String difference(MemoryContrast contrast) {
        double shift = contrast.shiftGigabytesPerDay();
        return sizes(contrast) + " " + (shift > 0 ? "+" : "") + Wording.number(shift, 1) + " GB a day" + Wording.between(contrast.shiftInterval95(), 1, 1);
    }

    private static String sizes(MemoryContrast contrast) {
        return contrast.smallerGibibytes() + " against " + contrast.largerGibibytes() + " GiB";
    }

    /** How many models say nothing of themselves, and how far the order of the others goes. */
    private void notToldApart(List<ComparedGroup> machines) {
        Map<Separation, List<ComparedGroup>> others = machines.stream().filter(model -> !model.separation().standsOut()).collect(Collectors.groupingBy(ComparedGroup::separation, TreeMap::new, Collectors.toList()));
        List<ComparedGroup> more = with(machines, Separation.MORE_THAN_TYPICAL);
        long overlapping = more.stream().takeWhile(model -> model.best().interval95().high() >= more.get(0).best().interval95().low()).count();
        List<String> words = new ArrayList<>();
        others.forEach((separation, models) -> words.add(models.size() + " " + (separation == Separation.CANNOT_BE_SEPARATED ? "like the typical" : separation.label() + seeming(models))));
        if (overlapping > 1) {
            words.add("the first " + overlapping + " above overlap: no sure order");
        }
        if (!words.isEmpty()) {
            notes.add(new Note("Machine models not told apart", "of " + machines.size() + ": " + String.join(", ", words)));
        }
    }

    /** Who compares models without adjusting will ask. */
    private static String seeming(List<ComparedGroup> explained) {
        List<ComparedGroup> seeming = explained.stream().filter(model -> model.best().raw() > 1).sorted(Comparator.comparingDouble(model -> -model.best().raw())).toList();
        return seeming.isEmpty() ? "" : " (not adjusted " + Wording.named(seeming, MOST, model -> model.name() + " " + Wording.number(model.best().raw(), 1)) + ")";
    }

    private void drives() {
        List<ModelSummary> told = result.fleet().models().stream().filter(model -> model.implied() != null).toList();
        if (!told.isEmpty()) {
            List<ModelSummary> faster = faster(false);
            List<ModelSummary> fasterThanAssumed = faster(true);
            long lasting = told.stream().filter(model -> model.implied().lastsItsRating()).count();
            long unclear = result.fleet().models().size() - faster.size() - fasterThanAssumed.size() - lasting;
            notes.add(new Note("Drive models that wear faster than rated", "times what the maker promises (95 %): "
                + (faster.isEmpty() ? "none for certain" : Wording.named(faster, MOST_DRIVES, ComparedNotes::faster))
                + (fasterThanAssumed.isEmpty() ? "" : "; times what is usual for the size (rating assumed): " + Wording.named(fasterThanAssumed, MOST_DRIVES, ComparedNotes::faster))
                + "; last at least 80 % of it: " + lasting + (unclear == 0 ? "" : "; too little data: " + unclear) + "; " + SweepWriter.MODELS_CSV));
        }
        List<ModelSummary> yearly = result.fleet().models().stream().filter(model -> model.group() > 0).sorted(Comparator.comparingDouble(ModelTables::yearlyWear).reversed()).toList();
        if (!yearly.isEmpty() && (told.isEmpty() || inFull)) {
            notes.add(new Note("Drive models by wear a year", "in % of what they last, mostly by what their users write and by capacity: " + Wording.named(yearly, MOST, model -> model.driveModel()
                + (model.capacitiesGigabytes().isEmpty() ? "" : " (" + ModelTables.capacities(model) + " GB)") + " " + Wording.number(ModelTables.yearlyWear(model), 1)) + "; alike in capacity, memory, shop and machine model, times the typical (95 %): "
                + orNone(yearly.stream().filter(model -> model.atEqualCapacity().separation() == Separation.MORE_THAN_TYPICAL).map(ComparedNotes::atEqualCapacity).toList(), MOST)));
        }
    }

    /** The fastest first. */
    private List<ModelSummary> faster(boolean isAssumed) {
        return result.fleet().models().stream().filter(model -> ModelTables.isContradicted(model) && model.implied().ofRated() < 1 && model.implied().rated().assumed() == isAssumed)
            .sorted(Comparator.comparing(model -> model.implied().ofRated())).toList();
    }

    private static String faster(ModelSummary model) {
        ImpliedRating implied = model.implied();
        return model.driveModel() + " " + Wording.number(1 / implied.ofRated(), 1) + " (" + Wording.number(1 / implied.interval95().high(), 1) + " to " + Wording.number(1 / implied.interval95().low(), 1)
            + "; n " + implied.drives() + "; fits " + implied.fittingTerabytes().toPlainString() + " of " + Wording.number(implied.rated().ratedTerabytesWritten(), 0) + " TB)";
    }

    /** Nobody's recommendation: what was seen of the models, and what nobody could see. */
    private void evidence(List<ComparedGroup> machines) {
        List<ComparedGroup> many = machines.stream().filter(model -> model.best().drives() >= LEAST_MACHINES).toList();
        List<ModelSummary> drives = result.fleet().models().stream().filter(model -> model.atEqualCapacity().drives() >= LEAST_MACHINES || ModelTables.isContradicted(model)).toList();
        if (many.isEmpty() && drives.isEmpty()) {
            return;
        }
        List<String> avoid = new ArrayList<>();
        add(avoid, "wears faster than its rating", faster(false).stream().map(ModelSummary::driveModel).toList());
        add(avoid, "faster than usual, rating assumed", faster(true).stream().map(ModelSummary::driveModel).toList());
        List<ComparedGroup> more = with(many, Separation.MORE_THAN_TYPICAL);
        add(avoid, "writes more", more.stream().map(ComparedGroup::name).toList());
        List<ComparedGroup> less = with(many, Separation.LESS_THAN_TYPICAL).stream().sorted(Comparator.comparing(model -> model.best().adjusted())).toList();
        List<ComparedGroup> lasting = drives.stream().filter(model -> model.atEqualCapacity().separation() == Separation.LESS_THAN_TYPICAL
            && (model.implied() == null || model.implied().interval95().high() >= 1)).map(ComparedNotes::atEqualCapacity).sorted(Comparator.comparing(model -> model.best().adjusted())).toList();
        List<ComparedGroup> better = Stream.concat(less.stream(), lasting.stream()).toList();
        long others = drives.size() - lasting.size() - faster(false).size() - faster(true).size();
        notes.add(new Note("Models to buy, as far as seen", "avoid: " + (avoid.isEmpty() ? "none" : String.join("; ", avoid)) + ". No difference seen: " + Wording.count(many.size() - more.size() - less.size(), "machine model")
            + ", " + Wording.count(others, "drive model") + " (from " + LEAST_MACHINES + " machines on; column \"Result\" names them). Stands out as better: "
            + (better.isEmpty() ? "none" : orNone(better, MOST) + " times the typical (95 %), " + byChance(many.size() + drives.size())) + ". Not seen: price, failures of all in use"));
    }

    private static void add(List<String> avoid, String why, List<String> models) {
        if (!models.isEmpty()) {
            avoid.add(Wording.named(models, MOST, Function.identity()) + " (" + why + ")");
        }
    }

    private static String byChance(int compared) {
        return "by chance about " + Math.max(1, Math.round(BEYOND_BY_CHANCE * compared)) + " of " + compared;
    }

    private static ComparedGroup atEqualCapacity(ModelSummary model) {
        return new ComparedGroup(model.driveModel(), model.drives(), Double.NaN, model.atEqualCapacity(), ModelFactor.NOT_COMPARED, model.atEqualCapacity());
    }

    private static List<ComparedGroup> with(List<ComparedGroup> groups, Separation separation) {
        return groups.stream().filter(group -> group.separation() == separation).toList();
    }

    private static String orNone(List<ComparedGroup> groups, int most) {
        return groups.isEmpty() ? "none can be separated" : Wording.named(groups, most, group -> factor(group) + "; n " + group.best().drives() + ")");
    }

    /** Many have their numbers of machines told together. */
    private static String inShort(List<ComparedGroup> groups) {
        IntSummaryStatistics n = groups.stream().mapToInt(group -> group.best().drives()).summaryStatistics();
        return groups.size() <= MOST ? orNone(groups, MOST) : Wording.named(groups, MOST_MACHINES, group -> factor(group) + ")") + "; n " + n.getMin() + " to " + n.getMax() + " each";
    }

    private static String factor(ComparedGroup group) {
        return group.name() + " " + Wording.number(group.best().adjusted(), 1) + " (" + Wording.number(group.best().interval95().low(), 1) + " to " + Wording.number(group.best().interval95().high(), 1);
    }
}
