package org.wearledger.report;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.wearledger.model.Decision;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarningSign;
import org.wearledger.model.WorkItem;
import org.wearledger.model.WorkItem.Action;

/**
 * All that is to be done for one machine: the table for IT, the same on the console, in the summary, the workbook and the CSV.
 *
 * @param row the machine with its worst drive
 * @param steps in the order in which they are to be done
 * @param orders of the plan, as far as they are steps
 * @param decision of people that still stands for it, the latest; {@code null} for none
 * @param former a machine of the inventory whose drive this one now has, so that it may be the same under another name; {@code null} for none
 * @param claimBy the end of a warranty that may pay, where it is within 60 days; else {@code null}
 */
record WorkRow(MachineRow row, List<WorkItem> steps, List<PlannedReplacement> orders, String former, Decision decision, LocalDate claimBy) {
    private static final int DAYS_TO_CLAIM = 60;
    private static final Comparator<WorkRow> WORST_FIRST = Comparator.comparing(WorkRow::standing).thenComparing(WorkRow::byOn)
        .thenComparing(WorkRow::claimBy, Comparator.nullsLast(Comparator.naturalOrder())).thenComparing(WorkRow::sign, Comparator.nullsLast(Comparator.naturalOrder())).thenComparing(work -> work.row.usedPercent(), Comparator.reverseOrder()).thenComparing(work -> work.row.machineId());

    /** Worst first, then by day, then by the end of a warranty, then by what the drive reports, then the most worn, then by machine. */
    static List<WorkRow> of(SweepResult result) {
        Map<String, List<WorkItem>> steps = result.plan().work().stream().collect(Collectors.groupingBy(item -> item.machine().id()));
        Map<String, List<PlannedReplacement>> lines = result.plan().budget() == null ? Map.of()
            : result.plan().budget().lines().stream().collect(Collectors.groupingBy(line -> line.machine().id()));
        Map<String, LocalDate> claims = new HashMap<>();
        result.plan().warranties().stream().filter(check -> check.finding().isToBeAsked() && check.nextEndOn(result.asOf()) != null).map(check -> Map.entry(check.machine().machine().id(), check.nextEndOn(result.asOf())))
            .filter(claim -> !claim.getValue().isAfter(result.asOf().plusDays(DAYS_TO_CLAIM))).forEach(claim -> claims.merge(claim.getKey(), claim.getValue(), (one, other) -> one.isBefore(other) ? one : other));
        Map<String, String> former = MachineAssessment.formerNames(result.machines());
        return result.ownMachines().stream().filter(machine -> steps.containsKey(machine.machine().id()))
            .map(machine -> of(machine, steps.get(machine.machine().id()), lines.getOrDefault(machine.machine().id(), List.of()), former.get(machine.machine().id()), result.plan().decisions().latest(machine.machine().id()), claims.get(machine.machine().id()))).sorted(WORST_FIRST).toList();
    }

    private static WorkRow of(MachineAssessment machine, List<WorkItem> steps, List<PlannedReplacement> lines, String former, Decision decision,
                              LocalDate claimBy) {
        List<LocalDate> ordered = steps.stream().filter(step -> step.action() == Action.ORDER).map(WorkItem::byOn).toList();
        return new WorkRow(MachineRow.of(List.of(machine)).stream().min(MachineRow.WORST_FIRST).orElseThrow(),
            steps.stream().sorted(Comparator.comparing(WorkItem::action).thenComparing(WorkItem::byOn)).toList(),
            lines.stream().filter(line -> ordered.contains(line.orderByOn())).toList(), former, decision, claimBy);
    }

    /** Of a machine that there is nothing to do for. */
    static WorkRow nothing(MachineRow row) {
        return new WorkRow(row, List.of(), List.of(), null, null, null);
    }

    /** What is to be done if nothing is bought. */
    WorkRow withoutOrders() {
        return new WorkRow(row, steps.stream().filter(step -> step.action() != Action.ORDER && step.action() != Action.REPLACE).toList(), List.of(), former, decision, claimBy);
    }

    boolean has(Action action) {
        return steps.stream().anyMatch(step -> step.action() == action);
    }

    /** Whether what is ordered rests on figures that are to be checked before. */
    boolean isCheckedFirst() {
        return has(Action.CHECK_FIGURES) && has(Action.ORDER);
    }

    Standing standing() {
        return row.assessment().standing();
    }

    /** The gravest that the drive reports; after all others without any. */
    private WarningSign.Kind sign() {
        return row.drive() == null ? null : row.drive().signs().stream().map(WarningSign::kind).min(Comparator.naturalOrder()).orElse(null);
    }

    /** The first day of all steps; where something is ordered, the last day for that. */
    LocalDate byOn() {
        Function<Boolean, LocalDate> earliest = ordersOnly -> steps.stream().filter(step -> !ordersOnly || step.action() == Action.ORDER).map(WorkItem::byOn)
            .min(Comparator.naturalOrder()).orElse(null);
        LocalDate order = earliest.apply(true);
        return order != null ? order : earliest.apply(false);
    }

    /** What is to be fitted, such as {@code drive 256 GB}; {@code null} for nothing. */
    String items() {
        return orders.isEmpty() ? null : orders.stream().map(PlannedReplacement::item).distinct().collect(Collectors.joining(", "));
    }

    /** Such as {@code ordered 2025-01-10}, or {@code accepted until 2025-06-30}; {@code null} for none. */
    String decided() {
        return decision == null ? null : decision.state().label() + (decision.state().hasEnd() ? " until " + decision.until() : " " + decision.date());
    }

    /** {@code null} where nothing is ordered, or its price is not known. */
    BigDecimal amount() {
        return orders.isEmpty() || orders.stream().anyMatch(line -> line.price() == null) ? null : BudgetTables.sumOf(orders.stream());
    }

    /** Numbered, each with its day: {@code 1. by 2025-01-06: back up now ... 2. by ...}. */
    String numberedSteps() {
        return IntStream.range(0, steps.size()).mapToObj(i -> (i + 1) + ". by " + steps.get(i).byOn() + ": " + steps.get(i).what()).collect(Collectors.joining(". "));
    }
}
