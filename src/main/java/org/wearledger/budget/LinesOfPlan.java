package org.wearledger.budget;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import org.wearledger.model.Attachment;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Decision;
import org.wearledger.model.LineDecision;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MoneySettings;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.RefreshReason;
import org.wearledger.model.SweepSettings;

/** The replacements that a plan names. */
final class LinesOfPlan {
    static final double DAYS_PER_YEAR = 365.25;

    private final PriceBook prices;
    private final BudgetFacts facts;
    private final List<FiscalCalendar.Quarter> quarters;
    private final LocalDate asOf;
    private final SweepSettings sweep;
    private final BudgetSettings settings;

    LinesOfPlan(PriceBook prices, BudgetFacts facts, List<FiscalCalendar.Quarter> quarters, LocalDate asOf, SweepSettings sweep, BudgetSettings settings) {
        this.prices = prices;
        this.facts = facts;
        this.quarters = quarters;
        this.asOf = asOf;
        this.sweep = sweep;
        this.settings = settings;
    }

    /** Of the candidates that are needed within the plan, by day. */
    List<PlannedReplacement> of(List<Candidate> candidates) {
        LocalDate horizon = quarters.get(quarters.size() - 1).until();
        return candidates.stream().filter(candidate -> candidate.needOn() != null && !candidate.needOn().isAfter(horizon)).map(this::line)
            .sorted(Comparator.comparing(PlannedReplacement::needOn).thenComparing(PlannedReplacement::standing)
                .thenComparing(line -> line.machine().id()).thenComparing(PlannedReplacement::drive)).toList();
    }

    private PlannedReplacement line(Candidate candidate) {
        LocalDate needOn = candidate.needOn();
        FiscalCalendar.Quarter quarter = quarters.stream().filter(q -> q.contains(needOn)).findFirst().orElseThrow();
        MachineAssessment machine = candidate.machine();
        PlannedReplacement.Repair repair = repair(candidate);
        String item = repair.refresh() == null ? repair.item() : repair.machineItem();
        String upperItem = repair.refresh() == null ? repair.upperItem() : repair.machineItem();
        LineDecision decision = decision(facts.decisions().of(machine.machine().id(), item), quarter);
        LocalDate orderBy = orderFrom(decision, needOn.minusDays(sweep.leadTimeDays() + (long) settings.installSlotDays()));
        return new PlannedReplacement(machine.machine(), candidate.drive().id(), candidate.drive().latest().drive().model(),
            candidate.attachment(), candidate.drive().standing(), needOn, quarter.label(), orderBy.isBefore(asOf) ? asOf : orderBy,
            orderBy.isBefore(asOf), replaces(candidate, repair), item, upperItem, 1, prices.price(item),
            prices.costOfOne(item), prices.costOfOne(upperItem), candidate.probabilityBy(quarter.until()),
            candidate.drive().reason(), candidate.figuresOn(),
            candidate.staleBecause(asOf, sweep.recentDays()), machine.inInventory(), repair, facts.claims().get(candidate.drive().id()), decision);
    }

    /** What is deferred is ordered when the quarter begins that pays for it. */
    private LocalDate orderFrom(LineDecision decision, LocalDate forTheNeed) {
        return quarters.stream().filter(quarter -> quarter.label().equals(decision.deferredTo())).map(FiscalCalendar.Quarter::from).findFirst().orElse(forTheNeed);
    }

    /** A risk that is taken until a day is put off until then, unless nothing is needed before. */
    private LineDecision decision(Decision decision, FiscalCalendar.Quarter needed) {
        if (decision == null) {
            return LineDecision.ACCEPTED;
        }
        return switch (decision.state()) {
            case ORDERED, DELIVERED -> new LineDecision(LineDecision.Choice.BOUGHT, null, decision.note());
            case CLAIMED -> new LineDecision(LineDecision.Choice.ACCEPT, null, decision.note());
            case ACCEPTED, DEFERRED -> decision.until().isBefore(needed.until()) ? new LineDecision(LineDecision.Choice.ACCEPT, null, decision.note())
                : new LineDecision(LineDecision.Choice.DEFER, FiscalCalendar.of(settings).of(decision.until().plusDays(1)).label(), decision.note());
            case REJECTED -> new LineDecision(LineDecision.Choice.REJECT, null, decision.note());
        };
    }

    private PlannedReplacement.Repair repair(Candidate candidate) {
        String machineItem = prices.machine(candidate.machine().machine().model());
        String item = candidate.choice().item();
        return new PlannedReplacement.Repair(item, candidate.choice().upperItem(), machineItem, machineItem == null ? null : refresh(candidate, item, machineItem));
    }

    private RefreshReason refresh(Candidate candidate, String item, String machineItem) {
        MoneySettings money = settings.money();
        LocalDate refreshOn = candidate.machine().machine().refreshOn();
        LocalDate supportEndsOn = candidate.machine().machine().supportEndsOn();
        LocalDate inServiceOn = candidate.machine().machine().inServiceOn();
        return refreshOn != null && !refreshOn.isAfter(candidate.needOn()) ? RefreshReason.REFRESH_DATE
            : supportEndsOn != null && !supportEndsOn.isAfter(candidate.needOn()) ? RefreshReason.SUPPORT_END
            : inServiceOn != null && ChronoUnit.DAYS.between(inServiceOn, candidate.needOn()) >= money.refreshAgeYears() * DAYS_PER_YEAR ? RefreshReason.AGE
            : Price.isBoard(item) && prices.costOfOne(item).doubleValue() > money.refreshShare() * prices.costOfOne(machineItem).doubleValue() ? RefreshReason.BOARD_TOO_DEAR : null;
    }

    private static String replaces(Candidate candidate, PlannedReplacement.Repair repair) {
        return repair.refresh() != null ? "machine, in place of a repair"
            : candidate.attachment() == Attachment.SOCKETED ? "socketed drive"
            : candidate.attachment() == Attachment.UNKNOWN ? "drive, attachment not known"
            : Price.isBoard(repair.item()) ? "board, for its soldered drive" : "machine, for its soldered drive";
    }
}
