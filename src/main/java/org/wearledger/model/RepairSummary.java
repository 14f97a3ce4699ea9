package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;

/**
 * What the table of repairs says up to the as-of date.
 *
 * @param from first day of the quarter of the first repair; {@code null} without repairs
 * @param currency of the price list; empty without one
 * @param counts by quarter, then by reason
 * @param stock by site, then by item
 * @param later rows after the as-of date, which are not counted
 * @param machinesGone machines of the table that are not in the sweep: sold, withdrawn, or never read
 */
public record RepairSummary(LocalDate from, String currency, List<Count> counts, DeadDrives deadDrives, List<StockNeed> stock, Failures failures, int later, int machinesGone) implements Serializable {
    /**
     * Repairs of one reason in one fiscal quarter.
     *
     * @param tickets repairs; several rows of one ticket are one
     * @param cost of those that tell it
     * @param withoutCost rows that do not
     */
    public record Count(String quarter, Repair.Reason reason, int tickets, BigDecimal cost, int withoutCost) implements Serializable {
    }

    /**
     * Of the drives that came in dead, those that were worn: by their last report, carried on at their own write rate to the day.
     *
     * @param dead that came in
     * @param read of which a report tells the wear
     * @param worn of those read
     * @param share of all that were worn, with 95 %: from none of those not read to all of them, each end widened for chance; {@code null} without dead drives
     */
    public record DeadDrives(int dead, int read, int worn, Interval share) implements Serializable {
    }

    /**
     * What a shop fits in a quarter, as in the past.
     *
     * @param fitted in all the time
     * @param quarters that this time has
     * @param low not reached in one quarter of ten, {@code enough} suffices in nine of ten
     */
    public record StockNeed(String site, String item, int fitted, double quarters, int low, int typical, int enough) implements Serializable {
    }

    public RepairSummary {
        counts = List.copyOf(counts);
        stock = List.copyOf(stock);
    }

    /** The same, with what is learned of failures, and of the machines that are gone. */
    public RepairSummary with(Failures learned, int gone) {
        return new RepairSummary(from, currency, counts, deadDrives, stock, learned, later, gone);
    }

    /** Without a table of repairs. */
    public static RepairSummary none() {
        return new RepairSummary(null, "", List.of(), new DeadDrives(0, 0, 0, null), List.of(), Failures.none(Failures.Basis.TOO_FEW), 0, 0);
    }

    /** Whether there is nothing to tell. */
    public boolean isEmpty() {
        return counts.isEmpty();
    }
}
