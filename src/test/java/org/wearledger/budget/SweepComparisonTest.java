package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.ComparedSweeps;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.PlanOutcome;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepDifference;
import org.wearledger.model.SweepSettings;
import org.wearledger.model.SweepSnapshot;

class SweepComparisonTest {
    private static final LocalDate AS_OF = LocalDate.of(2025, 1, 6);

    private static MachineSnapshot machine(Standing standing, Double gigabytesPerDay, Double memoryGibibytes, MachineSnapshot.Planned... planned) {
        return new MachineSnapshot("LT-1", "North", List.of("S1"), standing, gigabytesPerDay, memoryGibibytes, LocalDate.of(2024, 10, 7), true, List.of(planned));
    }

    private static MachineSnapshot.Planned planned(String needOn, String amount) {
        return planned("S1", "drive", needOn, amount);
    }

    /** With six weeks from order to need. */
    private static MachineSnapshot.Planned planned(String driveSerial, String item, String needOn, String amount) {
        LocalDate need = LocalDate.parse(needOn);
        return new MachineSnapshot.Planned(driveSerial, item, need, need.minusDays(42), false, amount == null ? null : new BigDecimal(amount));
    }

    private static ComparedSweeps compare(MachineSnapshot before, MachineSnapshot now) {
        return SweepComparison.between(new SweepSnapshot(before == null ? List.of() : List.of(before)), new SweepSnapshot(now == null ? List.of() : List.of(now)), "test", AS_OF,
            BudgetSettings.withDefaults());
    }

    private static List<String> words(MachineSnapshot before, MachineSnapshot now) {
        return compare(before, now).differences().stream().map(change -> change.kind().label() + ": " + change.before() + " -> " + change.now()
            + (change.costDelta() == null ? "" : " " + change.costDelta())).toList();
    }

    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource(nullValues = "-", value = {
        "WATCH, URGENT, NEWLY_URGENT", "DUE, PAST_RATING, NEWLY_PAST_RATING", "WITHIN_RATING, DUE, NEWLY_DUE", "WITHIN_RATING, WATCH, NEWLY_WATCH",
        "URGENT, PAST_RATING, EASED", "DUE, WATCH, EASED", "WATCH, WITHIN_RATING, EASED", "NO_VERDICT, WITHIN_RATING, VERDICT_FOUND",
        "WATCH, NO_VERDICT, VERDICT_LOST", "DUE, DUE, -"})
    void standings(Standing before, Standing now, SweepDifference.Kind kind) {
        assertThat(compare(machine(before, null, null), machine(now, null, null)).differences()).extracting(SweepDifference::kind)
            .isEqualTo(kind == null ? List.of() : List.of(kind));
    }

    @ParameterizedTest(name = "{0} to {1} GB a day")
    @CsvSource({"20, 30, WRITES_ROSE", "20, 29.9, ", "30, 20, WRITES_FELL", "2, 6.9, ", "2, 7, WRITES_ROSE"})
    void writesCountFromHalfMoreOrLessAndFiveGigabytes(double before, double now, SweepDifference.Kind kind) {
        assertThat(compare(machine(Standing.WATCH, before, null), machine(Standing.WATCH, now, null)).differences()).extracting(SweepDifference::kind)
            .isEqualTo(kind == null ? List.of() : List.of(kind));
    }

    @Test
    void aChangeOfMemoryIsNamedBesideTheWrites() {
        assertThat(words(machine(Standing.WATCH, 60.0, 8.0), machine(Standing.WATCH, 20.0, 16.0)))
            .containsExactly("writes fell: 60.0 GB a day with 8 GiB of memory -> 20.0 GB a day with 16 GiB of memory");
        assertThat(words(machine(Standing.WATCH, 60.0, 15.9), machine(Standing.WATCH, 20.0, 15.888))).as("rounded in the table of the earlier sweep")
            .containsExactly("writes fell: 60.0 GB a day -> 20.0 GB a day");
    }

    /** One planned replacement in both sweeps: each thing that changed is told by itself. A line is late, "!", at its sweep's day. */
    @ParameterizedTest(name = "{8}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-01 | 2025-06-18  | drive   | 87.50  | nothing changed                    | -
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-11-02 | 2025-09-20  | drive   | 87.50  | the quarter, and with it the order | quarter moved: 2025-Q3, order by 2025-06-18 -> 2025-Q4: 87.50, order by 2025-09-20 0.00
        2025-08-01 | none        | drive | 87.50 | 2025-11-02 | 2025-09-20  | drive   | 87.50  | bought or rejected then            | -
        2025-08-01 | 2025-06-18! | drive | 87.50 | 2025-08-01 | none        | drive   | 87.50  | bought or rejected now             | -
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-14 | 2025-07-01  | drive   | 87.50  | the order by 13 days               | -
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-15 | 2025-07-02  | drive   | 87.50  | the order by 14 days               | order date moved: order by 2025-06-18 -> order by 2025-07-02
        2025-08-15 | 2025-07-02  | drive | 87.50 | 2025-08-01 | 2025-06-18  | drive   | 87.50  | the order by 14 days, to earlier   | order date moved: order by 2025-07-02 -> order by 2025-06-18
        2025-02-01 | 2024-12-20  | drive | 87.50 | 2025-02-01 | 2025-01-06! | drive   | 87.50  | nobody ordered                     | order overdue: order by 2024-12-20 -> order at once
        2025-02-01 | 2025-01-05  | drive | 87.50 | 2025-02-01 | 2025-01-06! | drive   | 87.50  | nobody ordered, since yesterday    | order overdue: order by 2025-01-05 -> order at once
        2025-01-02 | 2024-12-01! | drive | 87.50 | 2025-01-06 | 2025-01-06! | drive   | 87.50  | late then and now                  | -
        2025-03-30 | 2024-12-31! | drive | 87.50 | 2025-03-31 | 2025-01-06  | drive   | 87.50  | late no more                       | order date moved: order at once -> order by 2025-01-06
        2025-05-01 | 2025-03-20  | drive | 87.50 | 2025-02-01 | 2025-01-06! | drive   | 87.50  | needed a quarter earlier, now late | quarter moved: 2025-Q2, order by 2025-03-20 -> 2025-Q1: 87.50, order at once 0.00
        2025-01-20 | 2024-12-31! | drive | 87.50 | 2025-05-01 | 2025-03-20  | drive   | 87.50  | needed a quarter later, late then  | quarter moved: 2025-Q1, order at once -> 2025-Q2: 87.50, order by 2025-03-20 0.00
        2025-03-31 | 2024-12-31! | drive | 87.50 | 2025-04-01 | 2025-01-06! | drive   | 87.50  | another quarter, late both times   | quarter moved: 2025-Q1 -> 2025-Q2: 87.50 0.00
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-01 | 2025-06-18  | machine | 962.00 | the item                           | item changed: drive: 87.50 -> machine: 962.00 874.50
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-01 | 2025-06-18  | Drive   | 87.50  | how the price list spells it       | -
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-01 | 2025-06-18  | machine | -      | the item, to one without a price   | item changed: drive: 87.50 -> machine: no price -87.50
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-01 | 2025-06-18  | drive   | 99.50  | the price                          | price changed: 87.50 each, with labour and disposal -> 99.50 each, with labour and disposal, in 1 line of both plans, not this quarter 12.00
        2025-08-01 | 2025-06-18  | drive | -     | 2025-08-01 | 2025-06-18  | drive   | 87.50  | a price at last                    | price changed: no price -> 87.50 each, with labour and disposal, in 1 line of both plans, not this quarter 87.50
        2025-08-01 | 2025-06-18  | drive | 87.50 | 2025-08-01 | 2025-06-18  | drive   | -      | no price any more                  | price changed: 87.50 each, with labour and disposal -> no price, in 1 line of both plans, not this quarter -87.50
        2025-08-01 | 2025-06-18  | drive | -     | 2025-08-01 | 2025-06-18  | drive   | 0.00   | for nothing                        | price changed: no price -> 0.00 each, with labour and disposal, in 1 line of both plans, not this quarter 0.00
        2025-08-01 | 2025-06-18  | drive | -     | 2025-08-01 | 2025-06-18  | drive   | -      | without a price both times         | -
        2024-12-01 | 2024-10-18  | drive | 87.50 | 2025-01-06 | 2025-01-06! | drive   | 87.50  | nothing was done                   | not done yet: 2024-Q4 -> 2025-Q1: 87.50 0.00
        2024-12-31 | 2024-11-18  | drive | 87.50 | 2025-03-31 | 2025-02-18  | drive   | 87.50  | nothing was done, put off          | not done yet: 2024-Q4 -> 2025-Q1: 87.50 0.00
        2025-01-01 | 2024-11-19  | drive | 87.50 | 2025-01-06 | 2025-01-06! | drive   | 87.50  | planned for this quarter           | order overdue: order by 2024-11-19 -> order at once
        2024-12-31 | 2024-11-18  | drive | 87.50 | 2025-04-01 | 2025-02-18  | drive   | 87.50  | put off beyond this quarter        | quarter moved: 2024-Q4, order by 2024-11-18 -> 2025-Q2: 87.50, order by 2025-02-18 0.00
        """)
    void whatChangedOfAPlannedReplacement(LocalDate need, String order, String item, BigDecimal amount, LocalDate needNow, String orderNow,
                                          String itemNow, BigDecimal amountNow, String what, String words) {
        assertThat(words(machine(Standing.WATCH, null, null, line(need, order, item, amount)),
            machine(Standing.WATCH, null, null, line(needNow, orderNow, itemNow, amountNow))))
            .isEqualTo(words == null ? List.of() : List.of(words));
    }

    private static MachineSnapshot.Planned line(LocalDate need, String order, String item, BigDecimal amount) {
        return new MachineSnapshot.Planned("S1", item, need, order.equals("none") ? null : LocalDate.parse(order.replace("!", "")), order.endsWith("!"), amount);
    }

    @Test
    void plannedOnceOnly() {
        assertThat(words(machine(Standing.WATCH, null, null), machine(Standing.WATCH, null, null, planned("2025-11-02", "87.50"))))
            .containsExactly("cost added: not planned -> 2025-Q4: 87.50 87.50");
        assertThat(words(machine(Standing.WATCH, null, null, planned("2025-11-02", "87.50")), machine(Standing.WATCH, null, null)))
            .containsExactly("cost dropped: 2025-Q4: 87.50 -> not planned -87.50");
    }

    /** A price list that rose is two rows here, not four; beside it stands what the machines changed. */
    @Test
    void aNewPriceIsToldOnceForItsItem() {
        List<MachineSnapshot> before = List.of(buys("LT-1", "machine", "962.00"), buys("LT-2", "drive", "87.50"), buys("LT-3", "drive", "87.50"), buys("LT-4", "drive", "87.50"));
        List<MachineSnapshot> now = List.of(buys("LT-1", "machine", "999.00"), buys("LT-2", "drive", "99.50"), buys("LT-3", "drive", "99.50"), buys("LT-4", "board", "533.50"));
        ComparedSweeps comparison = SweepComparison.between(new SweepSnapshot(before), new SweepSnapshot(now), "test", AS_OF, BudgetSettings.withDefaults());
        assertThat(comparison.differences()).containsExactly(
            new SweepDifference(SweepDifference.Kind.ITEM_CHANGED, "LT-4", "North", "drive: 87.50", "board: 533.50", new BigDecimal("446.00"), null),
            new SweepDifference(SweepDifference.Kind.PRICE_CHANGED, null, null, "87.50 each, with labour and disposal", "99.50 each, with labour and disposal, in 2 lines of both plans, none of them this quarter", new BigDecimal("24.00"), "drive"),
            new SweepDifference(SweepDifference.Kind.PRICE_CHANGED, null, null, "962.00 each, with labour and disposal", "999.00 each, with labour and disposal, in 1 line of both plans, not this quarter", new BigDecimal("37.00"), "machine"));
        assertThat(comparison.differences().stream().map(SweepDifference::costDelta).reduce(BigDecimal.ZERO, BigDecimal::add)).as("the difference of the totals")
            .isEqualTo(comparison.plannedNow().subtract(comparison.plannedBefore()));
    }

    /** Finance asks for this quarter: what the new price costs in it stands beside that of all lines. AS_OF is in 2025-Q1. */
    @ParameterizedTest(name = "needed on {0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        2025-02-01 2025-03-31 2025-04-01 2025-08-01 | in 4 lines of both plans, 2 of them this quarter (+90.00)
        2025-02-01 2025-08-01                       | in 2 lines of both plans, 1 of them this quarter (+45.00)
        2025-02-01 2025-03-31                       | in 2 lines of both plans, all of them this quarter
        2025-02-01                                  | in 1 line of both plans, this quarter
        2025-08-01                                  | in 1 line of both plans, not this quarter
        2025-08-01 2025-11-01                       | in 2 lines of both plans, none of them this quarter
        """)
    void ofANewPriceItIsSaidWhatItCostsThisQuarter(String days, String words) {
        String[] needs = days.split(" ");
        MachineSnapshot before = machine(Standing.WATCH, null, null, Stream.of(needs).map(day -> planned("S" + day, "board", day, "45.00")).toArray(MachineSnapshot.Planned[]::new));
        MachineSnapshot now = machine(Standing.WATCH, null, null, Stream.of(needs).map(day -> planned("S" + day, "board", day, "90.00")).toArray(MachineSnapshot.Planned[]::new));
        assertThat(compare(before, now).differences()).extracting(SweepDifference::now).containsExactly("90.00 each, with labour and disposal, " + words);
    }

    /** A list that rose is told of what nobody buys now, too; planned items are told by their lines. */
    @Test
    void aNewPriceOfWhatIsInNoLineIsToldAsSuch() {
        SweepSnapshot before = new SweepSnapshot(List.of(buys("LT-2", "drive", "87.50")), List.of(), List.of(cost("board", "533.50"), cost("drive", "87.50"), cost("machine", "962.00"), cost("drive 1 TB", null)));
        SweepSnapshot now = new SweepSnapshot(List.of(buys("LT-2", "Drive", "99.50")), List.of(), List.of(cost("Board", "560.00"), cost("Drive", "99.50"), cost("machine", "962.00"), cost("drive 1 TB", "140.50"),
            cost("drive 2 TB", "200.00")));
        assertThat(SweepComparison.between(before, now, "test", AS_OF, BudgetSettings.withDefaults()).differences()).extracting(change -> change.kind().label() + " " + change.item() + ": "
            + change.before() + " -> " + change.now() + " " + change.costDelta()).containsExactly(
                "price changed Board: 533.50 each, with labour and disposal -> 560.00 each, with labour and disposal, in no line of both plans 0.00",
                "price changed Drive: 87.50 each, with labour and disposal -> 99.50 each, with labour and disposal, in 1 line of both plans, not this quarter 12.00",
                "price changed drive 1 TB: no price -> 140.50 each, with labour and disposal, in no line of both plans 0.00",
                "price changed drive 2 TB:  -> 200.00 each, with labour and disposal: new in the price list, or called for by no machine then 0.00");
    }

    /** The board went, so machines are bought; the drive of 512 GB is still in the list, and nobody calls for it now. */
    @Test
    void whatWentFromThePriceListIsToldAndWhatIsTheDearerChoiceSaysSo() {
        SweepSnapshot before = new SweepSnapshot(List.of(), List.of(), List.of(cost("board", "533.50"), cost("drive 512 GB", "87.50"), cost("machine", "942.00"), cost("drive", null)));
        SweepSnapshot now = new SweepSnapshot(List.of(), List.of(), List.of(new SweepSnapshot.Cost("machine", new BigDecimal("912.00"), true, 2),
            new SweepSnapshot.Cost("drive 512 GB", new BigDecimal("87.50"), false, 0), new SweepSnapshot.Cost("drive 4 TB", new BigDecimal("400.00"), false, 0)));
        assertThat(SweepComparison.between(before, now, "test", AS_OF, BudgetSettings.withDefaults()).differences()).containsExactly(
            new SweepDifference(SweepDifference.Kind.PRICE_CHANGED, null, null, "533.50 each, with labour and disposal", "no price: no more in the price list", new BigDecimal("0.00"), "board"),
            new SweepDifference(SweepDifference.Kind.PRICE_CHANGED, null, null, "942.00 each, with labour and disposal", "912.00 each, with labour and disposal, in no line of both plans; the dearer "
                + "choice of 2 lines", new BigDecimal("0.00"), "machine"));
    }

    /** Of two machines, one is to be replaced by a board, whose dearer choice is a machine; of drives the list has one that nobody calls for. */
    @Test
    void aSnapshotHoldsTheWholePriceListAndWhatTheAskIsMadeOf() {
        List<MachineAssessment> machines = List.of(Fleets.machine("LT-1", Fleets.drive("S1", Attachment.SOLDERED, Standing.PAST_RATING, 120, new Projection.None("-"), null)));
        Budget budget = Budgets.of(machines, null, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        SweepSnapshot snapshot = SweepComparison.snapshot(machines, budget, Fleets.PRICES);
        assertThat(snapshot.costs()).containsExactly(new SweepSnapshot.Cost("board", new BigDecimal("533.50"), true, 0), new SweepSnapshot.Cost("machine", new BigDecimal("962.00"), true, 1),
            new SweepSnapshot.Cost("drive 256 GB", new BigDecimal("87.50"), false, 0));
        assertThat(snapshot.asks().get(0).amount()).isEqualTo(budget.quarters().get(0).toAskFor());
        assertThat(snapshot.asks().get(0).parts()).isEqualTo(new SweepSnapshot.Parts(new BigDecimal("533.50"), new BigDecimal("0.00"), new BigDecimal("85.70"),
            budget.quarters().get(0).allowance()));
    }

    private static SweepSnapshot.Cost cost(String item, String amount) {
        return new SweepSnapshot.Cost(item, amount == null ? null : new BigDecimal(amount));
    }

    /** Of periods that both budgets have; all quarters are others by now. */
    @Test
    void whatIsToBeAskedForStandsThenAndNow() {
        SweepSnapshot before = new SweepSnapshot(List.of(), List.of(ask("2025-Q1", "2025-03-31", "100.00"), ask("2025-Q2", "2025-06-30", "200.00"), ask("all 2 quarters", "2025-06-30", "300.00")), List.of());
        SweepSnapshot now = new SweepSnapshot(List.of(), List.of(ask("2025-Q2", "2025-06-30", "250.50"), ask("2025-Q3", "2025-09-30", "1.00"), ask("all 2 quarters", "2025-09-30", "251.50")), List.of());
        assertThat(SweepComparison.between(before, now, "test", AS_OF, BudgetSettings.withDefaults()).differences()).containsExactly(
            new SweepDifference(SweepDifference.Kind.ASK_CHANGED, null, null, "200.00", "250.50", new BigDecimal("50.50"), "2025-Q2"),
            new SweepDifference(SweepDifference.Kind.ASK_CHANGED, null, null, "300.00 until 2025-06-30", "251.50 until 2025-09-30", new BigDecimal("-48.50"), "all 2 quarters"));
    }

    private static SweepSnapshot.Ask ask(String period, String until, String amount) {
        return new SweepSnapshot.Ask(period, LocalDate.parse(until), new BigDecimal(amount), null, null, null);
    }

    /** As of 2025-01-06 the fourth quarter of 2024 is over: of three machines one is urgent and one has another drive; a new one was not in that plan. */
    @ParameterizedTest(name = "a quarter until {0}: {1}")
    @CsvSource(nullValues = "-", value = {"2024-12-31, 2", "2025-01-06, -", "2024-10-05, -"})
    void whatCameStandsBesideWhatWasSaid(LocalDate until, Integer came) {
        SweepSnapshot before = new SweepSnapshot(List.of(held("LT-1", "A", Standing.WATCH), held("LT-2", "B", Standing.DUE), held("LT-3", "C", Standing.WATCH)),
            List.of(new SweepSnapshot.Ask("2024-Q4", until, new BigDecimal("100.00"), null, 1, 3)), List.of());
        SweepSnapshot now = new SweepSnapshot(List.of(held("LT-1", "A", Standing.URGENT), held("LT-2", "D", Standing.WITHIN_RATING), held("LT-3", "C", Standing.WATCH), held("LT-4", "E", Standing.URGENT)));
        assertThat(SweepComparison.between(before, now, "test", AS_OF, BudgetSettings.withDefaults()).outcome()).isEqualTo(came == null ? null : new PlanOutcome("2024-Q4", 1, 3, came, 1));
    }

    private static MachineSnapshot held(String id, String serial, Standing standing) {
        return new MachineSnapshot(id, "North", List.of(serial), standing, null, null, AS_OF, true, List.of());
    }

    private static MachineSnapshot buys(String id, String item, String amount) {
        return new MachineSnapshot(id, "North", List.of("S-" + id), Standing.WATCH, null, null, AS_OF, true,
            List.of(planned("S-" + id, item, "2025-08-01", amount)));
    }

    @Test
    void machinesThatComeAndGo() {
        assertThat(words(null, machine(Standing.DUE, null, null, planned("2025-02-01", "87.50")))).containsExactly("new:  -> due 87.50");
        assertThat(words(machine(Standing.DUE, null, null, planned("2025-02-01", "87.50")), null))
            .containsExactly("gone: last seen 2024-10-07 -> not seen at all -87.50");
        MachineSnapshot silent = new MachineSnapshot("lt-1", "North", List.of("S1"), Standing.DUE, null, null, LocalDate.of(2024, 10, 7), false, List.of());
        assertThat(words(machine(Standing.DUE, null, null), silent)).containsExactly("not reported: last seen 2024-10-07 -> no report since");
        MachineSnapshot changed = new MachineSnapshot("LT-1", "North", List.of("S2"), Standing.WITHIN_RATING, 90.0, null, AS_OF, true, List.of());
        assertThat(words(machine(Standing.PAST_RATING, 20.0, null), changed)).as("the writes of another drive say nothing")
            .containsExactly("drive replaced: drive S1 -> drive S2", "eased: past rating -> within rating");
    }

    @Test
    void anEarlierSweepWithoutABudgetMovesNoMoney() {
        MachineSnapshot before = new MachineSnapshot("LT-1", "North", List.of("S1"), Standing.DUE, null, null, AS_OF, true, null);
        ComparedSweeps comparison = compare(before, machine(Standing.DUE, null, null, planned("2025-02-01", "87.50")));
        assertThat(comparison.differences()).isEmpty();
        assertThat(comparison.plannedBefore()).isNull();
        assertThat(comparison.plannedNow()).isEqualTo("87.50");
    }

    /** Better and worse go by the order of the standings; what had no verdict is news whatever it turns out to be. */
    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource({"PAST_RATING, DUE, EASED", "URGENT, DUE, EASED", "WATCH, DUE, NEWLY_DUE", "NO_VERDICT, DUE, NEWLY_DUE", "PAST_RATING, WATCH, EASED",
        "NO_VERDICT, WATCH, NEWLY_WATCH", "NO_VERDICT, PAST_RATING, NEWLY_PAST_RATING", "NO_VERDICT, URGENT, NEWLY_URGENT", "URGENT, WITHIN_RATING, EASED"})
    void betterOrWorse(Standing before, Standing now, SweepDifference.Kind kind) {
        assertThat(compare(machine(before, null, null), machine(now, null, null)).differences()).extracting(SweepDifference::kind).containsExactly(kind);
    }

    /** Before: one line of each drive. S1 has been replaced by S3, or is no more planned: the second line is as it was. */
    @Test
    void linesAreComparedDriveByDrive() {
        MachineSnapshot before = drives("S1, S2", planned("S1", "drive", "2024-12-01", "87.50"), planned("S2", "drive", "2025-06-01", "87.50"));
        assertThat(words(before, drives("S2, S3", planned("S2", "drive", "2025-06-01", "87.50"))))
            .containsExactly("drive replaced: drive S1, S2 -> drive S2, S3", "cost dropped: 2024-Q4: 87.50 -> not planned -87.50");
        assertThat(words(before, drives("S2, S3", planned("S3", "drive", "2025-03-01", "87.50"), planned("S2", "drive", "2025-08-01", "87.50"))))
            .as("a used drive took its place").containsExactly("drive replaced: drive S1, S2 -> drive S2, S3",
                "quarter moved: 2025-Q2, order by 2025-04-20 -> 2025-Q3: 87.50, order by 2025-06-20 0.00",
                "cost added: not planned -> 2025-Q1: 87.50 87.50", "cost dropped: 2024-Q4: 87.50 -> not planned -87.50");
        assertThat(words(before, drives("S1, S2", planned("S2", "drive", "2025-06-01", "87.50"), planned("S1", "drive", "2025-07-01", "87.50"))))
            .as("the drives' order changed").containsExactly("quarter moved: 2024-Q4, order by 2024-10-20 -> 2025-Q3: 87.50, order by 2025-05-20 0.00");
        assertThat(words(drives("S1, S2", planned("S1", "drive", "2025-03-01", "87.50")), drives("S1, S2", planned("S2", "drive", "2025-06-01", "87.50"))))
            .as("drives in sockets are bought each by itself").containsExactly("cost added: not planned -> 2025-Q2: 87.50 87.50", "cost dropped: 2025-Q1: 87.50 -> not planned -87.50");
    }

    /** The line of soldered drives names the one that presses most. */
    @Test
    void solderedDrivesAreOneReplacement() {
        MachineSnapshot before = drives("S1, S2", planned("S1", "board", "2025-03-01", "533.50"));
        assertThat(words(before, drives("S1, S2", planned("S2", "board", "2025-06-01", "533.50"))))
            .containsExactly("quarter moved: 2025-Q1, order by 2025-01-18 -> 2025-Q2: 533.50, order by 2025-04-20 0.00");
        assertThat(words(before, drives("S1, S2", planned("S2", "machine", "2025-03-01", "962.00"))))
            .containsExactly("item changed: board: 533.50 -> machine: 962.00 428.50");
        assertThat(words(before, drives("S3, S4", planned("S4", "board", "2025-03-01", "533.50")))).as("the board has been replaced")
            .containsExactly("drive replaced: drive S1, S2 -> drive S3, S4", "cost added: not planned -> 2025-Q1: 533.50 533.50",
                "cost dropped: 2025-Q1: 533.50 -> not planned -533.50");
    }

    private static MachineSnapshot drives(String serials, MachineSnapshot.Planned... planned) {
        return new MachineSnapshot("LT-1", "North", List.of(serials.split(", ")), Standing.WATCH, null, null, AS_OF, true, List.of(planned));
    }

    /** Machines gone, new, with several lines, priced then or now only, for another item, unchanged. */
    @Test
    void theChangesOfCostAddUpToThatOfTheWholePlan() {
        List<MachineSnapshot> before = List.of(buys("GONE", "machine", "962.00"), buys("GONE-UNPRICED", "board", null), buys("PRICED-NOW", "drive 512 GB", null),
            buys("PRICED-THEN", "drive 1 TB", "140.50"), buys("RISEN", "drive", "87.50"), buys("ITEM", "drive", "87.50"), buys("ITEM-UNPRICED", "machine", "962.00"), buys("SAME", "board", "533.50"),
            drives("S1, S2, S3", planned("S1", "drive", "2024-12-01", "87.50"), planned("S2", "drive", "2025-03-01", "87.50"), planned("S3", "drive 1 TB", "2025-03-01", "140.50")));
        List<MachineSnapshot> now = List.of(buys("NEW", "drive", "99.50"), buys("NEW-UNPRICED", "board X", null), buys("PRICED-NOW", "drive 512 GB", "106.50"),
            buys("PRICED-THEN", "drive 1 TB", null), buys("RISEN", "drive", "99.50"), buys("ITEM", "machine", "962.00"), buys("ITEM-UNPRICED", "board X", null), buys("SAME", "board", "533.50"),
            drives("S2, S3, S4", planned("S2", "drive", "2025-06-01", "99.50"), planned("S3", "drive 1 TB", "2025-03-01", null), planned("S4", "drive 512 GB", "2025-08-01", "106.50")));
        ComparedSweeps comparison = SweepComparison.between(new SweepSnapshot(before), new SweepSnapshot(now), "test", AS_OF, BudgetSettings.withDefaults());
        assertThat(comparison.differences()).filteredOn(change -> change.costDelta() != null)
            .extracting(change -> change.kind().label() + " " + (change.machineId() == null ? change.item() : change.machineId()) + " " + change.costDelta()).containsExactly(
                "gone GONE -962.00", "gone GONE-UNPRICED 0.00", "new NEW 99.50", "new NEW-UNPRICED 0.00", "quarter moved LT-1 0.00",
                "item changed ITEM 874.50", "item changed ITEM-UNPRICED -962.00",
                "price changed drive 24.00", "price changed drive 1 TB -281.00", "price changed drive 512 GB 106.50",
                "cost added LT-1 106.50", "cost dropped LT-1 -87.50");
        assertThat(comparison.plannedBefore()).isEqualTo("3088.50");
        assertThat(comparison.plannedNow()).isEqualTo("2007.00");
        assertThat(comparison.differences().stream().map(SweepDifference::costDelta).filter(Objects::nonNull).reduce(BigDecimal.ZERO, BigDecimal::add)).isEqualTo("-1081.50");
    }

    @Test
    void theTotalsOfBothPlansStandBesideTheChanges() {
        ComparedSweeps comparison = compare(machine(Standing.DUE, null, null, planned("2025-02-01", "87.50"), planned("2025-05-01", "533.50")),
            machine(Standing.DUE, null, null, planned("2025-02-01", "87.50")));
        assertThat(comparison.plannedBefore()).isEqualTo("621.00");
        assertThat(comparison.plannedNow()).isEqualTo("87.50");
    }

    @Test
    void machinesThatWereNeverSeenOrHadNoPlanComeAndGoWithoutMoney() {
        MachineSnapshot unseen = new MachineSnapshot("LT-1", "North", List.of(), Standing.NO_VERDICT, null, null, null, false, null);
        assertThat(words(unseen, null)).containsExactly("gone: never seen -> not seen at all");
        assertThat(words(null, machine(Standing.WATCH, null, null))).containsExactly("new:  -> watch");
        assertThat(words(machine(Standing.WATCH, null, null), null)).containsExactly("gone: last seen 2024-10-07 -> not seen at all");
    }

    @Test
    void theGravestChangeComesFirstThenByMachine() {
        List<MachineSnapshot> before = List.of(named("LT-1", Standing.WATCH), named("LT-2", Standing.WATCH), named("LT-3", Standing.WATCH));
        List<MachineSnapshot> now = List.of(named("LT-3", Standing.DUE), named("LT-2", Standing.URGENT), named("LT-1", Standing.DUE));
        assertThat(SweepComparison.between(new SweepSnapshot(before), new SweepSnapshot(now), "test", AS_OF, BudgetSettings.withDefaults()).differences()).extracting(SweepDifference::machineId)
            .containsExactly("LT-2", "LT-1", "LT-3");
    }

    private static MachineSnapshot named(String id, Standing standing) {
        return new MachineSnapshot(id, "North", List.of("S-" + id), standing, null, null, AS_OF, true, List.of());
    }

    /** What this sweep leaves for the next one to compare with: its most written drive, its memory, its lines. */
    @Test
    void aSnapshotHoldsWhatTheNextSweepComparesWith() {
        MachineAssessment seen = Fleets.machine("LT-1", written("S2", 12.5), written("S1", 40.0), written("S3", null));
        MachineAssessment unseen = Fleets.machine("LT-2", false);
        Machine bare = new Machine("LT-2", null, null, null, null, null, null, null);
        List<MachineAssessment> failing = List.of(Fleets.machine("lt-1", Fleets.drive("S1", Attachment.SOCKETED, Standing.URGENT, 5, new Projection.None("-"), null)));
        Budget budget = Budgets.of(failing, null, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(SweepComparison.snapshots(List.of(seen, new MachineAssessment(bare, Attachment.UNKNOWN, List.of(), unseen.standing(), "", null, false, null, null, true)), budget))
            .containsExactly(new MachineSnapshot("LT-1", "North", List.of("S1", "S2", "S3"), Standing.WITHIN_RATING, 40.0, 8.0, AS_OF, true,
                    List.of(new MachineSnapshot.Planned("S1", "drive 256 GB", AS_OF, AS_OF, true, new BigDecimal("87.50")))),
                new MachineSnapshot("LT-2", null, List.of(), Standing.NO_VERDICT, null, null, null, false, List.of()));
        Budget unpriced = Budgets.of(failing, null, List.of(), AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(SweepComparison.snapshots(List.of(seen), unpriced).get(0).planned())
            .containsExactly(new MachineSnapshot.Planned("S1", "drive 256 GB", AS_OF, AS_OF, true, null));
    }

    private static DriveAssessment written(String serial, Double gigabytesPerDay) {
        DriveAssessment d = Fleets.drive(serial, Attachment.SOCKETED, Standing.WITHIN_RATING, 50, new Projection.None("-"), null);
        return new DriveAssessment(d.id(), d.latest(), d.seen(),
            new DriveAssessment.Wear(d.wear().bytesWritten(), d.wear().endurance(), d.wear().consumedPercent(), null, null),
            new DriveAssessment.Pace(gigabytesPerDay, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), d.standing(), d.reason());
    }
}
