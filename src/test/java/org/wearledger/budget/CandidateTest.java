package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.wearledger.budget.Fleets.AS_OF;
import static org.wearledger.budget.Fleets.READ;
import static org.wearledger.budget.Fleets.drive;
import static org.wearledger.budget.Fleets.machine;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Forecast;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;

class CandidateTest {
    private static final LocalDate SOON = LocalDate.of(2025, 8, 20);

    private static List<Candidate> of(FleetModel fleet, MachineAssessment machine) {
        return Candidate.of(machine, fleet, new PriceBook(Fleets.PRICES), AS_OF, AS_OF.plusYears(20), BudgetSettings.withDefaults());
    }

    private static Candidate one(DriveAssessment drive) {
        return of(Fleets.FLEET, machine("LT-1", drive)).get(0);
    }

    private static Forecast forecast(LocalDate p10On, LocalDate p90On, double within8Quarters) {
        return new Forecast(p10On, null, p90On, 0.1, 0.1, 0.2, 0.3, within8Quarters, AS_OF.plusYears(9), "test",
            new Crossing(3 + 2.5 * 20, 0.03 + 2.0, List.of(0.4), READ));
    }

    private static DriveAssessment with(DriveAssessment d, Forecast ofRating, Forecast ofController) {
        return new DriveAssessment(d.id(), d.latest(), d.seen(),
            new DriveAssessment.Wear(d.wear().bytesWritten(), d.wear().endurance(), d.wear().consumedPercent(), null, null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), ofRating, ofController), d.standing(), d.reason());
    }

    /** Where one clock's latest tenth ends before the other's earliest begins, the later one never decides. */
    @ParameterizedTest(name = "rating from {0} to {1}, controller from {2} to {3}: {4} of the clocks count")
    @CsvSource(nullValues = "-", value = {
        "2025-06-01, 2026-06-01, 2026-01-01, 2027-01-01, 2",
        "2025-06-01, 2026-06-01, 2026-06-01, 2027-01-01, 2",
        "2025-06-01, 2026-06-01, 2026-06-02, 2027-01-01, 1",
        "2026-06-02, 2027-01-01, 2025-06-01, 2026-06-01, 1",
        "2025-06-01, 2026-06-01, -,          -,          1",
        "-,          -,          2025-06-01, 2026-06-01, 1",
        "2025-06-01, -,          2026-06-02, -,          2",
        "-,          -,          -,          -,          2"})
    void aClockThatIsSurelyTheLaterDoesNotCount(LocalDate rating10, LocalDate rating90, LocalDate controller10, LocalDate controller90, int clocks) {
        DriveAssessment drive = with(drive("S1", Attachment.SOCKETED, 0.4), forecast(rating10, rating90, 0.5), forecast(controller10, controller90, 0.5));
        assertThat(one(drive).curves()).hasSize(clocks);
    }

    @Test
    void whereTheReportDoesNotSayTheInventorySaysHowADriveIsAttached() {
        MachineAssessment m = machine("LT-1", drive("S1", Attachment.UNKNOWN, 0.4), drive("S2", Attachment.SOCKETED, 0.4));
        MachineAssessment soldered = new MachineAssessment(m.machine(), Attachment.SOLDERED, m.activeDrives(), m.standing(), "", m.lastSeenAt(), true, null, null, true);
        assertThat(of(Fleets.FLEET, soldered)).extracting(Candidate::attachment).containsExactly(Attachment.SOLDERED, Attachment.SOCKETED);
    }

    /** Both are needed now and past their rating; the chance within two years, then the serial, says which names the line. */
    @ParameterizedTest(name = "chances of {0} and {1}: {2}")
    @CsvSource(nullValues = "-", value = {"0.3, 0.6, S2", "0.6, 0.3, S1", "0.3, 0.3, S1", "-, 0.1, S2", "-, -, S1"})
    void ofSolderedDrivesAsPressingTheLikelierNamesTheLine(Double first, Double second, String serial) {
        assertThat(of(Fleets.FLEET, machine("LT-1", past("S1", first), past("S2", second)))).singleElement()
            .extracting(candidate -> candidate.drive().id().serial()).isEqualTo(serial);
    }

    private static DriveAssessment past(String serial, Double within8Quarters) {
        return drive(serial, Attachment.SOLDERED, Standing.PAST_RATING, 120, new Projection.None("-"),
            within8Quarters == null ? null : forecast(null, null, within8Quarters));
    }

    /** The socketed drive is the more pressing, but it does not take the machine along whatever the other turns out to be. */
    @Test
    void aDriveOfUnknownAttachmentIsWeighedOnlyAgainstItsLike() {
        List<Candidate> all = of(Fleets.FLEET, machine("LT-1", drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 120, new Projection.None("-"), null),
            drive("S2", Attachment.UNKNOWN, 0.4)));
        assertThat(all).extracting(candidate -> candidate.choice().upperItem()).containsExactly("drive 256 GB", "machine");
    }

    @Test
    void aDayThatLiesBehindIsToday() {
        DriveAssessment overdue = drive("S1", Attachment.SOCKETED, Standing.WATCH, 90, new Projection.Reaches(LocalDate.of(2024, 12, 1), "line", false), null);
        assertThat(one(overdue).needOn()).isEqualTo(AS_OF);
    }

    @Test
    void aDriveThatWillNotCrossInTenYearsHasAChanceButNoDay() {
        Candidate candidate = one(drive("S1", Attachment.SOCKETED, 40.0));
        assertThat(candidate.needOn()).isNull();
        assertThat(candidate.probabilityBy(AS_OF.plusYears(2))).isBetween(0.0, 1e-6);
    }

    /** Only a date by the straight line, in a fleet that has a model for others. */
    @Test
    void withoutAForecastItIsReplacedWhenItIsPlannedAndNotBefore() {
        Candidate candidate = one(drive("S1", Attachment.SOCKETED, Standing.WATCH, 90, new Projection.Reaches(SOON, "line", false), null));
        assertThat(candidate.needOn()).isEqualTo(SOON);
        assertThat(candidate.probabilityBy(SOON)).isNaN();
        assertThat(candidate.replacedBy(SOON.minusDays(1))).isZero();
        assertThat(candidate.replacedBy(SOON)).isEqualTo(1);
        assertThat(candidate.replacedBy(SOON, new double[2])).containsExactly(1, 1);
    }

    @Test
    void whatFailsOrIsPastIsReplacedForCertain() {
        Candidate candidate = one(drive("S1", Attachment.SOCKETED, Standing.URGENT, 5, new Projection.None("-"), null));
        assertThat(candidate.probabilityBy(AS_OF)).isEqualTo(1);
    }

    @Test
    void byTheStraightLineForecastsDoNotCount() {
        assertThat(of(null, machine("LT-1", drive("S1", Attachment.SOCKETED, 0.4))).get(0).curves()).isEmpty();
    }
}
