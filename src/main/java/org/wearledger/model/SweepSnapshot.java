package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;

/**
 * A sweep as far as it is compared with another.
 *
 * @param asks of its budget's periods, in their order; none when it had no budget
 * @param costs of what a machine may call for, planned or not, and of what else is in the price list; none when they are not known
 */
public record SweepSnapshot(List<MachineSnapshot> machines, List<Ask> asks, List<Cost> costs) implements Serializable {
    public SweepSnapshot {
        machines = List.copyOf(machines);
        asks = List.copyOf(asks);
        costs = List.copyOf(costs);
    }

    /** Its machines alone. */
    public SweepSnapshot(List<MachineSnapshot> machines) {
        this(machines, List.of(), List.of());
    }

    /**
     * What was to be asked for.
     *
     * @param period its label
     * @param until its last day
     * @param parts {@code null} when not known
     * @param countP50 replacements not exceeded in half of all cases, {@code countP80} in four of five; {@code null} when not known
     */
    public record Ask(String period, LocalDate until, BigDecimal amount, Parts parts, Integer countP50, Integer countP80) implements Serializable {
    }

    /** What an amount to ask for is the sum of. A contingency is {@code null} where a price was missing. */
    public record Parts(BigDecimal plan, BigDecimal contingencyForWear, BigDecimal contingencyForPrices, BigDecimal allowance) implements Serializable {
    }

    /**
     * What one costs, with labour and disposal.
     *
     * @param amount {@code null} without a price
     * @param calledFor false for what stands in the price list only, which an earlier sweep's folder does not tell
     * @param dearerChoiceOf lines of the plan whose dearer choice it is; 0 when not known
     */
    public record Cost(String item, BigDecimal amount, boolean calledFor, long dearerChoiceOf) implements Serializable {
        /** Called for, and as far as is known no dearer choice. */
        public Cost(String item, BigDecimal amount) {
            this(item, amount, true, 0);
        }
    }
}
