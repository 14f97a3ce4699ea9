package org.wearledger.report;

import java.util.HashMap;
import java.util.Map;
import org.wearledger.model.Budget;
import org.wearledger.model.DriveId;
import org.wearledger.model.PlannedReplacement;

/** The plan's lines, found by machine and drive. */
final class PlanLines {
    private record Key(String machineId, DriveId drive) {
    }

    private final Map<Key, PlannedReplacement> lines = new HashMap<>();

    /** @param budget {@code null} for none */
    PlanLines(Budget budget) {
        if (budget != null) {
            budget.lines().forEach(line -> lines.put(new Key(line.machine().id(), line.drive()), line));
        }
    }

    /** {@code null} where the plan has none. */
    PlannedReplacement of(MachineRow row) {
        return row.drive() == null ? null : lines.get(new Key(row.machineId(), row.drive().id()));
    }
}
