package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;

/**
 * What is bought of one item in one quarter, for the lines of the plan.
 *
 * @param quarter index in the plan
 * @param needed by the lines
 * @param fromStock of them, from what is on hand; the earlier quarter takes first
 * @param bought in whole packs, less what earlier packs left over
 * @param saved what the stock saves, at the unit price
 * @param packs what whole packs cost more, less what a price break saves
 */
public record ItemOrder(String item, int quarter, int needed, int fromStock, int bought, BigDecimal saved, BigDecimal packs) implements Serializable {
}
