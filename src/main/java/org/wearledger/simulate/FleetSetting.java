package org.wearledger.simulate;

import java.util.function.DoublePredicate;

/** What can be varied about an invented fleet: the option's name and what stands for its value, the name with its unit in the truth, the default. */
public enum FleetSetting {
    INCREMENT_SHAPE("increment-shape", "ETA", "incrementShapePerQuarter", 2.5, Range.POSITIVE,
        "shape eta of the gamma-distributed writes of one quarter"),
    SPREAD_SHAPE("spread-shape", "DELTA0", "spreadShape", 3, Range.POSITIVE,
        "shape delta0 of the gamma-distributed inverse scale: the smaller, the more drives differ"),
    MEDIAN_PERCENT("median-percent", "PERCENT", "medianConsumedPercentPerQuarter", 2.5, Range.POSITIVE,
        "percent of its rated endurance that the median drive consumes in a quarter; sets gamma0"),
    MODEL_SPREAD("model-spread", "SD", "modelLogRateSd", 0, Range.LOG_AMOUNT,
        "standard deviation between drive models of the log rate"),
    SEASON("season", "AMPLITUDE", "seasonLogRateAmplitude", 0, Range.LOG_AMOUNT,
        "amplitude of a yearly swing of the log rate, most in the first calendar quarter, least in the third"),
    DRIFT("drift", "SD", "driftLogRateSdPerQuarter", 0, Range.LOG_AMOUNT,
        "standard deviation a quarter of each drive's random walk of the log rate"),
    SHOCK("shock", "SD", "shockLogRateSdPerQuarter", 0, Range.LOG_AMOUNT,
        "standard deviation a quarter of the random walk of the log rate that all drives share"),
    MEMORY_EFFECT("memory-effect", "FACTOR", "memoryEffectFactor", 1, Range.POSITIVE,
        "factor by which machines with 8 GiB write more than those with 16 GiB"),
    IDLE("idle", "PROBABILITY", "idleProbabilityPerQuarter", 0, Range.PROBABILITY, "probability that a quarter has no writes"),
    SWAPS("swaps", "PROBABILITY", "swapProbabilityPerQuarter", 0, Range.PROBABILITY,
        "probability a quarter that a machine gets a new drive, right after a sweep"),
    RESETS("resets", "PROBABILITY", "resetProbabilityPerQuarter", 0, Range.PROBABILITY,
        "probability a quarter that all counters of a drive restart, right after a sweep"),
    MISSING("missing", "PROBABILITY", "missingProbabilityPerSweep", 0, Range.PROBABILITY, "probability that a machine misses a sweep");

    private enum Range {
        POSITIVE("a number above 0 and up to 1000", v -> v > 0 && v <= 1000),
        LOG_AMOUNT("a number from 0 to 3", v -> v >= 0 && v <= 3),
        PROBABILITY("a probability from 0 to below 1", v -> v >= 0 && v < 1);

        private final String words;
        private final DoublePredicate holds;

        Range(String words, DoublePredicate holds) {
            this.words = words;
            this.holds = holds;
        }
    }

    private final String option;
    private final String label;
    private final String nameWithUnit;
    private final double defaultValue;
    private final Range range;
    private final String meaning;

    FleetSetting(String option, String label, String nameWithUnit, double defaultValue, Range range, String meaning) {
        this.option = option;
        this.label = label;
        this.nameWithUnit = nameWithUnit;
        this.defaultValue = defaultValue;
        this.range = range;
        this.meaning = meaning;
    }

    /** Example: {@code memory-effect}. */
    public String option() {
        return option;
    }

    /** For its value in the help, such as {@code FACTOR}. */
    public String label() {
        return label;
    }

    /** As it stands in {@code truth/settings.csv}. */
    public String nameWithUnit() {
        return nameWithUnit;
    }

    /** What is drawn with when the option is not given. */
    public double defaultValue() {
        return defaultValue;
    }

    /** What it stands for and in which unit, as the help and the README of a fleet print it. */
    public String meaning() {
        return meaning;
    }

    double checked(double value) {
        if (!range.holds.test(value)) {
            throw new IllegalArgumentException(option + " takes " + range.words + ", not " + value);
        }
        return value;
    }
}
