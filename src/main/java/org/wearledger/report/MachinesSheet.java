package org.wearledger.report;

import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.SweepResult;

/** All machines, the worst first: what is looked up of one in view, everything else folded away beside it. */
final class MachinesSheet {
    static final String NAME = "Machines";
    private static final String LINK = "link";
    /** In one line beside the last column, for one that wraps would make every row tall. */
    private static final String REASON = "reason";
    /** What comes first is printed. */
    private static final List<String> IN_VIEW = List.of("machineId", "site", "user", "standing", "consumedPercent", "percentageUsed", "projectedDate", "projectedEarlyDate", "projectedLateDate",
        "driveModel", LINK, "terabytesWritten", "ratedTerabytesWritten", "gigabytesPerDay", REASON);
    private static final List<String> IN_VIEW_OF_A_CHAIN = List.of("machineId", "site", "machineModel", "standing", "when", "consumedPercent", "percentageUsed", "projectedDate", "projectedEarlyDate",
        "projectedLateDate", "driveModel", LINK, REASON);

    private final SweepResult result;
    private final RowLimit limit;
    private final boolean isOfAChain;
    private final boolean plans;
    private final Table<MachineRow> all;
    private final Table<MachineRow> shown;

    MachinesSheet(SweepResult result, RowLimit limit, boolean isOfAChain) {
        this.result = result;
        this.limit = limit;
        this.isOfAChain = isOfAChain;
        plans = !result.isOfCustomersAlone();
        Set<String> toDo = result.plan().work().stream().map(item -> item.machine().id()).collect(Collectors.toSet());
        Table<MachineRow> machines = Tables.machines(result).sortedBy(MachineRow.WORST_FIRST);
        all = isOfAChain ? ofAChain(machines) : machines;
        shown = limit.cut(all, row -> !plans || toDo.contains(row.machineId()));
    }

    Set<String> machines() {
        return shown.rows().stream().map(MachineRow::machineId).collect(Collectors.toSet());
    }

    /** @param hasWork whether a machine stands on the sheet of what is to be done */
    void write(SheetWriter sheet, Predicate<String> hasWork) {
        limit.say(sheet, shown, all.rows().size(), plans ? " (machines to do something for)" : "", SweepWriter.MACHINES_CSV);
        List<String> front = isOfAChain ? IN_VIEW_OF_A_CHAIN : IN_VIEW;
        Table<MachineRow> linked = shown.without(REASON).with(0, Column.link(ToDoSheet.NAME, row -> hasWork.test(row.machineId()))).with(0, Column.text(REASON, "Reason", MachineRow::reason));
        Table<MachineRow> ordered = (shown.rows().stream().anyMatch(row -> row.assessment().machine().user() != null) ? linked : linked.without("user")).inFront(front);
        sheet.dataSheet(ordered, row -> false, ordered.count(front), ordered.count(front) - 1);
    }

    /** The most pressing first, with the time in words that a chain's people tell the owner; no cell has a date where the words give none. */
    private Table<MachineRow> ofAChain(Table<MachineRow> machines) {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        Column<MachineRow> when = Column.longText("when", "When, in words", MachineRow.ofDrive(drive -> OwnersWords.when(drive, doubts, result.asOf())));
        return machines.with(machines.indexOf("reason"), when).emptying(column -> column.name().endsWith("Date"), row -> OwnersWords.isTimeKnown(row.drive(), doubts, result.asOf()))
            .sortedBy(CustomersSummary.mostPressingFirst(result)).withoutEmptyColumns();
    }
}
