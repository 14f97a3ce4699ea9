package org.wearledger.model;

import java.io.Serializable;
import java.util.Comparator;

/**
 * Who pays for a machine: its site and cost centre as the inventory or a report names them, each {@code null} where neither does. Ordered without regard to case, as
 * spreadsheets compare; what is not given comes last.
 */
public record CostCentre(String site, String name) implements Serializable, Comparable<CostCentre> {
    private static final Comparator<String> WITHOUT_CASE = Comparator.nullsLast(String.CASE_INSENSITIVE_ORDER);
    private static final Comparator<CostCentre> ORDER = Comparator.comparing(CostCentre::site, WITHOUT_CASE).thenComparing(CostCentre::name, WITHOUT_CASE);

    /** That of a machine. */
    public static CostCentre of(Machine machine) {
        return new CostCentre(machine.site(), machine.costCentre());
    }

    @Override
    public int compareTo(CostCentre other) {
        return ORDER.compare(this, other);
    }
}
