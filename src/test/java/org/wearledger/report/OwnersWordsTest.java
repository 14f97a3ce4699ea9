package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;

/** As of 31 March 2025. */
class OwnersWordsTest {
    private static final Projection NO_LINE = new Projection.None("no writes measured, so no date");

    private static DriveAssessment drive(double written, Integer used, boolean assumed, Forecast ofRating, Forecast ofController) {
        DriveAssessment d = Sweeps.drive("KX-1", Standing.WITHIN_RATING, written, used, new Endurance(new BigDecimal("150"), assumed, null, "maker's sheet"), null, NO_LINE);
        return new DriveAssessment(d.id(), d.latest(), d.seen(), d.wear(), d.pace(), new DriveAssessment.Outlook(NO_LINE, ofRating, ofController), d.standing(), d.reason());
    }

    private static Forecast forecast(LocalDate p10, LocalDate p50, LocalDate p90, LocalDate evidenceUntil) {
        return new Forecast(p10, p50, p90, 0, 0, 0, 0, 0, evidenceUntil, "", null);
    }

    @ParameterizedTest(name = "{0}, {1}, {2}, evidence until {3}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        2025-06-28 | 2025-09-12 | 2025-12-15 | 2030-01-01 | Used as before, it will have written what it is rated for between June 2025 and December 2025 (8 chances in 10).
        2025-06-02 | 2025-06-12 | 2025-06-25 | 2030-01-01 | Used as before, it will have written what it is rated for in June 2025 (8 chances in 10).
        2026-12-01 | 2027-09-12 | 2029-12-15 | 2030-01-01 | Used as before, it will have written what it is rated for between December 2026 and 2029 (8 chances in 10).
        2025-03-01 | 2025-09-12 | 2025-12-15 | 2030-01-01 | Used as before, it will have written what it is rated for by December 2025 (9 chances in 10).
        2024-12-01 | 2025-02-12 | 2025-12-15 | 2030-01-01 | Used as before, it has probably written what it is rated for already: since a day between 1 December 2024 and 15 December 2025 (8 chances in 10).
        2024-12-01 | 2025-02-12 | 2035-12-15 | 2030-01-01 | Used as before, it has probably written what it is rated for already: since a day after 1 December 2024 (9 chances in 10).
        2028-12-01 | 2032-09-12 | -          | 2030-01-01 | Used as before, it will not have written what it is rated for before 2028 (9 chances in 10).
        2025-03-01 | 2025-09-12 | 2031-12-15 | 2030-01-01 | Used as before, it will have written what it is rated for soon, or in some years: more is not known.
        2031-12-01 | 2032-09-12 | -          | 2030-01-01 | Used as before, it is not likely to write what it is rated for within 4 years.
        -          | -          | -          | 2055-01-01 | Used as before, it is not likely to write what it is rated for within 10 years.
        2025-12-01 | 2026-09-12 | 2027-12-15 | 2025-03-30 | Too little is known for a date.
        -          | -          | -          | 2026-03-30 | Too little is known for a date.
        """)
    void aTimeIsARangeThatItsPastCanBear(LocalDate p10, LocalDate p50, LocalDate p90, LocalDate evidenceUntil, String sentence) {
        assertThat(OwnersWords.when(drive(100, 60, false, forecast(p10, p50, p90, evidenceUntil), null), Sweeps.AS_OF)).isEqualTo(sentence);
    }

    @Test
    void itIsOfTheMeasureThatDecidesAndOfWhatTheRatingIs() {
        Forecast soon = forecast(LocalDate.parse("2025-06-28"), LocalDate.parse("2025-09-12"), LocalDate.parse("2025-12-15"), LocalDate.parse("2030-01-01"));
        assertThat(OwnersWords.when(drive(100, 60, true, soon, null), Sweeps.AS_OF)).isEqualTo("Used as before, it will have written what drives of its size are usually rated for between June 2025 and December 2025 (8 chances in 10).");
        assertThat(OwnersWords.when(drive(100, 60, false, null, soon), Sweeps.AS_OF)).isEqualTo("Used as before, its own estimate will reach 100 % between June 2025 and December 2025 (8 chances in 10).");
        assertThat(OwnersWords.when(drive(75, 60, true, null, soon), Sweeps.AS_OF)).isEqualTo("Used as before, its own estimate will reach 100 % between June 2025 and December 2025 (8 chances in 10).");
        assertThat(OwnersWords.when(drive(100, 60, false, null, null), Sweeps.AS_OF)).isEqualTo("Too little is known for a date.");
        assertThat(OwnersWords.when(drive(151, 60, false, null, soon), Sweeps.AS_OF)).isEqualTo("How long it goes on nobody can say.");
        assertThat(OwnersWords.written(drive(151.4, 60, false, null, null))).isEqualTo("It has written 151 TB so far. Its maker rates it for 150 TB.");
        assertThat(OwnersWords.written(drive(0.35, 0, true, null, null))).isEqualTo("It has written 350 GB so far. Its maker's rating is not known; drives of its size are usually rated for 150 TB.");
        assertThat(OwnersWords.written(drive(78, 145, true, null, null))).as("half of an assumed rating contradicts nobody").isEqualTo("It has written 78 TB so far.");
    }
}
