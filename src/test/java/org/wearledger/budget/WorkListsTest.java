package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.wearledger.budget.Fleets.AS_OF;
import static org.wearledger.budget.Fleets.drive;
import static org.wearledger.budget.Fleets.machine;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Interval;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.Ownership;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.Separation;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.WorkItem;

class WorkListsTest {
    private static final MemoryContrast SMALL_WRITES_MORE =
        new MemoryContrast(8, 16, 29, 22, 25, new Interval(10.4, 40.9), 0.001, Separation.MORE_THAN_TYPICAL);

    private static List<String> work(MemoryContrast contrast, MachineAssessment... machines) {
        return work(contrast, Set.of(), machines);
    }

    private static List<String> work(MemoryContrast contrast, Set<String> inDoubt, MachineAssessment... machines) {
        List<MachineAssessment> all = List.of(machines);
        Budget budget = Budgets.of(all, Fleets.FLEET, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        return WorkLists.of(all, budget, Warranties.check(all, AS_OF), contrast == null ? List.of() : List.of(contrast), new DrivesToCheck(inDoubt, Set.of()), Decisions.none(), AS_OF).stream()
            .map(WorkListsTest::words).toList();
    }

    private static String words(WorkItem item) {
        return item.byOn() + " " + item.machine().id() + " " + item.action().label() + ": " + item.what();
    }

    @Test
    void aFailingDriveIsBackedUpThenClaimedThenReplaced() {
        assertThat(work(null, machine("LT-1", drive("S1", Attachment.SOCKETED, Standing.URGENT, 5, new Projection.None("-"), null)))).containsExactly(
            "2025-01-06 LT-1 back up: back up now, before anything else, and check that the backup can be read",
            "2025-01-06 LT-1 ask maker: ask the machine's maker for a replacement under warranty before buying one: it ends in 175 days, on 2025-06-30; the drive's maker answers until "
                + "2027-01-06; data leave with the drive: back up first, and ask how it is wiped",
            "2025-01-06 LT-1 order: ask the maker first; if it declines, order: drive 256 GB, in place of S1",
            "2025-02-19 LT-1 replace: back up first, then replace socketed drive S1; opening it, batteries, soldering, and wiping or destroying the old drive are for qualified "
                + "people under local rules");
    }

    @Test
    void aDrivePastItsRatingIsKeptPoweredAndItsMemoryQuestionedButNotSparedSinceANewOneIsOrdered() {
        assertThat(work(SMALL_WRITES_MORE, machine("LT-1", drive("S1", Attachment.SOLDERED, Standing.PAST_RATING, 120, new Projection.None("-"), null))))
            .containsExactly("2025-01-06 LT-1 check backup: check that the backup is complete and can be read",
                "2025-01-06 LT-1 order: order: board, in place of S1; ask who repairs it whether a new machine is needed instead, for 428.50 EUR more",
                "2025-01-13 LT-1 keep powered: do not put it into store unpowered with data on it: a worn drive keeps its data for a limited time",
                "2025-02-19 LT-1 replace: back up first, then replace board, for its soldered drive S1; opening it, batteries, soldering, and wiping or destroying the old drive "
                    + "are for qualified people under local rules",
                "2025-04-07 LT-1 more memory: consider more memory at the next refresh, where it can be added: here, machines with 8 GiB write 25.0 GB a day more than those with 16 GiB; swap is a cause to check");
    }

    @Test
    void whereTheAttachmentIsNotKnownItIsToBeFoundOut() {
        assertThat(work(null, machine("LT-1", drive("S1", Attachment.UNKNOWN, Standing.PAST_RATING, 120, new Projection.None("-"), null)))).contains(
            "2025-01-06 LT-1 order: order: drive 256 GB, in place of S1; find out whether the drive is soldered: then a board or a machine is needed instead, for 874.50 EUR more",
            "2025-02-19 LT-1 replace: back up first, then replace drive S1 (attachment not known); opening it, batteries, soldering, and wiping or destroying the old drive "
                + "are for qualified people under local rules");
    }

    /** A drive in doubt past its rating, one within it, and one that reports its own failing, which is replaced whatever its wear. */
    @Test
    void figuresInDoubtAreCheckedBeforeAnythingIsOrdered() {
        DriveAssessment past = drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 14767, new Projection.None("-"), null);
        DriveAssessment within = quiet("S2", Standing.WITHIN_RATING);
        DriveAssessment failing = drive("S3", Attachment.SOCKETED, Standing.URGENT, 14767, new Projection.None("-"), null);
        Set<String> inDoubt = Set.of(past.id().toString(), within.id().toString(), failing.id().toString());
        assertThat(work(null, inDoubt, machine("LT-1", past), machine("LT-2", within), machine("LT-3", failing))).contains(
            "2025-01-06 LT-1 check figures: check the figures (unit, mapping) first, drive S1",
            "2025-01-06 LT-1 order: check the figures (unit, mapping) first; then order: drive 256 GB, in place of S1",
            "2025-01-06 LT-2 check figures: check the figures (unit, mapping) first, drive S2",
            "2025-01-06 LT-3 order: order: drive 256 GB, in place of S3")
            .noneMatch(line -> line.contains("LT-3 check figures"))
            .filteredOn(line -> line.contains("LT-1")).extracting(line -> line.substring(16, 21)).startsWith("check", "check", "order");
    }

    /** 147 % of the rating written, 14 % used by the controller: one of the two rests on a wrong row or unit. */
    @Test
    void whereTheTwoMeasuresDisagreeTheRatingIsCheckedBeforeAnythingIsOrdered() {
        assertThat(work(null, machine("LT-1", used(14, drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 147, new Projection.None("-"), null))))).contains(
            "2025-01-06 LT-1 check figures: check the ratings row and the unit of percentage used first, drive S1",
            "2025-01-06 LT-1 order: check the ratings row and the unit of percentage used first; then order: drive 256 GB, in place of S1");
        assertThat(work(null, machine("LT-1", used(140, drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 147, new Projection.None("-"), null)))))
            .as("they agree").contains("2025-01-06 LT-1 order: order: drive 256 GB, in place of S1").noneMatch(line -> line.contains("check figures"));
        assertThat(work(null, machine("LT-1", used(80, drive("S1", Attachment.SOCKETED, Standing.WITHIN_RATING, 5, new Projection.None("-"), null)))))
            .as("nothing is to be ordered").isEmpty();
    }

    private static DriveAssessment used(int percentageUsed, DriveAssessment d) {
        Health health = Health.builder().set(HealthField.PERCENTAGE_USED, percentageUsed).build();
        Reading latest = new Reading(d.latest().source(), d.latest().collectedAt(), d.latest().machine(), d.latest().drive(), health);
        return new DriveAssessment(d.id(), latest, d.seen(),
            new DriveAssessment.Wear(d.wear().bytesWritten(), d.wear().endurance(), d.wear().consumedPercent(), null, null),
            new DriveAssessment.Pace(d.pace().gigabytesPerDayLately(), null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), d.outlook().ratingForecast(), null), d.standing(), d.reason());
    }

    @Test
    void eachThingIsAskedOfAMachineOnceHoweverManyDrivesCallForIt() {
        List<String> work = work(null, machine("LT-1", drive("S1", Attachment.SOCKETED, Standing.PAST_RATING, 120, new Projection.None("-"), null),
            drive("S2", Attachment.SOCKETED, Standing.PAST_RATING, 130, new Projection.None("-"), null)));
        assertThat(work).filteredOn(line -> line.contains("check backup")).hasSize(1);
        assertThat(work).doesNotHaveDuplicates();
    }

    @Test
    void ordersFarAheadAreNoWorkYetAndQuietMachinesNone() {
        assertThat(work(null, machine("LT-1", drive("S1", Attachment.SOCKETED, 0.6)), machine("LT-2", drive("S2", Attachment.SOCKETED, 0.95)))).isEmpty();
        assertThat(work(null, machine("LT-3"))).containsExactly("2025-01-20 LT-3 get report: find this machine and collect a report");
    }

    private static final String CHECK = "check that the backup is complete and can be read";
    private static final String SPARE = "move large working files (video, databases, virtual machines) to another disk; deleting files gives no endurance back";

    /** How soon: past the rating now, due within a week, watched within a month. */
    @Test
    void theNearerTheLimitTheSoonerTheBackupIsChecked() {
        assertThat(work(null, machine("LT-1", quiet("S1", Standing.DUE)), machine("LT-2", quiet("S2", Standing.WATCH)),
            machine("LT-3", quiet("S3", Standing.WITHIN_RATING)))).containsExactly(
                "2025-01-13 LT-1 check backup: " + CHECK,
                "2025-01-13 LT-1 write less: " + SPARE,
                "2025-02-05 LT-2 check backup: " + CHECK);
    }

    private static DriveAssessment quiet(String serial, Standing standing) {
        return drive(serial, Attachment.SOCKETED, standing, 50, new Projection.None("-"), null);
    }

    /** The machines here have 8 GiB. */
    @ParameterizedTest(name = "{0}, {1} GiB is {2}: {3}")
    @CsvSource({"WATCH, 8, MORE_THAN_TYPICAL, true", "WITHIN_RATING, 8, MORE_THAN_TYPICAL, false", "WATCH, 4, MORE_THAN_TYPICAL, false", "WATCH, 8, CANNOT_BE_SEPARATED, false", "WATCH, 8, NOT_COMPARED, false"})
    void moreMemoryIsForMachinesThatWearWhereLittleMemoryGoesWithMoreWrites(Standing standing, int smallerGibibytes, Separation separation, boolean considered) {
        MemoryContrast contrast = new MemoryContrast(smallerGibibytes, 16, 29, 22, 25, new Interval(10.4, 40.9), 0.001, separation);
        assertThat(work(contrast, machine("LT-1", quiet("S1", standing))).stream().anyMatch(line -> line.contains(" more memory: "))).isEqualTo(considered);
        MachineAssessment m = machine("LT-1", quiet("S1", standing));
        assertThat(work(contrast, with(m, new Machine("LT-1", null, null, null, null, null, null, null), true))).noneMatch(line -> line.contains(" more memory: "));
    }

    @Test
    void aMachineNobodyListedIsForTheInventory() {
        MachineAssessment m = machine("LT-1", quiet("S1", Standing.WITHIN_RATING));
        assertThat(work(null, with(m, m.machine(), false))).containsExactly("2025-01-20 LT-1 inventory: enter it in the inventory, or find out whose it is");
        assertThat(work(null, machine("LT-1", false, quiet("S1", Standing.WITHIN_RATING))))
            .containsExactly("2025-01-20 LT-1 get report: collect a complete report of this machine");
    }

    /** The drive of LT-1 is in LT-2 now: one of them was renamed, or a drive was moved. In brackets: not in the inventory. */
    @ParameterizedTest(name = "{0} {1}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        LT-1   | LT-2   | LT-1 get report: if it was renamed LT-2, change its name in inventory.csv; if its drive was moved there, collect a report of its new drive | -
        LT-1   | (LT-2) | LT-1 get report: if it was renamed LT-2, change its name in inventory.csv; if its drive was moved there, collect a report of its new drive | LT-2 inventory: if LT-1 was renamed so, change its name in inventory.csv; else enter this machine there, or find out whose it is
        (LT-1) | LT-2   | LT-1 inventory: if it was renamed LT-2, nothing is to be done; else enter it in the inventory, or find out whose it is | -
        (LT-1) | (LT-2) | LT-1 inventory: if it was renamed LT-2, nothing is to be done; else enter it in the inventory, or find out whose it is | LT-2 inventory: enter it in the inventory, or find out whose it is
        """)
    void aMachineWhoseDriveIsInAnotherMayHaveBeenRenamed(String former, String now, String first, String second) {
        MachineAssessment gone = machine("LT-1", false, quiet("S1", Standing.NO_VERDICT));
        MachineAssessment there = machine("LT-2", quiet("S1", Standing.WITHIN_RATING));
        assertThat(work(null, new MachineAssessment(gone.machine(), gone.attachment(), List.of(), gone.standing(), gone.reason(), gone.lastSeenAt(), false, null, null,
            !former.startsWith("("), null, "LT-2", null, Ownership.OWN), with(there, there.machine(), !now.startsWith("("))))
            .extracting(line -> line.substring(11)).containsExactlyElementsOf(second == null ? List.of(first) : List.of(first, second));
    }

    @Test
    void whereItsReportsAreRefusedTheyAreToBeMended() {
        MachineAssessment m = machine("LT-1", false, quiet("S1", Standing.NO_VERDICT));
        assertThat(work(null, new MachineAssessment(m.machine(), m.attachment(), List.of(), m.standing(), m.reason(), null, false, null, null, true,
            "3 records of it were refused (field-missing)", null, null, Ownership.OWN)))
            .containsExactly("2025-01-20 LT-1 get report: mend what this machine reports: 3 records of it were refused (field-missing)");
    }

    /** To collect again what is in a wrong unit would change nothing. */
    @Test
    void whatCouldNotBeBelievedIsToBeCheckedAndNotToBeCollectedAgain() {
        MachineAssessment m = machine("LT-1", false, quiet("S1", Standing.NO_VERDICT));
        assertThat(work(null, new MachineAssessment(m.machine(), m.attachment(), List.of(), m.standing(), m.reason(), m.lastSeenAt(), true, ProblemKind.IMPLAUSIBLE_INCREASE, null, true)))
            .containsExactly("2025-01-06 LT-1 check figures: check the figures that this machine reports, most often their unit");
        assertThat(work(null, new MachineAssessment(m.machine(), m.attachment(), List.of(), m.standing(), m.reason(), m.lastSeenAt(), true, ProblemKind.SERIAL_SHARED, null, true)))
            .containsExactly("2025-01-20 LT-1 get report: collect a complete report of this machine");
    }

    private static MachineAssessment with(MachineAssessment m, Machine machine, boolean inInventory) {
        return new MachineAssessment(machine, m.attachment(), m.activeDrives(), m.standing(), m.reason(), m.lastSeenAt(), m.reportedThisSweep(), null, null, inInventory);
    }

    @Test
    void anOrderSaysByWhenAndWhatItMayCostMore() {
        assertThat(orders(drive("S1", Attachment.SOCKETED, Standing.DUE, 90, new Projection.Reaches(LocalDate.of(2025, 5, 21), "line", false), null)))
            .containsExactly("2025-04-07: order: drive 256 GB, in place of S1");
        assertThat(orders(drive("S1", Attachment.SOCKETED, Standing.DUE, 90, new Projection.Reaches(LocalDate.of(2025, 5, 22), "line", false), null)))
            .as("more than 91 days ahead").isEmpty();
        assertThat(orders(drive("S1", Attachment.SOLDERED, Standing.PAST_RATING, 120, new Projection.None("-"), null)))
            .containsExactly("2025-01-06: order: board, in place of S1; ask who repairs it whether a new machine is needed instead, for 428.50 EUR more");
    }

    private static List<String> orders(DriveAssessment drive) {
        List<MachineAssessment> all = List.of(machine("LT-1", drive));
        Budget budget = Budgets.of(all, null, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        return WorkLists.of(all, budget, List.of(), List.of(), new DrivesToCheck(Set.of(), Set.of()), Decisions.none(), AS_OF).stream().filter(item -> item.action() == WorkItem.Action.ORDER)
            .map(item -> item.byOn() + ": " + item.what()).toList();
    }

    @Test
    void onOneDayMachinesStandInOrder() {
        assertThat(work(null, machine("LT-2"), machine("LT-3"), machine("LT-1"))).extracting(line -> line.substring(11, 15)).containsExactly("LT-1", "LT-2", "LT-3");
    }
}
