package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.Limits;
import org.wearledger.history.Sample;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Machine;
import org.wearledger.model.Rating;
import org.wearledger.model.Reading;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.Discount;
import org.wearledger.stats.Drift;
import org.wearledger.stats.RandomRateGamma;
import org.wearledger.stats.RateBelief;

class UserChangesTest {
    private static final WearModel MODEL = new WearModel(new RandomRateGamma(2.5, 3, 0.03), new Drift(0), Map.of(), false, 100);
    private static final RateBelief POPULATION = new RateBelief(3, 0.03);
    private static final long QUARTER = Math.round(WearPast.MILLIS_PER_QUARTER);

    private static WearPast past(long... changes) {
        return new WearPast(new DriveId("KESTREL", "S1"), null, new long[] {0, QUARTER, 2 * QUARTER, 3 * QUARTER}, new double[] {.1, .2, .3, .31}, 1e-9, 0, changes);
    }

    private static RateBelief after(long until, WearPast past) {
        return UserChanges.beliefAfter(MODEL, past, past.steps(), 3 * QUARTER, until);
    }

    /** By hand: steps of .1, .1 and .01; the change falls to before the step whose middle it precedes. */
    @ParameterizedTest(name = "after {0} quarters: {1} steps of the first user")
    @CsvSource({"-4, 0", "0.4, 0", "0.6, 1", "1.4, 1", "1.6, 2", "2.4, 2", "2.6, 3", "3.5, 3"})
    void eachStepCountsForOneUser(double quarters, int first) {
        double[] increments = {.1, .1, .01};
        RateBelief belief = POPULATION;
        for (int j = 0; j < 3; j++) {
            belief = (j == first ? Discount.of(belief, POPULATION, 0.5) : belief).after(2.5, 1, increments[j]);
        }
        RateBelief expected = first == 3 ? Discount.of(belief, POPULATION, 0.5) : belief;
        RateBelief is = after(Long.MAX_VALUE, past(Math.round(quarters * QUARTER)));
        assertThat(is.shape()).isCloseTo(expected.shape(), within(1e-9));
        assertThat(is.rate()).isCloseTo(expected.rate(), within(1e-9));
    }

    @Test
    void aChangeThatIsNotKnownYetChangesNothing() {
        assertThat(after(QUARTER, past(2 * QUARTER))).isEqualTo(MODEL.drift().after(MODEL.familyPrior("KESTREL"), MODEL.population().eta(), past().steps()));
    }

    /** scipy 1.17.1: {@code m = .5*(psi(20) - log(.5)) + .5*(psi(3) - log(.03)); v = .25*polygamma(1,20) + .75*polygamma(1,3); d = brentq(lambda x: polygamma(1,x) - v, .1, 100); d, exp(psi(d) - m)}. */
    @Test
    void halfOfWhatWasLearnedIsCarriedOver() {
        RateBelief discounted = Discount.of(new RateBelief(20, 0.5), POPULATION, 0.5);
        assertThat(discounted.shape()).isCloseTo(3.710723185625529, within(1e-8));
        assertThat(discounted.rate()).isCloseTo(0.05635783297445498, within(1e-8));
        assertThat(Discount.of(POPULATION, POPULATION, 0.5).shape()).as("where nothing was known nothing is lost").isCloseTo(3, within(1e-9));
    }

    private static Reading reading(String day, double terabytes, LocalDate userSince, String machine) {
        Reading r = Sample.at(day).units(Math.round(terabytes * 1_953_125)).machine(machine).reading();
        return new Reading(r.source(), r.collectedAt(), new Machine(machine, null, null, null, null, null, null, null, userSince), r.drive(), r.health());
    }

    private static DriveHistory history(Reading... readings) {
        return DriveHistories.build(Sample.ID, Arrays.asList(readings), new Limits(Instant.parse("2025-01-02T00:00:00Z"), null)).history();
    }

    private static DriveAssessment assess(DriveHistory history) {
        return new DriveAssessor(history, Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500), BigDecimal.valueOf(300), null, "data sheet", null))), false, null)
            .assess(MODEL, LocalDate.of(2025, 1, 1), SweepSettings.withDefaults());
    }

    /** A heavy writer leaves, and the drive is taken for less urgent, with a wider range. */
    @Test
    void aForecastCarriesLessOfTheFormerUser() {
        DriveHistory heavy = history(Stream.of("2024-01-01 60", "2024-04-01 100", "2024-07-01 140", "2024-10-01 180", "2024-12-31 220").map(words -> words.split(" "))
            .map(word -> reading(word[0], Double.parseDouble(word[1]), null, "PC-1")).toArray(Reading[]::new));
        DriveAssessment before = assess(heavy);
        DriveAssessment after = assess(UserChanges.told(heavy, LocalDate.of(2024, 12, 30)));
        assertThat(after.outlook().ratingForecast().p50On()).isAfter(before.outlook().ratingForecast().p50On().plusMonths(1));
        assertThat(after.outlook().ratingForecast().p10On().until(after.outlook().ratingForecast().p90On()).toTotalMonths())
            .isGreaterThan(2 * before.outlook().ratingForecast().p10On().until(before.outlook().ratingForecast().p90On()).toTotalMonths());
        assertThat(assess(UserChanges.told(heavy, LocalDate.of(2025, 1, 2))).outlook().ratingForecast()).as("after the as-of date").isEqualTo(before.outlook().ratingForecast());
    }

    @Test
    void whatTheReportTellsWinsAndAMoveIsNoChangeOfItsOwn() {
        LocalDate told = LocalDate.of(2024, 5, 1);
        DriveHistory history = history(reading("2024-01-01", 60, null, "PC-1"), reading("2024-07-01", 100, told, "PC-1"));
        assertThat(UserChanges.told(history, LocalDate.of(2024, 2, 1))).isSameAs(history);
        assertThat(WearPast.userChanges(history)).containsExactly(told.atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli());
        assertThat(WearPast.userChanges(history(reading("2024-01-01", 60, null, "PC-1"), reading("2024-07-01", 100, told, "PC-2")))).isEmpty();
    }
}
