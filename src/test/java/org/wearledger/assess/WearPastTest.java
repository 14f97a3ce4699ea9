package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.commons.numbers.gamma.Digamma;
import org.apache.commons.numbers.gamma.Trigamma;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.Limits;
import org.wearledger.history.Sample;
import org.wearledger.model.Rating;
import org.wearledger.stats.Steps;

/** A drive rated at 300 TB. A mean quarter has 91.3125 days, or 2191.5 hours. */
class WearPastTest {
    private static final Ratings RATED_300 = Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500), BigDecimal.valueOf(300), null,
        "data sheet", null)));
    private static final Offset<Double> EXACT = within(1e-12);

    private static WearPast past(LocalDate inServiceOn, Sample... samples) {
        return past(RATED_300, inServiceOn, samples);
    }

    private static WearPast past(Ratings ratings, LocalDate inServiceOn, Sample... samples) {
        return new DriveAssessor(DriveHistories.build(Sample.ID, Arrays.stream(samples).map(Sample::reading).toList(),
            new Limits(Instant.parse("2025-01-02T00:00:00Z"), null)).history(), ratings, inServiceOn != null, inServiceOn).past();
    }

    @Test
    void theFirstStepReachesFromTheDayItWentIntoService() {
        WearPast past = past(LocalDate.of(2023, 1, 1), Sample.at("2024-01-01T00:00:00Z").terabytes(60), Sample.at("2024-04-01T00:00:00Z").terabytes(75),
            Sample.at("2025-01-01T00:00:00Z").terabytes(75));
        assertThat(past.steps().durations()).containsExactly(new double[] {365 / 91.3125, 91 / 91.3125, 275 / 91.3125}, EXACT);
        assertThat(past.steps().increments()).as("a step without writes counts half a data unit").containsExactly(new double[] {0.2, 0.05, 256_000 / 300e12}, EXACT);
        assertThat(past.steps(2).size()).as("as the second sweep knew it").isEqualTo(2);
        WearPast unknown = past(null, Sample.at("2024-01-01T00:00:00Z").terabytes(60), Sample.at("2024-04-01T00:00:00Z").terabytes(75));
        assertThat(unknown.steps().durations()).containsExactly(new double[] {91 / 91.3125}, EXACT);
    }

    @ParameterizedTest(name = "read again at {0}: {1} readings")
    @CsvSource({"2024-06-02T11:59:59Z, 1", "2024-06-02T12:00:00Z, 2"})
    void readingsLessThanADayApartAreOne(String again, int readings) {
        assertThat(past(null, Sample.at("2024-06-01T12:00:00Z").terabytes(60), Sample.at(again).terabytes(61)).atMillis()).hasSize(readings);
    }

    @ParameterizedTest(name = "in service {0}: known {1}")
    @CsvSource({"2024-05-31, true", "2024-06-01, false"})
    void aDayOfServiceIsNeededForAStep(LocalDate inServiceOn, boolean known) {
        WearPast past = past(inServiceOn, Sample.at("2024-06-01T00:00:00Z").terabytes(60));
        assertThat(past.startMillis() != null).isEqualTo(known);
        assertThat(past.steps().size()).isEqualTo(known ? 1 : 0);
    }

    /** 4383 hours are two quarters under power, of eight at a quarter of the day; with a second reading or an in-service date there is better to go by. */
    @Test
    void theAgeOfASingleReadingIsItsHoursOverTheShareOfTheDayThatMachinesRun() {
        Sample only = Sample.at("2024-06-01T00:00:00Z").terabytes(60).hours(4383);
        WearPast inferred = past(null, only);
        assertThat(inferred.isAgeInferred()).isTrue();
        assertThat(PowerOnShare.ASSUMED.inferredQuarters(inferred)).isCloseTo(8, EXACT);
        assertThat(new PowerOnShare(0, 0.5, Map.of()).inferredQuarters(inferred)).as("never fewer than the hours").isCloseTo(2, EXACT);
        assertThat(inferred.steps().size()).as("by what is known alone").isZero();
        // The age is known within a factor of e^0.5: the step is shorter, so that it tells of ln u with 0.25 more of variance, and the same in the mean.
        Steps step = PowerOnShare.ASSUMED.steps(inferred, WearModel.DEFAULT_POPULATION.eta());
        double shape = 2.5 * step.totalDuration();
        assertThat(Trigamma.value(shape)).isCloseTo(Trigamma.value(20) + 0.25, within(1e-9));
        assertThat(Digamma.value(shape) - Math.log(step.totalIncrement())).isCloseTo(Digamma.value(20) - Math.log(0.2), within(1e-9));
        assertThat(past(null, only.terabytes(6).hours(24)).isAgeInferred()).as("a whole day").isTrue();
        assertThat(past(null, only.terabytes(6).hours(23)).isAgeInferred()).isFalse();
        assertThat(past(null, Sample.at("2024-06-01T00:00:00Z").terabytes(60)).isAgeInferred()).isFalse();
        assertThat(past(LocalDate.of(2023, 1, 1), only).isAgeInferred()).isFalse();
        assertThat(past(null, only, Sample.at("2024-09-01T00:00:00Z").terabytes(70).hours(5000)).isAgeInferred()).isFalse();
    }

    @Test
    void whereBytesOrRatingAreNotKnownThePercentageIsThePast() {
        assertThat(past(null, Sample.at("2024-06-01T00:00:00Z").used(3), Sample.at("2024-09-01T00:00:00Z").terabytes(70)).wear())
            .containsExactly(new double[] {70 / 300.0}, EXACT);
        assertThat(past(null, Sample.at("2024-06-01").used(3)).wear()).containsExactly(0.03);
        WearPast rising = past(LocalDate.of(2024, 1, 1), Sample.at("2024-04-01").used(2), Sample.at("2024-07-01").used(6), Sample.at("2024-10-01").used(12),
            Sample.at("2025-01-01").used(14));
        assertThat(rising.byPercentage()).isTrue();
        assertThat(rising.steps().increments()).as("joined until each has five points, what is left over to the last").containsExactly(new double[] {0.06, 0.08}, EXACT);
        assertThat(past(null, Sample.at("2024-06-01"))).isNull();
        assertThat(past(Ratings.of(List.of()), null, Sample.at("2024-06-01").terabytes(60).capacity(null))).isNull();
    }

    /** A quarter in which the drive wrote less than a fiftieth of its usual share is joined to the next. */
    @Test
    void idleQuartersAreJoinedForTheFleet() {
        DriveSteps steps = past(LocalDate.of(2023, 1, 1), Sample.at("2024-01-01T00:00:00Z").terabytes(60), Sample.at("2024-04-01T00:00:00Z").terabytes(60),
            Sample.at("2025-01-01T00:00:00Z").terabytes(105)).asOfNow();
        assertThat(steps.steps().durations()).containsExactly(new double[] {365 / 91.3125, 366 / 91.3125}, EXACT);
        assertThat(past(null, Sample.at("2024-01-01").terabytes(60)).asOfNow().steps().size()).isZero();
    }
}
