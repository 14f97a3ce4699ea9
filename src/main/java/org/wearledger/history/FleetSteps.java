package org.wearledger.history;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.HealthField;
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
    record Batch(String file, int month) implements Serializable {
        static Batch of(Reading reading) {
            LocalDate day = reading.collectedOn();
            return new Batch(reading.source().file(), 12 * day.getYear() + day.getMonthValue());
        }
    }

    /** Steps into one batch, counted. */
    static final class Steps implements Serializable {
        private final TreeMap<Integer, Long> ratios = new TreeMap<>();
        private final HashMap<Growth, Long> growths = new HashMap<>();
        private long count;
        private long odd;

        void add(Steps other) {
            count += other.count;
            odd += other.odd;
            other.ratios.forEach((bin, times) -> ratios.merge(bin, times, Long::sum));
            other.growths.forEach((growth, times) -> growths.merge(growth, times, Long::sum));
        }

        long count() {
            return count;
        }

        /** Those to readings that do not fit the drive's others, and falls that no restart explains. */
        long odd() {
            return odd;
        }

        /** Of the odd ones, by bin of the logarithm. */
        TreeMap<Integer, Long> ratios() {
            return ratios;
        }

        /** Of the drives whose usual growth is known. */
        TreeMap<Growth, Long> growths() {
            return new TreeMap<>(growths);
        }
    }

    private final HashMap<Batch, Steps> batches = new HashMap<>();

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
                count(batches.computeIfAbsent(Batch.of(reading), batch -> new Steps()), run, first, reading, fell || disbelieved);
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

    /** Those that report bytes written, in time, with those that were not believed. */
    static List<Reading> counted(HistoryOutcome outcome) {
        List<Reading> counted = new ArrayList<>();
        outcome.history().points().forEach(point -> addCounted(point.reading(), counted));
        if (!outcome.disbelieved().isEmpty()) {
            outcome.disbelieved().forEach(reading -> addCounted(reading, counted));
            counted.sort(Comparator.comparing(Reading::collectedAt));
        }
        return counted;
    }

    private static void addCounted(Reading reading, List<Reading> to) {
        if (reading.health().value(HealthField.DATA_UNITS_WRITTEN) > 0) {
            to.add(reading);
        }
    }

    private static void count(Steps steps, CounterRun run, Reading first, Reading reading, boolean odd) {
        long before = run.units().value();
        double growth = Math.log((double) reading.health().dataUnitsWritten() / before);
        steps.count++;
        if (odd) {
            steps.odd++;
            steps.ratios.merge(bin(growth), 1L, Long::sum);
        }
        double earlier = (before - first.health().dataUnitsWritten()) / CounterRun.days(first.collectedAt(), run.units().at());
        double usual = earlier * CounterRun.days(run.units().at(), reading.collectedAt()) / before;
        if (run.steps() > 0 && usual <= MOST_USUAL_GROWTH) {
            double log = Math.log1p(usual);
            steps.growths.merge(new Growth(bin(log), bin(growth - log)), 1L, Long::sum);
        }
    }

    private static int bin(double logarithm) {
        return (int) Math.max(-WIDEST, Math.min(WIDEST, Math.round(logarithm * BINS_PER_UNIT)));
    }

    /** Adds those of other drives. */
    public void add(FleetSteps others) {
        others.batches.forEach((batch, steps) -> batches.computeIfAbsent(batch, none -> new Steps()).add(steps));
    }

    Map<Batch, Steps> batches() {
        return batches;
    }
}
