package org.wearledger.stats;

/**
 * The first two derivatives of the logarithm of the gamma function, for x above 0, to 1e-14 of their size: shifted to 10 and more by
 * psi(x) = psi(x + 1) - 1 / x, then by their asymptotic series (Abramowitz and Stegun, Handbook of Mathematical Functions, 6.3.18 and 6.4.12).
 * The library's shift to 49; a belief is widened some dozens of times a drive, and this was a twentieth of a sweep.
 */
final class Polygamma {
    private static final double LEAST_OF_SERIES = 10;
    private static final int MOST_STEPS = 100;
    /** Newton's next step is then below the accuracy of a double. */
    private static final double NEAR = 1e-7;

    private Polygamma() {
    }

    static double digamma(double x) {
        double sum = 0;
        double z = x;
        for (; z < LEAST_OF_SERIES; z++) {
            sum -= 1 / z;
        }
        double q = 1 / (z * z);
        return sum + Math.log(z) - 0.5 / z - q * (1 / 12.0 - q * (1 / 120.0 - q * (1 / 252.0 - q * (1 / 240.0 - q * (1 / 132.0 - q * (691 / 32_760.0 - q / 12))))));
    }

    static double trigamma(double x) {
        double sum = 0;
        double z = x;
        for (; z < LEAST_OF_SERIES; z++) {
            sum += 1 / (z * z);
        }
        double r = 1 / z;
        double q = r * r;
        return sum + r + q / 2 + r * q * (1 / 6.0 - q * (1 / 30.0 - q * (1 / 42.0 - q * (1 / 30.0 - q * (5 / 66.0 - q * (691 / 2_730.0 - q * 7 / 6))))));
    }

    /** Its derivative, to the few digits that Newton's steps need. */
    private static double tetragamma(double x) {
        double sum = 0;
        double z = x;
        for (; z < LEAST_OF_SERIES; z++) {
            sum -= 2 / (z * z * z);
        }
        double q = 1 / (z * z);
        return sum - q - q / z - q * q * (0.5 - q * (1 / 6.0 - q / 6));
    }

    /** x with trigamma(x) = y above 0. Newton's steps on the reciprocal, which is nearly the straight line x - 1/2: few do. */
    static double inverseTrigamma(double y) {
        double x = 0.5 + 1 / y;
        for (int i = 0; i < MOST_STEPS; i++) {
            double at = trigamma(x);
            double step = at * (1 - at / y) / tetragamma(x);
            x += step;
            if (Math.abs(step) < NEAR * x) {
                break;
            }
        }
        return x;
    }
}
