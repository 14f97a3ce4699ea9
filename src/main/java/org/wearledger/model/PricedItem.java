package org.wearledger.model;

import java.io.Serializable;

/**
 * One kind of purchase.
 *
 * @param price {@code null} when the price list has none for it
 * @param machines whose replacement it would be
 */
public record PricedItem(String item, Price price, int machines) implements Serializable {
}
