package org.wearledger.budget;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
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
    private static final double[] SHOCKS = IntStream.range(0, SharedShock.nodes()).mapToDouble(SharedShock::node).toArray();

    private final List<Candidate> open = new ArrayList<>();
    /** Of the open candidates, those that call for each purchase. */
    private final Map<PriceBook.Choice, int[]> members = new LinkedHashMap<>();
    /** The same days end quarters and years. */
    private final Map<LocalDate, double[][]> byDay = new HashMap<>();
    private final Map<LocalDate, double[]> independentByDay = new HashMap<>();

    /** @param horizon last day of the last period */
    Demand(List<Candidate> candidates, LocalDate horizon) {
        double[] worst = {SHOCKS[SHOCKS.length - 1]};
        double[] atWorst = new double[candidates.size()];
        IntStream.range(0, atWorst.length).parallel().forEach(i -> atWorst[i] = candidates.get(i).replacedBy(horizon, worst)[0]);
        // The unlikely first: adding events up is quick while the count stays small.
        IntStream.range(0, atWorst.length).filter(i -> atWorst[i] > NEGLIGIBLE).boxed()
            .sorted(Comparator.comparingDouble((Integer i) -> atWorst[i]).thenComparing(Comparator.naturalOrder()))
            .forEach(i -> open.add(candidates.get(i)));
        Map<PriceBook.Choice, List<Integer>> byChoice = new TreeMap<>(
            Comparator.comparing(PriceBook.Choice::item).thenComparing(PriceBook.Choice::upperItem));
        for (int i = 0; i < open.size(); i++) {
            byChoice.computeIfAbsent(open.get(i).choice(), choice -> new ArrayList<>()).add(i);
        }
        byChoice.forEach((choice, own) -> members.put(choice, own.stream().mapToInt(Integer::intValue).toArray()));
    }

    /** P(replaced by the end of the day), by candidate and node of the shock. */
    private double[][] by(LocalDate day) {
        return byDay.computeIfAbsent(day, until -> {
            double[][] probabilities = new double[open.size()][];
            IntStream.range(0, probabilities.length).parallel().forEach(i -> probabilities[i] = open.get(i).replacedBy(until, SHOCKS));
            return probabilities;
        });
    }

    /** Likewise as independent drives. */
    private double[] independentBy(LocalDate day) {
        return independentByDay.computeIfAbsent(day, until -> open.parallelStream().mapToDouble(candidate -> candidate.replacedBy(until)).toArray());
    }

    /** @param after last day before the period, {@code null} for the beginning of time */
    Period period(LocalDate after, LocalDate until) {
        double[][] before = after == null ? null : by(after);
        double[][] then = by(until);
        double[][] within = new double[open.size()][];
        double[] independentBefore = after == null ? new double[open.size()] : independentBy(after);
        double[] independentThen = independentBy(until);
        double[] independent = new double[open.size()];
        for (int i = 0; i < within.length; i++) {
            double[] p = new double[SHOCKS.length];
            for (int node = 0; node < p.length; node++) {
                p[node] = before == null ? then[i][node] : Math.max(0, then[i][node] - before[i][node]);
            }
            within[i] = p;
            independent[i] = Math.max(0, independentThen[i] - independentBefore[i]);
        }
        return new Period(within, independent);
    }

    /** What happens in one period. */
    final class Period {
        private final CountDistribution counts;
        private final CountDistribution independent;
        private final Map<PriceBook.Choice, Kind> kinds = new LinkedHashMap<>();

        /** Candidates for the same purchase. */
        record Kind(double expected, List<CountDistribution> atNodes) {
        }

        private Period(double[][] within, double[] independent) {
            counts = SharedShock.counts(atNodes(within, IntStream.range(0, within.length).toArray()));
            this.independent = CountDistribution.of(independent);
            members.forEach((choice, own) -> {
                List<CountDistribution> atNodes = atNodes(within, own);
                kinds.put(choice, new Kind(SharedShock.mean(atNodes.stream().mapToDouble(CountDistribution::mean).toArray()), atNodes));
            });
        }

        /** How many of the chosen candidates are replaced, at each node; the nodes are worked out side by side. */
        private static List<CountDistribution> atNodes(double[][] within, int[] chosen) {
            return IntStream.range(0, SHOCKS.length).parallel()
                .mapToObj(node -> CountDistribution.of(Arrays.stream(chosen).mapToDouble(i -> within[i][node]).toArray())).toList();
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
