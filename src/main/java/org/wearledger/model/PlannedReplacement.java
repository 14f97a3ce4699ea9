package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;

/**
 * One line of the budget: what is replaced in one machine, when and for how much.
 *
 * @param machine as last reported
 * @param drive the drive that wears, which need not be what is bought
 * @param driveModel of that drive, as its latest report spells it
 * @param needOn the day it should be installed: the as-of date when it should have been already
 * @param quarter fiscal quarter of {@code needOn}, such as {@code 2025-Q1} or {@code FY2025-Q1}
 * @param orderByOn needOn less lead time and install slot, not before the as-of date
 * @param late the order should have gone out before the as-of date
 * @param replaces what is taken out: {@code socketed drive}, {@code board}, {@code machine}, {@code drive, attachment unknown}
 * @param item the price list's name of what is bought
 * @param upperItem the dearer choice where it is not settled which it will be: priced in the upper figures
 * @param price of {@code item}; {@code null} when the price list has none, then {@code amount} is 0
 * @param amount quantity x (unit price + labour + disposal fee), in cents
 * @param upperAmount the same for {@code upperItem}
 * @param probability that the threshold is crossed by the end of the quarter; 1 for a drive past it or failing
 * @param figuresOn the day of the latest report
 * @param staleBecause why that report is none of this sweep: what became of a later one; {@code null} when it is of this sweep
 * @param inInventory the machine is in the inventory, or none was given
 * @param repair what the repair would take, and whether the machine is replaced instead
 * @param claimUntil the end of the warranty under which the maker is to be asked for another drive; {@code null} for none
 */
public record PlannedReplacement(Machine machine, DriveId drive, String driveModel, Attachment attachment, Standing standing,
                                 LocalDate needOn, String quarter, LocalDate orderByOn, boolean late, String replaces,
                                 String item, String upperItem, int quantity, Price price, BigDecimal amount,
                                 BigDecimal upperAmount, double probability, String reason, LocalDate figuresOn,
                                 String staleBecause, boolean inInventory, Repair repair, LocalDate claimUntil, LineDecision decision) implements Serializable {
    /**
     * What a repair would take.
     *
     * @param item of the price list; {@code PlannedReplacement.item} unless the machine is replaced
     * @param upperItem the dearer choice of the repair
     * @param machineItem the price list's machine, {@code null} without one
     * @param refresh why the machine is replaced, {@code null} for a repair
     */
    public record Repair(String item, String upperItem, String machineItem, RefreshReason refresh) implements Serializable {
    }

    /** The quarter in which it is bought; {@code null} when it is not, or was already. */
    public String boughtIn() {
        return switch (decision.choice()) {
            case ACCEPT -> quarter;
            case DEFER -> decision.deferredTo() == null ? quarter : decision.deferredTo();
            case REJECT, BOUGHT -> null;
        };
    }

    /** Whether the machine is replaced as a whole, for other reasons than its drive. */
    public boolean isRefresh() {
        return repair.refresh() != null;
    }

    /** Whether the maker is asked first. */
    public boolean claim() {
        return claimUntil != null;
    }

    /** Whether the figures are older than this sweep. */
    public boolean stale() {
        return staleBecause != null;
    }
}
