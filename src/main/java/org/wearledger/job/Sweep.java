package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.assess.AssumedRatings;
import org.wearledger.assess.Backtest;
import org.wearledger.assess.BacktestSummary;
import org.wearledger.assess.CommonShock;
import org.wearledger.assess.FleetComparison;
import org.wearledger.assess.MachineAssessor;
import org.wearledger.assess.MachineModels;
import org.wearledger.assess.Refusals;
import org.wearledger.assess.SelfCheck;
import org.wearledger.assess.WearModel;
import org.wearledger.assess.WearPast;
import org.wearledger.budget.BudgetFacts;
import org.wearledger.budget.Budgets;
import org.wearledger.budget.SweepComparison;
import org.wearledger.budget.Warranties;
import org.wearledger.budget.WorkLists;
import org.wearledger.intake.EarlierSweep;
import org.wearledger.intake.InputMissingException;
import org.wearledger.model.BacktestRun;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.BudgetSettings.RateSource;
import org.wearledger.model.Calibration;
import org.wearledger.model.ComparedSweeps;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Effect;
import org.wearledger.model.FleetModel;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.SweepSnapshot;
import org.wearledger.model.WarrantyCheck;

/** One sweep, from report files to its result; and the backtest of its forecasts. */
public final class Sweep {
    /** Drives that the fleet's model is fitted on, at most. */
    private static final int MOST_DRIVES_FITTED = 20_000;
    /** Drives that a backtest forecasts, at most. */
    private static final int MOST_DRIVES_BACKTESTED = 2_000;
    /** Drives behind the one line on calibration that a sweep prints, at most. */
    private static final int MOST_DRIVES_CALIBRATED = 500;


    private interface Work<T> {
        T on(JoinedFleet fleet) throws IOException;
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
        return joined(request, engine, fleet -> {
            SweepResult result = assess(fleet, request);
            if (earlier == null && request.compareWith() == null) {
                return result;
            }
            if (result.isOfCustomersAlone()) {
                throw new InputMissingException("--previous and --compare-with compare own machines, and all of these are customers': leave the option out");
            }
            if (result.plan().budget() == null) {
                return result;
            }
            if (earlier != null) {
                return compared(result, earlier, fleet.findings.inputs().tables().prices().values(), request.pseudonyms().isNone() ? "the sweep in " + request.earlier() : "an earlier sweep");
            }
            if (!request.compareWith().isBefore(result.asOf())) {
                throw new InputMissingException("--compare-with " + request.compareWith() + " is not before the as-of date, " + result.asOf());
            }
            SweepRequest then = request.on(request.compareWith());
            SweepResult before = assess(fleet.under(then), then);
            if (before.accounting().readingsKept() == 0 || before.plan().budget() == null) {
                throw new InputMissingException("--compare-with " + request.compareWith() + ": there is no reading up to that date");
            }
            return compared(result, SweepComparison.snapshot(before.ownMachines(), before.plan().budget(), fleet.findings.inputs().tables().prices().values()), fleet.findings.inputs().tables().prices().values(),
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
        return joined(request, engine, fleet -> {
            List<WearPast> sample = fleet.sample(MOST_DRIVES_BACKTESTED).stream().filter(past -> !past.byPercentage()).toList();
            return new BacktestRun(request.version(), fleet.findings.accounting(), fleet.drivesByBytes(), sample.size(),
                BacktestSummary.of(Backtest.run(sample, Backtest.HORIZONS), seed), fleet.findings.problems().stream().sorted().toList());
        });
    }

    /**
     * Sweeps, and tells one machine's story.
     *
     * @throws InputRefusedException also when no report and no inventory row names the machine
     */
    public static MachineStory explain(SweepRequest request, String machineId, Engine engine) throws IOException {
        return joined(request, engine, fleet -> new Stories(fleet, assess(fleet, request)).of(request.pseudonyms().machine(machineId)));
    }

    /**
     * Sweeps once, and tells the story of every such machine, by machine id.
     *
     * @param each is given one after another
     * @return the sweep that they are of
     */
    public static SweepResult explain(SweepRequest request, Predicate<MachineAssessment> which, Engine engine, Consumer<MachineStory> each) throws IOException {
        return joined(request, engine, fleet -> {
            SweepResult result = assess(fleet, request);
            new Stories(fleet, result).ofAll(which, each);
            return result;
        });
    }

    private static <T> T joined(SweepRequest request, Engine engine, Work<T> work) throws IOException {
        try (Session session = Session.open(engine.master(), new TaskProgress(engine.progress()))) {
            return work.on(JoinedFleet.of(session, Inputs.of(request), engine.partitions()));
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static SweepResult assess(JoinedFleet fleet, SweepRequest request) {
        FleetFindings found = fleet.findings;
        SideTableSet tables = found.inputs().tables();
        SweepSettings settings = request.settings();
        Map<String, LatestReport> machines = found.machines();
        LocalDate asOf = asOf(settings, machines.values());
        boolean pooled = settings.method() == ProjectionMethod.POOLED;
        List<WearPast> sample = pooled ? fleet.sample(MOST_DRIVES_FITTED) : List.of();
        List<WearPast> byBytes = sample.stream().filter(past -> !past.byPercentage()).toList();
        WearModel model = pooled ? WearModel.of(sample) : null;
        List<WearPast> checked = byBytes.subList(0, Math.min(byBytes.size(), MOST_DRIVES_CALIBRATED));
        Calibration calibration = pooled ? SelfCheck.of(checked, () -> fleet.controlled(checked)) : null;

        JoinedFleet.Assessed judged = asOf == null ? new JoinedFleet.Assessed(List.of(), List.of()) : fleet.assessed(model, asOf, settings);
        List<DriveAssessment> drives = judged.drives();
        List<DriveAssessment> active = drives.stream().filter(drive -> found.placements().isActive(drive.id(), DriveId.fold(drive.latest().machine().id()))).toList();
        List<MachineAssessment> assessed = asOf == null && tables.inventory().values().isEmpty() ? List.of()
            : MachineAssessor.assess(active, new MachineAssessor.Known(map(machines, LatestReport::machine), map(machines, LatestReport::at), setAside(machines, found.problems()),
                Refusals.byMachine(found.problems()), found.placements().lastDriveNowIn(), found.repaired().endedIn()), tables.inventory().values(), asOf, settings)
                .stream().filter(machine -> !found.repaired().machinesLeft().contains(DriveId.fold(machine.machine().id()))).toList();

        RepairSummary repairs = asOf == null ? RepairSummary.none() : new RepairFindings(found, drives, asOf).summary(request, assessed);
        BudgetSettings failing = repairs.failures().isLearned() && request.budget().failuresFrom() == RateSource.ASSUMED
            ? request.budget().withFailures(repairs.failures().perMachineYear(), RateSource.LEARNED) : request.budget();
        BudgetSettings budgeted = Budgets.learned(failing, tables.repairs().values(), asOf);
        FleetModel inNumbers = model == null ? null : model.summary(CommonShock.of(byBytes));
        List<MachineAssessment> own = assessed.stream().filter(MachineAssessment::isOwn).toList();
        List<WarrantyCheck> warranties = asOf == null ? List.of() : Warranties.check(own, asOf);
        Decisions decisions = asOf == null ? Decisions.none() : Decisions.of(tables.decisions().values(), own, asOf);
        Budget budget = asOf == null || own.isEmpty() && !assessed.isEmpty() ? null : Budgets.of(own, inNumbers, new BudgetFacts(tables.prices().values(), decisions,
            warranties.stream().filter(check -> check.finding().isToBeAsked()).map(check -> check.drive().id()).collect(Collectors.toSet()), repairs.costOfDrives()), asOf, settings, budgeted);
        MachineModels.Compared compared = MachineModels.of(assessed);
        List<MemoryContrast> contrasts = FleetComparison.memoryContrasts(assessed);

        List<Problem> problems = found.withMachines();
        problems.addAll(AssumedRatings.notes(active, tables.ratings().values(), tables.ratings().places()));
        problems.sort(null);
        return new SweepResult(request.version(), asOf, settings, found.accounting(), assessed,
            new SweepResult.Fleet(FleetComparison.models(assessed, compared.driveModels()), compared.machineModels(), compared.sites(), FleetComparison.memoryBands(assessed), contrasts, inNumbers, calibration, repairs, judged.trend()), problems,
            new SweepResult.Files(found.inputs().passedOver(), found.inputs().mappingUses(), tables.names(),
                tables.ratings().values().size(), tables.inventory().values().size(), tables.prices().values().size(), tables.repairs().values().size(), tables.decisions().values().size()),
            new SweepResult.Plan(budget, warranties, budget == null ? List.of() : WorkLists.of(own, budget, warranties, contrasts, DrivesToCheck.of(problems), decisions, asOf), null, decisions));
    }

    private static SweepResult compared(SweepResult r, SweepSnapshot before, List<Price> prices, String with) {
        ComparedSweeps comparison = SweepComparison.between(before, SweepComparison.snapshot(r.ownMachines(), r.plan().budget(), prices), with, r.asOf(), r.plan().budget().settings());
        return r.compared(SweepComparison.with(r.plan().decisions(), comparison));
    }

    /** The machines whose latest report a rule keeps out, with that rule. */
    private static Map<String, ProblemKind> setAside(Map<String, LatestReport> machines, List<Problem> problems) {
        Map<SourcePlace, ProblemKind> rules = new HashMap<>();
        problems.stream().filter(problem -> problem.kind().effect() == Effect.READING_SET_ASIDE
                // Another copy of the same reading stands.
                && problem.kind() != ProblemKind.DUPLICATE_IDENTICAL)
            .forEach(problem -> rules.put(problem.source(), problem.kind()));
        Map<String, ProblemKind> latest = new HashMap<>();
        machines.forEach((id, report) -> {
            if (rules.containsKey(report.source())) {
                latest.put(id, rules.get(report.source()));
            }
        });
        return latest;
    }

    private static <T> Map<String, T> map(Map<String, LatestReport> machines, Function<LatestReport, T> value) {
        Map<String, T> mapped = new HashMap<>();
        machines.forEach((id, report) -> mapped.put(id, value.apply(report)));
        return mapped;
    }

    /** The date set, else that of the latest report, else {@code null}. */
    private static LocalDate asOf(SweepSettings settings, Collection<LatestReport> reports) {
        return settings.asOf() != null ? settings.asOf() : reports.stream().map(LatestReport::at).max(Comparator.naturalOrder())
            .map(latest -> LocalDate.ofInstant(latest, ZoneOffset.UTC)).orElse(null);
    }
}
