package org.wearledger.assess;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.wearledger.assess.AdjustedFactors.Grouping;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.Separation;
import org.wearledger.stats.Quartiles;

/**
 * What machines of one model, or at one site, write against the typical machine: per power-on hour, per day, and in percent of the rated endurance per year. One reading
 * is enough. What a machine writes is adjusted for memory, site and model, each for the others; its wear also for capacity and drive model.
 *
 * <p>Left out are drives under power for less than a day, whose setting up is most of what they wrote; those whose counters went back, since hours and
 * writes may then not go together; and those that write less than 2 % of the median, which are not in use.
 */
public final class MachineModels {
    private static final long LEAST_HOURS = 24;
    private static final double GIGABYTES_PER_TERABYTE = 1000;
    private static final double BYTES_PER_GIBIBYTE = 1L << 30;

    /**
     * A drive in its machine, which may have got its memory and site from the inventory. Empty names are not reported; measures not known are 0.
     *
     * @param machineName as its machine spells its model, like {@code siteName}
     */
    private record Placed(DriveId id, String machineName, String machineModel, String memory, String siteName, String site, String capacity, double gigabytesPerHour, double gigabytesPerDay,
                          double percentPerYear) {
        private static final Grouping<Placed> MEMORY = new Grouping<>(Separation.EXPLAINED_BY_MEMORY, false, Placed::memory);
        private static final Grouping<Placed> CAPACITY = new Grouping<>(Separation.EXPLAINED_BY_CAPACITY, false, Placed::capacity);
        private static final Grouping<Placed> SITE = new Grouping<>(Separation.EXPLAINED_BY_SITE, true, Placed::site);
        private static final Grouping<Placed> MACHINE_MODEL = new Grouping<>(Separation.EXPLAINED_BY_MACHINE_MODEL, true, Placed::machineModel);
        private static final Grouping<Placed> DRIVE_MODEL = new Grouping<>(Separation.EXPLAINED_BY_DRIVE_MODEL, true, placed -> placed.id.model());
        /** A drive does not decide how much is written to it. */
        private static final List<Grouping<Placed>> WRITES = List.of(MEMORY, SITE, MACHINE_MODEL);
        private static final List<Grouping<Placed>> WEAR = List.of(MEMORY, CAPACITY, SITE, MACHINE_MODEL, DRIVE_MODEL);

        static Placed of(Machine machine, DriveAssessment drive) {
            return new Placed(drive.id(), machine.model(), folded(machine.model()),
                machine.memoryBytes() == null ? "" : String.valueOf(Math.round(machine.memoryBytes() / BYTES_PER_GIBIBYTE)), machine.site(), folded(machine.site()),
                Objects.toString(FleetComparison.gigabytes(drive), ""), gigabytesPerHour(drive), orZero(drive.pace().gigabytesPerDay()), orZero(FleetComparison.consumedPercentPerYear(drive)));
        }

        private static String folded(String name) {
            return name == null ? "" : DriveId.fold(name);
        }

        private static double orZero(Double value) {
            return value == null ? 0 : value;
        }

        private static double gigabytesPerHour(DriveAssessment drive) {
            Long hours = drive.latest().health().powerOnHours();
            return hours == null || hours < LEAST_HOURS || drive.seen().epochs() > 1 || drive.terabytesWritten() == null ? 0
                : drive.terabytesWritten() * GIGABYTES_PER_TERABYTE / hours;
        }
    }

    /** Machine models and sites by name, and what was found of drive models beside them, by folded name. */
    public record Compared(List<ComparedGroup> machineModels, List<ComparedGroup> sites, Map<String, ModelFactor> driveModels) {
    }

    private MachineModels() {
    }

    /** Machines in any order; drives in machines that name no model have no line of their own, as those that name no site. */
    public static Compared of(List<MachineAssessment> machines) {
        List<Placed> all = machines.parallelStream().flatMap(machine -> machine.activeDrives().stream().map(drive -> Placed.of(machine.machine(), drive))).toList();
        List<Supplier<AdjustedFactors>> measures = List.of(
            () -> factors(all, Placed::gigabytesPerHour, Placed.WRITES),
            () -> factors(all, Placed::gigabytesPerDay, Placed.WRITES),
            () -> factors(all, Placed::percentPerYear, Placed.WEAR));
        List<AdjustedFactors> fitted = measures.parallelStream().map(Supplier::get).toList();
        return new Compared(groups(all, Placed.MACHINE_MODEL, Placed::machineName, fitted), groups(all, Placed.SITE, Placed::siteName, fitted), fitted.get(2).by(Separation.EXPLAINED_BY_DRIVE_MODEL));
    }

    private static List<ComparedGroup> groups(List<Placed> all, Grouping<Placed> grouping, Function<Placed, String> spelt, List<AdjustedFactors> fitted) {
        List<Map<String, ModelFactor>> found = fitted.stream().map(measure -> measure.by(grouping.explanation())).toList();
        Map<String, List<Placed>> groups = all.stream().collect(Collectors.groupingBy(grouping.name(), TreeMap::new, Collectors.toList()));
        groups.remove("");
        return groups.entrySet().stream().map(own -> summary(spelt.apply(own.getValue().stream().min(Comparator.comparing(Placed::id)).orElseThrow()), own.getValue(),
            found.stream().map(measure -> measure.getOrDefault(own.getKey(), ModelFactor.NOT_COMPARED)).toList())).toList();
    }

    private static ComparedGroup summary(String name, List<Placed> drives, List<ModelFactor> factors) {
        Quartiles hourly = Quartiles.of(drives.stream().mapToDouble(Placed::gigabytesPerHour).filter(known -> known > 0).toArray());
        return new ComparedGroup(name, drives.size(), hourly.median(), factors.get(0), factors.get(1), factors.get(2));
    }

    private static AdjustedFactors factors(List<Placed> drives, ToDoubleFunction<Placed> value, List<Grouping<Placed>> groupings) {
        return new AdjustedFactors(inUse(drives, value), value, groupings);
    }

    private static List<Placed> inUse(List<Placed> drives, ToDoubleFunction<Placed> value) {
        double least = WearModel.UNUSED_SHARE * Quartiles.of(drives.stream().mapToDouble(value).filter(known -> known > 0).toArray()).median();
        return drives.stream().filter(placed -> value.applyAsDouble(placed) > 0 && value.applyAsDouble(placed) >= least).toList();
    }
}
