package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.ComparedSweeps;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Decision;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveId;
import org.wearledger.model.FundingDifference;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.PlanOutcome;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepDifference;
import org.wearledger.model.SweepSnapshot;

/** What differs between two sweeps of one fleet. */
public final class SweepComparison {
    private static final double BYTES_PER_GIBIBYTE = 1L << 30;
    private static final int MONTHS_PER_QUARTER = 3;
    /** A write rate that changed by less than a half, or by less than 5 GB a day, is no news. */
    private static final double LEAST_FACTOR = 1.5;
    private static final double LEAST_GIGABYTES_PER_DAY = 5;

    /** Prices concern no one machine. */
    private static final Comparator<SweepDifference> ORDER = Comparator.comparing(SweepDifference::kind)
        .thenComparing(SweepDifference::machineId, Comparator.nullsFirst(Comparator.naturalOrder()))
        .thenComparing(SweepDifference::item, Comparator.nullsFirst(Comparator.naturalOrder())).thenComparing(SweepDifference::now).thenComparing(SweepDifference::before);

    private final List<SweepDifference> differences = new ArrayList<>();
    private final PlanComparison plan;

    private SweepComparison(FiscalCalendar calendar, LocalDate asOf) {
        plan = new PlanComparison(differences, calendar, asOf);
    }

    /** What the next sweep compares with. */
    public static SweepSnapshot snapshot(Collection<MachineAssessment> machines, Budget budget, Collection<Price> priceList) {
        Set<String> calledFor = budget.items().stream().map(item -> DriveId.fold(item.item())).collect(Collectors.toSet());
        return new SweepSnapshot(snapshots(machines, budget),
            budget.quarters().stream().map(period -> new SweepSnapshot.Ask(period.label(), period.until(), period.toAskFor(),
                new SweepSnapshot.Parts(period.plan(), period.contingencyForWear(), period.contingencyForPrices(), period.allowance()),
                period.counts() == null ? null : period.counts().p50(), period.counts() == null ? null : period.counts().p80())).toList(),
            Stream.concat(budget.items().stream().map(item -> new SweepSnapshot.Cost(item.item(), item.price() == null ? null : item.costOfOne(), true,
                    budget.lines().stream().filter(line -> line.upperItem().equals(item.item()) && !line.item().equals(item.item())).count())),
                priceList.stream().filter(price -> !calledFor.contains(DriveId.fold(price.item())))
                    .map(price -> new SweepSnapshot.Cost(price.item(), price.costOfOne(), false, 0))).toList());
    }

    /** The machines of a sweep as snapshots, in their order. A machine that the budget does not name has no planned line. */
    static List<MachineSnapshot> snapshots(Collection<MachineAssessment> machines, Budget budget) {
        Map<String, List<MachineSnapshot.Planned>> planned = budget.lines().stream().collect(Collectors.groupingBy(
            line -> DriveId.fold(line.machine().id()),
            Collectors.mapping(SweepComparison::planned, Collectors.toList())));
        return machines.stream().map(machine -> snapshot(machine,
            planned.getOrDefault(DriveId.fold(machine.machine().id()), List.of()))).toList();
    }

    private static MachineSnapshot.Planned planned(PlannedReplacement line) {
        return new MachineSnapshot.Planned(line.drive().serial(), line.item(), line.needOn(), line.boughtIn() == null ? null : line.orderByOn(), line.boughtIn() != null && line.late(),
            line.price() == null ? null : line.amount());
    }

    private static MachineSnapshot snapshot(MachineAssessment machine, List<MachineSnapshot.Planned> planned) {
        Long memory = machine.machine().memoryBytes();
        return new MachineSnapshot(machine.machine().id(), machine.machine().site(),
            machine.activeDrives().stream().map(drive -> drive.id().serial()).sorted().toList(), machine.standing(),
            machine.activeDrives().stream().map(drive -> drive.pace().gigabytesPerDay()).filter(Objects::nonNull)
                .max(Comparator.naturalOrder()).orElse(null), memory == null ? null : (Double) (memory / BYTES_PER_GIBIBYTE),
            machine.lastSeenAt() == null ? null : LocalDate.ofInstant(machine.lastSeenAt(), ZoneOffset.UTC),
            machine.reportedThisSweep(), planned);
    }

    /**
     * What differs, by kind, then machine. Plans are compared by this sweep's fiscal quarters, whatever the earlier one's were; what was
     * planned for before the present quarter and is needed now was not done. Where both sweeps had a budget the changes of cost add up
     * to the difference of the two totals, without those of what is to be asked for, which hold them.
     *
     * @param with what it is compared with, for the reader
     */
    public static ComparedSweeps between(SweepSnapshot before, SweepSnapshot now, String with, LocalDate asOf, BudgetSettings settings) {
        List<FundingDifference> asks = asks(before.asks(), now.asks());
        SweepComparison found = new SweepComparison(FiscalCalendar.of(settings), asOf);
        List<SweepDifference> differences = list(before, now, asks, found);
        boolean hadBudget = before.machines().stream().noneMatch(machine -> machine.planned() == null);
        return new ComparedSweeps(with, differences, asks, before.asks(), hadBudget ? found.plan.quarterDifference() : null, outcome(before, now, asOf), hadBudget ? total(before.machines()) : null, total(now.machines()));
    }

    /** Of a quarter that has only just ended: later, what came is no longer of it alone. */
    private static PlanOutcome outcome(SweepSnapshot before, SweepSnapshot now, LocalDate asOf) {
        SweepSnapshot.Ask first = before.asks().isEmpty() ? null : before.asks().get(0);
        if (first == null || first.countP80() == null || !first.until().isBefore(asOf) || first.until().plusMonths(MONTHS_PER_QUARTER).isBefore(asOf)) {
            return null;
        }
        Map<String, List<String>> drives = before.machines().stream().collect(Collectors.toMap(machine -> DriveId.fold(machine.machineId()), MachineSnapshot::driveSerials, (one, other) -> one));
        List<MachineSnapshot> came = now.machines().stream().filter(machine -> drives.containsKey(DriveId.fold(machine.machineId())))
            .filter(machine -> machine.standing().compareTo(Standing.PAST_RATING) <= 0 || isReplaced(drives.get(DriveId.fold(machine.machineId())), machine.driveSerials())).toList();
        return new PlanOutcome(first.period(), first.countP50(), first.countP80(), came.size(), (int) came.stream().filter(machine -> machine.standing() == Standing.URGENT).count());
    }

    private static boolean isReplaced(List<String> was, List<String> is) {
        return !was.isEmpty() && !is.isEmpty() && !is.containsAll(was);
    }

    /** The same, where what is bought by now is neither undone nor overdue. */
    public static ComparedSweeps with(Decisions decisions, ComparedSweeps compared) {
        return compared.with(compared.differences().stream().map(change -> change.machineId() == null ? change : underWay(change, decisions.of(change.machineId(), change.item()))).sorted(ORDER).toList());
    }

    private static SweepDifference underWay(SweepDifference change, Decision decision) {
        boolean isOpen = change.kind() == SweepDifference.Kind.NOT_DONE_YET || change.kind() == SweepDifference.Kind.ORDER_OVERDUE;
        return !isOpen || decision == null || !decision.state().isBought() ? change
            : new SweepDifference(SweepDifference.Kind.UNDER_WAY, change.machineId(), change.site(), change.before(), decision.state().label() + " " + decision.date(), change.costDelta(), change.item());
    }

    private static BigDecimal total(Collection<MachineSnapshot> machines) {
        return machines.stream().map(MachineSnapshot::plannedAmount).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }

    private static List<SweepDifference> list(SweepSnapshot before, SweepSnapshot now, List<FundingDifference> asks, SweepComparison found) {
        Map<String, MachineSnapshot> earlier = new HashMap<>();
        before.machines().forEach(machine -> earlier.put(DriveId.fold(machine.machineId()), machine));
        for (MachineSnapshot machine : now.machines()) {
            MachineSnapshot was = earlier.remove(DriveId.fold(machine.machineId()));
            if (was == null) {
                found.add(SweepDifference.Kind.NEW, machine, "", machine.standing().label(), added(machine));
                found.plan.added(machine);
            } else {
                found.compare(was, machine);
            }
        }
        earlier.values().forEach(was -> {
            found.add(SweepDifference.Kind.GONE, was, seen(was), "not seen at all", dropped(was));
            found.plan.dropped(was);
        });
        found.plan.addPrices(before.costs(), now.costs());
        asks.forEach(ask -> found.differences.add(new SweepDifference(SweepDifference.Kind.ASK_CHANGED, null, null, words(ask.before(), ask), words(ask.now(), ask), ask.delta(), ask.now().period())));
        found.differences.sort(ORDER);
        return List.copyOf(found.differences);
    }

    /** Of periods that both budgets have. */
    private static List<FundingDifference> asks(List<SweepSnapshot.Ask> before, List<SweepSnapshot.Ask> now) {
        return now.stream().flatMap(is -> before.stream().filter(was -> was.period().equals(is.period())).limit(1).map(was -> new FundingDifference(was, is)))
            .filter(ask -> ask.before().amount().compareTo(ask.now().amount()) != 0).toList();
    }

    private static String words(SweepSnapshot.Ask ask, FundingDifference change) {
        return ask.amount().toPlainString() + (change.hasSameEnd() ? "" : " until " + ask.until());
    }

    private void compare(MachineSnapshot was, MachineSnapshot is) {
        if (was.reported() && !is.reported()) {
            add(SweepDifference.Kind.NOT_REPORTED, is, seen(was), "no report since", null);
        }
        boolean replaced = isReplaced(was.driveSerials(), is.driveSerials());
        if (replaced) {
            add(SweepDifference.Kind.DRIVE_REPLACED, is, "drive " + String.join(", ", was.driveSerials()),
                "drive " + String.join(", ", is.driveSerials()), null);
        }
        standing(was, is);
        plan.compare(was, is);
        if (!replaced) {
            writes(was, is);
        }
    }

    private void standing(MachineSnapshot was, MachineSnapshot is) {
        if (was.standing() == is.standing()) {
            return;
        }
        SweepDifference.Kind kind = switch (is.standing()) {
            case URGENT -> SweepDifference.Kind.NEWLY_URGENT;
            case PAST_RATING -> was.standing() == Standing.URGENT ? SweepDifference.Kind.EASED : SweepDifference.Kind.NEWLY_PAST_RATING;
            case DUE -> was.standing().compareTo(Standing.DUE) < 0 ? SweepDifference.Kind.EASED : SweepDifference.Kind.NEWLY_DUE;
            case WATCH -> was.standing().compareTo(Standing.WATCH) < 0 ? SweepDifference.Kind.EASED : SweepDifference.Kind.NEWLY_WATCH;
            case WITHIN_RATING -> was.standing() == Standing.NO_VERDICT ? SweepDifference.Kind.VERDICT_FOUND : SweepDifference.Kind.EASED;
            case NO_VERDICT -> SweepDifference.Kind.VERDICT_LOST;
        };
        add(kind, is, was.standing().label(), is.standing().label(), null);
    }

    private void writes(MachineSnapshot was, MachineSnapshot is) {
        Double before = was.gigabytesPerDay();
        Double now = is.gigabytesPerDay();
        if (before == null || now == null || Math.abs(now - before) < LEAST_GIGABYTES_PER_DAY
            || Math.max(now, before) < LEAST_FACTOR * Math.min(now, before)) {
            return;
        }
        boolean moreMemory = was.memoryGibibytes() != null && is.memoryGibibytes() != null
            && Math.round(was.memoryGibibytes()) != Math.round(is.memoryGibibytes());
        add(now > before ? SweepDifference.Kind.WRITES_ROSE : SweepDifference.Kind.WRITES_FELL, is, rate(before) + (moreMemory ? memory(was) : ""),
            rate(now) + (moreMemory ? memory(is) : ""), null);
    }

    private static String rate(double gigabytesPerDay) {
        return String.format(Locale.ROOT, "%.1f GB a day", gigabytesPerDay);
    }

    private static String memory(MachineSnapshot machine) {
        return String.format(Locale.ROOT, " with %.0f GiB of memory", machine.memoryGibibytes());
    }

    private static String seen(MachineSnapshot machine) {
        return machine.lastSeenOn() == null ? "never seen" : "last seen " + machine.lastSeenOn();
    }

    private static BigDecimal added(MachineSnapshot machine) {
        return machine.planned() == null || machine.planned().isEmpty() ? null : machine.plannedAmount();
    }

    private static BigDecimal dropped(MachineSnapshot machine) {
        return machine.planned() == null || machine.planned().isEmpty() ? null : machine.plannedAmount().negate();
    }

    private void add(SweepDifference.Kind kind, MachineSnapshot machine, String before, String now, BigDecimal costDelta) {
        differences.add(new SweepDifference(kind, machine.machineId(), machine.site(), before, now, costDelta, null));
    }
}
