package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.wearledger.model.Decision;
import org.wearledger.model.DriveId;

/** What was spent in a quarter: by what was ordered, else by the repairs. */
final class Spending {
    private final Map<String, BigDecimal> repairs;
    private final Collection<Decision> bought;

    Spending(BudgetFacts facts) {
        repairs = facts.repairs();
        // What was ordered and then came is one purchase.
        Map<List<String>, Decision> latest = new LinkedHashMap<>();
        facts.decisions().all().stream().filter(decision -> decision.state().isBought() && decision.cost() != null)
            .forEach(decision -> latest.put(List.of(DriveId.fold(decision.machineId()), decision.item() == null ? "" : DriveId.fold(decision.item())), decision));
        bought = latest.values();
    }

    /** {@code null} where nothing tells it. */
    BigDecimal in(String quarter, LocalDate from, LocalDate until) {
        return bought.isEmpty() ? repairs.get(quarter)
            : bought.stream().filter(decision -> !decision.date().isBefore(from) && !decision.date().isAfter(until)).map(Decision::cost).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }
}
