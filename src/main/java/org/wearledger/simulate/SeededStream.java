package org.wearledger.simulate;

import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.random.AbstractRandomGenerator;

/**
 * Random numbers for one purpose of one drive in one quarter. Each has a stream of its own, so that neither the order of
 * drawing nor another option changes what is drawn, and nothing needs to be kept from quarter to quarter.
 */
final class SeededStream extends AbstractRandomGenerator {
    /** What is drawn; the order is part of what a seed means, so new ones go last. */
    enum Purpose { MODEL_FACTOR, SHOCK, MACHINE, INVERSE_SCALE, DRIVE, EARLIER_WRITES, WRITES, DRIFT, IDLE, SWAP, RESET, MISSING, READING }

    private SplittableRandom source;

    private SeededStream(long seed) {
        source = new SplittableRandom(seed);
    }

    static SeededStream of(long seed, Purpose purpose, long... place) {
        long mixed = new SplittableRandom(seed + purpose.ordinal()).nextLong();
        for (long coordinate : place) {
            mixed = new SplittableRandom(mixed ^ coordinate).nextLong();
        }
        return new SeededStream(mixed);
    }

    @Override
    public void setSeed(long seed) {
        clear();
        source = new SplittableRandom(seed);
    }

    @Override
    public double nextDouble() {
        return source.nextDouble();
    }

    double gamma(double shape, double rate) {
        return new GammaDistribution(this, shape, 1 / rate).sample();
    }

    boolean happens(double probability) {
        return nextDouble() < probability;
    }
}
