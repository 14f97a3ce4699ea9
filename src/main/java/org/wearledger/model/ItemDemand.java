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
 * @param further of the mean, those of machines that no line names
 * @param reserve how many more than lines and further ones suffice in four of five cases; below 0 where other kinds make up for it
 * @param worst how many more of the upper item than the lines suffice in nine of ten cases
 * @param orderQuantity how many to have ready when costs of being short are given, else {@code null}
 */
public record ItemDemand(String period, String item, String upperItem, double expected, BudgetPeriod.Levels<Double> bought,
                         BudgetPeriod.Levels<Double> dearerBought, double further, double reserve, double worst, Integer orderQuantity) implements Serializable {
}
