package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.Limits;
import org.wearledger.history.Sample;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Forecast;
import org.wearledger.model.Rating;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.CoarseIncrement;
import org.wearledger.stats.Drift;
import org.wearledger.stats.RandomRateGamma;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Steps;

class ForecastsTest {
    private static final LocalDate AS_OF = LocalDate.of(2025, 1, 1);
    private static final Ratings RATED_300 = Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500),
        BigDecimal.valueOf(300), null, "data sheet", null)));
    private static final long UNITS_PER_TB = 1_953_125;
    private static final WearModel NO_DRIFT =
        new WearModel(new RandomRateGamma(2.5, 3, 0.03), new Drift(0), java.util.Map.of(), false, 100);

    private static Sample at(String day, double terabytes) {
        return Sample.at(day).units(Math.round(terabytes * UNITS_PER_TB));
    }

    private static DriveAssessment assess(WearModel model, LocalDate inService, Sample... samples) {
        DriveHistory history = DriveHistories.build(Sample.ID, Arrays.stream(samples).map(Sample::reading).toList(),
            new Limits(Instant.parse("2025-01-02T00:00:00Z"), null)).history();
        return new DriveAssessor(history, RATED_300, inService != null, inService).assess(model, AS_OF, SweepSettings.withDefaults());
    }

    /** Against the closed form: P = I(gamma / (L + gamma); delta, eta tau) with delta = delta0 + eta T, gamma = gamma0 + X. */
    @Test
    void probabilitiesAreTheClosedFormOfTheDrivesOwnSteps() {
        DriveAssessment drive = assess(NO_DRIFT, null, at("2024-01-01", 60), at("2024-07-01", 120), at("2025-01-01", 210));
        double quarters = (182 + 184) / 91.3125;
        RateBelief belief = new RateBelief(3 + 2.5 * quarters, 0.03 + 150 / 300.0);
        // The as-of date begins at midnight, when this reading was taken or a little before.
        assertThat(drive.outlook().ratingForecast().within4Quarters()).isCloseTo(belief.probabilityOfReaching(2.5, 4, 0.3), within(0.01));
        assertThat(drive.outlook().ratingForecast().within1Quarter()).isLessThan(drive.outlook().ratingForecast().within2Quarters());
        assertThat(drive.outlook().ratingForecast().p10On()).isBefore(drive.outlook().ratingForecast().p50On());
        assertThat(drive.outlook().ratingForecast().p50On()).isBefore(drive.outlook().ratingForecast().p90On());
        assertThat(drive.outlook().ratingForecast().basis()).isEqualTo("pooled model, 2 steps of this drive");
    }

    @ParameterizedTest(name = "{0} of 300 TB, then {1}: {2}")
    @CsvSource({"200, 290, DUE", "200, 240, WATCH", "30, 34, WITHIN_RATING", "200, 301, PAST_RATING"})
    void standingsComeFromProbabilities(double before, double after, Standing standing) {
        assertThat(assess(NO_DRIFT, null, at("2024-01-01", before), at("2025-01-01", after)).standing()).isEqualTo(standing);
    }

    /** Of readings less than a day apart the past has the first, at 4 % used, which is too coarse for the controller's date. */
    @Test
    void twoReadingsOfOneDayStopNothing() {
        DriveAssessment drive = assess(NO_DRIFT, null, at("2024-07-01", 10).used(3), at("2024-12-31T08:00:00Z", 14.9).used(4), at("2024-12-31T20:00:00Z", 15).used(5));
        assertThat(drive.outlook().ratingForecast()).isNotNull();
        assertThat(drive.outlook().controllerForecast()).isNull();
    }

    @Test
    void oneReadingGetsAnAnswerAndSaysWhatItRestsOn() {
        assertThat(assess(NO_DRIFT, null, at("2025-01-01", 100).hours(4383)).outlook().ratingForecast().basis())
            .isEqualTo("pooled model, one reading, age inferred from power-on hours: about 2.0 years");
        DriveAssessment nothing = assess(NO_DRIFT, null, at("2025-01-01", 100).used(30));
        assertThat(nothing.outlook().ratingForecast()).as("nothing known, nothing said").isNull();
        assertThat(nothing.outlook().controllerForecast()).isNull();
        assertThat(nothing.standing()).isEqualTo(Standing.WITHIN_RATING);
        assertThat(nothing.reason()).contains("no write rate yet: one reading with bytes written, no in-service date and no power-on hours");
        assertThat(assess(NO_DRIFT, LocalDate.of(2023, 1, 1), at("2025-01-01", 100)).outlook().ratingForecast().basis())
            .isEqualTo("pooled model, 1 step of this drive since it went into service");
    }

    @Test
    void aDriveThatStandsStillIsFarFromItsRating() {
        DriveAssessment idle = assess(NO_DRIFT, null, at("2024-01-01", 100), at("2024-07-01", 100), at("2025-01-01", 100));
        assertThat(idle.outlook().ratingForecast().within8Quarters()).isLessThan(0.05);
        assertThat(idle.standing()).isEqualTo(Standing.WITHIN_RATING);
    }

    @Test
    void datesFarAheadAreBeyondEvidence() {
        Forecast forecast = assess(NO_DRIFT, null, at("2024-10-01", 200), at("2025-01-01", 206)).outlook().ratingForecast();
        assertThat(forecast.evidenceUntil()).isEqualTo(LocalDate.of(2025, 10, 4));
        assertThat(forecast.isBeyondEvidence(forecast.p50On())).isTrue();
        assertThat(forecast.isBeyondEvidence(LocalDate.of(2025, 10, 4))).isFalse();
    }

    @Test
    void aDrivePastItsRatingSaysBetweenWhichReadingsItCrossed() {
        DriveAssessment past = assess(NO_DRIFT, null, at("2024-01-01", 250), at("2024-07-01", 310), at("2025-01-01", 330));
        assertThat(past.outlook().ratingForecast()).isNull();
        assertThat(past.reason()).contains("the rating was passed between 2024-01-01 and 2024-07-01");
        DriveAssessment byController = assess(NO_DRIFT, null, at("2024-01-01", 100).used(97), at("2025-01-01", 120).used(104));
        assertThat(byController.reason()).contains("the controller passed 100 % between 2024-01-01 and 2025-01-01");
    }

    @Test
    void theControllersClockCountsWhenItComesFirst() {
        DriveAssessment drive = assess(NO_DRIFT, null, at("2024-01-01", 60).used(45), at("2025-01-01", 120).used(92));
        assertThat(drive.outlook().controllerForecast().within4Quarters()).isGreaterThan(0.5).isGreaterThan(drive.outlook().ratingForecast().within4Quarters());
        assertThat(drive.standing()).isIn(Standing.DUE, Standing.WATCH);
        assertThat(assess(NO_DRIFT, null, at("2024-01-01", 60).used(3), at("2025-01-01", 120).used(4)).outlook().controllerForecast())
            .as("below 5 % the whole number is too coarse").isNull();
    }

    @ParameterizedTest(name = "used {0} then {1}: within a year at least {2}, at most {3}")
    @CsvSource({"10, 20, 0, .05", "40, 80, .3, .9", "80, 95, .5, 1"})
    void withoutBytesThePercentageAloneIsProjected(int before, int after, double least, double most) {
        DriveAssessment drive = assess(NO_DRIFT, null, Sample.at("2024-01-01").used(before), Sample.at("2025-01-01").used(after));
        assertThat(drive.outlook().ratingForecast()).isNull();
        assertThat(drive.outlook().controllerForecast().within4Quarters()).isBetween(least, most);
        assertThat(drive.outlook().controllerForecast().basis()).isEqualTo("pooled model, from the controller's percentage alone");
    }

    @ParameterizedTest(name = "{0} drives")
    @CsvSource({"0", "1", "2", "5"})
    void tinyFleetsAreFitted(int drives) {
        List<DriveSteps> fleet = java.util.stream.IntStream.range(0, drives).mapToObj(i -> new DriveSteps(
            new DriveId("KESTREL", String.format(Locale.ROOT, "K%d", i)), new Steps(new double[] {1, 2}, new double[] {0.01, 0.03 * (i + 1)}))).toList();
        WearModel model = WearModel.fit(fleet);
        assertThat(model.drift().sigma()).as("hardly moved from what is assumed").isBetween(WearModel.ASSUMED_DRIFT, 0.25);
        double p = model.probabilityOfReaching(model.familyPrior("KESTREL"), 8, 0.5);
        assertThat(p).isBetween(0.0, 1.0);
        if (drives == 0) {
            assertThat(model.population()).isEqualTo(WearModel.DEFAULT_POPULATION);
        }
    }

    @Test
    void familiesThatDifferAreToldApartAndAlikeOnesAreNot() {
        java.util.SplittableRandom random = new java.util.SplittableRandom(3);
        List<DriveSteps> fleet = new java.util.ArrayList<>();
        for (int i = 0; i < 200; i++) {
            double factor = i % 2 == 0 ? 1 : 3;
            double[] wear = random.doubles(6, 0.005, 0.015).map(d -> d * factor).toArray();
            fleet.add(new DriveSteps(new DriveId(i % 2 == 0 ? "SLOW" : "FAST", "S" + i), new Steps(new double[] {1, 1, 1, 1, 1, 1}, wear)));
        }
        WearModel model = WearModel.fit(fleet);
        assertThat(model.familyLogRate().get("FAST") - model.familyLogRate().get("SLOW")).isCloseTo(Math.log(3), within(0.1));
        assertThat(model.familyPrior("NEVER SEEN").rate()).isEqualTo(model.population().gamma0());
    }

    private static final String MIDNIGHT = "2025-01-01T00:00:00Z";

    /** Lead time is 30 days: the look ahead is 1 + 30 / 91.3125 quarters. An older report is looked ahead from its own day. */
    @ParameterizedTest(name = "read {1} days before")
    @CsvSource({"2025-01-01T00:00:00Z, 0", "2024-12-02T00:00:00Z, 30"})
    void horizonsCountFromTheAsOfDate(String readAt, int daysBefore) {
        Forecast forecast = assess(NO_DRIFT, null, at("2024-01-01T00:00:00Z", 60), at(readAt, 210)).outlook().ratingForecast();
        RateBelief belief = new RateBelief(3 + 2.5 * (366 - daysBefore) / 91.3125, 0.03 + 150 / 300.0);
        double since = daysBefore / 91.3125;
        assertThat(forecast.withinLeadTime()).isCloseTo(belief.probabilityOfReaching(2.5, since + 1 + 30 / 91.3125, 0.3), within(1e-12));
        assertThat(forecast.within1Quarter()).isCloseTo(belief.probabilityOfReaching(2.5, since + 1, 0.3), within(1e-12));
        assertThat(forecast.within2Quarters()).isCloseTo(belief.probabilityOfReaching(2.5, since + 2, 0.3), within(1e-12));
        assertThat(forecast.within4Quarters()).isCloseTo(belief.probabilityOfReaching(2.5, since + 4, 0.3), within(1e-12));
        assertThat(forecast.within8Quarters()).isCloseTo(belief.probabilityOfReaching(2.5, since + 8, 0.3), within(1e-12));
    }

    /**
     * 0.5 of the rating for 80 points over life, 0.3 for 40 over the last year. With sigma 0.1 a quarter their logarithms have the variances
     * 1 / (3 x 80^2) + 0.01 T / 3 and 1 / (6 x 40^2) + 0.01 y / 3, T = 0.5 / 0.3 y; both, weighted, say what a point takes now. For the quarters until 100 %
     * at the middle rate, at most 16, 0.01 h / 3 is added. The five values lie at the middles of fifths of a normal distribution.
     */
    @Test
    void theControllersWholeNumberIsARangeAndWhatAPointTakesIsAnother() {
        Forecast forecast = assess(NO_DRIFT, null, at("2024-01-01T00:00:00Z", 60).used(40), at(MIDNIGHT, 150).used(80)).outlook().controllerForecast();
        double year = 366 / 91.3125;
        RateBelief belief = new RateBelief(3 + 2.5 * year, 0.03 + 90 / 300.0);
        double ofLife = 1 / 19_200.0 + 0.01 * year / 0.6 / 3;
        double ofYear = 1 / 9_600.0 + 0.01 * year / 3;
        double log = (Math.log(0.5 / 80) / ofLife + Math.log(0.3 / 40) / ofYear) / (1 / ofLife + 1 / ofYear);
        double ahead = 20 * Math.exp(log + belief.meanLog()) / 2.5;
        double deviation = Math.sqrt(1 / (1 / ofLife + 1 / ofYear) + 0.01 * ahead / 3);
        double[] left = {20.8, 20.4, 20, 19.6, 19.2};
        double[] normal = {1.4634, 0.5988, 0, -0.5988, -1.4634};
        double mean = java.util.stream.IntStream.range(0, 5)
            .mapToDouble(i -> belief.probabilityOfReaching(2.5, 4, left[i] * Math.exp(log + deviation * normal[i]))).average().orElseThrow();
        assertThat(forecast.within4Quarters()).isCloseTo(mean, within(1e-12));
        assertThat(forecast.basis()).isEqualTo("pooled model, 1 step of this drive, and the controller's 80 %, give or take 1");
    }

    @ParameterizedTest(name = "{0} % then {1} %, the latest {2}: {3}")
    @CsvSource(nullValues = "-", value = {"3, 4, with bytes, false", "3, 5, with bytes, true", "50, 100, with bytes, false", "50, 60, without bytes, false"})
    void whenTheControllersClockCanBeForecast(int before, int after, String latest, boolean made) {
        Sample now = latest.equals("with bytes") ? at("2025-01-01", 120) : Sample.at("2025-01-01");
        assertThat(assess(NO_DRIFT, null, at("2024-01-01", 60).used(before), now.used(after)).outlook().controllerForecast() != null).isEqualTo(made);
    }

    @Test
    void afterAResetTheTwoClocksDoNotCoverTheSameWrites() {
        DriveAssessment reset = assess(NO_DRIFT, null, at("2024-01-01", 60).used(40), at("2024-07-01", 1).used(10), at("2025-01-01", 40).used(20));
        assertThat(reset.outlook().controllerForecast()).isNull();
        assertThat(reset.outlook().ratingForecast()).isNotNull();
    }

    /** From 0 on the first day to 40 % after a year, or from 20 % half a year ago: a whole number is known to one point either way. */
    @Test
    void withoutBytesTheRiseSinceServiceOrSinceTheFirstReportCounts() {
        RateBelief prior = NO_DRIFT.familyPrior("KESTREL K2");
        Forecast sinceService = assess(NO_DRIFT, LocalDate.of(2024, 1, 2), Sample.at(MIDNIGHT).used(40)).outlook().controllerForecast();
        assertThat(sinceService.within4Quarters()).isCloseTo(chance(CoarseIncrement.learn(prior, 2.5, 365 / 91.3125, 0.39, 0.41), 40), within(1e-12));
        assertThat(sinceService.evidenceUntil()).as("three times the past").isEqualTo("2028-01-01");
        Forecast sinceReport = assess(NO_DRIFT, null, Sample.at("2024-07-03T00:00:00Z").used(20), Sample.at(MIDNIGHT).used(40)).outlook().controllerForecast();
        assertThat(sinceReport.within4Quarters()).isCloseTo(chance(CoarseIncrement.learn(prior, 2.5, 182 / 91.3125, 0.19, 0.21), 40), within(1e-12));
        assertThat(assess(NO_DRIFT, null, Sample.at(MIDNIGHT).used(40)).outlook().controllerForecast()).as("one report, no past, no hours").isNull();
    }

    private static double chance(RateBelief belief, int used) {
        return java.util.stream.DoubleStream.of(-0.8, -0.4, 0, 0.4, 0.8).map(off -> belief.probabilityOfReaching(2.5, 4, (100 - used - off) / 100)).average()
            .orElseThrow();
    }

    @Test
    void aDateMoreThanTenYearsAheadIsNone() {
        Forecast forecast = assess(NO_DRIFT, null, at("2015-01-01", 1), at("2025-01-01", 6)).outlook().ratingForecast();
        assertThat(forecast.p50On()).isNull();
        assertThat(forecast.within8Quarters()).isLessThan(1e-3);
    }

    @Test
    void anInferredAgeIsNoEvidence() {
        assertThat(assess(NO_DRIFT, null, at(MIDNIGHT, 100).hours(4383)).outlook().ratingForecast().evidenceUntil()).isEqualTo("2025-01-01");
    }
}
