package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Values from outside: each test names the program and the command that made its own. */
class ProjectionReferenceTest {
    private static final double DIGITS = 1e-8;

    /** scipy: gammaincc(2 t, 10). */
    @ParameterizedTest(name = "P(T <= {0})")
    @CsvSource({"2, .0103360506759257", "4, .220220646601699", "5, .457929714471852", "6, .696776146303107",
        "8, .951259596696021", "10, .996545658024143"})
    void firstPassageOfAGammaProcess(double time, double probability) {
        assertThat(new GammaProcess(2, 1).probabilityOfReaching(time, 10)).isCloseTo(probability, within(1e-12));
    }

    /** scipy: betainc(delta, eta t, gamma / (L + gamma)). */
    @ParameterizedTest(name = "eta {0} delta {1} gamma {2} L {3}: P(T <= {4})")
    @CsvSource({"1.5, 6, .10, .40, 1, .000170825531081034", "1.5, 6, .10, .40, 2, .00123136", "1.5, 6, .10, .40, 4, .01165420544",
        "1.5, 6, .10, .40, 8, .105701222432113", "1.5, 6, .10, .40, 16, .536596065982595", "2, 3, .05, .2, 1, .0272",
        "2, 3, .05, .2, 2, .09888", "2, 3, .05, .2, 4, .3222004736", "2, 3, .05, .2, 8, .728658122450927",
        "2, 3, .05, .2, 16, .977404128050932"})
    void firstPassageWithARandomRate(double eta, double delta, double gamma, double level, double time, double probability) {
        RateBelief belief = new RateBelief(delta, gamma);
        assertThat(belief.probabilityOfReaching(eta, time, level)).isCloseTo(probability, within(DIGITS));
        assertThat(1 - belief.cdf(eta, time, level)).isCloseTo(probability, within(DIGITS));
    }

    @ParameterizedTest
    @CsvSource({"1.5, 8, 6, .1, .05", "2, 1, 3, .05, .5", "0.3, 0.2, 0.8, 1e-3, .01", "3, 8, 30, 2, .95", "40, 16, 4, 1, .999"})
    void quantilesInvertTheDistribution(double eta, double time, double delta, double gamma, double p) {
        RateBelief belief = new RateBelief(delta, gamma);
        assertThat(belief.cdf(eta, time, belief.quantile(eta, time, p))).isCloseTo(p, within(1e-12));
    }

    /** mpmath: findroot of trigamma(x) = trigamma(delta) + v, then gamma exp(psi(x) - psi(delta)). */
    @ParameterizedTest(name = "({0}, {1}) widened by {2}")
    @CsvSource({"8, .16, .09, 4.963119944677, .0953404569133", "2, .05, .25, 1.550157496869, .0355735432833",
        "50, 1, .01, 33.608604681501, .668874747448"})
    void aWanderingRateWidensTheBelief(double delta, double gamma, double variance, double wider, double rate) {
        RateBelief belief = new RateBelief(delta, gamma).wandered(variance);
        assertThat(belief.shape()).isCloseTo(wider, within(DIGITS));
        assertThat(belief.rate()).isCloseTo(rate, within(DIGITS));
    }

    /** By hand from sigma^2 (h + 1)(2 h + 1) / (6 h); below one unit sigma^2 h. */
    @ParameterizedTest
    @CsvSource({"1, .04", "4, .075", "8, .1275", "0.5, .02"})
    void theHorizonsVariance(double horizon, double variance) {
        assertThat(new Drift(0.2).varianceOverHorizon(horizon)).isCloseTo(variance, within(1e-15));
    }

    /** scipy: the sum of gammaln and log terms, written out for the two units. */
    @Test
    void marginalLogLikelihoodOfTwoUnits() {
        RandomRateGamma population = new RandomRateGamma(2, 3, 0.05);
        Steps slow = new Steps(new double[] {1, 1, 1}, new double[] {.02, .03, .025});
        Steps fast = new Steps(new double[] {1, 1, 1}, new double[] {.10, .06, .08});
        assertThat(population.logLikelihood(List.of(slow))).isCloseTo(8.53177242, within(DIGITS));
        assertThat(population.logLikelihood(List.of(fast))).isCloseTo(4.42340365, within(DIGITS));
        assertThat(population.logLikelihood(List.of(fast, slow))).isCloseTo(12.9551760713, within(DIGITS));
    }

    /**
     * The prequential factors of one unit multiply to its marginal density: an identity that needs no outside number, and
     * ties the predictive density to the likelihood.
     */
    @Test
    void thePredictiveDensitiesMultiplyToTheMarginalLikelihood() {
        RandomRateGamma population = new RandomRateGamma(2, 3, 0.05);
        Steps unit = new Steps(new double[] {1, .7, 2}, new double[] {.02, .03, .025});
        RateBelief belief = population.prior();
        double sum = 0;
        for (int j = 0; j < unit.size(); j++) {
            sum += belief.logDensity(2, unit.durations()[j], unit.increments()[j]);
            belief = belief.after(2, unit.durations()[j], unit.increments()[j]);
        }
        assertThat(sum).isCloseTo(population.logLikelihood(List.of(unit)), within(1e-10));
    }

    /** GaAs lasers, Meeker and Escobar, Statistical Methods for Reliability Data (1998); fits recomputed with scipy brentq. */
    @ParameterizedTest(name = "laser {0}")
    @CsvSource(delimiter = '|', textBlock = """
        unit 1  | 0 .47 .93 2.11 2.72 3.51 4.34 4.91 5.48 5.99 6.72 7.13 8.00 8.92 9.49 9.87 10.94      | 32.686624 | 11.951234
        unit 10 | 0 .41 1.49 2.38 3.00 3.84 4.50 5.25 6.26 7.05 7.80 8.32 8.93 9.55 10.45 11.28 12.21   | 70.682771 | 23.155698
        unit 15 | 0 .51 .83 1.29 1.52 1.91 2.27 2.78 3.42 3.78 4.11 4.38 4.63 5.38 5.84 6.16 6.62       | 34.081605 | 20.593115
        """)
    void laserDegradation(String unit, String path, double momentShape, double momentRate) {
        String[] values = path.trim().split(" +");
        double[] increments = new double[values.length - 1];
        double[] durations = new double[values.length - 1];
        for (int i = 0; i < increments.length; i++) {
            increments[i] = Double.parseDouble(values[i + 1]) - Double.parseDouble(values[i]);
            durations[i] = 0.25;
        }
        Steps steps = new Steps(durations, increments);
        // The notes print six decimals.
        assertThat(GammaProcess.byMoments(steps).shapePerTime()).isCloseTo(momentShape, within(1e-6));
        assertThat(GammaProcess.byMoments(steps).rate()).isCloseTo(momentRate, within(1e-6));
    }

    /**
     * Lengths of 21 fatigue cracks in hundredths of an inch, every 10,000 cycles (Lu and Meeker, Technometrics 35 (1993) 161-174, after
     * Bogdanoff and Kozin 1985). R 4.2.2 has them in nlme 3.1-162 as {@code Fatigue}, there divided by 90.
     */
    private static final String CRACKS = """
        90 95 100 105 112 119 127 135 148 164
        90 94 98 103 108 114 121 128 137 147 160
        90 94 98 103 108 113 119 126 135 146 158 177
        90 94 98 103 107 112 119 125 134 143 155 173
        90 94 98 103 107 112 119 124 134 143 155 171
        90 94 98 103 107 112 118 123 133 141 151 168
        90 94 98 102 107 111 117 123 132 141 152 166
        90 93 97 100 106 111 117 123 130 139 149 162
        90 92 97 101 105 109 115 121 128 136 144 155 172
        90 92 96 100 104 108 113 119 126 134 142 152 167
        90 93 96 100 104 108 113 118 124 131 139 149 165
        90 93 97 100 103 107 110 116 122 129 137 148 164
        90 92 97 99 103 106 110 114 120 126 131 140 152
        90 93 96 100 103 107 112 116 120 126 130 137 145
        90 92 96 99 103 106 110 116 121 127 133 140 149
        90 92 95 97 100 103 107 111 116 122 126 133 140
        90 93 96 97 100 105 108 111 116 120 124 132 138
        90 92 94 97 101 104 107 109 114 119 123 128 135
        90 92 94 97 99 102 105 108 112 116 120 125 131
        90 92 94 97 99 102 105 108 112 116 119 124 129
        90 92 94 97 99 102 104 107 111 114 118 122 127
        """;

    /**
     * R 4.2.2: {@code ll <- function(q) { e <- exp(q[1]); d0 <- exp(q[2]); g0 <- exp(q[3]); s <- 0; for (a in cracks) { d <- diff(a)/90;
     * n <- length(d); X <- sum(d); s <- s + sum((e-1)*log(d)-lgamma(e)) + d0*log(g0) - lgamma(d0) + lgamma(d0+e*n) - (d0+e*n)*log(g0+X) };
     * -s }; o <- optim(log(c(2,3,.05)), ll, control=list(reltol=1e-16, maxit=20000)); o <- optim(o$par, ll, method="BFGS",
     * control=list(reltol=1e-16)); c(exp(o$par), -o$value)}.
     */
    @Test
    void theFitOfTwentyOneCracks() {
        List<Steps> cracks = CRACKS.lines().map(line -> {
            double[] lengths = Arrays.stream(line.trim().split(" ")).mapToDouble(length -> Integer.parseInt(length) / 90.0).toArray();
            double[] durations = new double[lengths.length - 1];
            Arrays.fill(durations, 1);
            return new Steps(durations, IntStream.range(1, lengths.length).mapToDouble(i -> lengths[i] - lengths[i - 1]).toArray());
        }).toList();
        assertThat(new RandomRateGamma(4.798789936934, 13.125146225498, 0.161618285741).logLikelihood(cracks)).isCloseTo(522.237151925, within(1e-8));
        RandomRateGamma fit = RandomRateGamma.fit(cracks, new RandomRateGamma(2.5, 3, 0.05));
        assertThat(fit.eta()).isCloseTo(4.798789936934, within(1e-3));
        assertThat(fit.delta0()).isCloseTo(13.125146225498, within(3e-3));
        assertThat(fit.gamma0()).isCloseTo(0.161618285741, within(5e-5));
        assertThat(fit.logLikelihood(cracks)).isCloseTo(522.237151925, within(1e-6));
    }

    /** scipy 1.17.1: {@code 0.1*betaprime.ppf(p, 10, 6)}; eta 2.5 over 4. */
    @ParameterizedTest
    @CsvSource({".1, 0.0880732989", ".5, 0.1705112070", ".9, 0.3432795576"})
    void quantilesOfTheIncrement(double p, double increment) {
        assertThat(new RateBelief(6, 0.1).quantile(2.5, 4, p)).isCloseTo(increment, within(1e-10));
    }

    /** scipy 1.17.1: {@code brentq(lambda T: betainc(6, 1.5*T, .2) - p, .01, 200, xtol=1e-13)}; gamma 0.1, 0.4 to go. */
    @ParameterizedTest
    @CsvSource({".1, 7.849700715767642", ".5, 15.342768927024302", ".9, 26.09681590559973"})
    void timesOfAFirstPassage(double p, double time) {
        RateBelief belief = new RateBelief(6, 0.1);
        assertThat(new FirstPassage(t -> belief.probabilityOfReaching(1.5, t, 0.4), 200).timeOf(p, 0, 1e-4)).as("to the accuracy of its search").isCloseTo(time, within(1e-4));
    }

    /** scipy.stats and the closed forms; the exponential by hand. */
    @Test
    void scores() {
        assertThat(Scores.crpsOfNormal(0, 1, 0)).isCloseTo(.233694977254, within(1e-11));
        assertThat(Scores.crpsOfNormal(0, 1, 1)).isCloseTo(.602441357628, within(1e-11));
        assertThat(Scores.crpsOfNormal(2, 3, 5)).isCloseTo(1.807324072883, within(1e-11));
        assertThat(Scores.crpsOfGamma(2, 1, 1.5)).isCloseTo(.311911121039, within(1e-11));
        assertThat(Scores.crpsOfGamma(2, 1, 5)).isCloseTo(2.344331257987, within(1e-11));
        assertThat(Scores.crpsOfGamma(.7, .2, 3)).isCloseTo(.850752403, within(1e-8));
        assertThat(Scores.crpsOfGamma(20, 4, 4)).isCloseTo(.556838678121, within(1e-11));
        assertThat(Scores.crpsOfGamma(1, 1, 1)).isCloseTo(.235758882343, within(1e-11));
    }

    /** The energy form E|D - y| - E|D - D'| / 2, by two million seeded draws; Gneiting and Raftery 2007, equation 21. */
    @ParameterizedTest
    @CsvSource({"2.5, 4, 12, .2, .15", "2.5, 4, 12, .2, .01", "2, 8, 3, .05, 1.2", "2, 1, 6, .1, .03"})
    void crpsOfThePredictiveMatchesItsEnergyForm(double eta, double tau, double delta, double gamma, double y) {
        UniformRandomProvider random = new java.util.SplittableRandom(11)::nextLong;
        var inverseScales = GammaDistribution.of(delta, 1 / gamma).createSampler(random);
        var unit = GammaDistribution.of(eta * tau, 1).createSampler(random);
        int draws = 1_000_000;
        double sum = 0;
        for (int i = 0; i < draws; i++) {
            double d = unit.sample() / inverseScales.sample();
            double e = unit.sample() / inverseScales.sample();
            sum += (Math.abs(d - y) + Math.abs(e - y)) / 2 - Math.abs(d - e) / 2;
        }
        double expected = sum / draws;
        assertThat(new RateBelief(delta, gamma).crps(eta, tau, y)).isCloseTo(expected, within(0.02 * expected));
    }

    /** R: binom.test(x, n)$conf.int. */
    @ParameterizedTest
    @CsvSource({"0, 20, 0, .168433", "1, 20, .001265, .248733", "18, 20, .683017, .987651", "90, 100, .823777, .950995"})
    void exactIntervalOfAProportion(int successes, int trials, double low, double high) {
        Bounds bounds = Scores.clopperPearson(successes, trials, 0.95);
        assertThat(bounds.low()).isCloseTo(low, within(5e-7));
        assertThat(bounds.high()).isCloseTo(high, within(5e-7));
    }

    private static List<Steps> drawn(long seed, int units, int steps, double eta, double delta0, double gamma0) {
        UniformRandomProvider random = new java.util.SplittableRandom(seed)::nextLong;
        var inverseScales = GammaDistribution.of(delta0, 1 / gamma0).createSampler(random);
        List<Steps> drawn = new ArrayList<>();
        for (int i = 0; i < units; i++) {
            double u = inverseScales.sample();
            double[] durations = new double[steps];
            Arrays.fill(durations, 1);
            drawn.add(new Steps(durations, GammaDistribution.of(eta, 1 / u).createSampler(random).samples(steps).map(d -> Math.max(d, 1e-12)).toArray()));
        }
        return drawn;
    }

    @ParameterizedTest(name = "seed {0}")
    @CsvSource({"1", "2", "3"})
    void theParametersOfTwoThousandDrivesAreFoundAgain(long seed) {
        RandomRateGamma fit = RandomRateGamma.fitNear(drawn(seed, 2000, 8, 2.5, 3, 0.03), new RandomRateGamma(1, 2, 0.01));
        System.Logger log = System.getLogger("recovery");
        log.log(System.Logger.Level.INFO, "seed {0}: {1}", seed, fit);
        assertThat(fit.eta()).isCloseTo(2.5, within(0.05 * 2.5));
        assertThat(fit.delta0()).isCloseTo(3, within(0.10 * 3));
        assertThat(fit.eta() * fit.gamma0()).isCloseTo(2.5 * 0.03, within(0.10 * 0.075));
    }

    @Test
    void theOrderOfTheUnitsChangesNoDigit() {
        List<Steps> units = drawn(4, 50, 5, 2, 3, 0.02);
        List<Steps> shuffled = new ArrayList<>(units);
        Collections.shuffle(shuffled, new Random(1));
        RandomRateGamma guess = new RandomRateGamma(2.5, 3, 0.02);
        RandomRateGamma fit = RandomRateGamma.fitNear(units, guess);
        assertThat(RandomRateGamma.fitNear(shuffled, guess)).isEqualTo(fit);
        assertThat(Drift.chosenFor(shuffled, fit)).isEqualTo(Drift.chosenFor(units, fit));
    }

    @ParameterizedTest
    @CsvSource({"1, 1", "1, 8", "2, 2", "5, 1", "5, 8"})
    void tinyFleetsGetAnAnswerNearTheGuess(int units, int steps) {
        RandomRateGamma fit = RandomRateGamma.fitNear(drawn(5, units, steps, 2.5, 3, 0.03), new RandomRateGamma(2.5, 3, 0.03));
        assertThat(fit.eta()).isBetween(0.3, 20.0);
        assertThat(fit.delta0()).isBetween(0.3, 30.0);
    }

    @Test
    void noUnitGivesTheGuessAndIdleUnitsAreAbsorbed() {
        RandomRateGamma guess = new RandomRateGamma(2.5, 3, 0.03);
        assertThat(RandomRateGamma.fitNear(List.of(), guess)).isEqualTo(guess);
        double[] one = {1, 1, 1, 1};
        double[] idle = {1e-9, 1e-9, 1e-9, 1e-9};
        RandomRateGamma fit = RandomRateGamma.fitNear(List.of(new Steps(one, idle), new Steps(one, new double[] {.02, .03, .02, .03})), guess);
        assertThat(fit.eta()).isPositive().isFinite();
    }

    @Test
    void aWideBoundTeachesLittleAndANarrowOneMuch() {
        RateBelief prior = new RateBelief(3, 0.03);
        RateBelief exact = prior.after(2.5, 8, 0.5);
        RateBelief narrow = CoarseIncrement.learn(prior, 2.5, 8, 0.49, 0.51);
        assertThat(narrow.meanLog()).isCloseTo(exact.meanLog(), within(0.03));
        assertThat(narrow.shape()).isCloseTo(exact.shape(), within(0.15 * exact.shape()));
        RateBelief wide = CoarseIncrement.learn(prior, 2.5, 8, 0, Double.POSITIVE_INFINITY);
        assertThat(wide.meanLog()).isCloseTo(prior.meanLog(), within(0.01));
        // "255 or more" can only mean a faster drive: a smaller inverse scale.
        assertThat(CoarseIncrement.learn(prior, 2.5, 8, 2.54, Double.POSITIVE_INFINITY).meanLog()).isLessThan(prior.meanLog());
    }

    @Test
    void badArgumentsAreNamed() {
        assertThatThrownBy(() -> new RateBelief(0, 1)).hasMessage("shape must be above 0 and finite, not 0.0");
        assertThatThrownBy(() -> new Steps(new double[] {1}, new double[] {Double.NaN})).hasMessage("increment must be above 0 and finite, not NaN");
        assertThatThrownBy(() -> new Drift(-1)).hasMessage("sigma is 0 or more, not -1.0");
        assertThatThrownBy(() -> new Drift(0.1).varianceOverHorizon(0)).hasMessage("horizon must be above 0 and finite, not 0.0");
    }
}
