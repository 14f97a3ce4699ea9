package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;

/**
 * One kind of purchase.
 *
 * @param price {@code null} when the price list has none for it
 * @param machines whose replacement it would be
 */
public record PricedItem(String item, Price price, int machines) implements Serializable {
    /** 0.00 without a price. */
    public BigDecimal costOfOne() {
        return price == null ? BigDecimal.ZERO.setScale(2) : price.costOfOne();
    }

    /** Mean cost of replacing any one machine's drive, in cents, of those whose cost is known; 0 when none is. */
    public static BigDecimal meanCost(Collection<PricedItem> items) {
        int machines = items.stream().filter(item -> item.costOfOne().signum() > 0).mapToInt(PricedItem::machines).sum();
        return machines == 0 ? BigDecimal.ZERO : items.stream().map(item -> item.costOfOne().multiply(BigDecimal.valueOf(item.machines)))
            .reduce(BigDecimal.ZERO, BigDecimal::add).divide(BigDecimal.valueOf(machines), 2, RoundingMode.HALF_UP);
    }
}
