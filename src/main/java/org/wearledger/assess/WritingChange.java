package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Locale;
import java.util.stream.IntStream;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Steps;

/**
 * Where a drive's own readings show that it came to be written otherwise, and kept to it.
 *
 * <p>At each reading with two steps before it and two after, the writes X1 and X2 on both sides are compared. With one rate throughout
 * X2 / (X1 + X2) has a beta distribution with the shapes eta T2 and eta T1, whatever the rate. A log rate that drifts by sigma a quarter, 0.15 at most,
 * adds sigma^2 T / 3 to the variance of each side's ln X, that of the mean of a Brownian motion, and the shapes shrink by that. The chance of
 * a share as far out, times the number of places (Bonferroni), must be below 1 in 200. The rate must have changed at least twofold, and
 * still by half when the most telling step of each side is left out, since one busy or idle quarter is no change.
 *
 * @param on day of the reading after which it was written otherwise
 * @param factor later rate / earlier rate
 */
record WritingChange(LocalDate on, double factor) {
    private static final double MOST_CHANCE = 0.005;
    /** Changes of user pass for drift in the fleet's model; no more than this is made of it here. */
    private static final double MOST_DRIFT = WearModel.ASSUMED_DRIFT;
    private static final double LEAST_FACTOR = 2;
    private static final double LEAST_FACTOR_WITHOUT_EXTREMES = 1.5;
    private static final int LEAST_STEPS_ASIDE = 2;

    /** {@code null} where nothing shows one, or where it is known that the machine got a new user at that time. */
    static WritingChange of(WearModel model, WearPast past) {
        Steps steps = past.steps();
        int places = steps.size() - 2 * LEAST_STEPS_ASIDE + 1;
        int likeliest = 0;
        double least = MOST_CHANCE / Math.max(1, places);
        for (int k = LEAST_STEPS_ASIDE; k <= steps.size() - LEAST_STEPS_ASIDE; k++) {
            double chance = chance(model, steps, k);
            if (chance < least) {
                least = chance;
                likeliest = k;
            }
        }
        if (likeliest == 0 || !isLasting(steps, likeliest)) {
            return null;
        }
        int reading = past.atMillis().length - 1 - (steps.size() - likeliest);
        long before = past.atMillis()[Math.max(0, reading - 1)];
        long after = past.atMillis()[reading + 1];
        boolean known = Arrays.stream(past.userChanges()).anyMatch(change -> change >= before && change <= after);
        return known ? null : new WritingChange(LocalDate.ofInstant(Instant.ofEpochMilli(past.atMillis()[reading]), ZoneOffset.UTC),
            rate(steps, likeliest, steps.size(), -1) / rate(steps, 0, likeliest, -1));
    }

    /** Of a share as far out as this one, on either side, when nothing but drift changed. */
    private static double chance(WearModel model, Steps steps, int k) {
        Steps before = steps.first(k);
        RateBelief earlier = side(model, before.totalDuration(), before.totalIncrement());
        RateBelief later = side(model, steps.totalDuration() - before.totalDuration(), steps.totalIncrement() - before.totalIncrement());
        double below = earlier.cdf(1, later.shape(), later.rate());
        return 2 * (below <= 0.5 ? below : earlier.probabilityOfReaching(1, later.shape(), later.rate()));
    }

    private static RateBelief side(WearModel model, double duration, double increment) {
        return new RateBelief(model.population().eta() * duration, increment).wandered(Math.pow(Math.min(model.drift().sigma(), MOST_DRIFT), 2) * duration / 3);
    }

    private static boolean isLasting(Steps steps, int k) {
        double up = rate(steps, k, steps.size(), -1) > rate(steps, 0, k, -1) ? 1 : -1;
        double whole = rate(steps, k, steps.size(), -1) / rate(steps, 0, k, -1);
        double without = rate(steps, k, steps.size(), extreme(steps, k, steps.size(), up)) / rate(steps, 0, k, extreme(steps, 0, k, -up));
        return up * Math.log(whole) >= Math.log(LEAST_FACTOR) && up * Math.log(without) >= Math.log(LEAST_FACTOR_WITHOUT_EXTREMES);
    }

    /** The step of the highest rate, or of the lowest where {@code up} is -1. */
    private static int extreme(Steps steps, int from, int to, double up) {
        return IntStream.range(from, to).boxed().max(Comparator.comparingDouble(j -> up * rate(steps, j, j + 1, -1))).orElseThrow();
    }

    private static double rate(Steps steps, int from, int to, int without) {
        double duration = 0;
        double increment = 0;
        for (int j = from; j < to; j++) {
            duration += j == without ? 0 : steps.durations()[j];
            increment += j == without ? 0 : steps.increments()[j];
        }
        return increment / duration;
    }

    /** Example: {@code this machine's writing changed about 2024-05-17, to 3.2 times as much; if it has a new user, give the day as userSince}. */
    String inWords() {
        return String.format(Locale.ROOT, "this machine's writing changed about %s, to %s; if it has a new user, give the day as userSince", on,
            factor >= 1 ? String.format(Locale.ROOT, "%.1f times as much", factor) : String.format(Locale.ROOT, "%.0f %% of what it was", 100 * factor));
    }
}
