package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * What the table of repairs says up to the as-of date.
 *
 * @param from first day of the quarter of the first repair; {@code null} without repairs
 * @param currency of the price list; empty without one
 * @param counts in all by reason, by site and by quarter; then of each quarter by reason, and of each site
 * @param stock of all sites by item, and boards by machine model; then of each site by item
 * @param later rows after the as-of date, which are not counted
 * @param machinesGone machines of the table that are not in the sweep: sold, withdrawn, or never read
 */
public record RepairSummary(LocalDate from, String currency, List<Count> counts, DeadDrives deadDrives, List<StockNeed> stock, Failures failures, int later, int machinesGone) implements Serializable {
    /** The site or the machine model of a repair that no table tells. */
    public static final String NOT_KNOWN = "not known";

    /**
     * Repairs of one reason, in one fiscal quarter, at one site; {@code null} stands for all of a kind.
     *
     * @param tickets repairs; several rows of one ticket are one
     * @param cost of those that tell it
     * @param withoutCost rows that do not
     */
    public record Count(String quarter, Repair.Reason reason, String site, int tickets, BigDecimal cost, int withoutCost) implements Serializable {
        /** Whether it is of one reason in all quarters. */
        public boolean isOfReason() {
            return reason != null && quarter == null && site == null;
        }

        /** Whether it is of all reasons at one site. */
        public boolean isOfSite() {
            return site != null && reason == null;
        }

        /** Whether it is of all reasons in one quarter. */
        public boolean isOfQuarter() {
            return quarter != null && reason == null;
        }
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
     * @param site {@code null} for all
     * @param machineModel of boards, which fit one model; {@code null} for the item in all machines
     * @param inPriceList whether the price list has the item
     * @param fitted in all the time
     * @param quarters that this time has
     * @param low not reached in one quarter of ten, {@code enough} suffices in nine of ten
     */
    public record StockNeed(String site, String item, String machineModel, boolean inPriceList, int fitted, double quarters, int low, int typical, int enough) implements Serializable {
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

    /** What repairs for the sake of a drive cost, by fiscal quarter. */
    public Map<String, BigDecimal> costOfDrives() {
        return counts.stream().filter(count -> count.quarter() != null && count.site() == null && (count.reason() == Repair.Reason.WORN || count.reason() == Repair.Reason.DEAD_DRIVE))
            .collect(Collectors.groupingBy(Count::quarter, Collectors.reducing(BigDecimal.ZERO.setScale(2), Count::cost, BigDecimal::add)));
    }

    /** Whether there is nothing to tell. */
    public boolean isEmpty() {
        return counts.isEmpty();
    }
}
