package org.wearledger.assess;

import java.io.Serializable;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.FleetModel;
import org.wearledger.stats.Drift;
import org.wearledger.stats.GroupOffsets;
import org.wearledger.stats.RandomRateGamma;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Steps;

/**
 * What a fleet's pasts say of how its drives are written: a gamma process with a random rate per drive whose logarithm
 * drifts, pooled drive, drive model, fleet, stated default. Wear is in fractions of the rated endurance, time in quarters.
 *
 * @param population of the drives' rates, the drive models' offsets taken out
 * @param drift how a drive's log rate wanders
 * @param familyLogRate offset of each drive model's log rate from the fleet's, shrunk; a model not seen has 0
 * @param driftAssumed fewer than four steps a drive: drift cannot be learned and a stated value stands in
 * @param drives how many drives the fit rests on
 */
public record WearModel(RandomRateGamma population, Drift drift, Map<String, Double> familyLogRate, boolean driftAssumed,
                        int drives) implements Serializable {
    /**
     * The stated default: a median drive writes about 1 % of its rating a quarter, most within a factor of three, and
     * quarter by quarter differs by six tenths. It steadies small fleets and stands in where nothing was seen.
     */
    public static final RandomRateGamma DEFAULT_POPULATION = new RandomRateGamma(2.5, 3, 0.012);
    /** Drift in log rate per quarter where it cannot be learned. */
    public static final double ASSUMED_DRIFT = 0.15;
    /** Least drift while the histories are shorter than {@link #LONG_HISTORY} steps, which cannot show that there is none. */
    public static final double LEAST_DRIFT = 0.10;
    static final int LONG_HISTORY = 16;
    static final int LEAST_STEPS_FOR_DRIFT = 4;
    static final int MOST_DRIVES_FOR_DRIFT = 2_000;

    public WearModel {
        familyLogRate = Map.copyOf(familyLogRate);
    }

    /** Fits the fleet; the order of the drives changes no digit. No drive gives the stated default. */
    public static WearModel fit(Collection<DriveSteps> fleet) {
        List<DriveSteps> drives = fleet.stream().filter(drive -> drive.steps().size() > 0)
            .sorted(Comparator.comparing(DriveSteps::id)).toList();
        Map<String, List<Steps>> families = drives.stream().collect(Collectors.groupingBy(drive -> drive.id().model(),
            TreeMap::new, Collectors.mapping(DriveSteps::steps, Collectors.toList())));
        RandomRateGamma mixed = RandomRateGamma.fitNear(drives.stream().map(DriveSteps::steps).toList(), DEFAULT_POPULATION);
        Map<String, Double> offsets = GroupOffsets.of(families, mixed);
        List<Steps> alike = drives.stream().map(drive -> scaled(drive.steps(), -offsets.get(drive.id().model()))).toList();
        boolean oneFamily = offsets.values().stream().allMatch(offset -> offset == 0);
        RandomRateGamma population = oneFamily ? mixed : RandomRateGamma.fitNear(alike, DEFAULT_POPULATION);
        double[] sizes = alike.stream().mapToDouble(Steps::size).sorted().toArray();
        double typicalSteps = sizes.length == 0 ? 0 : sizes[sizes.length / 2];
        boolean driftAssumed = typicalSteps < LEAST_STEPS_FOR_DRIFT;
        return new WearModel(population, driftAssumed ? new Drift(ASSUMED_DRIFT) : drift(alike, population, typicalSteps),
            offsets, driftAssumed, drives.size());
    }

    private static Drift drift(List<Steps> units, RandomRateGamma population, double typicalSteps) {
        // Evenly spread over the drives in their order: enough to choose one of eleven values by.
        int stride = Math.max(1, units.size() / MOST_DRIVES_FOR_DRIFT);
        List<Steps> some = java.util.stream.IntStream.range(0, units.size()).filter(i -> i % stride == 0).mapToObj(units::get).toList();
        Drift chosen = Drift.chosenFor(some, population);
        return typicalSteps < LONG_HISTORY && chosen.sigma() < LEAST_DRIFT ? new Drift(LEAST_DRIFT) : chosen;
    }

    private static Steps scaled(Steps steps, double logFactor) {
        double factor = Math.exp(logFactor);
        return new Steps(steps.durations(), Arrays.stream(steps.increments()).map(d -> d * factor).toArray());
    }

    /** The belief about a drive of this model after its steps; with none, that of its family. */
    RateBelief beliefAfter(String driveModel, Steps steps) {
        return drift.after(familyPrior(driveModel), population.eta(), steps);
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
