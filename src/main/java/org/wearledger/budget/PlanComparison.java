package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.stream.Collectors;
import org.wearledger.model.DriveId;
import org.wearledger.model.FundingDifference;
import org.wearledger.model.MachineSnapshot.Planned;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.NamedCostDifference;
import org.wearledger.model.SweepDifference;
import org.wearledger.model.SweepSnapshot;

/**
 * What differs between the plans of two sweeps, each thing by itself: what is bought, its price, the quarter, the day to order by. A
 * machine's lines are compared in pairs, drive by drive. A new price stands once for its item, however many machines it concerns.
 * The changes of cost add up to that of the whole plan.
 */
final class PlanComparison {
    /** Every sweep moves the dates by some days; an order date that moved by less is no news. */
    private static final long LEAST_DAYS = 14;
    private static final String NO_PRICE = "no price";
    private static final BigDecimal ZERO = BigDecimal.ZERO.setScale(2);

    private record Pair(Planned was, Planned is) {
        BigDecimal costDelta() {
            return is.cost().subtract(was.cost());
        }

        boolean hasNewItem() {
            return !DriveId.fold(was.item()).equals(DriveId.fold(is.item()));
        }

        /** A price of 0 differs from none. */
        boolean hasNewPrice() {
            return costDelta().signum() != 0 || (was.amount() == null) != (is.amount() == null);
        }
    }

    private record NewPrice(String item, String before, String now) {
    }

    private final List<SweepDifference> differences;
    private final FiscalCalendar calendar;
    private final FiscalCalendar.Quarter current;
    private final QuarterPlanComparison quarterPlans;
    private final Map<NewPrice, List<Pair>> prices = new LinkedHashMap<>();

    /** @param differences takes what is found */
    PlanComparison(List<SweepDifference> differences, FiscalCalendar calendar, LocalDate asOf) {
        this.differences = differences;
        this.calendar = calendar;
        current = calendar.of(asOf);
        quarterPlans = new QuarterPlanComparison(current);
    }

    void compare(MachineSnapshot was, MachineSnapshot is) {
        if (was.planned() == null || is.planned() == null) {
            return;
        }
        List<Planned> before = new ArrayList<>(was.planned());
        List<Planned> now = new ArrayList<>(is.planned());
        List<Pair> pairs = pairs(before, now, (then, line) -> then.driveSerial().equals(line.driveSerial()));
        // Soldered drives go together, with their board or machine. The line names the most pressing, which may now be another.
        pairs.addAll(pairs(before, now, (then, line) -> isSoldered(then) && isSoldered(line) && is.driveSerials().contains(then.driveSerial())));
        pairs.forEach(pair -> compare(is, pair));
        pairs.forEach(pair -> quarterPlans.compare(pair.was(), pair.is()));
        before.forEach(quarterPlans::dropped);
        now.forEach(quarterPlans::added);
        before.forEach(line -> add(SweepDifference.Kind.COST_DROPPED, is, inQuarter(line), "not planned", line.cost().negate()));
        now.forEach(line -> add(SweepDifference.Kind.COST_ADDED, is, "not planned", inQuarter(line), line.cost()));
    }

    /** A machine that the earlier sweep did not know. */
    void added(MachineSnapshot machine) {
        machine.plannedOrNone().forEach(quarterPlans::added);
    }

    /** A machine that is known no more. */
    void dropped(MachineSnapshot machine) {
        machine.plannedOrNone().forEach(quarterPlans::dropped);
    }

    /** Of the identified replacements of this quarter, once all machines are compared. */
    NamedCostDifference quarterDifference() {
        return quarterPlans.difference();
    }

    /** Takes out of both what belongs together. */
    private static List<Pair> pairs(List<Planned> before, List<Planned> now, BiPredicate<Planned, Planned> belong) {
        List<Pair> pairs = new ArrayList<>();
        for (Planned is : List.copyOf(now)) {
            before.stream().filter(was -> belong.test(was, is)).findFirst().ifPresent(was -> {
                pairs.add(new Pair(was, is));
                before.remove(was);
                now.remove(is);
            });
        }
        return pairs;
    }

    /** For any other drive a drive is bought. */
    private static boolean isSoldered(Planned line) {
        return !DriveId.fold(line.item()).startsWith(DriveId.fold(PriceBook.DRIVE));
    }

    private void compare(MachineSnapshot machine, Pair pair) {
        if (pair.hasNewItem()) {
            add(SweepDifference.Kind.ITEM_CHANGED, machine, pair.was().item() + ": " + amount(pair.was()), pair.is().item() + ": " + amount(pair.is()),
                pair.costDelta());
        } else if (pair.hasNewPrice()) {
            prices.computeIfAbsent(new NewPrice(pair.is().item(), each(pair.was().amount()), each(pair.is().amount())), price -> new ArrayList<>()).add(pair);
        }
        dates(machine, pair.was(), pair.is());
    }

    private void dates(MachineSnapshot machine, Planned was, Planned is) {
        if (was.orderByOn() == null || is.orderByOn() == null) {
            // Bought already, or decided against: it has no day to move.
            return;
        }
        // Such an order stands at the day of each sweep, so its date moves without anybody having more time.
        boolean stillLate = was.late() && is.late();
        String quarter = calendar.of(was.needOn()).label();
        if (current.contains(is.needOn()) && was.needOn().isBefore(current.from())) {
            add(SweepDifference.Kind.NOT_DONE_YET, machine, quarter, inQuarter(is), ZERO);
        } else if (!quarter.equals(calendar.of(is.needOn()).label())) {
            add(SweepDifference.Kind.QUARTER_MOVED, machine, quarter + (stillLate ? "" : ", " + order(was)),
                inQuarter(is) + (stillLate ? "" : ", " + order(is)), ZERO);
        } else if (was.late() != is.late()) {
            add(is.late() ? SweepDifference.Kind.ORDER_OVERDUE : SweepDifference.Kind.ORDER_DATE_MOVED, machine, order(was), order(is), null);
        } else if (!stillLate && Math.abs(ChronoUnit.DAYS.between(was.orderByOn(), is.orderByOn())) >= LEAST_DAYS) {
            add(SweepDifference.Kind.ORDER_DATE_MOVED, machine, order(was), order(is), null);
        }
    }

    /**
     * One change for each new price, after all machines; then those of items that are in no line of both plans, and of items that came
     * into the price list or went.
     */
    void addPrices(List<SweepSnapshot.Cost> before, List<SweepSnapshot.Cost> now) {
        Set<String> told = prices.keySet().stream().map(price -> DriveId.fold(price.item())).collect(Collectors.toSet());
        prices.forEach((price, pairs) -> differences.add(new SweepDifference(SweepDifference.Kind.PRICE_CHANGED, null, null, price.before(),
            price.now() + ", in " + pairs.size() + (pairs.size() == 1 ? " line" : " lines") + " of both plans, " + thisQuarter(pairs), costDelta(pairs), price.item())));
        for (SweepSnapshot.Cost is : now) {
            SweepSnapshot.Cost was = find(before, is.item());
            if (was == null && is.calledFor() && is.amount() != null && !before.isEmpty()) {
                addPrice("", each(is.amount()) + ": new in the price list, or called for by no machine then", is.item());
            } else if (was != null && !told.contains(DriveId.fold(is.item())) && !each(was.amount()).equals(each(is.amount()))) {
                addPrice(each(was.amount()), each(is.amount()) + ", in no line of both plans" + dearerChoice(is), is.item());
            }
        }
        before.stream().filter(was -> was.amount() != null && !now.isEmpty() && find(now, was.item()) == null)
            .forEach(was -> addPrice(each(was.amount()), NO_PRICE + ": no more in the price list", was.item()));
    }

    /** How many of the lines are needed this quarter, and what the new price does to them. */
    private String thisQuarter(List<Pair> pairs) {
        List<Pair> own = pairs.stream().filter(pair -> current.contains(pair.is().needOn())).toList();
        return pairs.size() == 1 ? own.isEmpty() ? "not this quarter" : "this quarter"
            : own.isEmpty() ? "none of them this quarter" : own.size() == pairs.size() ? "all of them this quarter"
            : own.size() + " of them this quarter (" + FundingDifference.signed(costDelta(own)) + ")";
    }

    private static BigDecimal costDelta(List<Pair> pairs) {
        return pairs.stream().map(Pair::costDelta).reduce(ZERO, BigDecimal::add);
    }

    private static SweepSnapshot.Cost find(List<SweepSnapshot.Cost> costs, String item) {
        return costs.stream().filter(cost -> DriveId.fold(cost.item()).equals(DriveId.fold(item))).findFirst().orElse(null);
    }

    private static String dearerChoice(SweepSnapshot.Cost cost) {
        return cost.dearerChoiceOf() == 0 ? "" : "; the dearer choice of " + cost.dearerChoiceOf() + (cost.dearerChoiceOf() == 1 ? " line" : " lines");
    }

    private void addPrice(String before, String now, String item) {
        differences.add(new SweepDifference(SweepDifference.Kind.PRICE_CHANGED, null, null, before, now, ZERO, item));
    }

    private String inQuarter(Planned line) {
        return calendar.of(line.needOn()).label() + ": " + amount(line);
    }

    private static String amount(Planned line) {
        return line.amount() == null ? NO_PRICE : line.amount().toPlainString();
    }

    private static String each(BigDecimal amount) {
        return amount == null ? NO_PRICE : amount.toPlainString() + " each, with labour and disposal";
    }

    private static String order(Planned line) {
        return line.late() ? "order at once" : "order by " + line.orderByOn();
    }

    private void add(SweepDifference.Kind kind, MachineSnapshot machine, String before, String now, BigDecimal costDelta) {
        differences.add(new SweepDifference(kind, machine.machineId(), machine.site(), before, now, costDelta, null));
    }
}
