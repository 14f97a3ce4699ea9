package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.history.Sample;
import org.wearledger.model.Rating;
import org.wearledger.stats.CountDistribution;
import org.wearledger.stats.Drift;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.SharedShock;

/** How many drives of a fleet cross together, held against a budget's counts: 40 fleets of 60 to 200 drives that share a shock of 0.15 a quarter. */
class SharedCountsTest {
    private static final int FLEETS = 40;
    private static final Ratings RATINGS = Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500), BigDecimal.valueOf((long) Scenario.RATED), null,
        "data sheet", null)));

    @ParameterizedTest(name = "season {0}, changes of user {1}: at or below P50, P80, P90")
    @CsvSource({"0, 0, .40, .62, .72, .90, .84, .97", "0.4, 0.05, 0, 1, .70, 1, 0, 1"})
    void realisedCountsLieWhereTheyShould(double season, double switches, double least50, double most50, double least80, double most80, double least90,
                                          double most90) {
        int[] within = new int[3];
        for (int f = 0; f < FLEETS; f++) {
            int fleet = f;
            List<Scenario.Seen> seen = Scenario.of("budget", s -> {
                s.drives = 60 + fleet * 37 % 141;
                s.shock = .15;
                s.typical = .06;
                s.season = season;
                s.seasonPhase = fleet / (double) FLEETS;
                s.switches = switches;
            }).draw(7_000 + f);
            for (int quarters : new int[] {1, 2}) {
                CountDistribution counts = counts(seen, quarters);
                long real = seen.stream().filter(drive -> drive.crossedAfter() > 0 && drive.crossedAfter() <= quarters).count();
                within[0] += real <= counts.quantile(0.5) ? 1 : 0;
                within[1] += real <= counts.quantile(0.8) ? 1 : 0;
                within[2] += real <= counts.quantile(0.9) ? 1 : 0;
            }
        }
        System.getLogger("calibration").log(System.Logger.Level.INFO, "season " + season + ", at or below P50, P80, P90 of " + 2 * FLEETS + ": "
            + java.util.Arrays.toString(within));
        assertThat(within[0] / (2.0 * FLEETS)).isBetween(least50, most50);
        assertThat(within[1] / (2.0 * FLEETS)).isBetween(least80, most80);
        assertThat(within[2] / (2.0 * FLEETS)).isBetween(least90, most90);
    }

    /** As {@code budget.CrossingCurve} has it: the shared part of the drift scales all rates, the rest widens each drive's belief. */
    private static CountDistribution counts(List<Scenario.Seen> fleet, int quarters) {
        List<WearPast> pasts = fleet.stream().map(drive -> new DriveAssessor(drive.history(), RATINGS, true, drive.inServiceOn()).past()).toList();
        WearModel model = WearModel.of(pasts);
        Drift shared = new Drift(CommonShock.of(pasts).sigma());
        Drift own = new Drift(Math.sqrt(Math.max(0, Math.pow(model.drift().sigma(), 2) - Math.pow(shared.sigma(), 2))));
        List<WearPast> below = pasts.stream().filter(past -> past.wear()[past.wear().length - 1] < 1).toList();
        List<RateBelief> ahead = below.stream().map(past -> own.ahead(model.drift().after(model.familyPrior(past.id().model()), model.population().eta(), past.steps()), quarters)).toList();
        double deviation = Math.sqrt(shared.varianceOverHorizon(quarters));
        return SharedShock.counts(node -> CountDistribution.of(IntStream.range(0, below.size()).mapToDouble(i ->
            new RateBelief(ahead.get(i).shape(), ahead.get(i).rate() * Math.exp(SharedShock.node(node) * deviation))
                .probabilityOfReaching(model.population().eta(), quarters, 1 - below.get(i).wear()[below.get(i).wear().length - 1])).toArray()));
    }
}
