package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;

/**
 * A machine as one sweep saw it, as far as two sweeps are compared. What was not known is {@code null}.
 *
 * @param driveSerials of its active drives, in order
 * @param gigabytesPerDay of its most written drive
 * @param lastSeenOn day (UTC) of its latest report
 * @param reported whether that was recent enough for the sweep
 * @param planned lines of the budget for it; {@code null} when the earlier sweep had no budget
 */
public record MachineSnapshot(String machineId, String site, List<String> driveSerials, Standing standing, Double gigabytesPerDay,
                              Double memoryGibibytes, LocalDate lastSeenOn, boolean reported, List<Planned> planned)
    implements Serializable {
    public MachineSnapshot {
        driveSerials = List.copyOf(driveSerials);
        planned = planned == null ? null : List.copyOf(planned);
    }

    /**
     * One line of the budget.
     *
     * @param orderByOn day to order by; {@code null} where the earlier sweep does not say
     * @param item what is bought; {@code null} likewise
     */
    public record Planned(LocalDate needOn, LocalDate orderByOn, String item, BigDecimal amount) implements Serializable {
        /** Of an earlier sweep that says no more. */
        public Planned(LocalDate needOn, BigDecimal amount) {
            this(needOn, null, null, amount);
        }
    }

    /** Sum of the planned lines; 0.00 with none, also when that sweep had no budget. */
    public BigDecimal plannedAmount() {
        return planned == null ? BigDecimal.ZERO.setScale(2) : planned.stream().map(Planned::amount).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }
}
