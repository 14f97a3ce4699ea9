package org.wearledger.budget;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.ItemOrder;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;

/** What the plan's lines take from stock, and what is bought for the others. */
final class Orders {
    private Orders() {
    }

    /** By item, then quarter, also where none is needed: of all that a line buys, or would buy if it were decided otherwise. */
    static List<ItemOrder> of(Collection<PlannedReplacement> lines, List<String> quarters, PriceBook prices) {
        Map<String, Map<String, Long>> needed = lines.stream().filter(line -> line.boughtIn() != null).collect(Collectors.groupingBy(PlannedReplacement::item,
            Collectors.groupingBy(PlannedReplacement::boughtIn, Collectors.counting())));
        List<ItemOrder> orders = new ArrayList<>();
        for (String item : lines.stream().flatMap(line -> Stream.of(line.repair().item(), line.repair().machineItem())).filter(Objects::nonNull)
            .collect(Collectors.toCollection(TreeSet::new))) {
            Price price = prices.price(item);
            Price.Terms terms = price == null ? Price.Terms.NONE : price.terms();
            int stock = terms.stock();
            int left = 0;
            for (int quarter = 0; quarter < quarters.size(); quarter++) {
                int need = needed.getOrDefault(item, Map.of()).getOrDefault(quarters.get(quarter), 0L).intValue();
                int fromStock = Math.min(need, stock);
                stock -= fromStock;
                int missing = Math.max(0, need - fromStock - left);
                int bought = (missing + terms.packSize() - 1) / terms.packSize() * terms.packSize();
                left += bought - (need - fromStock);
                orders.add(new ItemOrder(item, quarter, need, fromStock, bought, times(prices.costOfUnit(item), fromStock),
                    times(costOfUnit(price, bought), bought).subtract(times(prices.costOfUnit(item), need - fromStock))));
            }
        }
        return orders;
    }

    private static BigDecimal costOfUnit(Price price, int bought) {
        return price == null ? BigDecimal.ZERO.setScale(2)
            : price.terms().breakPrice() != null && bought >= price.terms().breakQuantity() ? price.converted(price.terms().breakPrice()) : price.costOfUnit();
    }

    private static BigDecimal times(BigDecimal cost, int number) {
        return cost.multiply(BigDecimal.valueOf(number));
    }
}
