package org.wearledger.assess;

import java.io.Serializable;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.wearledger.model.FleetModel;
import org.wearledger.stats.Drift;
import org.wearledger.stats.GroupOffsets;
import org.wearledger.stats.Quartiles;
import org.wearledger.stats.RandomRateGamma;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.ShortPasts;
import org.wearledger.stats.Steps;

/**
 * What a fleet's pasts say of how its drives are written: a gamma process with a random rate per drive whose logarithm
 * drifts, pooled drive, drive model, fleet, stated default. Wear is in fractions of the rated endurance, time in quarters.
 *
 * @param population of the drives' rates, the drive models' offsets taken out
 * @param drift how a drive's log rate wanders
 * @param familyLogRate offset of each drive model's log rate from the fleet's, shrunk; a model not seen has 0
 * @param driftAssumed fewer than two steps a drive: drift cannot be learned and a stated value stands in
 * @param drives how many drives the fit rests on; 0 for the stated default
 * @param powerOn which part of the day machines run
 * @param amplification how the writes of a point of the controller's percentage wander
 */
public record WearModel(RandomRateGamma population, Drift drift, Map<String, Double> familyLogRate, boolean driftAssumed,
                        int drives, PowerOnShare powerOn, Amplification amplification) implements Serializable {
    /**
     * The stated default: a median drive writes about 1 % of its rating a quarter, most within a factor of three, and
     * quarter by quarter differs by six tenths. It steadies small fleets and stands in where nothing was seen.
     */
    public static final RandomRateGamma DEFAULT_POPULATION = new RandomRateGamma(2.5, 3, 0.012);
    /** Drift in log rate per quarter where it cannot be learned. */
    public static final double ASSUMED_DRIFT = Drift.ASSUMED;
    /** Least drift while the histories are shorter than {@link #LONG_HISTORY} steps, which cannot show that there is none. */
    public static final double LEAST_DRIFT = 0.10;
    static final int LONG_HISTORY = 16;
    static final int SHORT_HISTORY = 6;
    static final int LEAST_STEPS_FOR_DRIFT = 2;
    /** Of the fleet's median rate: a drive below it is not in use, and not in the fit. */
    static final double UNUSED_SHARE = 0.02;
    static final int MOST_DRIVES_FOR_SHORT_PASTS = 400;
    static final int MOST_DRIVES_FOR_DRIFT = 2_000;

    public WearModel {
        familyLogRate = Map.copyOf(familyLogRate);
    }

    /** Without anything learned of hours under power or of the controller. */
    WearModel(RandomRateGamma population, Drift drift, Map<String, Double> familyLogRate, boolean driftAssumed, int drives) {
        this(population, drift, familyLogRate, driftAssumed, drives, PowerOnShare.ASSUMED, Amplification.ASSUMED);
    }

    /** Learns what the fleet tells: first how long its machines run, then its rates, among them those of drives whose age the hours tell. */
    public static WearModel of(Collection<WearPast> fleet) {
        PowerOnShare powerOn = PowerOnShare.of(fleet);
        WearModel fitted = fit(fleet.stream().map(past -> new DriveSteps(past.id(), powerOn.steps(past, DEFAULT_POPULATION.eta()))).toList());
        return new WearModel(fitted.population, fitted.drift, fitted.familyLogRate, fitted.driftAssumed, fitted.drives, powerOn, Amplification.of(fleet));
    }

    /** Fits the fleet; the order of the drives changes no digit. No drive gives the stated default. */
    static WearModel fit(Collection<DriveSteps> fleet) {
        List<DriveSteps> drives = inUse(fleet.stream().filter(drive -> drive.steps().size() > 0)
            .sorted(Comparator.comparing(DriveSteps::id)).toList());
        Map<String, List<Steps>> families = drives.stream().collect(Collectors.groupingBy(drive -> drive.id().model(),
            TreeMap::new, Collectors.mapping(DriveSteps::steps, Collectors.toList())));
        RandomRateGamma mixed = RandomRateGamma.fitNear(drives.stream().map(DriveSteps::steps).toList(), DEFAULT_POPULATION);
        Map<String, Double> offsets = GroupOffsets.of(families, mixed);
        List<Steps> alike = drives.stream().map(drive -> scaled(drive.steps(), -offsets.get(drive.id().model()))).toList();
        boolean oneFamily = offsets.values().stream().allMatch(offset -> offset == 0);
        RandomRateGamma population = oneFamily ? mixed : RandomRateGamma.fitNear(alike, DEFAULT_POPULATION);
        double[] sizes = alike.stream().mapToDouble(Steps::size).sorted().toArray();
        double typicalSteps = sizes.length == 0 ? 0 : sizes[sizes.length / 2];
        if (typicalSteps < LEAST_STEPS_FOR_DRIFT) {
            return new WearModel(population, new Drift(ASSUMED_DRIFT), offsets, true, drives.size());
        }
        if (typicalSteps < SHORT_HISTORY) {
            ShortPasts both = ShortPasts.of(some(alike, MOST_DRIVES_FOR_SHORT_PASTS), DEFAULT_POPULATION);
            return new WearModel(both.population(), atLeast(LEAST_DRIFT, both.drift()), offsets, false, drives.size());
        }
        Drift drift = Drift.chosenFor(some(alike, MOST_DRIVES_FOR_DRIFT), population);
        return new WearModel(population, atLeast(typicalSteps < LONG_HISTORY ? LEAST_DRIFT : 0, drift), offsets, false, drives.size());
    }

    /** What the drive's past tells of its rate. */
    Steps steps(WearPast past) {
        return powerOn.steps(past, DEFAULT_POPULATION.eta());
    }

    /** Without the drives that all but never write: a spare in a drawer says nothing of how drives in use scatter. */
    private static List<DriveSteps> inUse(List<DriveSteps> drives) {
        double median = Quartiles.of(drives.stream().mapToDouble(WearModel::rate).toArray()).median();
        return drives.stream().filter(drive -> !(rate(drive) < UNUSED_SHARE * median)).toList();
    }

    private static double rate(DriveSteps drive) {
        return drive.steps().totalIncrement() / drive.steps().totalDuration();
    }

    /** Evenly spread over the drives in their order: enough to choose one of eleven values by. */
    private static List<Steps> some(List<Steps> units, int most) {
        int stride = Math.max(1, units.size() / most);
        return IntStream.range(0, units.size()).filter(i -> i % stride == 0).mapToObj(units::get).toList();
    }

    private static Drift atLeast(double sigma, Drift drift) {
        return drift.sigma() < sigma ? new Drift(sigma) : drift;
    }

    private static Steps scaled(Steps steps, double logFactor) {
        double factor = Math.exp(logFactor);
        return new Steps(steps.durations(), Arrays.stream(steps.increments()).map(d -> d * factor).toArray());
    }

    RateBelief familyPrior(String driveModel) {
        return new RateBelief(population.delta0(),
            population.gamma0() * Math.exp(familyLogRate.getOrDefault(driveModel, 0.0)));
    }

    /**
     * P(the wear still to go is written within so many quarters), for a belief that stands at the latest reading.
     *
     * @param remaining values that the wear still to go may have, each as likely as the others
     */
    double probabilityOfReaching(RateBelief now, double quarters, double... remaining) {
        // Widened once for all of them: that costs more than the probability itself.
        RateBelief ahead = quarters <= 0 ? now : drift.ahead(now, quarters);
        return Arrays.stream(remaining).map(left -> ahead.probabilityOfReaching(population.eta(), quarters, left)).average().orElseThrow();
    }

    /**
     * The model in numbers, for the method page.
     *
     * @param shock the fleet's, learned beside the model
     */
    public FleetModel summary(CommonShock shock) {
        return new FleetModel(population.eta(), population.delta0(), population.gamma0(), drift.sigma(), driftAssumed, drives,
            shock.sigma(), shock.pairs());
    }
}
