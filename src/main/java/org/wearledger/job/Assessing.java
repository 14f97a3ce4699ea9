package org.wearledger.job;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.assess.AssumedRatings;
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
import org.wearledger.budget.Warranties;
import org.wearledger.budget.WorkLists;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.BudgetSettings.RateSource;
import org.wearledger.model.Calibration;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Effect;
import org.wearledger.model.Failures;
import org.wearledger.model.FleetModel;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.WarrantyCheck;
import org.wearledger.model.WorkItem;

/** From the joined fleet to the result of a sweep: learns, judges, compares, plans. */
final class Assessing {
    /** Drives that the fleet's model is fitted on, at most. */
    private static final int MOST_DRIVES_FITTED = 20_000;
    /** Drives behind the one line on calibration that a sweep prints, at most. */
    private static final int MOST_DRIVES_CALIBRATED = 500;

    /** What the fleet's own past says; all {@code null} by the method of the straight line. */
    private record Learned(WearModel model, FleetModel inNumbers, Calibration calibration) {
    }

    private final JoinedFleet fleet;
    private final SweepRequest request;
    private final FleetFindings found;
    private final SideTableSet tables;
    private final SweepSettings settings;
    /** {@code null} when nothing was read and no date is set. */
    private final LocalDate asOf;

    private Assessing(JoinedFleet fleet, SweepRequest request) {
        this.fleet = fleet;
        this.request = request;
        found = fleet.findings;
        tables = found.inputs().tables();
        settings = request.settings();
        asOf = settings.asOf() != null ? settings.asOf() : found.machines().values().stream().map(LatestReport::at).max(Comparator.naturalOrder())
            .map(latest -> LocalDate.ofInstant(latest, ZoneOffset.UTC)).orElse(null);
    }

    static SweepResult of(JoinedFleet fleet, SweepRequest request) {
        return new Assessing(fleet, request).result();
    }

    private SweepResult result() {
        Learned learned = settings.method() == ProjectionMethod.POOLED ? learned() : new Learned(null, null, null);
        JoinedFleet.Assessed judged = asOf == null ? new JoinedFleet.Assessed(List.of(), List.of()) : fleet.assessed(learned.model, asOf, settings);
        List<DriveAssessment> active = judged.drives().stream()
            .filter(drive -> found.placements().isActive(drive.id(), DriveId.fold(drive.latest().machine().id()))).toList();
        List<MachineAssessment> machines = machines(active);
        RepairSummary repairs = asOf == null ? RepairSummary.none() : new RepairFindings(found, judged.drives(), asOf).summary(request, machines);
        MachineModels.Compared compared = MachineModels.of(machines);
        SweepResult.Fleet together = new SweepResult.Fleet(FleetComparison.models(machines, compared.driveModels()), compared.machineModels(), compared.sites(),
            FleetComparison.memoryBands(machines), FleetComparison.memoryContrasts(machines), learned.inNumbers, learned.calibration, repairs, judged.trend());
        List<Problem> problems = found.withMachines();
        problems.addAll(AssumedRatings.notes(active, tables.ratings().values(), tables.ratings().places()));
        problems.sort(null);
        return new SweepResult(request.version(), asOf, settings, found.accounting(), machines, together, problems, files(), plan(machines, together, problems));
    }

    private Learned learned() {
        List<WearPast> sample = fleet.sample(MOST_DRIVES_FITTED);
        List<WearPast> byBytes = sample.stream().filter(past -> !past.byPercentage()).toList();
        List<WearPast> checked = byBytes.subList(0, Math.min(byBytes.size(), MOST_DRIVES_CALIBRATED));
        WearModel model = WearModel.of(sample);
        return new Learned(model, model.summary(CommonShock.of(byBytes)), SelfCheck.of(checked, () -> fleet.controlled(checked)));
    }

    /** Without those that are known to have left. */
    private List<MachineAssessment> machines(List<DriveAssessment> active) {
        List<InventoryEntry> inventory = tables.inventory().values();
        if (asOf == null && inventory.isEmpty()) {
            return List.of();
        }
        Map<String, LatestReport> reports = found.machines();
        MachineAssessor.Known known = new MachineAssessor.Known(map(reports, LatestReport::machine), map(reports, LatestReport::at),
            setAside(reports, found.problems()), Refusals.byMachine(found.problems()), found.placements().lastDriveNowIn(), found.repaired().endedIn());
        return MachineAssessor.assess(active, known, inventory, asOf, settings).stream()
            .filter(machine -> !found.repaired().machinesLeft().contains(DriveId.fold(machine.machine().id()))).toList();
    }

    private SweepResult.Files files() {
        return new SweepResult.Files(found.inputs().mappingUses(), tables.names(), tables.ratings().values().size(),
            tables.inventory().values().size(), tables.prices().values().size(), tables.repairs().values().size(), tables.decisions().values().size());
    }

    private SweepResult.Plan plan(List<MachineAssessment> machines, SweepResult.Fleet together, List<Problem> problems) {
        if (asOf == null) {
            return new SweepResult.Plan(null, List.of(), List.of(), null, Decisions.none());
        }
        List<MachineAssessment> own = machines.stream().filter(MachineAssessment::isOwn).toList();
        List<WarrantyCheck> warranties = Warranties.check(own, asOf);
        Decisions decisions = Decisions.of(tables.decisions().values(), own, asOf);
        if (own.isEmpty() && !machines.isEmpty()) {
            return new SweepResult.Plan(null, warranties, List.of(), null, decisions);
        }
        Map<DriveId, LocalDate> claims = warranties.stream().filter(check -> check.finding().isToBeAsked())
            .collect(Collectors.toMap(check -> check.drive().id(), check -> check.nextEndOn(asOf), (one, other) -> one));
        BudgetFacts facts = new BudgetFacts(tables.prices().values(), decisions, claims, together.repairs().costOfDrives());
        Budget budget = Budgets.of(own, together.fleetModel(), facts, asOf, settings, budgetSettings(together.repairs().failures()));
        List<WorkItem> work = WorkLists.of(own, budget, warranties, together.memoryContrasts(), DrivesToCheck.of(problems), decisions, asOf);
        return new SweepResult.Plan(budget, warranties, work, null, decisions);
    }

    /** With what the owner's own repairs tell in place of what is assumed. */
    private BudgetSettings budgetSettings(Failures failures) {
        BudgetSettings given = request.budget();
        boolean learned = failures.isLearned() && given.failuresFrom() == RateSource.ASSUMED;
        return Budgets.learned(learned ? given.withFailures(failures.perMachineYear(), RateSource.LEARNED) : given, tables.repairs().values(), asOf);
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
}
