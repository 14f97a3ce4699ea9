package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.spark.broadcast.Broadcast;
import org.wearledger.assess.AssumedRatings;
import org.wearledger.assess.Backtest;
import org.wearledger.assess.BacktestSummary;
import org.wearledger.assess.CommonShock;
import org.wearledger.assess.DriveAssessor;
import org.wearledger.assess.FleetComparison;
import org.wearledger.assess.MachineAssessor;
import org.wearledger.assess.Refusals;
import org.wearledger.assess.Ratings;
import org.wearledger.assess.SelfCheck;
import org.wearledger.assess.WearBands;
import org.wearledger.assess.WearModel;
import org.wearledger.assess.WearPast;
import org.wearledger.budget.Budgets;
import org.wearledger.budget.Changes;
import org.wearledger.budget.Warranties;
import org.wearledger.budget.WorkLists;
import org.wearledger.history.Placements;
import org.wearledger.intake.EarlierSweep;
import org.wearledger.intake.Headings;
import org.wearledger.intake.InputMissingException;
import org.wearledger.model.BacktestRun;
import org.wearledger.model.Budget;
import org.wearledger.model.Calibration;
import org.wearledger.model.Comparison;
import org.wearledger.model.Doubted;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.FleetModel;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarrantyCheck;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.SweepSnapshot;

/** One sweep, from report files to its result; and the backtest of its forecasts. */
public final class Sweep {
    /** Drives that the fleet's model is fitted on, at most. */
    private static final int MOST_DRIVES_FITTED = 20_000;
    /** Drives that a backtest forecasts, at most. */
    private static final int MOST_DRIVES_BACKTESTED = 2_000;
    /** Drives behind the one line on calibration that a sweep prints, at most. */
    private static final int MOST_DRIVES_CALIBRATED = 500;

    private static final int MOST_REFUSALS_TOLD = 3;
    private static final int MOST_MACHINES_NAMED = 3;

    private interface Work<T> {
        T on(Gathered gathered) throws IOException;
    }

    private Sweep() {
    }

    /**
     * Reads, joins and assesses.
     *
     * @throws InputRefusedException when an input is not there or cannot serve as what it is named for
     */
    public static SweepResult run(SweepRequest request, Engine engine) throws IOException {
        SweepSnapshot earlier = earlier(request);
        return gathered(request, engine, gathered -> {
            SweepResult result = assess(gathered, request);
            if (result.plan().budget() == null || earlier == null && request.compareWith() == null) {
                return result;
            }
            if (earlier != null) {
                return compared(result, earlier, gathered.tables.prices().values(), request.pseudonyms().isNone() ? "the sweep in " + request.earlier() : "an earlier sweep");
            }
            if (!request.compareWith().isBefore(result.asOf())) {
                throw new InputMissingException("--compare-with " + request.compareWith() + " is not before the as-of date, " + result.asOf());
            }
            SweepRequest then = request.on(request.compareWith());
            SweepResult before = assess(gathered.under(then), then);
            if (before.accounting().readingsKept() == 0) {
                throw new InputMissingException("--compare-with " + request.compareWith() + ": there is no reading up to that date");
            }
            return compared(result, Changes.snapshot(before.machines(), before.plan().budget(), gathered.tables.prices().values()), gathered.tables.prices().values(),
                "the same reports as of " + request.compareWith());
        });
    }

    /** Read first: a folder that holds no sweep is better told before the work than after it. */
    private static SweepSnapshot earlier(SweepRequest request) throws IOException {
        try {
            return request.earlier() == null ? null : request.pseudonyms().of(EarlierSweep.read(Path.of(request.earlier())));
        } catch (InputMissingException e) {
            if (!request.pseudonyms().isNone()) {
                throw new InputRefusedException("no earlier sweep can be read in " + request.earlier() + "; without --pseudonymise it is said why", e);
            }
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    /**
     * Reads and joins alike, then forecasts from each past sweep and holds that against what came, for at most 2,000 drives.
     *
     * @param seed of the resampling of sweeps
     */
    public static BacktestRun backtest(SweepRequest request, Engine engine, long seed) throws IOException {
        return gathered(request, engine, gathered -> {
            List<WearPast> sample = gathered.sample(MOST_DRIVES_BACKTESTED).stream().filter(past -> !past.byPercentage()).toList();
            List<Problem> problems = new ArrayList<>(gathered.problems);
            problems.addAll(gathered.tables.problems());
            problems.sort(null);
            return new BacktestRun(request.version(), gathered.accounting, gathered.pasts(Gathered.Wanted.ALL).filter(past -> !past.byPercentage()).count(), sample.size(),
                BacktestSummary.of(Backtest.run(sample, Backtest.HORIZONS), seed), problems);
        });
    }

    /**
     * Sweeps, and tells one machine's story.
     *
     * @throws InputRefusedException also when no report and no inventory row names the machine
     */
    public static MachineStory explain(SweepRequest request, String machineId, Engine engine) throws IOException {
        return gathered(request, engine, gathered -> {
            SweepResult result = assess(gathered, request);
            String named = request.pseudonyms().machine(machineId);
            String wanted = DriveId.fold(named);
            MachineAssessment machine = result.machines().stream().filter(m -> DriveId.fold(m.machine().id()).equals(wanted)).findFirst()
                .orElseThrow(() -> new InputMissingException("no machine " + named + " in these reports; there "
                    + among(named, result.machines().stream().map(m -> m.machine().id()).toList())));
            Set<DriveId> drives = machine.activeDrives().stream().map(DriveAssessment::id).collect(Collectors.toSet());
            Map<DriveId, DriveHistory> histories = new HashMap<>();
            Set<Long> hashes = drives.stream().map(Parcel::hash).collect(Collectors.toSet());
            gathered.histories(hashes::contains).filter(history -> drives.contains(history.id())).collect().forEach(history -> histories.put(history.id(), history));
            List<MachineStory.DriveStory> stories = machine.activeDrives().stream().map(drive -> new MachineStory.DriveStory(drive,
                histories.get(drive.id()), WearBands.of(drive, result.fleet().fleetModel()), problemsOf(drive.id().toString(), result))).toList();
            return new MachineStory(result.version(), result.asOf(), result.settings(), machine, stories,
                result.plan().budget() == null ? List.of() : result.plan().budget().lines().stream().filter(line -> DriveId.fold(line.machine().id()).equals(wanted)).toList(),
                result.plan().work().stream().filter(item -> DriveId.fold(item.machine().id()).equals(wanted)).toList(), ofItsReports(machine, named, result));
        });
    }

    private static String among(String wanted, List<String> machines) {
        List<String> near = Headings.nearest(wanted, machines, MOST_MACHINES_NAMED);
        return machines.isEmpty() ? "is none" : "are " + machines.size() + (near.isEmpty()
            ? ", such as " + String.join(", ", machines.subList(0, Math.min(MOST_MACHINES_NAMED, machines.size()))) : ", the nearest " + String.join(", ", near));
    }

    /** A machine without any report may be in the files that were refused; a column that is missing may be missing for it. */
    private static List<Problem> ofItsReports(MachineAssessment machine, String named, SweepResult result) {
        List<Problem> own = new ArrayList<>(problemsOf(named, result));
        if (machine.lastSeenAt() == null && own.isEmpty()) {
            result.problems().stream().filter(problem -> problem.kind().effect() == Effect.FILE_REFUSED).limit(MOST_REFUSALS_TOLD).forEach(own::add);
        }
        result.problems().stream().filter(problem -> problem.kind() == ProblemKind.COLUMN_MISSING).forEach(own::add);
        return own;
    }

    private static List<Problem> problemsOf(String subject, SweepResult result) {
        return result.problems().stream().filter(problem -> problem.subject().equalsIgnoreCase(subject)).toList();
    }

    private static <T> T gathered(SweepRequest request, Engine engine, Work<T> work) throws IOException {
        try (Session session = Session.open(engine.master(), new TaskProgress(engine.progress()))) {
            return work.on(new Gathered(session, request, engine.partitions()));
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static SweepResult assess(Gathered gathered, SweepRequest request) {
        SideTableSet tables = gathered.tables;
        SweepSettings settings = request.settings();
        Map<String, Sighting> machines = gathered.machines;
        LocalDate asOf = asOf(settings, machines.values());
        boolean pooled = settings.method() == ProjectionMethod.POOLED;
        List<WearPast> sample = pooled ? gathered.sample(MOST_DRIVES_FITTED) : List.of();
        List<WearPast> byBytes = sample.stream().filter(past -> !past.byPercentage()).toList();
        WearModel model = pooled ? WearModel.of(sample) : null;
        List<WearPast> checked = byBytes.subList(0, Math.min(byBytes.size(), MOST_DRIVES_CALIBRATED));
        Calibration calibration = pooled ? SelfCheck.of(checked, () -> gathered.controlled(checked)) : null;

        List<DriveAssessment> active = asOf == null ? List.of() : activeDrives(gathered, model, asOf, settings);
        List<MachineAssessment> assessed = asOf == null && tables.inventory().values().isEmpty() ? List.of()
            : MachineAssessor.assess(active, map(machines, Sighting::machine), map(machines, Sighting::at),
                setAside(machines, gathered.problems), Refusals.byMachine(gathered.problems), gathered.placements.value().lastDriveNowIn(), tables.inventory().values(), asOf, settings);

        FleetModel fleet = model == null ? null : model.summary(CommonShock.of(byBytes));
        Budget budget = asOf == null ? null
            : Budgets.of(assessed, fleet, tables.prices().values(), asOf, settings, request.budget());
        List<WarrantyCheck> warranties = asOf == null ? List.of() : Warranties.check(assessed, asOf);
        List<MemoryContrast> contrasts = FleetComparison.memoryContrasts(assessed);

        List<Problem> problems = new ArrayList<>(gathered.problems);
        problems.addAll(tables.problems());
        problems.addAll(gathered.placements.value().problems());
        problems.addAll(Sighting.memoryDifferences(machines, tables.inventory()));
        problems.addAll(AssumedRatings.notes(active, tables.ratings().values(), tables.ratings().places()));
        problems.sort(null);
        return new SweepResult(request.version(), asOf, settings, gathered.accounting, assessed,
            new SweepResult.Fleet(FleetComparison.models(assessed), FleetComparison.memoryBands(assessed), contrasts, fleet, calibration), problems,
            new SweepResult.Files(request.pseudonyms().files(gathered.passedOver), tables.names(),
                tables.ratings().values().size(), tables.inventory().values().size(), tables.prices().values().size()),
            new SweepResult.Plan(budget, warranties, budget == null ? List.of() : WorkLists.of(assessed, budget, warranties, contrasts, Doubted.of(problems), asOf), null));
    }

    private static SweepResult compared(SweepResult r, SweepSnapshot before, List<Price> prices, String with) {
        Comparison comparison = Changes.between(before, Changes.snapshot(r.machines(), r.plan().budget(), prices), with, r.asOf(), r.plan().budget().settings());
        return r.compared(comparison);
    }

    /** The machines whose latest report a rule keeps out, with that rule. */
    private static Map<String, ProblemKind> setAside(Map<String, Sighting> machines, List<Problem> problems) {
        Map<SourcePlace, ProblemKind> rules = new HashMap<>();
        problems.stream().filter(problem -> problem.kind().effect() == Effect.READING_SET_ASIDE
                // Another copy of the same reading stands.
                && problem.kind() != ProblemKind.DUPLICATE_IDENTICAL)
            .forEach(problem -> rules.put(problem.source(), problem.kind()));
        Map<String, ProblemKind> latest = new HashMap<>();
        machines.forEach((id, sighting) -> {
            if (rules.containsKey(sighting.source())) {
                latest.put(id, rules.get(sighting.source()));
            }
        });
        return latest;
    }

    private static <T> Map<String, T> map(Map<String, Sighting> machines, Function<Sighting, T> value) {
        Map<String, T> mapped = new HashMap<>();
        machines.forEach((id, sighting) -> mapped.put(id, value.apply(sighting)));
        return mapped;
    }

    /** The date set, else that of the latest report, else {@code null}. */
    private static LocalDate asOf(SweepSettings settings, Collection<Sighting> sightings) {
        return settings.asOf() != null ? settings.asOf() : sightings.stream().map(Sighting::at).max(Comparator.naturalOrder())
            .map(latest -> LocalDate.ofInstant(latest, ZoneOffset.UTC)).orElse(null);
    }

    private static List<DriveAssessment> activeDrives(Gathered gathered, WearModel model, LocalDate asOf, SweepSettings settings) {
        Broadcast<Placements> placements = gathered.placements;
        Broadcast<Map<String, LocalDate>> inService = gathered.inService;
        Broadcast<Ratings> ratings = gathered.ratings;
        // The model travels in the task itself: it is a few numbers and one for each drive model.
        gathered.spark.setJobDescription("assessing drives");
        return gathered.histories(Gathered.Wanted.ALL)
            .filter(h -> placements.value().isActive(h.id(), DriveId.fold(h.latest().reading().machine().id())))
            .map(h -> DriveAssessor.assess(h, ratings.value(), model, asOf, settings,
                placements.value().firstDriveOf(h.id()), Gathered.startOfService(h, inService.value())))
            .map(PackedAssessment::pack).collect().parallelStream().map(PackedAssessment::unpack).sorted(Comparator.comparing(DriveAssessment::id)).toList();
    }
}
