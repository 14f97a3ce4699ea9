package org.wearledger.simulate;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.apache.commons.math3.distribution.GammaDistribution;

/**
 * What an invented fleet is drawn from.
 *
 * @param drives machines with one drive each; drives that replace another come on top
 * @param values settings that differ from their default; the others are filled in
 */
public record FleetSettings(int drives, int quarters, long seed, Map<FleetSetting, Double> values) {
    /** Bounds what is held in memory: the counters of each drive. */
    public static final int MOST_DRIVES = 2_000_000;
    /** With one reading there is no write rate to find. */
    public static final int LEAST_QUARTERS = 2;
    /** Ten years of sweeps. */
    public static final int MOST_QUARTERS = 40;

    /** @throws IllegalArgumentException with a sentence that names the setting, its range and the value */
    public FleetSettings {
        checkWhole("drives", 1, MOST_DRIVES, drives);
        checkWhole("quarters", LEAST_QUARTERS, MOST_QUARTERS, quarters);
        Map<FleetSetting, Double> all = new EnumMap<>(FleetSetting.class);
        for (FleetSetting setting : FleetSetting.values()) {
            all.put(setting, setting.checked(values.getOrDefault(setting, setting.defaultValue())));
        }
        values = Collections.unmodifiableMap(all);
    }

    /**
     * A fleet with every setting at its default.
     *
     * @throws IllegalArgumentException as the constructor
     */
    public static FleetSettings withDefaults(int drives, int quarters, long seed) {
        return new FleetSettings(drives, quarters, seed, Map.of());
    }

    /**
     * The same fleet with one setting changed.
     *
     * @throws IllegalArgumentException as the constructor
     */
    public FleetSettings with(FleetSetting setting, double value) {
        Map<FleetSetting, Double> changed = new EnumMap<>(values);
        changed.put(setting, value);
        return new FleetSettings(drives, quarters, seed, changed);
    }

    /** The setting in force, given or by default. */
    public double value(FleetSetting setting) {
        return values.get(setting);
    }

    /**
     * Rate gamma0 of the distribution that inverse scales are drawn from, such that eta / (median inverse scale) is the
     * median share of the rating consumed in a quarter. With the defaults about 0.02674.
     */
    public double inverseScaleRate() {
        double medianOfUnitRate = new GammaDistribution(null, value(FleetSetting.SPREAD_SHAPE), 1)
            .inverseCumulativeProbability(0.5);
        return value(FleetSetting.MEDIAN_PERCENT) / 100 * medianOfUnitRate / value(FleetSetting.INCREMENT_SHAPE);
    }

    private static void checkWhole(String name, int least, int most, int value) {
        if (value < least || value > most) {
            throw new IllegalArgumentException(name + " takes a whole number from " + least + " to " + most + ", not " + value);
        }
    }
}
