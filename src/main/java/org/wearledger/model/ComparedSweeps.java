package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.List;

/**
 * This sweep against an earlier one.
 *
 * @param with what it is compared with, for the reader
 * @param differences by kind, then machine
 * @param asks amounts to ask for that differ, in the order of the periods
 * @param asked all that the earlier sweep asked for
 * @param quarter named replacements of the quarter of the as-of date; {@code null} when they are the same, or that sweep had no budget
 * @param outcome of that sweep's first quarter, {@code null} unless it is over and the next is not
 * @param plannedBefore sum of the identified replacements then, {@code null} when that sweep had no budget; {@code plannedNow} now
 */
public record ComparedSweeps(String with, List<SweepDifference> differences, List<FundingDifference> asks, List<SweepSnapshot.Ask> asked, NamedCostDifference quarter, PlanOutcome outcome, BigDecimal plannedBefore, BigDecimal plannedNow) implements Serializable {
    public ComparedSweeps {
        differences = List.copyOf(differences);
        asks = List.copyOf(asks);
        asked = List.copyOf(asked);
    }

    /** The same with other differences. */
    public ComparedSweeps with(List<SweepDifference> others) {
        return new ComparedSweeps(with, others, asks, asked, quarter, outcome, plannedBefore, plannedNow);
    }
}
