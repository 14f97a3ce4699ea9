package org.wearledger.model;

import java.io.Serializable;

/**
 * What an earlier plan said of its first quarter, which is over, and what came.
 *
 * @param period label of the quarter
 * @param middle replacements that were not exceeded in half of all cases, by that plan
 * @param high the same in four of five cases
 * @param came machines of both sweeps that are urgent or past their rating now, or have another drive since; {@code urgent} those of them that are urgent, which no
 *     forecast of wear foretells
 */
public record PlanOutcome(String period, int middle, int high, int came, int urgent) implements Serializable {
}
