package org.wearledger.budget;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.CentreFunding;
import org.wearledger.model.CostCentre;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.PlannedReplacement;

/** Divides the funding request among cost centres: each pays for its own lines, and by machines for what no line causes. */
final class CentreShares {
    private static final BigDecimal ZERO = BigDecimal.ZERO.setScale(2);

    private final Funds funds;
    private final Map<CostCentre, List<PlannedReplacement>> lines;
    private final Map<CostCentre, Long> machines;
    private final long allMachines;

    CentreShares(Funds funds, List<PlannedReplacement> lines, Collection<MachineAssessment> machines) {
        this.funds = funds;
        this.lines = lines.stream().collect(Collectors.groupingBy(line -> CostCentre.of(line.machine()), TreeMap::new, Collectors.toList()));
        this.machines = machines.stream().collect(Collectors.groupingBy(machine -> CostCentre.of(machine.machine()), TreeMap::new, Collectors.counting()));
        allMachines = machines.size();
    }

    /** @param periods quarters first */
    List<CentreFunding> of(List<BudgetPeriod> periods) {
        List<List<BigDecimal>> own = machines.keySet().stream().map(centre -> own(lines.getOrDefault(centre, List.of()), periods)).toList();
        List<BigDecimal> rest = new ArrayList<>();
        for (int period = 0; period < periods.size(); period++) {
            int at = period;
            rest.add(isQuarter(periods, period) ? periods.get(period).toAskFor().subtract(own.stream().map(each -> each.get(at)).reduce(ZERO, BigDecimal::add))
                : periods.get(period).funding().relief().negate());
        }
        List<CentreFunding> all = new ArrayList<>();
        long before = 0;
        int number = 0;
        for (Map.Entry<CostCentre, Long> centre : machines.entrySet()) {
            long upTo = before + centre.getValue();
            List<BigDecimal> shared = new ArrayList<>();
            for (int period = 0; period < periods.size(); period++) {
                BigDecimal part = part(rest.get(period), upTo).subtract(part(rest.get(period), before));
                shared.add(isQuarter(periods, period) ? part : ofQuarters(shared, periods.get(period)).add(part));
                all.add(new CentreFunding(centre.getKey(), periods.get(period).label(), centre.getValue().intValue(), own.get(number).get(period), shared.get(period)));
            }
            before = upTo;
            number++;
        }
        return all;
    }

    /** Quarters stand first, also where the plan has one alone. */
    private static boolean isQuarter(List<BudgetPeriod> periods, int period) {
        return periods.get(period).isOneQuarter() && periods.get(period).first() == period;
    }

    private static BigDecimal ofQuarters(List<BigDecimal> figures, BudgetPeriod period) {
        return figures.subList(period.first(), period.first() + period.quarters()).stream().reduce(ZERO, BigDecimal::add);
    }

    private List<BigDecimal> own(List<PlannedReplacement> ofTheCentre, List<BudgetPeriod> periods) {
        List<BigDecimal> own = new ArrayList<>();
        for (int period = 0; period < periods.size(); period++) {
            BudgetPeriod p = periods.get(period);
            own.add(isQuarter(periods, period) ? funds.own(ofTheCentre, p.first()) : ofQuarters(own, p));
        }
        return own;
    }

    /** Rounded as a sum, so that the parts add up to the cent. */
    private BigDecimal part(BigDecimal shared, long ofMachines) {
        return shared.multiply(BigDecimal.valueOf(ofMachines)).divide(BigDecimal.valueOf(allMachines), 2, RoundingMode.HALF_UP);
    }
}
