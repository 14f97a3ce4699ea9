package org.wearledger.assess;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.wearledger.model.DriveId;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** Machines whose memory the inventory gives otherwise than their own report, which counts. */
public final class MemoryDifferences {
    /** Of the larger size: what graphics in the processor take for themselves, and GB for GiB, 7 %, stay below it. */
    private static final double TOLERATED_SHARE = 1 / 8.0;
    private static final BigDecimal BYTES_PER_GIBIBYTE = BigDecimal.valueOf(1L << 30);

    private MemoryDifferences() {
    }

    /**
     * One note for each row of the inventory that differs by more than an eighth of the larger size; none where either gives no size.
     *
     * @param reported each machine as its latest report names it, by folded id
     * @param reports the places of those reports, likewise
     * @param inventory rows that are used
     * @param places of those rows, in their order
     */
    public static List<Problem> notes(Map<String, Machine> reported, Map<String, SourcePlace> reports, List<InventoryEntry> inventory, List<SourcePlace> places) {
        List<Problem> notes = new ArrayList<>();
        for (int i = 0; i < inventory.size(); i++) {
            String id = DriveId.fold(inventory.get(i).machineId());
            Long listed = inventory.get(i).memoryBytes();
            Long told = reported.get(id) == null ? null : reported.get(id).memoryBytes();
            if (listed != null && told != null && Math.abs(listed - told) > TOLERATED_SHARE * Math.max(listed, told)) {
                notes.add(new Problem(ProblemKind.MEMORY_DIFFERS, places.get(i), reported.get(id).id(), "memory of " + gibibytes(listed) + " GiB, and of " + gibibytes(told)
                    + " GiB in the machine's report (" + reports.get(id).inWords() + ")", "the same size in both, but for an eighth that graphics may take",
                    "the report's size is used; correct the row, or the unit of memory in the mapping where many machines differ so"));
            }
        }
        return notes;
    }

    private static String gibibytes(long bytes) {
        return BigDecimal.valueOf(bytes).divide(BYTES_PER_GIBIBYTE, 2, RoundingMode.HALF_UP).stripTrailingZeros().toPlainString();
    }
}
