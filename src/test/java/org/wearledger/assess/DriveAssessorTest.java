package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Sample;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Interval;
import org.wearledger.model.Projection;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Rating;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

class DriveAssessorTest {
    private static final LocalDate AS_OF = LocalDate.of(2025, 1, 1);
    private static final Ratings RATED_300 = rated(300);

    @Test
    void writtenPastTheRatingWhileTheControllerReportsTwentyPercent() {
        DriveAssessment drive = assess(rated(150), Sample.at("2025-01-01").terabytes(278).used(20));
        assertThat(drive.wear().consumedPercent()).isCloseTo(185.3, within(0.05));
        assertThat(drive.standing()).isEqualTo(Standing.PAST_RATING);
        assertThat(drive.wear().remainingTerabytes()).isEqualTo(-128);
        assertThat(drive.wear().impliedEnduranceTerabytes().low()).isCloseTo(1_323.8, within(0.05));
        assertThat(drive.wear().impliedEnduranceTerabytes().high()).isCloseTo(1_463.2, within(0.05));
        assertThat(drive.reason())
            .isEqualTo("185.3 % of the rating is written; the controller itself reports 20 % used; the rating was passed "
                + "before the first reading, 2025-01-01");
        assertThat(drive.outlook().projection()).isEqualTo(new Projection.AlreadyPast(null, AS_OF));
    }

    /** A column of remaining life read as what is used: 99, then 98. */
    @Test
    void aPercentageThatFellIsDoubtedInTheReason() {
        assertThat(assess(RATED_300, Sample.at("2024-10-01").terabytes(5).hours(1000).used(99), Sample.at("2025-01-01").terabytes(6).hours(2000).used(98)).reason())
            .startsWith("2.0 % of the rating is written; the controller itself reports 98 % used; ")
            .endsWith("; IN DOUBT: percentage used fell; is it what remains of the life? (percentage-used-fell)");
    }

    @Test
    void twoHundredAndFiftyFiveIsThatOrMore() {
        assertThat(assess(RATED_300, Sample.at("2025-01-01").terabytes(278).used(255)).reason())
            .startsWith("92.7 % of the rating is written; the controller itself reports 255 % or more used");
    }

    @Test
    void aYoungDriveIsWithinItsRating() {
        DriveAssessment drive = assess(RATED_300, Sample.at("2025-01-01").terabytes(5.5).used(1));
        assertThat(drive.standing()).isEqualTo(Standing.WITHIN_RATING);
        assertThat(drive.wear().impliedEnduranceTerabytes().high()).isInfinite();
        assertThat(drive.reason()).isEqualTo("1.8 % of the rating is written (5.5 of 300 TB); no write rate yet: one "
            + "reading with bytes written, no in-service date and no power-on hours; no wear signal seen; warnings and media "
            + "errors are not in its reports, so nothing is known of them");
    }

    @Test
    void consumptionIsExact() {
        assertThat(new Endurance(BigDecimal.valueOf(600), false, null, "").consumedPercent(bytes(1_171_875_000L))).isEqualTo(100.0);
        assertThat(assess(rated(600), Sample.at("2025-01-01").units(1_171_875_000L)).standing())
            .isEqualTo(Standing.PAST_RATING);
        assertThat(assess(rated(600), Sample.at("2025-01-01").units(1_171_874_999L)).standing())
            .isEqualTo(Standing.WITHIN_RATING);
        assertThat(assess(rated(600), Sample.at("2025-01-01").units(1_953_125)).terabytesWritten()).isEqualTo(1.0);
    }

    /** 100 is also what a life remaining of 0 is read as, below which most controllers do not count: 100 or more. */
    @ParameterizedTest
    @CsvSource(nullValues = "-", value = {
        "0,   -,      -", "-,   -,      -", "1,   50,     Infinity", "2,   33.3333, 100",
        "20,  4.7619, 5.2632", "99,  1.0,    1.0204", "100, 0,      1.0101", "101, 0.9804, 1.0", "254, 0.3922, 0.3953", "255, 0,      0.3937"})
    void impliedEnduranceOfOneTerabyte(Integer percentageUsed, Double low, Double high) {
        Interval implied = DriveAssessor.impliedEnduranceTerabytes(bytes(1_953_125), percentageUsed);
        if (low == null) {
            assertThat(implied).isNull();
        } else {
            assertThat(implied.low()).isCloseTo(low, within(1e-4));
            assertThat(implied.high()).isEqualTo(high, within(high.isInfinite() ? 0.0 : 1e-4));
        }
    }

    static Stream<Arguments> standings() {
        Sample fresh = Sample.at("2025-01-01").terabytes(30).used(10).spare(100, 10).warning(0).mediaErrors(0);
        return Stream.of(
            Arguments.of("nothing to report", Standing.WITHIN_RATING, fresh),
            Arguments.of("media read-only", Standing.URGENT, fresh.warning(8)),
            Arguments.of("reliability degraded", Standing.URGENT, fresh.warning(4)),
            Arguments.of("spare bit", Standing.URGENT, fresh.warning(1)),
            Arguments.of("temperature bit alone", Standing.WITHIN_RATING, fresh.warning(2)),
            Arguments.of("spare at threshold", Standing.URGENT, fresh.spare(10, 10)),
            Arguments.of("spare above threshold", Standing.WITHIN_RATING, fresh.spare(11, 10)),
            Arguments.of("media errors in the only reading", Standing.WITHIN_RATING, fresh.mediaErrors(3)),
            Arguments.of("urgent before past rating", Standing.URGENT, fresh.warning(8).used(120)),
            Arguments.of("controller's clock at 100", Standing.PAST_RATING, fresh.used(100)),
            Arguments.of("controller's clock at 99", Standing.WITHIN_RATING, fresh.used(99)),
            Arguments.of("rating written", Standing.PAST_RATING, fresh.terabytes(300)),
            Arguments.of("neither clock", Standing.NO_VERDICT, Sample.at("2025-01-01")),
            Arguments.of("controller's clock alone", Standing.WITHIN_RATING, Sample.at("2025-01-01").used(40)));
    }

    @ParameterizedTest(name = "{0}: {1}")
    @MethodSource("standings")
    void standingOfOneReading(String name, Standing standing, Sample sample) {
        DriveAssessment drive = assess(RATED_300, sample);
        assertThat(drive.standing()).isEqualTo(standing);
        assertThat(drive.reason()).isNotBlank().doesNotContain("healthy").doesNotEndWith(".");
    }

    /** 100 GB a day; due up to 30 + 91.3125 days ahead, watch up to 365.25. */
    @ParameterizedTest
    @CsvSource({"121, DUE", "122, WATCH", "365, WATCH", "366, WITHIN_RATING"})
    void standingByProjectedDate(long daysAhead, Standing standing) {
        double now = 300 - daysAhead * 0.1;
        DriveAssessment drive = assess(RATED_300, Sample.at("2024-09-23").terabytes(now - 10),
            Sample.at("2024-12-02").terabytes(now - 3), Sample.at("2025-01-01").terabytes(now));
        assertThat(drive.pace().gigabytesPerDayLately()).isCloseTo(100, within(1e-6));
        assertThat(drive.outlook().projection()).isEqualTo(new Projection.Reaches(AS_OF.plusDays(daysAhead),
            "straight line, Theil-Sen over 3 readings of the last year", daysAhead > 300));
        assertThat(drive.standing()).isEqualTo(standing);
        assertThat(drive.pace().driveWritesPerDay()).isCloseTo(0.2, within(1e-9));
    }

    /** 24 GB a day, reported each hour of a year: pairs of all of them would take 300 MB. */
    @Test
    void ofHourlyReportsTheLastOfEachDayTellsTheRate() {
        Sample[] hourly = IntStream.range(0, 8_760).mapToObj(hour -> Sample.at(Instant.parse("2024-01-02T00:30:00Z").plus(Duration.ofHours(hour)).toString()).terabytes(280 + 0.001 * hour))
            .toArray(Sample[]::new);
        DriveAssessment drive = assess(RATED_300, hourly);
        assertThat(drive.pace().gigabytesPerDayLately()).isCloseTo(24, within(1e-4));
        assertThat(((Projection.Reaches) drive.outlook().projection()).basis()).isEqualTo("straight line, Theil-Sen over 365 readings of the last year");
    }

    @Test
    void risingMediaErrorsAreUrgent() {
        DriveAssessment drive = assess(RATED_300, Sample.at("2024-06-01").terabytes(1).mediaErrors(1),
            Sample.at("2024-10-01").terabytes(2), Sample.at("2025-01-01").terabytes(3).mediaErrors(2));
        assertThat(drive.standing()).isEqualTo(Standing.URGENT);
        assertThat(drive.reason()).startsWith("media errors rose from 1 to 2 by 2025-01-01; 1.0 % of the rating");
        assertThat(assess(RATED_300, Sample.at("2023-01-01").mediaErrors(1).used(1),
            Sample.at("2023-06-01").mediaErrors(2).used(1), Sample.at("2025-01-01").mediaErrors(2).used(1)).standing())
            .isEqualTo(Standing.WITHIN_RATING);
    }

    @Test
    void theCrossingLiesBetweenTwoReadings() {
        assertThat(assess(RATED_300, Sample.at("2024-10-01").terabytes(290), Sample.at("2024-11-01").terabytes(301),
            Sample.at("2025-01-01").terabytes(310)).outlook().projection())
            .isEqualTo(new Projection.AlreadyPast(LocalDate.of(2024, 10, 1), LocalDate.of(2024, 11, 1)));
    }

    @Test
    void theAverageSinceInServiceStandsInForAnEarlyDrive() {
        Sample only = Sample.at("2025-01-01").terabytes(200);
        DriveAssessment drive = assess(true, AS_OF.minusDays(1000), only);
        assertThat(drive.pace().gigabytesPerDayOverLife()).isEqualTo(200.0);
        assertThat(drive.outlook().projection()).isEqualTo(
            new Projection.Reaches(AS_OF.plusDays(500), "straight line, average since in service", false));
        assertThat(assess(false, AS_OF.minusDays(1000), only).pace().gigabytesPerDayOverLife()).isNull();
        assertThat(assess(true, AS_OF, only).pace().gigabytesPerDayOverLife()).isNull();
        assertThat(assess(true, AS_OF.minusDays(1), only).pace().gigabytesPerDayOverLife()).isEqualTo(200_000.0);
    }

    @Test
    void noDateWithoutARateOrBeyondTenYears() {
        assertThat(assess(RATED_300, Sample.at("2024-12-01").terabytes(5), Sample.at("2025-01-01").terabytes(5))
            .outlook().projection()).isEqualTo(new Projection.None("no writes measured, so no date"));
        assertThat(assess(RATED_300, Sample.at("2024-12-01").terabytes(5), Sample.at("2025-01-01").terabytes(5.1))
            .outlook().projection()).isEqualTo(new Projection.None("more than 10 years at this rate"));
    }

    @Test
    void resetCountersAreAddedUpAndSaid() {
        DriveAssessment drive = assess(Ratings.of(List.of()), Sample.at("2024-12-01").terabytes(100).used(30),
            Sample.at("2025-01-01").terabytes(1).used(1));
        assertThat(drive.terabytesWritten()).isEqualTo(101.0);
        assertThat(drive.wear().impliedEnduranceTerabytes()).isNull();
        assertThat(drive.reason()).contains("33.7 % of the rating is written (101.0 of 300 TB)")
            .endsWith("the rating is assumed, 0.6 TB per GB of capacity; its counters went back once and the writes "
                + "are added up");
    }

    private static DriveAssessment assess(Ratings ratings, Sample... samples) {
        return assess(ratings, false, null, samples);
    }

    private static DriveAssessment assess(boolean firstDrive, LocalDate inServiceOn, Sample... samples) {
        return assess(RATED_300, firstDrive, inServiceOn, samples);
    }

    private static DriveAssessment assess(Ratings ratings, boolean firstDrive, LocalDate inServiceOn,
                                          Sample... samples) {
        HistoryOutcome outcome = DriveHistories.build(Sample.ID, Arrays.stream(samples).map(Sample::reading).toList(),
            new Limits(Instant.parse("2025-01-02T00:00:00Z"), null));
        return new DriveAssessor(outcome.history(), ratings, firstDrive, inServiceOn).assess(null, AS_OF, SweepSettings.withDefaults().with(ProjectionMethod.STRAIGHT_LINE));
    }

    private static Ratings rated(int terabytes) {
        return Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500), BigDecimal.valueOf(terabytes), null,
            "data sheet", null)));
    }

    private static BigInteger bytes(long units) {
        return BigInteger.valueOf(units).multiply(BigInteger.valueOf(512_000));
    }

    /** What an earlier report said is not undone by a later one that leaves it out, and the reader is told. */
    @Test
    void aReportThatLeavesAFieldOutUndoesNothing() {
        Sample full = Sample.at("2024-10-01").terabytes(30).used(10).spare(9, 10).warning(0).mediaErrors(0);
        DriveAssessment drive = assess(RATED_300, full, Sample.at("2025-01-01"));
        assertThat(drive.standing()).isEqualTo(Standing.URGENT);
        assertThat(drive.reason()).isEqualTo("spare blocks are down to 9 %, the drive's threshold is 10 %; 10.0 % of the rating is written (30.0 of 300 TB); no "
            + "write rate yet: one reading with bytes written, no in-service date and no power-on hours; the latest report leaves out bytes written; they are as of 2024-10-01; "
            + "the latest report leaves out percentage used; it was 10 % on 2024-10-01");
        assertThat(assess(RATED_300, full.warning(8).spare(100, 10), Sample.at("2025-01-01")).reason()).startsWith("the drive reports that its media is read-only");
        assertThat(assess(RATED_300, Sample.at("2024-10-01").used(100), Sample.at("2025-01-01")).standing()).isEqualTo(Standing.PAST_RATING);
        assertThat(assess(RATED_300, Sample.at("2024-10-01").used(40), Sample.at("2025-01-01").used(41)).reason()).as("never reported, so not left out")
            .isEqualTo("the controller itself reports 41 % used; bytes written are not reported, so this rests on the controller alone; no wear signal "
                + "seen; warnings and media errors are not in its reports, so nothing is known of them");
    }

    /** After a reset the controller begins anew: its earlier estimate no longer counts. */
    @Test
    void whatTheControllerSaidBeforeAResetDoesNotCount() {
        DriveAssessment reset = assess(RATED_300, Sample.at("2024-06-01").terabytes(30).hours(500).used(110), Sample.at("2025-01-01").terabytes(31).hours(10));
        assertThat(reset.standing()).isEqualTo(Standing.WITHIN_RATING);
        assertThat(reset.seen().readings()).isEqualTo(2);
        assertThat(assess(RATED_300, Sample.at("2024-06-01").mediaErrors(0).hours(500), Sample.at("2024-09-01").mediaErrors(0).hours(10),
            Sample.at("2025-01-01").mediaErrors(2).hours(20)).reason()).startsWith("media errors rose from 0 to 2 by 2025-01-01");
        assertThat(assess(RATED_300, Sample.at("2024-06-01").mediaErrors(0).hours(500).used(1), Sample.at("2025-01-01").mediaErrors(2).hours(10).used(1)).standing())
            .as("over a reset nothing rose").isEqualTo(Standing.WITHIN_RATING);
    }

    @ParameterizedTest(name = "{0} errors in {1} readings")
    @CsvSource(delimiter = '|', textBlock = """
        0 | 1 | no wear or error signal seen
        1 | 1 | 1 media error is on the counter, with one reading to judge by
        2 | 1 | 2 media errors are on the counter, with one reading to judge by
        2 | 2 | 2 media errors are on the counter, with no rise seen within the last year
        """)
    void mediaErrorsThatDoNotRiseAreNoted(long errors, int readings, String words) {
        Sample latest = Sample.at("2025-01-01").used(10).mediaErrors(errors);
        assertThat((readings == 1 ? assess(RATED_300, latest) : assess(RATED_300, Sample.at("2024-06-01").used(9).mediaErrors(errors), latest)).reason())
            .endsWith("; " + words);
    }

    @Test
    void whyThereIsNoRateIsSaid() {
        assertThat(assess(false, AS_OF.minusDays(1000), Sample.at("2025-01-01").terabytes(5)).reason())
            .contains("one reading with bytes written, and the machine's in-service date is not this drive's");
        assertThat(assess(true, AS_OF.plusDays(1), Sample.at("2025-01-01").terabytes(5)).reason())
            .contains("one reading with bytes written, and the in-service date does not precede it");
        assertThat(assess(RATED_300, Sample.at("2023-01-01").terabytes(5), Sample.at("2025-01-01").terabytes(6)).reason())
            .contains("no two readings a week apart within the last year and no in-service date");
        assertThat(assess(RATED_300, Sample.at("2024-12-25T12:00:00Z").terabytes(5), Sample.at("2025-01-01T12:00:00Z").terabytes(6)).pace().gigabytesPerDayLately())
            .as("a week").isCloseTo(1000 / 7.0, within(1e-6));
    }

    @Test
    void withoutRatingAndCapacityNothingIsConsumed() {
        DriveAssessment drive = assess(Ratings.of(List.of()), Sample.at("2024-10-01").terabytes(5).capacity(null).used(7),
            Sample.at("2025-01-01").terabytes(6).capacity(null).used(8));
        assertThat(drive.wear().consumedPercent()).isNull();
        assertThat(drive.pace().driveWritesPerDay()).isNull();
        assertThat(drive.outlook().projection()).isEqualTo(new Projection.None("neither a rating nor a capacity is known"));
        assertThat(drive.reason()).startsWith("the controller itself reports 8 % used; neither a rating nor a capacity is known, so this rests");
        assertThat(assess(Ratings.of(List.of()), Sample.at("2024-10-01").terabytes(5).capacity(0L), Sample.at("2025-01-01").terabytes(6).capacity(0L)).pace().driveWritesPerDay())
            .isNull();
    }

    @Test
    void theControllersCrossingIsDatedByItsOwnReports() {
        assertThat(assess(RATED_300, Sample.at("2025-01-01").used(100)).reason()).contains("the controller passed 100 % before the first reading, 2025-01-01");
        assertThat(assess(RATED_300, Sample.at("2024-06-01").used(99), Sample.at("2024-09-01").terabytes(1), Sample.at("2025-01-01").used(101)).reason())
            .contains("the controller passed 100 % between 2024-06-01 and 2025-01-01");
    }
}
