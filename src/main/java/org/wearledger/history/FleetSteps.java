package org.wearledger.history;

import java.io.Serializable;
import java.math.BigInteger;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Reading;

/**
 * How data units written stepped from one report to the next, by the file and month of the later one: small counts that can be
 * added up over drives in any order. What no drive's own figures show, a fleet's may: a column or unit that changed for all.
 */
public final class FleetSteps implements Serializable {
    /** Growth, usual and beyond it, is counted in bins of one hundredth of a natural logarithm. */
    static final double BINS_PER_UNIT = 100;
    private static final int WIDEST = 1000;
    /** A drive whose total usually grows by more each step says nothing of units. */
    private static final double MOST_USUAL_GROWTH = 0.3;

    /** By how many bins a drive's total usually grows in such a step, and by how many more it did. */
    record Growth(int usual, int beyond) implements Comparable<Growth>, Serializable {
        @Override
        public int compareTo(Growth other) {
            return usual != other.usual ? Integer.compare(usual, other.usual) : Integer.compare(beyond, other.beyond);
        }
    }

    /** Of one file and month. */
    record Batch(String file, String month) implements Comparable<Batch>, Serializable {
        static Batch of(Reading reading) {
            return new Batch(reading.source().file(), reading.collectedAt().atOffset(ZoneOffset.UTC).toLocalDate().withDayOfMonth(1).toString());
        }

        @Override
        public int compareTo(Batch other) {
            int byMonth = month.compareTo(other.month);
            return byMonth != 0 ? byMonth : file.compareTo(other.file);
        }
    }

    /**
     * Steps into one batch.
     *
     * @param odd those to readings that do not fit the drive's others, and falls that no restart explains
     * @param ratios of the odd ones, by bin of the logarithm
     * @param growths of the drives whose usual growth is known
     */
    record Steps(long count, long odd, TreeMap<Integer, Long> ratios, TreeMap<Growth, Long> growths) implements Serializable {
        static Steps none() {
            return new Steps(0, 0, new TreeMap<>(), new TreeMap<>());
        }

        Steps plus(Steps other) {
            return new Steps(count + other.count, odd + other.odd, merged(ratios, other.ratios), merged(growths, other.growths));
        }

        private static <K> TreeMap<K, Long> merged(TreeMap<K, Long> one, TreeMap<K, Long> other) {
            TreeMap<K, Long> sum = new TreeMap<>(one);
            other.forEach((bin, count) -> sum.merge(bin, count, Long::sum));
            return sum;
        }
    }

    private final TreeMap<Batch, Steps> batches = new TreeMap<>();

    /** Adds one drive's. */
    public void add(HistoryOutcome outcome) {
        if (outcome.history() == null) {
            return;
        }
        CounterRun run = new CounterRun();
        Reading first = null;
        for (Reading reading : counted(outcome)) {
            boolean fell = run.fell(reading.health().dataUnitsWritten());
            boolean disbelieved = outcome.disbelieved().contains(reading);
            // A restart that hours prove is a drive's own; one that is only possible may be a column's.
            CounterRun.Restart restart = fell ? run.restart(reading) : CounterRun.Restart.NONE;
            if (run.units() != null && restart != CounterRun.Restart.PROVEN) {
                batches.merge(Batch.of(reading), step(run, first, reading, fell || disbelieved), Steps::plus);
            }
            if (restart != CounterRun.Restart.NONE && !disbelieved) {
                run = new CounterRun();
            }
            if (!disbelieved) {
                first = run.units() == null ? reading : first;
                run.add(reading);
            }
        }
    }

    private static List<Reading> counted(HistoryOutcome outcome) {
        Stream<Reading> kept = outcome.history().points().stream().map(HistoryPoint::reading);
        return Stream.concat(kept, outcome.disbelieved().stream())
            .filter(reading -> reading.health().dataUnitsWritten() != null && reading.health().dataUnitsWritten().signum() > 0)
            .sorted(Comparator.comparing(Reading::collectedAt)).toList();
    }

    private static Steps step(CounterRun run, Reading first, Reading reading, boolean odd) {
        Steps steps = Steps.none();
        BigInteger before = run.units().value();
        BigInteger after = reading.health().dataUnitsWritten();
        double growth = Math.log(after.doubleValue() / before.doubleValue());
        if (odd) {
            steps.ratios().put(bin(growth), 1L);
        }
        double earlier = before.subtract(first.health().dataUnitsWritten()).doubleValue() / CounterRun.days(first.collectedAt(), run.units().at());
        double usual = earlier * CounterRun.days(run.units().at(), reading.collectedAt()) / before.doubleValue();
        if (run.steps() > 0 && usual <= MOST_USUAL_GROWTH) {
            steps.growths().put(new Growth(bin(Math.log1p(usual)), bin(growth - Math.log1p(usual))), 1L);
        }
        return new Steps(1, odd ? 1 : 0, steps.ratios(), steps.growths());
    }

    private static int bin(double logarithm) {
        return (int) Math.max(-WIDEST, Math.min(WIDEST, Math.round(logarithm * BINS_PER_UNIT)));
    }

    /** Adds those of another share of the drives. */
    public FleetSteps plus(FleetSteps other) {
        FleetSteps sum = new FleetSteps();
        sum.batches.putAll(batches);
        other.batches.forEach((batch, steps) -> sum.batches.merge(batch, steps, Steps::plus));
        return sum;
    }

    /** Of all shares. */
    public static FleetSteps added(Collection<FleetSteps> shares) {
        return shares.stream().reduce(new FleetSteps(), FleetSteps::plus);
    }

    Map<Batch, Steps> batches() {
        return batches;
    }
}
