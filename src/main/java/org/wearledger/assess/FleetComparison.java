package org.wearledger.assess;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.wearledger.model.AgainstRest;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.Interval;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Separation;
import org.wearledger.model.Spread;
import org.wearledger.model.Standing;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.Holm;
import org.wearledger.stats.Quartiles;
import org.wearledger.stats.RankSum;

/**
 * Drive models against the rest of the fleet, and machines with less memory against those with more. A difference is
 * claimed only when its p value, after Holm's correction over all that are compared, is under 0.05 and its 95 % interval leaves out
 * zero. No result depends on the order of the machines.
 */
public final class FleetComparison {
    private static final double SIGNIFICANT_P = 0.05;
    private static final double CONFIDENCE = 0.95;
    private static final double BYTES_PER_GIBIBYTE = 1L << 30;
    private static final double BYTES_PER_GIGABYTE = 1e9;
    private static final double DAYS_PER_YEAR = 365.25;
    private static final double GIGABYTES_PER_TERABYTE = 1000;

    private FleetComparison() {
    }

    /**
     * The active drives by model name (letter case and white space folded), under the spelling of the smallest id.
     *
     * @param atEqualCapacity by folded name, what {@link MachineModels} found
     */
    public static List<ModelSummary> models(List<MachineAssessment> machines, Map<String, ModelFactor> atEqualCapacity) {
        Map<String, List<DriveAssessment>> drivesByModel = machines.stream()
            .flatMap(machine -> machine.activeDrives().stream()).sorted(Comparator.comparing(DriveAssessment::id))
            .collect(Collectors.groupingBy(drive -> drive.id().model(), TreeMap::new, Collectors.toList()));
        Map<String, double[]> percents = new TreeMap<>();
        drivesByModel.forEach((model, drives) -> percents.put(model, known(drives, FleetComparison::consumedPercentPerYear)));
        Map<String, AgainstRest> comparisons = comparisons(percents);
        Map<String, ModelRates.Rate> rates = ModelRates.of(percents);
        Map<String, ImpliedRating> implied = ImpliedRatings.of(drivesByModel);
        List<ModelSummary> summaries = new ArrayList<>();
        drivesByModel.forEach((model, drives) -> summaries.add(summary(drives, rates.getOrDefault(model, ModelRates.Rate.UNKNOWN),
            atEqualCapacity.getOrDefault(model, ModelFactor.NOT_COMPARED), implied.get(model), comparisons.get(model))));
        return summaries;
    }

    /** Percent of the rated endurance that a year at the drive's rate consumes; {@code null} without rate or rating. */
    static Double consumedPercentPerYear(DriveAssessment drive) {
        Double gigabytesPerDay = drive.pace().gigabytesPerDay();
        Endurance endurance = drive.wear().endurance();
        if (gigabytesPerDay == null || endurance == null || endurance.ratedTerabytesWritten().signum() <= 0) {
            return null;
        }
        double terabytesPerYear = gigabytesPerDay * DAYS_PER_YEAR / GIGABYTES_PER_TERABYTE;
        return terabytesPerYear / endurance.ratedTerabytesWritten().doubleValue() * 100;
    }

    private static ModelSummary summary(List<DriveAssessment> drives, ModelRates.Rate rate, ModelFactor atEqualCapacity,
                                        ImpliedRating implied, AgainstRest againstRest) {
        Map<Standing, Integer> standings = new EnumMap<>(Standing.class);
        drives.forEach(drive -> standings.merge(drive.standing(), 1, Integer::sum));
        int assumed = (int) drives.stream().filter(d -> d.wear().endurance() != null && d.wear().endurance().assumed()).count();
        return new ModelSummary(drives.get(0).latest().drive().model(), drives.size(), standings,
            spread(known(drives, drive -> drive.wear().consumedPercent())),
            spread(known(drives, drive -> drive.pace().gigabytesPerDay())),
            spread(known(drives, FleetComparison::consumedPercentPerYear)), rate.percentPerYear(), rate.interval95(),
            rate.group(), assumed, Quartiles.of(known(drives, drive -> drive.percentageUsed() == null ? null : drive.percentageUsed().doubleValue())).median(),
            drives.stream().map(FleetComparison::gigabytes).filter(Objects::nonNull).distinct().sorted().toList(), atEqualCapacity, implied, againstRest);
    }

    /** Capacity in whole decimal gigabytes, {@code null} when not reported. */
    static Long gigabytes(DriveAssessment drive) {
        Long bytes = drive.latest().drive().capacityBytes();
        return bytes == null ? null : (Long) Math.round(bytes / BYTES_PER_GIGABYTE);
    }

    /** One model's drives against all others. */
    private record Against(String model, int own, int others, RankSum ranks) {
        boolean isLargeEnough() {
            return Math.min(own, others) >= AgainstRest.LEAST_DRIVES;
        }
    }

    private static Map<String, AgainstRest> comparisons(Map<String, double[]> percentsByModel) {
        List<Against> all = percentsByModel.keySet().parallelStream().map(model -> against(model, percentsByModel)).toList();
        Map<String, AgainstRest> found = new HashMap<>();
        all.stream().filter(each -> !each.isLargeEnough()).forEach(each -> found.put(each.model, AgainstRest.tooFew(each.own, each.others)));
        List<Against> compared = all.stream().filter(Against::isLargeEnough).toList();
        double[] adjustedP = Holm.adjust(compared.stream().mapToDouble(each -> each.ranks.twoSidedP()).toArray());
        List<AgainstRest> results = IntStream.range(0, adjustedP.length).parallel().mapToObj(i -> againstRest(compared.get(i), adjustedP[i])).toList();
        IntStream.range(0, adjustedP.length).forEach(i -> found.put(compared.get(i).model, results.get(i)));
        return found;
    }

    private static AgainstRest againstRest(Against compared, double adjustedP) {
        Bounds bounds = bounds95(compared.ranks);
        return new AgainstRest(compared.own, compared.others, compared.ranks.shift(), new Interval(bounds.low(), bounds.high()), separation(compared.ranks, adjustedP, bounds));
    }

    private static Separation separation(RankSum ranks, double adjustedP, Bounds bounds) {
        if (adjustedP >= SIGNIFICANT_P || !bounds.excludesZero()) {
            return Separation.CANNOT_BE_SEPARATED;
        }
        return ranks.shift() > 0 ? Separation.MORE_THAN_TYPICAL : Separation.LESS_THAN_TYPICAL;
    }

    private static Against against(String model, Map<String, double[]> percentsByModel) {
        double[] own = percentsByModel.get(model);
        double[] others = percentsByModel.entrySet().stream().filter(other -> !other.getKey().equals(model))
            .flatMapToDouble(other -> Arrays.stream(other.getValue())).toArray();
        return new Against(model, own.length, others.length, RankSum.compare(own, others).orElse(null));
    }

    /** Write rates and swap by memory size, smallest first; band 0 holds the machines whose memory is not reported. */
    public static List<MemoryBand> memoryBands(List<MachineAssessment> machines) {
        List<MemoryBand> bands = new ArrayList<>();
        byMemory(machines).forEach((gibibytes, inBand) -> bands.add(new MemoryBand(gibibytes, inBand.size(),
            spread(known(inBand, FleetComparison::gigabytesPerDay)),
            spread(known(inBand, FleetComparison::swapUsedGibibytes)))));
        return bands;
    }

    /**
     * Each known band against the next larger one, smallest first, with p values after Holm's correction over all of them; numbers are NaN where there are
     * too few machines.
     */
    public static List<MemoryContrast> memoryContrasts(List<MachineAssessment> machines) {
        TreeMap<Integer, List<MachineAssessment>> byMemory = byMemory(machines);
        byMemory.remove(0);
        // A size of which no machine has a rate says nothing against any other.
        byMemory.values().removeIf(own -> known(own, FleetComparison::gigabytesPerDay).length == 0);
        List<Neighbours> all = new ArrayList<>();
        byMemory.forEach((smaller, inSmaller) -> {
            Map.Entry<Integer, List<MachineAssessment>> larger = byMemory.higherEntry(smaller);
            if (larger != null) {
                all.add(Neighbours.of(smaller, known(inSmaller, FleetComparison::gigabytesPerDay), larger.getKey(),
                    known(larger.getValue(), FleetComparison::gigabytesPerDay)));
            }
        });
        double[] adjustedP = Holm.adjust(all.stream().filter(pair -> pair.ranks != null).mapToDouble(pair -> pair.ranks.twoSidedP()).toArray());
        Iterator<Double> nextP = Arrays.stream(adjustedP).iterator();
        return all.stream().map(pair -> pair.ranks == null ? pair.tooFew() : pair.contrast(nextP.next())).toList();
    }

    /** @param ranks {@code null} where either has too few machines */
    private record Neighbours(int smaller, int smallerMachines, int larger, int largerMachines, RankSum ranks) {
        static Neighbours of(int smaller, double[] smallerRates, int larger, double[] largerRates) {
            boolean enough = Math.min(smallerRates.length, largerRates.length) >= MemoryContrast.LEAST_MACHINES;
            return new Neighbours(smaller, smallerRates.length, larger, largerRates.length,
                enough ? RankSum.compare(smallerRates, largerRates).orElseThrow() : null);
        }

        MemoryContrast tooFew() {
            return new MemoryContrast(smaller, larger, smallerMachines, largerMachines, Double.NaN, new Interval(Double.NaN, Double.NaN), Double.NaN, Separation.NOT_COMPARED);
        }

        MemoryContrast contrast(double adjustedP) {
            Bounds bounds = bounds95(ranks);
            return new MemoryContrast(smaller, larger, smallerMachines, largerMachines, ranks.shift(), new Interval(bounds.low(), bounds.high()), adjustedP, separation(ranks, adjustedP, bounds));
        }
    }

    private static TreeMap<Integer, List<MachineAssessment>> byMemory(List<MachineAssessment> machines) {
        return machines.stream()
            .collect(Collectors.groupingBy(FleetComparison::memoryGibibytes, TreeMap::new, Collectors.toList()));
    }

    private static int memoryGibibytes(MachineAssessment machine) {
        Long bytes = machine.machine().memoryBytes();
        return bytes == null ? 0 : (int) Math.round(bytes / BYTES_PER_GIBIBYTE);
    }

    private static Double swapUsedGibibytes(MachineAssessment machine) {
        Long bytes = machine.machine().swapUsedBytes();
        return bytes == null ? null : bytes / BYTES_PER_GIBIBYTE;
    }

    /** What the machine writes in all; {@code null} when any of its drives has no rate, as the sum would fall short. */
    private static Double gigabytesPerDay(MachineAssessment machine) {
        double[] rates = known(machine.activeDrives(), drive -> drive.pace().gigabytesPerDay());
        if (rates.length == 0 || rates.length < machine.activeDrives().size()) {
            return null;
        }
        double sum = 0;
        for (double rate : rates) {
            sum += rate;
        }
        return sum;
    }

    private static Bounds bounds95(RankSum ranks) {
        // The least sizes demanded above are enough for an interval at 95 %.
        return ranks.shiftInterval(CONFIDENCE).orElseThrow();
    }

    private static <T> double[] known(Collection<T> items, Function<T, Double> value) {
        return items.stream().map(value).filter(Objects::nonNull).mapToDouble(Double::doubleValue).toArray();
    }

    private static Spread spread(double[] values) {
        Quartiles q = Quartiles.of(values);
        return new Spread(q.size(), q.lower(), q.median(), q.upper());
    }
}
