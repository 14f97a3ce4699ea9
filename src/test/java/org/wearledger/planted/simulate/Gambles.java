package org.wearledger.planted.simulate;

import java.util.Random;
import java.util.function.DoubleSupplier;

final class Gambles {
    Random unseeded() {
        return new Random();
    }

    double math() {
        return Math.random();
    }

    DoubleSupplier reference() {
        return Math::random;
    }

    Random allowed(long seed) {
        return new Random(seed);
    }
}
