package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.List;

/**
 * What the identified replacements of one quarter cost in two plans.
 *
 * @param quarter its label, such as {@code 2025-Q1}
 * @param parts what the difference is made of; they add up to it
 */
public record NamedCostDifference(String quarter, BigDecimal before, BigDecimal now, List<Part> parts) implements Serializable {
    public NamedCostDifference {
        parts = List.copyOf(parts);
    }

    /**
     * Lines that differ in the same way.
     *
     * @param why such as {@code not done yet}
     * @param lines how many
     * @param costDelta of all of them; a line without a price counts 0.00
     */
    public record Part(String why, int lines, BigDecimal costDelta) implements Serializable {
        /** Example: {@code 3 not done yet +262.50}. */
        public String words() {
            return lines + " " + why + " " + FundingDifference.signed(costDelta);
        }
    }

    /** Now less then. */
    public BigDecimal costDelta() {
        return now.subtract(before);
    }
}
