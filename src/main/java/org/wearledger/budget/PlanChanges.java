package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.wearledger.model.Change;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.MachineSnapshot.Planned;

/**
 * What differs between the plans of two sweeps, each thing by itself: what is bought, its price, the quarter, the day to order by. A
 * machine's lines are compared in pairs. A new price is told once for its item, however many machines it concerns. The changes of
 * cost add up to that of the whole plan.
 */
final class PlanChanges {
    /** Every sweep moves the dates by some days; an order date that moved by less is no news. */
    private static final long LEAST_DAYS = 14;
    /** By the day of need; machines have few lines. */
    private static final Comparator<Planned> ORDER = Comparator.comparing(Planned::needOn).thenComparing(Planned::amount);
    private static final BigDecimal ZERO = BigDecimal.ZERO.setScale(2);

    private record Pair(Planned was, Planned is) {
        boolean hasItems() {
            return was.item() != null && is.item() != null;
        }

        BigDecimal costDelta() {
            return is.amount().subtract(was.amount());
        }
    }

    private record NewPrice(String item, BigDecimal before, BigDecimal now) {
    }

    private final List<Change> changes;
    private final FiscalCalendar calendar;
    private final FiscalCalendar.Quarter current;
    private final Map<NewPrice, Integer> prices = new LinkedHashMap<>();

    /** @param changes takes what is found */
    PlanChanges(List<Change> changes, FiscalCalendar calendar, LocalDate asOf) {
        this.changes = changes;
        this.calendar = calendar;
        current = calendar.of(asOf);
    }

    void compare(MachineSnapshot was, MachineSnapshot is) {
        if (was.planned() == null || is.planned() == null) {
            return;
        }
        List<Planned> before = new ArrayList<>(was.planned().stream().sorted(ORDER).toList());
        List<Planned> now = new ArrayList<>(is.planned().stream().sorted(ORDER).toList());
        pairs(before, now).forEach(pair -> compare(is, pair));
        before.forEach(line -> add(Change.Kind.COST_DROPPED, is, inQuarter(line), "not planned", line.amount().negate()));
        now.forEach(line -> add(Change.Kind.COST_ADDED, is, "not planned", inQuarter(line), line.amount()));
    }

    /** Takes out of both what belongs together: of one item first, then what is left in the order of need. */
    private static List<Pair> pairs(List<Planned> before, List<Planned> now) {
        List<Pair> pairs = new ArrayList<>();
        for (Planned is : List.copyOf(now)) {
            before.stream().filter(was -> is.item() != null && is.item().equals(was.item())).findFirst().ifPresent(was -> {
                pairs.add(new Pair(was, is));
                before.remove(was);
                now.remove(is);
            });
        }
        while (!before.isEmpty() && !now.isEmpty()) {
            pairs.add(new Pair(before.remove(0), now.remove(0)));
        }
        return pairs;
    }

    private void compare(MachineSnapshot machine, Pair pair) {
        if (pair.hasItems() && !pair.was().item().equals(pair.is().item())) {
            add(Change.Kind.ITEM_CHANGED, machine, pair.was().item() + ": " + pair.was().amount().toPlainString(),
                pair.is().item() + ": " + pair.is().amount().toPlainString(), pair.costDelta());
        } else if (pair.costDelta().signum() != 0 && pair.hasItems()) {
            prices.merge(new NewPrice(pair.is().item(), pair.was().amount(), pair.is().amount()), 1, Integer::sum);
        } else if (pair.costDelta().signum() != 0) {
            add(Change.Kind.AMOUNT_CHANGED, machine, pair.was().amount().toPlainString(), pair.is().amount().toPlainString(), pair.costDelta());
        }
        dates(machine, pair.was(), pair.is());
    }

    private void dates(MachineSnapshot machine, Planned was, Planned is) {
        boolean ordersKnown = was.orderByOn() != null && is.orderByOn() != null;
        String quarter = calendar.of(was.needOn()).label();
        if (current.contains(is.needOn()) && was.needOn().isBefore(current.from())) {
            add(Change.Kind.NOT_DONE_YET, machine, quarter, inQuarter(is), ZERO);
        } else if (!quarter.equals(calendar.of(is.needOn()).label())) {
            add(Change.Kind.QUARTER_MOVED, machine, quarter + (ordersKnown ? ", " + orderBy(was) : ""),
                inQuarter(is) + (ordersKnown ? ", " + orderBy(is) : ""), ZERO);
        } else if (ordersKnown && Math.abs(ChronoUnit.DAYS.between(was.orderByOn(), is.orderByOn())) >= LEAST_DAYS) {
            add(Change.Kind.ORDER_DATE_MOVED, machine, orderBy(was), orderBy(is), null);
        }
    }

    /** One change for each new price, after all machines. */
    void addPrices() {
        prices.forEach((price, lines) -> changes.add(new Change(Change.Kind.PRICE_CHANGED, null, null, price.before().toPlainString() + " each",
            price.now().toPlainString() + " each, in " + lines + (lines == 1 ? " line" : " lines") + " of both plans",
            price.now().subtract(price.before()).multiply(BigDecimal.valueOf(lines)), price.item())));
    }

    private String inQuarter(Planned line) {
        return calendar.of(line.needOn()).label() + ": " + line.amount().toPlainString();
    }

    private static String orderBy(Planned line) {
        return "order by " + line.orderByOn();
    }

    private void add(Change.Kind kind, MachineSnapshot machine, String before, String now, BigDecimal costDelta) {
        changes.add(new Change(kind, machine.machineId(), machine.site(), before, now, costDelta, null));
    }
}
