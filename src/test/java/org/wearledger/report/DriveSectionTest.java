package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;

class DriveSectionTest {
    /** As of 2025-03-31, rated at 150 TB. */
    @ParameterizedTest(name = "{0} years from {1}, {2} TB written, assumed: {3}")
    @CsvSource(nullValues = "-", delimiter = '|', textBlock = """
        5   | 2021-01-06 | 160 | false | 5 years from 2021-01-06, until 2026-01-06; its rated endurance is written already
        2.5 | 2022-01-06 | 160 | false | 2.5 years from 2022-01-06, which ended on 2024-07-06; its rated endurance is written already
        5   | 2021-01-06 | 20  | false | 5 years from 2021-01-06, until 2026-01-06
        5   | -          | 160 | false | 5 years, from a day that is not known; its rated endurance is written already
        5   | 2021-01-06 | 160 | true  | 5 years from 2021-01-06, until 2026-01-06
        -   | 2021-01-06 | 160 | false | -
        """)
    void whatIsKnownOfTheWarranty(BigDecimal years, LocalDate inServiceOn, double terabytes, boolean assumed, String words) {
        DriveAssessment d = Sweeps.drive("KX-1", Standing.PAST_RATING, terabytes, 20, new Endurance(new BigDecimal("150"), assumed, years, "maker's sheet"), null,
            new Projection.None("test"));
        DriveAssessment drive = new DriveAssessment(d.id(), d.latest(),
            new DriveAssessment.Seen(inServiceOn, d.seen().firstCollectedAt(), d.seen().readings(), d.seen().epochs()),
            new DriveAssessment.Wear(d.wear().bytesWritten(), d.wear().endurance(), d.wear().consumedPercent(), d.wear().remainingTerabytes(), null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), d.standing(), d.reason());
        assertThat(DriveSection.warranty(drive, Sweeps.AS_OF)).isEqualTo(words == null ? null : "Warranty of the drive: " + words
            + ". Most makers end it at the years or at the rated endurance, whichever comes first: look into the maker's terms.");
    }
}
