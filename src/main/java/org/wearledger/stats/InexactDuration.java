package org.wearledger.stats;

/**
 * A step whose duration is known but for a factor: it tells of the rate as much as a shorter step of known duration.
 *
 * <p>Given an increment d over D, ln u has the variance trigamma(eta D) but for the prior; an error of ln D with variance v, which has
 * its mean at D, adds to it. The step that stands in has the shape a with trigamma(a) = trigamma(eta D) + v, hence the duration a / eta,
 * and the increment d exp(digamma(a) - digamma(eta D)), by which the mean of ln u stays.
 */
public final class InexactDuration {
    private InexactDuration() {
    }

    /**
     * The one step that stands in, by a shape that is taken as known.
     *
     * @param varianceOfLog of the duration, 0 or more
     */
    public static Steps step(double eta, double duration, double increment, double varianceOfLog) {
        double exact = Checked.positive("eta", eta) * duration;
        double shape = varianceOfLog == 0 ? exact : Polygamma.inverseTrigamma(Polygamma.trigamma(exact) + Checked.positive("varianceOfLog", varianceOfLog));
        return new Steps(new double[] {shape / eta}, new double[] {increment * Math.exp(Polygamma.digamma(shape) - Polygamma.digamma(exact))});
    }
}
