package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;

/**
 * A sweep as far as it is compared with another.
 *
 * @param asks of its budget's periods, in their order; none when it had no budget
 * @param costs of what a machine may call for, planned or not; none when they are not known
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
     */
    public record Ask(String period, LocalDate until, BigDecimal amount) implements Serializable {
    }

    /**
     * What one costs, with labour and disposal.
     *
     * @param amount {@code null} without a price
     */
    public record Cost(String item, BigDecimal amount) implements Serializable {
    }
}
