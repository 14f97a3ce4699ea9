package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;

/**
 * What one fiscal quarter, or several together, will cost. Quantiles of several quarters are not the sums of theirs.
 *
 * @param from first day, {@code until} last day
 * @param years length, of a quarter begun already what is left of it
 * @param named lines of the plan that fall in it, with their amount
 * @param expected mean number of replacements for wear: the named when they are planned, or earlier if they cross before, and others
 *     when they cross
 * @param counts how many, by probability, with a shock that all drives share
 * @param independentP90 the 90 % count if drives had nothing in common, for comparison: too small
 * @param expectedAmount mean cost at the plan's prices, {@code expectedUpperAmount} at the dearer ones
 * @param factors by what the expected amounts are multiplied for the cost at 50, 80 and 90 %
 * @param amounts the cost at 50 % (plan's prices), 80 and 90 % (dearer prices)
 * @param randomFailures number of random failures allowed for
 * @param allowance their cost
 * @param orderQuantity how many to have ready when costs of being short are given, else {@code null}
 */
public record BudgetPeriod(String label, LocalDate from, LocalDate until, int quarters, double years, int named, BigDecimal namedAmount,
                           double expected, Levels<Integer> counts, int independentP90, BigDecimal expectedAmount,
                           BigDecimal expectedUpperAmount, Levels<Double> factors, Levels<BigDecimal> amounts,
                           double randomFailures, BigDecimal allowance, Integer orderQuantity) implements Serializable {
    /** One value for each stated probability. */
    public record Levels<T extends Serializable>(T p50, T p80, T p90) implements Serializable {
    }

    /** What is sure to be asked for: the named lines, or the P50 where that is more. */
    public BigDecimal plan() {
        return namedAmount.max(amounts == null ? namedAmount : amounts.p50());
    }

    /** What the P80 asks beyond the plan. */
    public BigDecimal contingency() {
        return amounts == null ? BigDecimal.ZERO : amounts.p80().subtract(plan()).max(BigDecimal.ZERO.setScale(2));
    }

    /** The P90, not below plan and contingency. */
    public BigDecimal cap() {
        return amounts == null ? plan() : amounts.p90().max(plan().add(contingency()));
    }
}
