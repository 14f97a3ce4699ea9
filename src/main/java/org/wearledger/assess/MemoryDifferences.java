package org.wearledger.assess;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/** Machines whose memory the inventory gives otherwise than their own report, which counts. */
public final class MemoryDifferences {
    /** Of the larger size: GB for GiB, 7 %, stays below it. */
    private static final double TOLERATED_SHARE = 1 / 8.0;
    private static final long BYTES_PER_GIBIBYTE = 1L << 30;
    /** Graphics in the processor take 1 to 4 GiB, and the firmware something beside them (from memory). */
    private static final long MOST_TAKEN_BYTES = 5 * BYTES_PER_GIBIBYTE;
    /** Of the inventory's size: graphics may take 2 of 8 GiB and 4 of 16, while 4 for 8 is another machine's. */
    private static final double SHARE_NEVER_TAKEN = 1 / 3.0;

    private MemoryDifferences() {
    }

    /**
     * One note for each row of the inventory that differs by more than an eighth of the larger size; none where either gives no size, nor where
     * the report lacks less than a third of the inventory's size and at most 5 GiB.
     *
     * @param reported a machine, by its folded id, as its latest report names it; {@code null} for one without a report
     * @param reports the place of that report, the same way
     * @param inventory rows that are used
     * @param places of those rows, in their order
     */
    public static List<Problem> notes(Function<String, Machine> reported, Function<String, SourcePlace> reports, List<InventoryEntry> inventory, List<SourcePlace> places) {
        List<Problem> notes = new ArrayList<>();
        for (int i = 0; i < inventory.size(); i++) {
            String id = DriveId.fold(inventory.get(i).machineId());
            Machine machine = reported.apply(id);
            Long listed = inventory.get(i).memoryBytes();
            Long told = machine == null ? null : machine.memoryBytes();
            if (listed != null && told != null && differ(listed, told)) {
                notes.add(Problem.of(told < listed && told >= listed / 2 ? Finding.MEMORY_PERHAPS_TAKEN : Finding.MEMORY_OTHERWISE, places.get(i), machine.id())
                    .with(Fact.BEFORE, listed).with(Fact.AFTER, told)
                    .with(Fact.PLACE, reports.apply(id).inWords()));
            }
        }
        return notes;
    }

    private static boolean differ(long listed, long told) {
        long lacking = listed - told;
        boolean taken = lacking > 0 && lacking <= MOST_TAKEN_BYTES && lacking < SHARE_NEVER_TAKEN * listed;
        return !taken && Math.abs(lacking) > TOLERATED_SHARE * Math.max(listed, told);
    }
}
