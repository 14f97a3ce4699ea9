package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * What to buy, when, for how much, and how sure that is.
 *
 * @param leadTimeDays from order to delivery
 * @param currency of all amounts; empty when there is no price list
 * @param lines by need date and machine
 * @param quarters in time order, then each fiscal year's together, then all together
 * @param demand by period and item, in the order of the periods
 * @param orders by item and quarter, of what the lines buy or could
 * @param centres the funding request by cost centre, then by period in the order of {@code quarters}; it adds up to the cent
 * @param items every kind of purchase that some machine calls for, by name
 * @param machines that random failures are allowed for: all in the inventory or seen
 * @param sharedShockPerQuarter standard deviation of the shock that all drives share, of the log rate
 */
public record Budget(BudgetSettings settings, int leadTimeDays, String currency, List<PlannedReplacement> lines,
                     List<BudgetPeriod> quarters, List<ItemDemand> demand, List<ItemOrder> orders, List<CentreFunding> centres,
                     List<PricedItem> items, int machines, double sharedShockPerQuarter) implements Serializable {
    public Budget {
        lines = List.copyOf(lines);
        quarters = List.copyOf(quarters);
        demand = List.copyOf(demand);
        orders = List.copyOf(orders);
        centres = List.copyOf(centres);
        items = List.copyOf(items);
    }
}
