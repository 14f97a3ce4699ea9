package org.wearledger.budget;

import java.time.LocalDate;
import java.time.ZoneOffset;
import org.wearledger.model.Crossing;
import org.wearledger.model.FleetModel;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.Drift;
import org.wearledger.stats.FirstPassage;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.ReachingCurve;

/**
 * The probability over time that one drive crosses one threshold. Given a shock s of the log rate that all drives share, its
 * increments are scaled by e^s, and only the drive's own drift, sigma_d^2 = max(0, sigma^2 - sigma_c^2), is left to widen it.
 */
final class CrossingCurve {
    private static final double MILLIS_PER_QUARTER = SweepSettings.DAYS_PER_QUARTER * 86_400_000;
    private static final double MOST_QUARTERS = 40;
    private static final double NEGLIGIBLE = 1e-12;

    private final FleetModel fleet;
    private final Crossing crossing;
    private final RateBelief belief;
    private final Drift total;
    private final Drift own;
    private final Drift shared;
    /** Negative infinity where nothing remains. */
    private final double[] logRemaining;

    CrossingCurve(FleetModel fleet, Crossing crossing) {
        this.fleet = fleet;
        this.crossing = crossing;
        belief = new RateBelief(crossing.beliefShape(), crossing.beliefRate());
        logRemaining = crossing.remaining().stream().mapToDouble(remaining -> Math.log(Math.max(0, remaining))).toArray();
        double sigma = fleet.driftPerQuarter();
        double sigmaShared = fleet.sharedShockPerQuarter();
        total = new Drift(sigma);
        shared = new Drift(sigmaShared);
        own = new Drift(Math.sqrt(Math.max(0, sigma * sigma - sigmaShared * sigmaShared)));
    }

    /** P(crossed by the end of the day), all drift taken as the drive's own. */
    double by(LocalDate day) {
        return at(quartersUntil(day));
    }

    /**
     * P(crossed by the end of the day) at several values of the shared shock, rising, in its standard deviations over the time since
     * the reading.
     */
    double[] by(LocalDate day, double[] shocks) {
        double quarters = quartersUntil(day);
        double[] probabilities = new double[shocks.length];
        if (quarters <= 0) {
            return probabilities;
        }
        double deviation = Math.sqrt(shared.varianceOverHorizon(quarters));
        RateBelief ahead = own.ahead(belief, quarters);
        ReachingCurve curve = new ReachingCurve(ahead.shape(), fleet.shapePerQuarter() * quarters);
        double logRate = Math.log(ahead.rate());
        // A larger shock makes crossing likelier: below the first that does not matter, none does.
        for (int i = shocks.length - 1; i >= 0; i--) {
            probabilities[i] = reaching(curve, logRate + shocks[i] * deviation);
            if (probabilities[i] < NEGLIGIBLE) {
                break;
            }
        }
        return probabilities;
    }

    /** The day by which it is crossed with probability p; {@code null} when that is more than ten years after the reading. */
    LocalDate day(double p) {
        return new FirstPassage(this::at, MOST_QUARTERS).dateOf(p, crossing.readAt(), MILLIS_PER_QUARTER);
    }

    private double at(double quarters) {
        return quarters <= 0 ? 0 : reaching(total.ahead(belief, quarters), quarters);
    }

    private double reaching(RateBelief ahead, double quarters) {
        double sum = 0;
        for (double remaining : crossing.remaining()) {
            sum += ahead.probabilityOfReaching(fleet.shapePerQuarter(), quarters, remaining);
        }
        return sum / crossing.remaining().size();
    }

    private double reaching(ReachingCurve curve, double logRate) {
        double sum = 0;
        for (double left : logRemaining) {
            sum += curve.at(logRate - left);
        }
        return sum / logRemaining.length;
    }

    private double quartersUntil(LocalDate day) {
        return (day.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli() - crossing.readAt().toEpochMilli()) / MILLIS_PER_QUARTER;
    }
}
