package org.wearledger.model;

import java.io.Serializable;

/**
 * Replacements of one kind of purchase in one period.
 *
 * @param period its label
 * @param item bought as the plan has it, {@code upperItem} in the upper figures
 * @param expected mean number, over all machines with this kind of drive
 * @param bought how many of it make up the period's cost at each probability
 * @param dearerBought the same of the upper item and the cost at the dearer prices
 * @param orderQuantity how many to have ready when costs of being short are given, else {@code null}
 */
public record ItemDemand(String period, String item, String upperItem, double expected, BudgetPeriod.Levels<Double> bought,
                         BudgetPeriod.Levels<Double> dearerBought, Integer orderQuantity) implements Serializable {
}
