package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.wearledger.budget.Fleets.AS_OF;
import static org.wearledger.budget.Fleets.drive;
import static org.wearledger.budget.Fleets.machine;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.MachineAssessment;
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
        "PAST_RATING,   41,  -,          2025-01-06, CLAIM_TO_ASK",
        "PAST_RATING,   100, -,          2025-01-06, RATING_PASSED",
        "PAST_RATING,   41,  -,          2027-01-07, ENDED",
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

    @Test
    void aRuleOfThumbIsNoMakersWord() {
        DriveAssessment d = drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 120, new Projection.None("-"), null);
        DriveAssessment assumed = new DriveAssessment(d.id(), d.latest(), d.seen(),
            new DriveAssessment.Wear(d.wear().bytesWritten(), new Endurance(java.math.BigDecimal.valueOf(150), true, null, "rule of thumb"), d.wear().consumedPercent(), null, null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), d.standing(), d.reason());
        WarrantyCheck check = check(assumed, AS_OF);
        assertThat(check.finding()).isEqualTo(WarrantyCheck.Finding.RATING_NOT_KNOWN);
        assertThat(check.dateRestsOn()).isEqualTo("no warranty years for this drive model");
        assertThat(check.endsOn()).isEqualTo("2025-06-30");
    }

    /** Likely means one chance in two, early one in ten; both by the forecast. */
    @ParameterizedTest(name = "early {0}, likely {1}: {2}")
    @CsvSource(nullValues = "-", value = {
        "2026-01-01, 2027-01-06, RATING_FIRST",
        "2026-01-01, 2027-01-07, RATING_MAYBE_FIRST",
        "2027-01-06, 2029-01-01, RATING_MAYBE_FIRST",
        "2027-01-07, 2029-01-01, DATE_FIRST",
        "2026-01-01, -,          RATING_MAYBE_FIRST",
        "-,          -,          DATE_FIRST"})
    void aForecastSaysWhichLimitComesFirst(LocalDate early, LocalDate likely, WarrantyCheck.Finding finding) {
        Forecast forecast = new Forecast(early, likely, null, 0.1, 0.1, 0.2, 0.3, 0.4, AS_OF.plusYears(9), "test", null);
        WarrantyCheck check = check(drive("S1", Attachment.SOCKETED, Standing.WATCH, 50, new Projection.None("-"), forecast), AS_OF);
        assertThat(check.finding()).isEqualTo(finding);
        assertThat(check.passesRatingEarlyOn()).isEqualTo(early);
        assertThat(check.passesRatingOn()).isEqualTo(likely);
    }

    @Test
    void atTheRatingItIsPassed() {
        assertThat(check(drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 100, new Projection.None("-"), null), AS_OF).finding())
            .isEqualTo(WarrantyCheck.Finding.RATING_PASSED);
    }

    @ParameterizedTest(name = "drive until {0}, machine until {1}: {2}")
    @CsvSource(nullValues = "-", value = {
        "-,          -,          NOT_KNOWN,  not known when this drive went into service",
        "-,          2025-01-05, ENDED,      not known when this drive went into service",
        "-,          2025-01-06, DATE_FIRST, not known when this drive went into service",
        "2025-01-06, -,          DATE_FIRST, 5 years from 2020-01-06",
        "2025-01-05, 2025-01-06, DATE_FIRST, 5 years from 2020-01-05"})
    void theLaterOfTheDatesThatAreKnown(LocalDate ofDrive, LocalDate ofMachine, WarrantyCheck.Finding finding, String restsOn) {
        DriveAssessment d = drive("S1", Attachment.SOCKETED, Standing.WITHIN_RATING, 50, new Projection.None("-"), null);
        DriveAssessment begun = with(d, ofDrive == null ? null : ofDrive.minusYears(5), d.wear().endurance());
        WarrantyCheck check = check(underWarranty(machine("LT-1", begun), ofMachine));
        assertThat(check.finding()).isEqualTo(finding);
        assertThat(check.dateRestsOn()).isEqualTo(restsOn);
    }

    /** Its own years are for a drive that is bought alone. */
    @Test
    void forASolderedDriveTheMachinesMakerAnswers() {
        WarrantyCheck check = check(drive("S1", Attachment.SOLDERED, Standing.URGENT, 5, new Projection.None("-"), null), AS_OF);
        assertThat(check.driveEndsOn()).isNull();
        assertThat(check.endsOn()).isEqualTo("2025-06-30");
        assertThat(check.dateRestsOn()).isEqualTo("soldered: the machine's maker answers for it");
        assertThat(check(drive("S1", Attachment.SOLDERED, Standing.URGENT, 5, new Projection.None("-"), null), LocalDate.of(2025, 7, 1)).finding()).isEqualTo(WarrantyCheck.Finding.ENDED);
    }

    @Test
    void aDriveOfWhichNothingIsRatedIsCheckedByItsMachinesDate() {
        DriveAssessment d = drive("S1", Attachment.SOCKETED, Standing.URGENT, 50, new Projection.None("-"), null);
        DriveAssessment unrated = new DriveAssessment(d.id(), d.latest(), d.seen(),
            new DriveAssessment.Wear(null, null, null, null, null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), d.standing(), d.reason());
        WarrantyCheck check = check(unrated, AS_OF);
        assertThat(check.finding()).isEqualTo(WarrantyCheck.Finding.CLAIM_OPEN);
        assertThat(check.dateRestsOn()).isEqualTo("no warranty years for this drive model");
    }

    @Test
    void whatToClaimComesFirstThenWhatEndsFirstThenByMachineAndDrive() {
        DriveAssessment good = drive("S1", Attachment.SOCKETED, Standing.WITHIN_RATING, 50, new Projection.None("-"), null);
        DriveAssessment unknown = with(drive("S5", Attachment.SOCKETED, Standing.WITHIN_RATING, 50, new Projection.None("-"), null), null, good.wear().endurance());
        List<MachineAssessment> machines = List.of(underWarranty(machine("LT-9", unknown), null),
            machine("LT-4", drive("S4", Attachment.SOCKETED, Standing.WITHIN_RATING, 50, new Projection.None("-"), null), good),
            machine("LT-3", drive("S3", Attachment.SOCKETED, Standing.WITHIN_RATING, 50, new Projection.None("-"), null)),
            machine("LT-2", with(good, LocalDate.of(2021, 1, 6), good.wear().endurance())),
            machine("LT-8", drive("S8", Attachment.SOCKETED, Standing.URGENT, 5, new Projection.None("-"), null)));
        assertThat(Warranties.check(machines, AS_OF)).extracting(check -> check.machine().machine().id() + " " + check.drive().id().serial() + " " + check.endsOn())
            .containsExactly("LT-8 S8 2027-01-06", "LT-2 S1 2026-01-06", "LT-3 S3 2027-01-06", "LT-4 S1 2027-01-06", "LT-4 S4 2027-01-06", "LT-9 S5 null");
    }

    private static WarrantyCheck check(MachineAssessment machine) {
        return Warranties.check(List.of(machine), AS_OF).get(0);
    }

    private static MachineAssessment underWarranty(MachineAssessment m, LocalDate until) {
        return new MachineAssessment(m.machine(), m.attachment(), m.activeDrives(), m.standing(), m.reason(), m.lastSeenAt(), true, null, until, true);
    }

    private static DriveAssessment with(DriveAssessment d, LocalDate inServiceOn, Endurance endurance) {
        return new DriveAssessment(d.id(), d.latest(),
            new DriveAssessment.Seen(inServiceOn, d.seen().firstCollectedAt(), d.seen().readings(), d.seen().epochs()),
            new DriveAssessment.Wear(d.wear().bytesWritten(), endurance, d.wear().consumedPercent(), null, null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), d.standing(), d.reason());
    }
}
