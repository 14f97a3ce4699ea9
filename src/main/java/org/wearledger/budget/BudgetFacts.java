package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveId;
import org.wearledger.model.Price;

/**
 * What is known of money and decisions.
 *
 * @param prices in any order, those that are {@link Budgets#usable}
 * @param decisions about machines; a line without one is accepted
 * @param claims of drives for which the maker is to be asked first, until when
 * @param repairs what repairs for the drive's sake cost by fiscal quarter, which is what was spent where no decision tells it
 */
public record BudgetFacts(List<Price> prices, Decisions decisions, Map<DriveId, LocalDate> claims, Map<String, BigDecimal> repairs) {
    /** Prices alone. */
    public static BudgetFacts of(List<Price> prices) {
        return new BudgetFacts(prices, Decisions.none(), Map.of(), Map.of());
    }
}
