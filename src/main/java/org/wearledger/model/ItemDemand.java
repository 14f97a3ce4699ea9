package org.wearledger.model;

import java.io.Serializable;

/**
 * Replacements expected of one kind of purchase in one quarter.
 *
 * @param item bought as the plan has it, {@code upperItem} in the upper figures
 * @param expected mean number, over all machines with this kind of drive
 * @param orderQuantity how many to have ready when costs of being short are given, else {@code null}
 */
public record ItemDemand(String quarter, String item, String upperItem, double expected, Integer orderQuantity)
    implements Serializable {
}
