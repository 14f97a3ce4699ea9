package org.wearledger.report;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.wearledger.model.Fact;
import org.wearledger.model.HealthField;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;

/**
 * The unit that bytes written may have, where what was written and used comes to a life that no drive has.
 *
 * @param mapped as the mapping reads it now
 * @param unit one step larger or smaller
 */
record UnitByLife(MappedField mapped, String unit) {
    /** Between the least and the greatest number of times that a whole drive is written in its life, 5 and 30,000: their geometric mean. */
    private static final BigDecimal USUAL_WRITES = BigDecimal.valueOf(387);
    private static final BigDecimal PER_CENT = BigDecimal.valueOf(100);
    private static final List<List<String>> STEPS = List.of(List.of("MB", "GB", "TB"), List.of("MiB", "GiB", "TiB"));

    /** Empty where no mapping names a unit, or a figure is lacking. */
    static Optional<UnitByLife> of(Problem problem) {
        Map<Fact, List<String>> facts = problem.facts();
        Optional<MappedField> written = problem.fields().stream().filter(field -> field.name().equals(HealthField.DATA_UNITS_WRITTEN.dotted()) && field.unit() != null).findFirst();
        if (written.isEmpty() || !facts.containsKey(Fact.BYTES) || !facts.containsKey(Fact.USED_PERCENT) || !facts.containsKey(Fact.CAPACITY_BYTES)) {
            return Optional.empty();
        }
        int step;
        try {
            BigDecimal times = new BigDecimal(problem.fact(Fact.BYTES)).multiply(PER_CENT);
            BigDecimal usual = USUAL_WRITES.multiply(new BigDecimal(problem.fact(Fact.USED_PERCENT))).multiply(new BigDecimal(problem.fact(Fact.CAPACITY_BYTES)));
            step = times.compareTo(usual) > 0 ? -1 : 1;
        } catch (NumberFormatException e) {
            // Facts of packs come from outside.
            return Optional.empty();
        }
        int by = step;
        return STEPS.stream().filter(units -> units.contains(written.get().unit())).map(units -> units.indexOf(written.get().unit()) + by + 1 > 0
            && units.indexOf(written.get().unit()) + by < units.size() ? units.get(units.indexOf(written.get().unit()) + by) : null).filter(unit -> unit != null).findFirst()
            .map(unit -> new UnitByLife(written.get(), unit));
    }

    String words() {
        return "write \"unit\": \"" + unit + "\" for \"" + mapped.heading() + "\" into the mapping, if the export may be in " + unit + " and not in " + mapped.unit();
    }
}
