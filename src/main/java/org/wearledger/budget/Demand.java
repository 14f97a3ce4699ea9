package org.wearledger.budget;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.wearledger.stats.CountDistribution;
import org.wearledger.stats.SharedShock;

/**
 * How many of a fleet's candidates are replaced in each period: those that are planned in it, if they have not crossed before, and
 * those that cross without being planned. Given the shock that all share, each crosses by itself; over its values the counts are
 * mixed. Probabilities of a period are differences of those of its ends, at the same standardised shock.
 */
final class Demand {
    /** A candidate that is not likelier than this to be replaced, even in the worst shock, is left out of the sums. */
    private static final double NEGLIGIBLE = 1e-7;
    /** Where a quarter's probability is below this, those of the quarters before it do not count. */
    private static final double VANISHING = 1e-13;
    private static final double[] SHOCKS = IntStream.range(0, SharedShock.nodes()).mapToDouble(SharedShock::node).toArray();
    private static final int WORST = SHOCKS.length - 1;

    private final List<Candidate> open;
    /** Of the open candidates, those that call for each purchase. */
    private final Map<PriceBook.Choice, int[]> members = new LinkedHashMap<>();
    /** P(replaced by the end of a quarter), by quarter, node of the shock and candidate. */
    private final double[][][] byQuarter;
    /** Of the open candidates, those that no line of the plan names. */
    private final boolean[] isFurther;
    /** The same as independent drives, by quarter and candidate. */
    private final double[][] independentByQuarter;

    /** @param quarterEnds last day of each quarter, in their order */
    Demand(List<Candidate> candidates, List<LocalDate> quarterEnds) {
        LocalDate horizon = quarterEnds.get(quarterEnds.size() - 1);
        double[] worst = {SHOCKS[WORST]};
        double[] atWorst = new double[candidates.size()];
        IntStream.range(0, atWorst.length).parallel().forEach(i -> atWorst[i] = candidates.get(i).replacedBy(horizon, worst)[0]);
        // The unlikely first: adding events up is quick while the count stays small.
        open = IntStream.range(0, atWorst.length).filter(i -> atWorst[i] > NEGLIGIBLE).boxed()
            .sorted(Comparator.comparingDouble((Integer i) -> atWorst[i]).thenComparing(Comparator.naturalOrder())).map(candidates::get).toList();
        Map<PriceBook.Choice, List<Integer>> byChoice = new TreeMap<>(
            Comparator.comparing(PriceBook.Choice::item).thenComparing(PriceBook.Choice::upperItem));
        for (int i = 0; i < open.size(); i++) {
            byChoice.computeIfAbsent(open.get(i).choice(), choice -> new ArrayList<>()).add(i);
        }
        byChoice.forEach((choice, own) -> members.put(choice, own.stream().mapToInt(Integer::intValue).toArray()));
        isFurther = new boolean[open.size()];
        for (int i = 0; i < isFurther.length; i++) {
            isFurther[i] = open.get(i).needOn() == null || open.get(i).needOn().isAfter(horizon);
        }
        byQuarter = new double[quarterEnds.size()][SHOCKS.length][open.size()];
        independentByQuarter = new double[quarterEnds.size()][open.size()];
        IntStream.range(0, open.size()).parallel().forEach(i -> fill(i, quarterEnds));
    }

    /** From the last quarter back. */
    private void fill(int i, List<LocalDate> quarterEnds) {
        boolean counts = true;
        boolean countsIndependently = true;
        for (int quarter = quarterEnds.size() - 1; quarter >= 0 && (counts || countsIndependently); quarter--) {
            if (counts) {
                double[] atNodes = open.get(i).replacedBy(quarterEnds.get(quarter), SHOCKS);
                for (int node = 0; node < atNodes.length; node++) {
                    byQuarter[quarter][node][i] = atNodes[node];
                }
                counts = atNodes[WORST] > VANISHING;
            }
            if (countsIndependently) {
                independentByQuarter[quarter][i] = open.get(i).replacedBy(quarterEnds.get(quarter));
                countsIndependently = independentByQuarter[quarter][i] > VANISHING;
            }
        }
    }

    /** From the first of the quarters to the last; what has happened until now falls into quarter 0. */
    Period period(int first, int last) {
        List<List<CountDistribution>> atNodes = IntStream.range(0, SHOCKS.length).parallel().mapToObj(node -> {
            double[] within = within(first, last, node);
            return Stream.concat(Stream.of(within), members.values().stream().map(own -> Arrays.stream(own).mapToDouble(i -> within[i]).toArray()))
                .map(CountDistribution::of).toList();
        }).toList();
        List<Double> further = members.values().stream().map(own -> SharedShock.mean(IntStream.range(0, SHOCKS.length).mapToDouble(node -> {
            double[] within = within(first, last, node);
            return Arrays.stream(own).filter(i -> isFurther[i]).mapToDouble(i -> within[i]).sum();
        }).toArray())).toList();
        return new Period(atNodes, further, CountDistribution.of(within(independentByQuarter[last], first == 0 ? null : independentByQuarter[first - 1])));
    }

    private double[] within(int first, int last, int node) {
        return within(byQuarter[last][node], first == 0 ? null : byQuarter[first - 1][node]);
    }

    private static double[] within(double[] then, double[] before) {
        double[] within = then.clone();
        for (int i = 0; before != null && i < within.length; i++) {
            within[i] = Math.max(0, then[i] - before[i]);
        }
        return within;
    }

    /** What happens in one period. */
    final class Period {
        private final CountDistribution counts;
        private final CountDistribution independent;
        private final Map<PriceBook.Choice, Kind> kinds = new LinkedHashMap<>();

        /**
         * Candidates for the same purchase.
         *
         * @param further of the expected, those that no line names
         */
        record Kind(double expected, double further, List<CountDistribution> atNodes) {
        }

        /** @param atNodes how many are replaced at each node: in all, then for each purchase */
        private Period(List<List<CountDistribution>> atNodes, List<Double> further, CountDistribution independent) {
            counts = SharedShock.counts(node -> atNodes.get(node).get(0));
            this.independent = independent;
            for (PriceBook.Choice choice : members.keySet()) {
                int place = kinds.size() + 1;
                List<CountDistribution> own = atNodes.stream().map(all -> all.get(place)).toList();
                kinds.put(choice, new Kind(SharedShock.mean(own.stream().mapToDouble(CountDistribution::mean).toArray()), further.get(place - 1), own));
            }
        }

        CountDistribution counts() {
            return counts;
        }

        CountDistribution independent() {
            return independent;
        }

        Map<PriceBook.Choice, Kind> kinds() {
            return kinds;
        }
    }
}
