package org.wearledger.report;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.wearledger.budget.Budgets;
import org.wearledger.budget.Warranties;
import org.wearledger.budget.WorkLists;
import org.wearledger.model.Accounting;
import org.wearledger.model.AgainstRest;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Calibration;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Endurance;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Failures;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.Interval;
import org.wearledger.model.Decisions;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Ownership;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.Repair;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Spread;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.TrendQuarter;

/** Hand-made sweeps; every name is invented. */
final class Sweeps {
    static final LocalDate AS_OF = LocalDate.of(2025, 3, 31);
    static final Instant COLLECTED = Instant.parse("2025-03-30T08:15:00Z");

    /** One of two dead drives could be read. */
    static final RepairSummary REPAIRS = new RepairSummary(LocalDate.of(2025, 1, 1), "EUR", List.of(new RepairSummary.Count(null, Repair.Reason.DEAD_DRIVE, null, 2, new BigDecimal("207.00"), 0),
        new RepairSummary.Count(null, null, "North", 2, new BigDecimal("207.00"), 0), new RepairSummary.Count("2025-Q1", null, null, 2, new BigDecimal("207.00"), 0),
        new RepairSummary.Count("2025-Q1", Repair.Reason.DEAD_DRIVE, null, 2, new BigDecimal("207.00"), 0)),
        new RepairSummary.DeadDrives(2, 1, 1, new Interval(0.0126, 1)), List.of(new RepairSummary.StockNeed(null, "drive 512 GB", null, true, 2, 0.9856, 0, 2, 5), new RepairSummary.StockNeed(null, "board", "Plover 14", false, 1, 0.9856, 0, 1, 4),
        new RepairSummary.StockNeed("North", "drive 512 GB", null, true, 2, 0.9856, 0, 2, 5)),
        new Failures(Failures.Basis.FOLLOWED, 31, 1722, 0.018, List.of(new Failures.OfModel("KESTREL K2", 0.018, new Interval(0.0124, 0.0253))), List.of(
            new Failures.Incidence(Failures.Cause.DEAD_NOT_WORN, 500, 1_000, 4, 0.004, new Interval(0.002, 0.009)))), 1, 0);

    static final ComparedGroup PLOVER = new ComparedGroup("Plover 14", 40, 4.1, new ModelFactor(40, 2.9, 2.7, new Interval(2.1, 3.5), Separation.MORE_THAN_TYPICAL),
        new ModelFactor(38, 2.8, 2.6, new Interval(2, 3.4), Separation.MORE_THAN_TYPICAL), new ModelFactor(39, 2.7, 2.5, new Interval(1.9, 3.3), Separation.MORE_THAN_TYPICAL));
    static final ComparedGroup NORTH = new ComparedGroup("North", 70, 3.1, new ModelFactor(70, 1.9, 1.8, new Interval(1.4, 2.3), Separation.MORE_THAN_TYPICAL),
        new ModelFactor(68, 1.8, 1.7, new Interval(1.3, 2.2), Separation.MORE_THAN_TYPICAL), new ModelFactor(69, 1.7, 1.6, new Interval(1.2, 2.1), Separation.MORE_THAN_TYPICAL));
    static final ComparedGroup LIMPKIN = new ComparedGroup("Limpkin 13", 60, 1.6, new ModelFactor(60, 1.9, 1.1, new Interval(0.9, 1.3), Separation.EXPLAINED_BY_MEMORY),
        new ModelFactor(60, 1.8, 1.1, new Interval(0.9, 1.3), Separation.EXPLAINED_BY_MEMORY), new ModelFactor(60, 1.7, 1.1, new Interval(0.9, 1.3), Separation.EXPLAINED_BY_MEMORY));

    private Sweeps() {
    }

    static SweepResult empty() {
        return new SweepResult("0.1.0", null, SweepSettings.withDefaults(), new Accounting(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0), List.of(),
            new SweepResult.Fleet(List.of(), List.of(), List.of(), List.of(), List.of(), null, null, RepairSummary.none(), List.of()), List.of(),
            new SweepResult.Files(List.of(), List.of(), 0, 0, 0, 0, 0),
            new SweepResult.Plan(null, List.of(), List.of(), null, Decisions.none()));
    }

    /** Three machines: within the rating, past an assumed rating (clocks disagree), never seen. */
    static SweepResult small() {
        DriveAssessment within = drive("KX-01", Standing.WITHIN_RATING, 30.0, 31,
            new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), new Interval(95.2, 101.6),
            new Projection.Reaches(LocalDate.of(2031, 5, 1), "slope over 4 readings", true));
        DriveAssessment past = drive("KX-02", Standing.PAST_RATING, 156.0, 0,
            new Endurance(new BigDecimal("153.6"), true, null, "0.6 TB per GB"),
            new Interval(158.5, Double.POSITIVE_INFINITY),
            new Projection.AlreadyPast(LocalDate.of(2024, 12, 30), LocalDate.of(2025, 3, 30)));
        return with(List.of(machine("LT-001", Standing.WITHIN_RATING, within),
            machine("LT-002", Standing.PAST_RATING, past), machine("LT-003", Standing.NO_VERDICT)));
    }

    static SweepResult with(List<MachineAssessment> machines) {
        return with(machines, AS_OF, BudgetSettings.withDefaults());
    }

    static SweepResult with(List<MachineAssessment> machines, LocalDate asOf, BudgetSettings settings) {
        List<MachineAssessment> own = machines.stream().filter(MachineAssessment::isOwn).toList();
        Budget budget = own.isEmpty() && !machines.isEmpty() ? null : budget(own, asOf, settings);
        Spread rate = new Spread(2, 22.5, 25, 27.5);
        Spread none = new Spread(0, Double.NaN, Double.NaN, Double.NaN);
        return new SweepResult("0.1.0", asOf, SweepSettings.withDefaults(), new Accounting(3, 2, 0, 1, 5, 1, 4, 3, 1, 2, 1, 8, 7, 1), machines,
            new SweepResult.Fleet(List.of(new ModelSummary("KESTREL K2", 2, Map.of(Standing.WITHIN_RATING, 1, Standing.PAST_RATING, 1),
                rate, rate, rate, 24.0, new Interval(20, 30), 1, 1, 31, List.of(256L), new ModelFactor(2, 1.2, 1.1, new Interval(0.9, 1.34), Separation.CANNOT_BE_SEPARATED),
                new ImpliedRating(9, new Endurance(new BigDecimal("153.6"), true, null, "0.6 TB per GB"), 0.5, new Interval(0.45, 0.55)), AgainstRest.tooFew(2, 0))),
                List.of(PLOVER, LIMPKIN), List.of(NORTH), List.of(new MemoryBand(0, 1, rate, none), new MemoryBand(8, 2, rate, rate)), List.of(new MemoryContrast(8, 16, 9, 11, 4.5, new Interval(1, Double.POSITIVE_INFINITY), 0.02,
                Separation.MORE_THAN_TYPICAL)), new FleetModel(2.5, 3, 0.03, 0.15, true, 2, 0.2, 0), new Calibration(List.of(SelfCheckTextTest.check(Calibration.Measure.WRITES, 1, 4, 25, 91))), REPAIRS, List.of(new TrendQuarter(LocalDate.parse("2024-10-01"), 2, 60.0, 92.0, 0), new TrendQuarter(LocalDate.parse("2025-01-01"), 2, 65.0, 101.0, 1))), List.of(Problem.of(Finding.NO_RATING, SourcePlace.line("a.csv", 2), "LT-002").with(Fact.COUNT, 1),
                Problem.of(Finding.EMPTY_FILE, SourcePlace.wholeFile("b.json"), "")),
            new SweepResult.Files(List.of(), List.of("ratings.csv"), 4, 3, 0, 0, 0),
            new SweepResult.Plan(budget, Warranties.check(own, asOf), budget == null ? List.of() : WorkLists.of(own, budget, List.of(), List.of(), DrivesToCheck.of(List.of()), Decisions.none(), asOf), null, Decisions.none()));
    }

    /** The same sweep with this problem noted of each of these machines' drives. */
    static SweepResult doubting(SweepResult r, ProblemKind rule, String... machineIds) {
        List<Problem> problems = r.machines().stream().filter(machine -> Arrays.asList(machineIds).contains(machine.machine().id()))
            .map(machine -> Problem.of(Finding.USED_FELL, SourcePlace.wholeFile("a.json"), machine.activeDrives().get(0).id().toString()).under(rule)).toList();
        return with(r, problems, r.plan().budget());
    }

    /** The same sweep with other problems and another budget. */
    static SweepResult with(SweepResult r, List<Problem> problems, Budget budget) {
        return new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), r.fleet(), problems, r.files(),
            new SweepResult.Plan(budget, r.plan().warranties(), r.plan().work(), r.plan().comparison(), Decisions.none()));
    }

    private static Budget budget(List<MachineAssessment> machines, LocalDate asOf, BudgetSettings settings) {
        return Budgets.of(machines, new FleetModel(2.5, 3, 0.03, 0.15, true, 2, 0.2, 0),
            List.of(new Price("machine", "EUR", new BigDecimal("890"), new BigDecimal("60"), new BigDecimal("12"), null, null)), asOf, SweepSettings.withDefaults(),
            settings);
    }

    static MachineAssessment machine(String id, Standing standing, DriveAssessment... drives) {
        boolean seen = drives.length > 0;
        return new MachineAssessment(new Machine(id, "=A1", "North", null, "Plover 14", 8L << 30, null, null),
            Attachment.SOLDERED, Arrays.asList(drives), standing, seen ? "reason of " + id : "no report",
            seen ? COLLECTED : null, seen, null, null, true);
    }

    /** The same machine as a customer's, of another site and model. */
    static MachineAssessment ofCustomer(MachineAssessment m, String site, String model) {
        return new MachineAssessment(new Machine(m.machine().id(), null, site, null, model, null, null, null), m.attachment(), m.activeDrives(), m.standing(), m.reason(), m.lastSeenAt(),
            m.reportedThisSweep(), null, null, m.inInventory(), null, null, null, Ownership.CUSTOMER);
    }

    /** A drive within its rating, with this health. */
    static DriveAssessment reporting(Health health) {
        DriveAssessment d = drive("KX-1", Standing.WITHIN_RATING, 10, 3, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null,
            new Projection.None("no writes measured, so no date"));
        Reading reading = new Reading(d.latest().source(), d.latest().collectedAt(), d.latest().machine(), d.latest().drive(), health);
        return new DriveAssessment(d.id(), reading,
            new DriveAssessment.Seen(null, COLLECTED, 4, 1),
            new DriveAssessment.Wear(d.wear().bytesWritten(), d.wear().endurance(), d.wear().consumedPercent(), null, null),
            new DriveAssessment.Pace(25.125, 20.0, 0.0981),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), d.standing(), d.reason());
    }

    static DriveAssessment withoutPercentageUsed(DriveAssessment d) {
        return drive(d.id().serial(), d.standing(), d.terabytesWritten(), null, d.wear().endurance(), null, d.outlook().projection());
    }

    static DriveAssessment drive(String serial, Standing standing, double terabytes, Integer percentageUsed,
                                 Endurance endurance, Interval implied, Projection projection) {
        Drive drive = new Drive(serial, "Kestrel K2", "F1", 256_000_000_000L, Attachment.UNKNOWN);
        BigInteger bytes = new BigDecimal(terabytes).multiply(new BigDecimal("1e12")).toBigInteger();
        Health health = Health.builder().set(HealthField.CRITICAL_WARNING, 0).set(HealthField.PERCENTAGE_USED, percentageUsed).build();
        Reading reading = new Reading(SourcePlace.wholeFile(serial + ".json"), COLLECTED,
            new Machine("any", null, null, null, null, null, null, null), drive, health);
        double rated = endurance.ratedTerabytesWritten().doubleValue();
        return new DriveAssessment(drive.id(), reading,
            new DriveAssessment.Seen(null, COLLECTED, 4, 1),
            new DriveAssessment.Wear(bytes, endurance, 100 * terabytes / rated, rated - terabytes, implied),
            new DriveAssessment.Pace(25.125, 20.0, 0.0981),
            new DriveAssessment.Outlook(projection, null, null), standing, "reason of " + serial);
    }
}
