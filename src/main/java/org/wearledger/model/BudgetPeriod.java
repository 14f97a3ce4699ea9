package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;

/**
 * What one fiscal quarter, or several together, will cost. Quantiles of several quarters are not the sums of theirs.
 *
 * @param label such as {@code 2025-Q1}, {@code FY2025-Q1}, {@code 2025}, {@code all 8 quarters}
 * @param from first day, {@code until} last day
 * @param first index of its first quarter in the plan, {@code quarters} how many it has
 * @param years length, of a quarter begun already what is left of it
 * @param named lines of the plan that fall in it, with their amount
 * @param expected mean number of replacements for wear: the named when they are planned, or earlier if they cross before, and others
 *     when they cross; NaN without probabilities, then the next seven are {@code null} or 0
 * @param counts how many, by probability, with a shock that all drives share
 * @param independentP90 the 90 % count if drives had nothing in common, for comparison: too small
 * @param priced every purchase that a machine may call for has a price; else there is no sense in quantiles of the cost
 * @param cost at the plan's prices
 * @param dearerCost at the dearer prices, where it is not settled what has to be bought
 * @param randomFailures number of random failures allowed for
 * @param allowance their cost
 * @param orderQuantity how many to have ready when costs of being short are given, else {@code null}
 */
public record BudgetPeriod(String label, LocalDate from, LocalDate until, int first, int quarters, double years, int named,
                           BigDecimal namedAmount, double expected, Levels<Integer> counts, int independentP90, boolean priced, Cost cost, Cost dearerCost,
                           double randomFailures, BigDecimal allowance, Integer orderQuantity) implements Serializable {
    /** One value for each stated probability. */
    public record Levels<T extends Serializable>(T p50, T p80, T p90) implements Serializable {
    }

    /**
     * Cost of the replacements for wear, as a distribution.
     *
     * @param expected mean cost
     * @param amounts the cost at each probability
     */
    public record Cost(BigDecimal expected, Levels<BigDecimal> amounts) implements Serializable {
    }

    /** False for the lines that take several quarters together. */
    public boolean isOneQuarter() {
        return quarters == 1;
    }

    /**
     * False while a machine may call for what has no price: then neither contingency nor cap can be worked out, and what is to be asked for is
     * at least the rest. The straight line has none, which is known.
     */
    public boolean isContingencyKnown() {
        return cost == null || priced;
    }

    private boolean hasQuantiles() {
        return cost != null && priced;
    }

    /** What is sure to be asked for: the named lines, or the P50 where that is more. */
    public BigDecimal plan() {
        return !hasQuantiles() ? namedAmount : namedAmount.max(cost.amounts().p50());
    }

    /** What the P80 asks beyond the plan, at the plan's prices: for more wear; {@code null} where {@linkplain #isContingencyKnown not known}. */
    public BigDecimal contingencyForWear() {
        return !isContingencyKnown() ? null : cost == null ? ZERO : cost.amounts().p80().subtract(plan()).max(ZERO);
    }

    /** What the P80 asks beyond that at the dearer prices; {@code null} likewise. */
    public BigDecimal contingencyForPrices() {
        return !isContingencyKnown() ? null : cost == null ? ZERO
            : dearerCost.amounts().p80().subtract(plan()).max(ZERO).subtract(contingencyForWear()).max(ZERO);
    }

    /** plan + contingency for wear + contingency for prices + allowance for random failures, as far as they are known. */
    public BigDecimal toAskFor() {
        return plan().add(isContingencyKnown() ? contingencyForWear().add(contingencyForPrices()) : ZERO).add(allowance);
    }

    /** The P90 at the dearer prices and the allowance, not below what is asked for; {@code null} likewise. */
    public BigDecimal cap() {
        return !isContingencyKnown() ? null : cost == null ? toAskFor() : dearerCost.amounts().p90().add(allowance).max(toAskFor());
    }

    private static final BigDecimal ZERO = BigDecimal.ZERO.setScale(2);
}
