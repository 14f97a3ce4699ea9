package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;

/**
 * What one fiscal quarter, or several together, will cost. Quantiles of several quarters are not the sums of theirs; all money is.
 *
 * @param label such as {@code 2025-Q1}, {@code FY2025-Q1}, {@code 2025}, {@code all 8 quarters}
 * @param from first day, {@code until} last day
 * @param first index of its first quarter in the plan, {@code quarters} how many it has
 * @param years length, of a quarter begun already what is left of it
 * @param named lines of the plan that are bought in it
 * @param expected mean number of replacements for wear: the identified when they are planned, or earlier if they cross before, and others
 *     when they cross; NaN without probabilities, then the next six are {@code null} or 0
 * @param counts how many, by probability, with a shock that all drives share
 * @param independentP90 the 90 % count if drives had nothing in common, for comparison: too small
 * @param priced every purchase of the plan has a price; else the funding request is incomplete
 * @param cost at the plan's prices
 * @param dearerCost at the dearer prices, where it is not settled what has to be bought
 * @param randomFailures number of random failures allowed for
 * @param orderQuantity how many to have ready when costs of being short are given, else {@code null}
 * @param funding the money, part by part
 * @param spent in it until the as-of date; {@code null} where nothing tells it
 */
public record BudgetPeriod(String label, LocalDate from, LocalDate until, int first, int quarters, double years, int named, double expected, Levels<Integer> counts,
                           int independentP90, boolean priced, Cost cost, Cost dearerCost, double randomFailures, Integer orderQuantity, Funding funding, BigDecimal spent) implements Serializable {
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

    /** False while a line of the plan has no price: then the funding request is incomplete. */
    public boolean isContingencyKnown() {
        return priced;
    }

    /** What the identified lines cost, repairs and machines. */
    public BigDecimal namedAmount() {
        return funding.identified().add(funding.refresh());
    }

    /** Named replacements and expected further ones. */
    public BigDecimal plan() {
        return funding.plan();
    }

    /** The risk reserve and the risk of what is put off; {@code null} where {@linkplain #isContingencyKnown not known}. */
    public BigDecimal contingencyForWear() {
        return isContingencyKnown() ? funding.reserve().add(funding.putOff()) : null;
    }

    /** What boards that turn out to be machines cost more; {@code null} as well where it is not known. */
    public BigDecimal contingencyForPrices() {
        return isContingencyKnown() ? funding.machines() : null;
    }

    /** For random failures. */
    public BigDecimal allowance() {
        return funding.failures();
    }

    /** The funding request, as far as its parts are known. */
    public BigDecimal toAskFor() {
        return funding.request();
    }

    /** The worst case; {@code null} where it is not known. */
    public BigDecimal cap() {
        return isContingencyKnown() ? funding.worstCase() : null;
    }
}
