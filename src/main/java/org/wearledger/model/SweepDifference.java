package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.Locale;

/**
 * One thing that differs from the earlier sweep.
 *
 * @param machineId {@code null} for a price or an amount to ask for, which concern more than one machine
 * @param before in the earlier sweep, {@code now} in this one; empty where there was nothing
 * @param costDelta by how much the planned amount changed, or that to ask for; 0 where it moved to another quarter; {@code null} where no money moved
 * @param item of the price list, whose price changed, or period of the budget, whose amount did; else {@code null}
 */
public record SweepDifference(Kind kind, String machineId, String site, String before, String now, BigDecimal costDelta, String item)
    implements Serializable {
    /** In printing order. */
    public enum Kind {
        /** From any other standing to urgent. */
        NEWLY_URGENT,
        /** To past rating, from any standing but urgent. */
        NEWLY_PAST_RATING,
        /** To due, from a milder standing or none. */
        NEWLY_DUE,
        /** To watch, from a milder standing or none. */
        NEWLY_WATCH,
        /** A serial seen before is not among the machine's active drives. */
        DRIVE_REPLACED,
        /** In the earlier sweep, and neither seen nor in the inventory now. */
        GONE,
        /** Reported then, not this sweep. */
        NOT_REPORTED,
        /** Not in the earlier sweep. */
        NEW,
        /** To a milder standing, for whatever cause. */
        EASED,
        /** From no verdict to within rating. */
        VERDICT_FOUND,
        /** From any standing to no verdict. */
        VERDICT_LOST,
        /** Planned for an earlier quarter, needed in the present one. */
        NOT_DONE_YET,
        /** Not done or overdue by the plan, but bought by now: {@code decisions.csv} says so. */
        UNDER_WAY,
        /** Planned both times for one quarter; the order could wait then, and should have gone out before this sweep. */
        ORDER_OVERDUE,
        /** Planned both times, for another quarter. */
        QUARTER_MOVED,
        /** Planned both times for one quarter; the day to order by moved by 14 days or more, or to after this sweep. */
        ORDER_DATE_MOVED,
        /** Planned both times; something else is bought. */
        ITEM_CHANGED,
        /** What one costs with labour and disposal, for all the lines that stand in both plans; also where none does. */
        PRICE_CHANGED,
        /** Planned now only. */
        COST_ADDED,
        /** Planned then only. */
        COST_DROPPED,
        /** The write rate grew by half or more, and by 5 GB a day or more. */
        WRITES_ROSE,
        /** The write rate shrank by as much. */
        WRITES_FELL,
        /** What is to be asked for in a period of both budgets. */
        ASK_CHANGED;

        /** The outputs' words, such as {@code newly past rating}. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }
}
