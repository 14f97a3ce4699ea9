package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.wearledger.model.DriveId;
import org.wearledger.model.MachineSnapshot.Planned;
import org.wearledger.model.NamedCostDifference;

/** The identified replacements of one quarter in two plans, and what the difference of their cost is made of. */
final class QuarterPlanComparison {
    private enum Why {
        NOT_DONE("not done yet"), MOVED_IN("moved into it"), ADDED("newly planned"), MOVED_OUT("moved out of it"), DROPPED("planned no more"),
        OTHER_ITEM("at another item"), OTHER_PRICE("at another price");

        private final String words;

        Why(String words) {
            this.words = words;
        }
    }

    private final FiscalCalendar.Quarter quarter;
    private final Map<Why, List<BigDecimal>> deltas = new EnumMap<>(Why.class);
    private BigDecimal before = BigDecimal.ZERO.setScale(2);
    private BigDecimal now = BigDecimal.ZERO.setScale(2);

    QuarterPlanComparison(FiscalCalendar.Quarter quarter) {
        this.quarter = quarter;
    }

    /** One line that stands in both plans. */
    void compare(Planned was, Planned is) {
        boolean wasIn = isIn(was);
        boolean isIn = isIn(is);
        if (wasIn && isIn) {
            before = before.add(was.cost());
            now = now.add(is.cost());
            note(DriveId.fold(is.item()).equals(DriveId.fold(was.item())) ? Why.OTHER_PRICE : Why.OTHER_ITEM, is.cost().subtract(was.cost()));
        } else if (isIn) {
            came(is, isBefore(was.needOn()) ? Why.NOT_DONE : Why.MOVED_IN);
        } else if (wasIn) {
            went(was, Why.MOVED_OUT);
        }
    }

    void added(Planned is) {
        if (isIn(is)) {
            came(is, Why.ADDED);
        }
    }

    void dropped(Planned was) {
        if (isIn(was)) {
            went(was, Why.DROPPED);
        }
    }

    private void came(Planned is, Why why) {
        now = now.add(is.cost());
        note(why, is.cost());
    }

    private void went(Planned was, Why why) {
        before = before.add(was.cost());
        note(why, was.cost().negate());
    }

    private void note(Why why, BigDecimal delta) {
        if (delta.signum() != 0 || why != Why.OTHER_PRICE) {
            deltas.computeIfAbsent(why, unset -> new ArrayList<>()).add(delta);
        }
    }

    private boolean isIn(Planned line) {
        return quarter.contains(line.needOn());
    }

    private boolean isBefore(LocalDate day) {
        return day.isBefore(quarter.from());
    }

    /** {@code null} when nothing came, went or costs otherwise. */
    NamedCostDifference difference() {
        return deltas.isEmpty() ? null : new NamedCostDifference(quarter.label(), before, now, deltas.entrySet().stream()
            .map(part -> new NamedCostDifference.Part(part.getKey().words, part.getValue().size(), part.getValue().stream().reduce(BigDecimal::add).orElseThrow())).toList());
    }
}
