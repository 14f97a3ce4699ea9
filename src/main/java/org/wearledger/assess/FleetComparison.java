package org.wearledger.assess;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Interval;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Spread;
import org.wearledger.model.Standing;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.Holm;
import org.wearledger.stats.Quartiles;
import org.wearledger.stats.RankSum;

/**
 * Which drive models and which memory sizes wear faster, said only as far as the numbers carry it: distributions, rank
 * tests and sample sizes, no league table. Results do not depend on the order of the machines.
 */
public final class FleetComparison {
    static final int LEAST_DRIVES = 10;
    static final int LEAST_MACHINES = 5;
    private static final double CONFIDENCE = 0.95;
    private static final double BYTES_PER_GIBIBYTE = 1L << 30;

    private FleetComparison() {
    }

    /**
     * The active drives by drive model, in the models' order. Each model with at least 10 known rates is held against all
     * other drives by the Mann-Whitney test on consumedPercentPerYear = GB/day x 365.25 / 1000 / rated TB x 100; p values
     * are corrected by Holm's method over the models compared, the interval stands for its model alone.
     */
    public static List<ModelSummary> models(List<MachineAssessment> machines) {
        Map<String, List<DriveAssessment>> byModel = new TreeMap<>();
        for (MachineAssessment machine : machines) {
            for (DriveAssessment drive : machine.activeDrives()) {
                byModel.computeIfAbsent(drive.id().model(), k -> new ArrayList<>()).add(drive);
            }
        }
        Map<String, String> comparisons = comparisons(byModel);
        List<ModelSummary> summaries = new ArrayList<>();
        byModel.forEach((model, drives) -> {
            drives.sort(java.util.Comparator.comparing(DriveAssessment::id));
            Map<Standing, Integer> standings = new EnumMap<>(Standing.class);
            drives.forEach(drive -> standings.merge(drive.standing(), 1, Integer::sum));
            int assumed = (int) drives.stream().filter(d -> d.endurance() != null && d.endurance().assumed()).count();
            summaries.add(new ModelSummary(drives.get(0).latest().drive().model(), drives.size(), standings,
                spread(known(drives, DriveAssessment::consumedPercent)), spread(known(drives, DriveAssessment::gigabytesPerDay)),
                spread(known(drives, FleetComparison::consumedPercentPerYear)), assumed, comparisons.get(model)));
        });
        return summaries;
    }

    private static Map<String, String> comparisons(Map<String, List<DriveAssessment>> byModel) {
        Map<String, RankSum> tests = new TreeMap<>();
        Map<String, String> words = new TreeMap<>();
        Map<String, Integer> others = new TreeMap<>();
        byModel.forEach((model, drives) -> {
            double[] own = known(drives, FleetComparison::consumedPercentPerYear);
            double[] rest = known(byModel.entrySet().stream().filter(e -> !e.getKey().equals(model))
                .flatMap(e -> e.getValue().stream()).toList(), FleetComparison::consumedPercentPerYear);
            if (own.length < LEAST_DRIVES) {
                words.put(model, "too few to compare (n = " + own.length + ", at least " + LEAST_DRIVES + " needed)");
            } else if (rest.length < LEAST_DRIVES) {
                words.put(model, "no other drives to compare with (n = " + own.length + " against " + rest.length + ")");
            } else {
                tests.put(model, RankSum.compare(own, rest).orElseThrow());
                others.put(model, rest.length);
            }
        });
        double[] adjusted = Holm.adjust(tests.values().stream().mapToDouble(RankSum::twoSidedP).toArray());
        int i = 0;
        for (Map.Entry<String, RankSum> test : tests.entrySet()) {
            int own = known(byModel.get(test.getKey()), FleetComparison::consumedPercentPerYear).length;
            words.put(test.getKey(), comparison(test.getValue(), adjusted[i++], own, others.get(test.getKey())));
        }
        return words;
    }

    private static String comparison(RankSum test, double adjustedP, int own, int rest) {
        String figures = String.format(Locale.ROOT, "%+.1f %% of the rating a year (95 %% interval %s, n = %d against %d)",
            test.shift(), interval(test), own, rest);
        if (adjustedP > 1 - CONFIDENCE) {
            return "cannot be separated from the rest of the fleet: " + figures;
        }
        return (test.shift() > 0 ? "wears faster" : "wears slower") + " than the rest of the fleet: " + figures;
    }

    private static String interval(RankSum test) {
        return test.shiftInterval(CONFIDENCE)
            .map(b -> String.format(Locale.ROOT, "%.1f to %.1f", b.low(), b.high())).orElse("not to be had");
    }

    /** The machines by memory size in GiB, smallest first; band 0 is "not reported". A machine's rate is the sum of its drives'. */
    public static List<MemoryBand> memoryBands(List<MachineAssessment> machines) {
        List<MemoryBand> bands = new ArrayList<>();
        byMemory(machines).forEach((gibibytes, own) -> bands.add(new MemoryBand(gibibytes, own.size(), spread(rates(own)),
            spread(own.stream().map(m -> m.machine().swapUsedBytes()).filter(Objects::nonNull)
                .mapToDouble(swap -> swap / BYTES_PER_GIBIBYTE).toArray()))));
        return bands;
    }

    /** Each known memory size against the next larger one. */
    public static List<MemoryContrast> memoryContrasts(List<MachineAssessment> machines) {
        TreeMap<Integer, List<MachineAssessment>> known = new TreeMap<>(byMemory(machines).tailMap(0, false));
        List<MemoryContrast> contrasts = new ArrayList<>();
        for (Integer smaller : known.keySet()) {
            Integer larger = known.higherKey(smaller);
            if (larger != null) {
                contrasts.add(contrast(smaller, larger, rates(known.get(smaller)), rates(known.get(larger))));
            }
        }
        return contrasts;
    }

    private static MemoryContrast contrast(int smaller, int larger, double[] few, double[] many) {
        if (few.length < LEAST_MACHINES || many.length < LEAST_MACHINES) {
            return new MemoryContrast(smaller, larger, few.length, many.length, Double.NaN,
                new Interval(Double.NaN, Double.NaN), Double.NaN, String.format(Locale.ROOT,
                "%d GiB against %d GiB: too few machines to compare (%d against %d, at least %d each)", smaller, larger,
                few.length, many.length, LEAST_MACHINES));
        }
        RankSum test = RankSum.compare(few, many).orElseThrow();
        Optional<Bounds> bounds = test.shiftInterval(CONFIDENCE);
        boolean separated = bounds.filter(Bounds::excludesZero).isPresent();
        String figures = String.format(Locale.ROOT, "%.1f GB/day %s (95 %% interval %s; %d against %d machines)",
            Math.abs(test.shift()), test.shift() >= 0 ? "more" : "less", interval(test), few.length, many.length);
        String words = separated
            ? smaller + " GiB machines write " + figures + " than " + larger
                + " GiB machines: a cause to check, such as swap; this is no proof of cause"
            : smaller + " GiB and " + larger + " GiB machines cannot be told apart: " + figures;
        return new MemoryContrast(smaller, larger, few.length, many.length, test.shift(),
            bounds.map(b -> new Interval(b.low(), b.high())).orElse(new Interval(Double.NaN, Double.NaN)), test.twoSidedP(), words);
    }

    private static TreeMap<Integer, List<MachineAssessment>> byMemory(List<MachineAssessment> machines) {
        TreeMap<Integer, List<MachineAssessment>> bands = new TreeMap<>();
        for (MachineAssessment machine : machines) {
            if (!machine.activeDrives().isEmpty()) {
                Long bytes = machine.machine().memoryBytes();
                int gibibytes = bytes == null ? 0 : (int) Math.round(bytes / BYTES_PER_GIBIBYTE);
                bands.computeIfAbsent(gibibytes, k -> new ArrayList<>()).add(machine);
            }
        }
        return bands;
    }

    private static double[] rates(List<MachineAssessment> machines) {
        return machines.stream().map(MachineAssessment::activeDrives).map(drives -> known(drives, DriveAssessment::gigabytesPerDay))
            .filter(rates -> rates.length > 0).mapToDouble(rates -> java.util.Arrays.stream(rates).sum()).toArray();
    }

    private static Double consumedPercentPerYear(DriveAssessment drive) {
        return drive.endurance() == null || drive.gigabytesPerDay() == null ? null
            : drive.gigabytesPerDay() * 365.25 / 1000 / drive.endurance().ratedTerabytesWritten().doubleValue() * 100;
    }

    private static double[] known(Collection<DriveAssessment> drives, Function<DriveAssessment, Double> figure) {
        return drives.stream().map(figure).filter(Objects::nonNull).mapToDouble(Double::doubleValue).toArray();
    }

    private static Spread spread(double[] values) {
        Quartiles q = Quartiles.of(values);
        return new Spread(q.size(), q.least(), q.lower(), q.median(), q.upper(), q.most());
    }
}
