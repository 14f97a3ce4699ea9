package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.MachineStory;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;

/** Whose word counts on an owner's page: the maker's rating, or where that is only assumed the drive's own estimate. */
class CustomerPageTest {
    private static final Projection NO_LINE = new Projection.None("no writes measured, so no date");
    private static final Forecast SOON = new Forecast(LocalDate.parse("2025-03-01"), LocalDate.parse("2025-06-12"), LocalDate.parse("2025-08-15"), 0.5, 0.9, 1, 1, 1, LocalDate.parse("2030-01-01"), "", null);

    @ParameterizedTest(name = "{0}, {1} TB of 150 TB (assumed: {3}), {2} % used")
    @CsvSource(delimiter = '|', textBlock = """
        PAST_RATING   |  78 | 145 | true  | By its own estimate your drive is used up. It worked when we saw it, on 30 March 2025, and may
        PAST_RATING   |  78 | 145 | false | How far your drive is worn is not certain. Its figures contradict each other, or the last ones could not be believed. We check that first, before you pay for anything.
        PAST_RATING   | 160 |  20 | true  | How far your drive is worn is not certain.
        PAST_RATING   | 160 | 400 | false | Your drive has written more than it is rated for. It worked
        PAST_RATING   | 160 | 105 | true  | Your drive has written more than drives of its size are usually rated for (common practice).
        PAST_RATING   | 160 | 105 | false | Your drive has written more than it is rated for.
        DUE           |  41 |  97 | true  | By its own estimate your drive will probably soon be used up. Plan to have it replaced
        DUE           | 130 |  97 | false | By its own estimate your drive will probably soon be used up.
        WATCH         |  41 |  80 | true  | By its own estimate your drive may be used up within a year.
        WATCH         | 140 |  30 | false | could not be believed. Nothing has to be bought now. Keep your backup up to date.
        WITHIN_RATING |  41 |  50 | true  | By its own estimate your drive is not used up.
        WITHIN_RATING |  41 |  25 | false | Your drive is within what it is rated for.
        """)
    void theOwnEstimateCountsWhereTheRatingIsOnlyAssumed(Standing standing, double written, int used, boolean assumed, String sentences) {
        String page = page(standing, written, used, assumed);
        assertThat(page).contains(sentences);
        if (assumed && used > written / 1.5) {
            assertThat(page).doesNotContain("drives of its size", "not known", "rated for ", "between now");
        }
    }

    @Test
    void thePageSaysWhenItWasMade() {
        assertThat(page(Standing.WITHIN_RATING, 41, 25, false)).contains("Page of 2 April 2025. As seen on 30 March 2025.");
    }

    /** With too little known for a date, and with a date: what probably has happened is not to come. */
    @ParameterizedTest
    @CsvSource({"2025-01-31, Too little is known for a date.", "2030-01-01, since a day between 5 January and 9 March 2025"})
    void whatProbablyPassedIsNotSaidToComeSoon(LocalDate evidenceUntil, String time) {
        LocalDate first = LocalDate.parse(evidenceUntil.getYear() == 2025 ? "2025-02-05" : "2025-01-05");
        String page = page(Standing.DUE, 130, 97, false, new Forecast(first, LocalDate.parse("2025-02-20"), LocalDate.parse("2025-03-09"), 0.9, 0.9, 1, 1, 1, evidenceUntil, "", null));
        assertThat(page).contains("By its own estimate your drive is probably used up by now.", time).doesNotContain("soon");
        assertThat(page.contains("The times assume")).isEqualTo(evidenceUntil.getYear() == 2030);
    }

    private static String page(Standing standing, double written, int used, boolean assumed) {
        return page(standing, written, used, assumed, standing == Standing.DUE || standing == Standing.WATCH ? SOON : null);
    }

    private static String page(Standing standing, double written, int used, boolean assumed, Forecast ofController) {
        DriveAssessment d = Sweeps.drive("KX-1", standing, written, used, new Endurance(new BigDecimal("150"), assumed, null, "maker's sheet"), null, NO_LINE);
        DriveAssessment drive = new DriveAssessment(d.id(), d.latest(), d.seen(), d.wear(), d.pace(),
            new DriveAssessment.Outlook(NO_LINE, null, ofController), standing, d.reason());
        return CustomerPage.of(new MachineStory("1.0", Sweeps.AS_OF, Sweeps.machine("C-1", standing, drive),
            List.of(new MachineStory.DriveStory(drive, null, List.of(), List.of())), List.of(), List.of(), List.of()), LocalDate.parse("2025-04-02"))
            .replaceAll("<[^>]+>", " ").replaceAll("\\s+", " ");
    }
}
