package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.history.Sample;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.WarningSign;

/** The sentences, clause by clause, of a drive rated at 300 TB. */
class ReasonsTest {
    private static final LocalDate AS_OF = LocalDate.of(2025, 1, 1);
    private static final LocalDate EVIDENCE_UNTIL = LocalDate.of(2027, 1, 1);
    private static final WarningSigns SILENT = new WarningSigns(List.of(), List.of(), true);
    private static final Projection NO_DATE = new Projection.None("no date");

    private static DriveAssessment drive(Double consumedPercent, Integer used, Double terabytes, Standing standing, Projection projection, Double rate,
                                         Forecast ofRating, Forecast ofController) {
        Sample sample = Sample.at("2025-01-01");
        Reading reading = (used == null ? sample : sample.used(used)).reading();
        return new DriveAssessment(Sample.ID, reading,
            new DriveAssessment.Seen(null, reading.collectedAt(), 2, 1),
            new DriveAssessment.Wear(terabytes == null ? null : BigDecimal.valueOf(terabytes).movePointRight(12).toBigInteger(), new Endurance(BigDecimal.valueOf(300), false, null, "data sheet"), consumedPercent, null, null),
            new DriveAssessment.Pace(rate, null, null),
            new DriveAssessment.Outlook(projection, ofRating, ofController), standing, "");
    }

    private static String reason(DriveAssessment drive) {
        return Reasons.of(drive, SILENT, null, List.of(), List.of(), AS_OF, SweepSettings.withDefaults());
    }

    /** Both clocks are named when one stands at 100 and the other does not, or when they lie more than 50 points apart. */
    @ParameterizedTest(name = "{0} % written, {1} % used")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        50  | -   | 50.0 % of the rating is written (150.0 of 300 TB)
        50  | 99  | 50.0 % of the rating is written (150.0 of 300 TB)
        50  | 100 | 50.0 % of the rating is written; the controller itself reports 100 % used
        100 | 99  | 100.0 % of the rating is written; the controller itself reports 99 % used
        100 | 100 | 100.0 % of the rating is written (300.0 of 300 TB); the controller itself reports 100 % used
        10  | 60  | 10.0 % of the rating is written (30.0 of 300 TB)
        10  | 61  | 10.0 % of the rating is written; the controller itself reports 61 % used
        61  | 10  | 61.0 % of the rating is written; the controller itself reports 10 % used
        120 | 254 | 120.0 % of the rating is written; the controller itself reports 254 % used
        120 | 255 | 120.0 % of the rating is written; the controller itself reports 255 % or more used
        """)
    void theTwoClocks(double consumed, Integer used, String words) {
        assertThat(reason(drive(consumed, used, 3 * consumed, Standing.WATCH, NO_DATE, 10.0, null, null))).isEqualTo(words);
    }

    @ParameterizedTest(name = "{0} TB written of an unknown rating, {1} % used")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        -   | 40 | the controller itself reports 40 % used; bytes written are not reported, so this rests on the controller alone
        5.5 | 40 | the controller itself reports 40 % used; neither a rating nor a capacity is known, so this rests on the controller alone
        -   | -  | bytes written are not reported, and the controller reports no percentage used
        5.5 | -  | neither a rating nor a capacity is known, and the controller reports no percentage used
        """)
    void oneClockOrNone(Double terabytes, Integer used, String words) {
        assertThat(reason(drive(null, used, terabytes, Standing.WATCH, NO_DATE, 10.0, null, null))).isEqualTo(words);
    }

    private static Forecast forecast(double within4Quarters, double within8Quarters, LocalDate p50On) {
        return new Forecast(null, p50On, null, 0, 0, 0, within4Quarters, within8Quarters, EVIDENCE_UNTIL, "test", null);
    }

    /** A chance below 1 % within two years is not worth a word; the ends of the scale are not rounded to 0 and 100; as of 2025-01-01. */
    @ParameterizedTest(name = "{0} in one year, {1} in two, even by {2}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        0.001 | 0.0099 | -          | -
        0.001 | 0.01   | -          | the rating is reached more than ten years ahead: the chance within a year is below 1 %
        0.01  | 0.2    | -          | the rating is reached more than ten years ahead: the chance within a year is 1 %
        0.256 | 0.6    | 2026-01-01 | the rating is reached around 2026-01-01: the chance within a year is 26 %
        0.256 | 0.6    | 2026-01-02 | the rating is reached around 2026-01: the chance within a year is 26 %
        0.256 | 0.6    | 2027-01-01 | the rating is reached around 2027-01: the chance within a year is 26 %
        0.256 | 0.6    | 2027-01-02 | the rating is reached around 2027-01 (beyond evidence): the chance within a year is 26 %
        0.99  | 1      | 2025-01-01 | the rating is reached around 2025-01-01: the chance within a year is 99 %
        0.991 | 1      | 2024-12-31 | the rating was probably passed already, about 2024-12-31: the chance within a year is above 99 %
        """)
    void chances(double within4Quarters, double within8Quarters, LocalDate p50On, String words) {
        String clocks = "50.0 % of the rating is written (150.0 of 300 TB)";
        String reason = reason(drive(50.0, 50, 150.0, Standing.WITHIN_RATING, NO_DATE, 10.0, forecast(within4Quarters, within8Quarters, p50On), null));
        assertThat(reason).isEqualTo(words == null ? clocks : clocks + "; " + words);
    }

    /** Two drives of the same chance within a year, one due and one not: the line gives the chance that decides. */
    @ParameterizedTest(name = "{0}, {1} within the lead time and one quarter")
    @CsvSource(nullValues = "-", value = {"DUE, 0.62, 62 %, ''", "WATCH, 0.38, 38 %, ' (watch from 10 %)'"})
    void theChanceThatDecides(Standing standing, double withinLeadTime, String words, String watch) {
        Forecast forecast = new Forecast(null, LocalDate.of(2025, 6, 12), null, withinLeadTime, 0, 0, 0.995, 1, EVIDENCE_UNTIL, "test", null);
        assertThat(reason(drive(50.0, null, 150.0, standing, NO_DATE, 10.0, forecast, null))).isEqualTo("50.0 % of the rating is written (150.0 of 300 TB); "
            + "the rating is reached around 2025-06-12: the chance within 121 days is " + words + " (due from 50 %), within a year above 99 %" + watch);
    }

    @Test
    void eachClockHasItsChance() {
        assertThat(reason(drive(50.0, 45, 150.0, Standing.URGENT, NO_DATE, 10.0, forecast(0.1, 0.4, null), forecast(0.2, 0.5, null)))).isEqualTo(
            "50.0 % of the rating is written (150.0 of 300 TB); the rating is reached more than ten years ahead: the chance within a year is 10 %; "
                + "the controller reaches 100 % more than ten years ahead: the chance within a year is 20 %");
        assertThat(reason(drive(50.0, 45, 150.0, Standing.URGENT, NO_DATE, 10.0, null, forecast(0.2, 0.5, null))))
            .endsWith("(150.0 of 300 TB); the controller reaches 100 % more than ten years ahead: the chance within a year is 20 %");
        assertThat(reason(drive(120.0, 45, 360.0, Standing.PAST_RATING, NO_DATE, null, forecast(0.1, 0.4, null), null))).as("past it, no time is left to tell")
            .isEqualTo("120.0 % of the rating is written; the controller itself reports 45 % used");
    }

    @Test
    void theStraightLineHasItsDate() {
        LocalDate day = LocalDate.of(2025, 8, 20);
        assertThat(reason(drive(50.0, null, 150.0, Standing.WATCH, new Projection.Reaches(day, "line", false), 12.5, null, null)))
            .endsWith("; at 12.5 GB a day the rating is reached about 2025-08-20");
        assertThat(reason(drive(50.0, null, 150.0, Standing.WATCH, new Projection.Reaches(day, "line", true), 12.5, null, null)))
            .endsWith("; at 12.5 GB a day the rating is reached about 2025-08-20 (beyond evidence)");
        assertThat(reason(drive(50.0, null, 150.0, Standing.WATCH, new Projection.Reaches(LocalDate.of(2026, 8, 20), "line", false), 12.5, null, null)))
            .endsWith("; at 12.5 GB a day the rating is reached about 2026-08");
        assertThat(reason(drive(50.0, null, 150.0, Standing.DUE, new Projection.Reaches(LocalDate.of(2024, 8, 20), "line", false), 12.5, null, null)))
            .endsWith("; at 12.5 GB a day the rating was probably passed already, about 2024-08-20");
        assertThat(reason(drive(50.0, null, 150.0, Standing.WATCH, NO_DATE, null, null, null))).endsWith("TB); no write rate yet: no date");
        assertThat(reason(drive(null, 40, null, Standing.WATCH, new Projection.Reaches(day, "line", false), 12.5, null, null))).doesNotContain("2025-08-20");
    }

    /** "No wear signal" is not said of a drive that is half worn by either clock, nor beside a noted error. */
    @ParameterizedTest(name = "{0} % written, {1} % used: said {2}")
    @CsvSource(nullValues = "-", value = {"49.9, 49, true", "50, 49, false", "49.9, 50, false", "-, 49, true", "-, 50, false", "49.9, -, true"})
    void noWearSignalIsSaidOnlyOfDrivesFarFromWorn(Double consumed, Integer used, boolean said) {
        DriveAssessment drive = drive(consumed, used, consumed == null ? null : 100.0, Standing.WITHIN_RATING, NO_DATE, 10.0, null, null);
        assertThat(reason(drive).endsWith("; no wear or error signal seen")).isEqualTo(said);
        assertThat(Reasons.of(drive, new WarningSigns(List.of(), List.of("1 media error is on the counter"), true), null, List.of(), List.of(), AS_OF, SweepSettings.withDefaults()))
            .endsWith("; 1 media error is on the counter");
    }

    @Test
    void whatIsUrgentComesFirstAndWhatIsLeftOutLast() {
        DriveAssessment d = drive(110.0, 104, 330.0, Standing.URGENT, new Projection.AlreadyPast(LocalDate.of(2024, 1, 1), LocalDate.of(2024, 7, 1)), 10.0, null, null);
        DriveAssessment assumed = new DriveAssessment(d.id(), d.latest(),
            new DriveAssessment.Seen(null, d.seen().firstCollectedAt(), 3, 3),
            new DriveAssessment.Wear(BigInteger.ONE, new Endurance(BigDecimal.valueOf(300), true, null, "rule of thumb"), 110.0, null, null),
            new DriveAssessment.Pace(10.0, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), d.standing(), "");
        assertThat(Reasons.of(assumed, new WarningSigns(List.of(WarningSign.of(WarningSign.Kind.RELIABILITY_DEGRADED)), List.of("noted"), true), "between A and B", List.of("left out"), List.of(), AS_OF, SweepSettings.withDefaults()))
            .isEqualTo("the drive reports degraded reliability; 110.0 % of the rating is written (0.0 of 300 TB); the controller itself reports 104 % used; the "
                + "rating was passed between 2024-01-01 and 2024-07-01; the controller passed 100 % between A and B; left out; noted; the rating is assumed, "
                + "0.6 TB per GB of capacity; its counters went back 2 times and the writes are added up");
    }

    /** A figure in doubt is told where the verdict stands, and then nothing reassures. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        PERCENTAGE_USED_FELL     | IN DOUBT: percentage used fell; is it what remains of the life? (percentage-used-fell)
        WRITTEN_CONTRADICTS_USED | IN DOUBT: bytes written and percentage used cannot both be right (written-contradicts-used)
        LATEST_REPORT_SET_ASIDE  | IN DOUBT: its latest report could not be believed, so these figures are older than what arrived (latest-report-set-aside)
        UNITS_DOUBTFUL           | IN DOUBT: the unit of the bytes written (units-doubtful)
        """)
    void aDoubtStandsInTheReason(ProblemKind doubt, String words) {
        assertThat(Reasons.of(drive(2.0, 3, 6.0, Standing.WITHIN_RATING, NO_DATE, 10.0, null, null), SILENT, null, List.of(), List.of(doubt), AS_OF,
            SweepSettings.withDefaults())).isEqualTo("2.0 % of the rating is written (6.0 of 300 TB); " + words);
    }
}
