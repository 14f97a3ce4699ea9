package org.wearledger.cli;

import java.util.EnumMap;
import java.util.Map;
import org.wearledger.simulate.FleetSetting;
import org.wearledger.simulate.FleetSettings;
import picocli.CommandLine.Option;

/** The options of a fleet with known truth; none of them without {@code --drives}. */
final class FleetOptions {
    private final Map<FleetSetting, Double> values = new EnumMap<>(FleetSetting.class);

    @Option(names = "--drives", required = true, paramLabel = "N", description = "How many machines with one drive each.")
    private int drives;

    @Option(names = "--increment-shape", paramLabel = "ETA",
        description = "Shape of the gamma-distributed writes of a quarter (default: 2.5).")
    void incrementShape(Double value) {
        put(FleetSetting.INCREMENT_SHAPE, value);
    }

    @Option(names = "--spread-shape", paramLabel = "DELTA0",
        description = "Shape of the drives' gamma-distributed inverse scale; smaller is more spread (default: 3).")
    void spreadShape(Double value) {
        put(FleetSetting.SPREAD_SHAPE, value);
    }

    @Option(names = "--median-percent", paramLabel = "PERCENT",
        description = "What the median drive consumes of its rating in a quarter (default: 2.5).")
    void medianPercent(Double value) {
        put(FleetSetting.MEDIAN_PERCENT, value);
    }

    @Option(names = "--model-spread", paramLabel = "SD", description = "Spread of the log rate between drive models (default: 0).")
    void modelSpread(Double value) {
        put(FleetSetting.MODEL_SPREAD, value);
    }

    @Option(names = "--season", paramLabel = "AMPLITUDE", description = "How far the log rate swings over a year (default: 0).")
    void season(Double value) {
        put(FleetSetting.SEASON, value);
    }

    @Option(names = "--drift", paramLabel = "SD", description = "How far the log rate of each drive wanders in a quarter, by itself (default: 0).")
    void drift(Double value) {
        put(FleetSetting.DRIFT, value);
    }

    @Option(names = "--shock", paramLabel = "SD", description = "How far the log rate of all drives wanders in a quarter, together (default: 0).")
    void shock(Double value) {
        put(FleetSetting.SHOCK, value);
    }

    @Option(names = "--memory-effect", paramLabel = "FACTOR",
        description = "How much more machines with 8 GiB write than those with 16 GiB (default: 1).")
    void memoryEffect(Double value) {
        put(FleetSetting.MEMORY_EFFECT, value);
    }

    @Option(names = "--idle", paramLabel = "PROBABILITY", description = "Probability that a quarter has no writes (default: 0).")
    void idle(Double value) {
        put(FleetSetting.IDLE, value);
    }

    @Option(names = "--swaps", paramLabel = "PROBABILITY", description = "Probability in a quarter that a machine gets a new drive (default: 0).")
    void swaps(Double value) {
        put(FleetSetting.SWAPS, value);
    }

    @Option(names = "--resets", paramLabel = "PROBABILITY",
        description = "Probability in a quarter that all counters of a drive restart (default: 0).")
    void resets(Double value) {
        put(FleetSetting.RESETS, value);
    }

    @Option(names = "--missing", paramLabel = "PROBABILITY", description = "Probability that a machine misses a sweep (default: 0).")
    void missing(Double value) {
        put(FleetSetting.MISSING, value);
    }

    private void put(FleetSetting setting, Double value) {
        if (value != null) {
            values.put(setting, value);
        }
    }

    /** @throws IllegalArgumentException with the sentence for the user */
    FleetSettings settings(int quarters, long seed) {
        return new FleetSettings(drives, quarters, seed, values);
    }
}
