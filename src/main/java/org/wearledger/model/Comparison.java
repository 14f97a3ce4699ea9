package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.List;

/**
 * This sweep against an earlier one.
 *
 * @param with what it is compared with, for the reader
 * @param changes by kind, then machine
 * @param asks amounts to ask for that differ, in the order of the periods
 * @param quarter named replacements of the quarter of the as-of date; {@code null} when they are the same, or that sweep had no budget
 * @param plannedBefore sum of the named replacements then, {@code null} when that sweep had no budget; {@code plannedNow} now
 */
public record Comparison(String with, List<Change> changes, List<AskChange> asks, QuarterChange quarter, BigDecimal plannedBefore, BigDecimal plannedNow) implements Serializable {
    public Comparison {
        changes = List.copyOf(changes);
        asks = List.copyOf(asks);
    }
}
