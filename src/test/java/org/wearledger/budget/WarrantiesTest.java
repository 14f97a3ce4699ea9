package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.wearledger.budget.Fleets.AS_OF;
import static org.wearledger.budget.Fleets.drive;
import static org.wearledger.budget.Fleets.machine;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.WarrantyCheck;

/** In service since 2022-01-06 with five years, until 2027-01-06; the machine's warranty ends 2025-06-30. */
class WarrantiesTest {
    private static WarrantyCheck check(DriveAssessment drive, LocalDate asOf) {
        return Warranties.check(List.of(machine("LT-1", drive)), asOf).get(0);
    }

    @ParameterizedTest(name = "{0}, {1} % consumed, rating reached {2}, judged on {3}: {4}")
    @CsvSource(nullValues = "-", value = {
        "URGENT,        10,  -,          2025-01-06, CLAIM_OPEN",
        "URGENT,        10,  -,          2027-01-06, CLAIM_OPEN",
        "URGENT,        10,  -,          2027-01-07, ENDED",
        "URGENT,        101, -,          2025-01-06, RATING_PASSED",
        "WATCH,         90,  2026-12-31, 2025-01-06, RATING_FIRST",
        "WITHIN_RATING, 50,  2027-01-07, 2025-01-06, DATE_FIRST",
        "WITHIN_RATING, 50,  -,          2025-01-06, DATE_FIRST"})
    void whicheverComesFirst(Standing standing, double consumed, LocalDate reached, LocalDate asOf, WarrantyCheck.Finding finding) {
        Projection projection = reached == null ? new Projection.None("-") : new Projection.Reaches(reached, "line", false);
        WarrantyCheck check = check(drive("S1", Attachment.SOCKETED, standing, consumed, projection, null), asOf);
        assertThat(check.finding()).isEqualTo(finding);
        assertThat(check.driveEndsOn()).isEqualTo("2027-01-06");
        assertThat(check.machineEndsOn()).isEqualTo("2025-06-30");
        assertThat(check.endsOn()).as("a claim may be open under either").isEqualTo("2027-01-06");
        assertThat(check.dateRestsOn()).isEqualTo("5 years from 2022-01-06");
    }

    @org.junit.jupiter.api.Test
    void aRuleOfThumbIsNoMakersWord() {
        DriveAssessment d = drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 120, new Projection.None("-"), null);
        DriveAssessment assumed = new DriveAssessment(d.id(), d.latest(), d.inServiceOn(), d.firstCollectedAt(), d.readings(), d.epochs(), d.bytesWritten(),
            new org.wearledger.model.Endurance(java.math.BigDecimal.valueOf(150), true, null, "rule of thumb"), d.consumedPercent(), null, null, null, null, null,
            d.projection(), null, null, d.standing(), d.reason());
        WarrantyCheck check = check(assumed, AS_OF);
        assertThat(check.finding()).isEqualTo(WarrantyCheck.Finding.RATING_NOT_KNOWN);
        assertThat(check.dateRestsOn()).isEqualTo("no warranty years for this drive model");
        assertThat(check.endsOn()).isEqualTo("2025-06-30");
    }
}
