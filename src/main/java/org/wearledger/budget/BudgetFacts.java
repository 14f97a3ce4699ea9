package org.wearledger.budget;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveId;
import org.wearledger.model.Price;

/**
 * What is known of money and decisions.
 *
 * @param prices in any order, those that are {@link Budgets#usable}
 * @param decisions about machines; a line without one is accepted
 * @param claims drives of which the maker is to be asked for a replacement
 * @param repairs what repairs for the drive's sake cost by fiscal quarter, which is what was spent where no decision tells it
 */
public record BudgetFacts(List<Price> prices, Decisions decisions, Set<DriveId> claims, Map<String, BigDecimal> repairs) {
    /** Prices alone. */
    public static BudgetFacts of(List<Price> prices) {
        return new BudgetFacts(prices, Decisions.none(), Set.of(), Map.of());
    }
}
