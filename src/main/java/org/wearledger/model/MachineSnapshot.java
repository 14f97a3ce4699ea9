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
     * @param driveSerial of the drive that wears
     * @param item what is bought
     * @param orderByOn day to order by, not before that sweep's as-of date; {@code null} where nothing is to be bought
     * @param late the order should have gone out before that date
     * @param amount {@code null} without a price
     */
    public record Planned(String driveSerial, String item, LocalDate needOn, LocalDate orderByOn, boolean late, BigDecimal amount)
        implements Serializable {
        /** What the plan's total counts it with: 0.00 without a price. */
        public BigDecimal cost() {
            return amount == null ? BigDecimal.ZERO.setScale(2) : amount;
        }
    }

    /** The planned lines; none when that sweep had no budget. */
    public List<Planned> plannedOrNone() {
        return planned == null ? List.of() : planned;
    }

    /** Sum of the planned lines; 0.00 with none, also when that sweep had no budget. */
    public BigDecimal plannedAmount() {
        return plannedOrNone().stream().map(Planned::cost).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }
}
