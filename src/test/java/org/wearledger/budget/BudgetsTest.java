package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.wearledger.budget.Fleets.AS_OF;
import static org.wearledger.budget.Fleets.drive;
import static org.wearledger.budget.Fleets.machine;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.FleetModel;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Ownership;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

class BudgetsTest {
    private static Budget budget(FleetModel fleet, MachineAssessment... machines) {
        return Budgets.of(List.of(machines), fleet, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
    }

    @Test
    void whatFailsOrIsPastIsNeededNow() {
        Budget budget = budget(Fleets.FLEET, machine("LT-1", drive("S1", Attachment.SOCKETED, Standing.URGENT, 5, new Projection.None("-"), null)),
            machine("LT-2", drive("S2", Attachment.SOLDERED, Standing.PAST_RATING, 120, new Projection.AlreadyPast(null, AS_OF), null)));
        assertThat(budget.lines()).extracting(PlannedReplacement::needOn).containsOnly(AS_OF);
        assertThat(budget.lines()).extracting(PlannedReplacement::orderByOn).containsOnly(AS_OF);
        assertThat(budget.lines()).extracting(PlannedReplacement::late).containsOnly(true);
        assertThat(budget.lines()).extracting(PlannedReplacement::replaces).containsExactly("socketed drive", "board, for its soldered drive");
        assertThat(budget.lines()).extracting(line -> line.amount().toPlainString()).containsExactly("87.50", "533.50");
        assertThat(budget.lines().get(1).upperItem()).isEqualTo("machine");
        assertThat(budget.lines().get(1).upperAmount()).isEqualTo("962.00");
        BudgetPeriod first = budget.quarters().get(0);
        assertThat(first.counts()).isEqualTo(new BudgetPeriod.Levels<>(2, 2, 2));
        assertThat(first.plan()).isEqualTo("621.00");
        assertThat(first.contingencyForWear()).isEqualTo("0.00");
        assertThat(first.contingencyForPrices()).as("a fifth of 428.50: the machine instead of the board").isEqualTo("85.70");
        assertThat(first.funding().allMachines()).as("the other four fifths").isEqualTo("342.80");
    }

    /** At 0.1 of the rating a quarter, 0.4 is reached after about four quarters; a soldered drive is planned for earlier. */
    @Test
    void theNeedDateIsThatOfTheStatedProbability() {
        Budget budget = budget(Fleets.NO_SHOCK, machine("LT-1", drive("S1", Attachment.SOCKETED, 0.4)), machine("LT-2", drive("S2", Attachment.SOLDERED, 0.4)));
        PlannedReplacement soldered = budget.lines().get(0);
        PlannedReplacement socketed = budget.lines().get(1);
        assertThat(soldered.attachment()).isEqualTo(Attachment.SOLDERED);
        assertThat(socketed.needOn()).isBetween(LocalDate.of(2025, 12, 1), LocalDate.of(2026, 3, 31)).isAfter(soldered.needOn().plusDays(30));
        CrossingCurve curve = new CrossingCurve(Fleets.NO_SHOCK, drive("S1", Attachment.SOCKETED, 0.4).outlook().ratingForecast().crossing());
        assertThat(curve.by(socketed.needOn())).isCloseTo(0.5, within(0.01));
        assertThat(curve.by(soldered.needOn())).isCloseTo(0.25, within(0.01));
        assertThat(socketed.orderByOn()).isEqualTo(socketed.needOn().minusDays(44));
        assertThat(socketed.probability()).isGreaterThan(0.5);
    }

    @Test
    void aNamedReplacementIsCountedOnceAndNoLaterThanPlanned() {
        Budget budget = budget(Fleets.FLEET, machine("LT-1", drive("S1", Attachment.SOCKETED, 0.4)));
        PlannedReplacement line = budget.lines().get(0);
        List<BudgetPeriod> quarters = budget.quarters().subList(0, 8);
        assertThat(quarters.stream().mapToDouble(BudgetPeriod::expected).sum()).isCloseTo(1, within(1e-3));
        quarters.stream().filter(quarter -> quarter.from().isAfter(line.needOn())).forEach(quarter -> assertThat(quarter.expected()).isZero());
        assertThat(budget.quarters().get(budget.quarters().size() - 1).counts()).isEqualTo(new BudgetPeriod.Levels<>(1, 1, 1));
    }

    @Test
    void sumsAddUpAndQuantilesDoNot() {
        List<MachineAssessment> machines = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            machines.add(machine("LT-" + i, drive("S" + i, i % 3 == 0 ? Attachment.SOLDERED : Attachment.SOCKETED, 0.2 + 0.01 * i)));
        }
        Budget budget = budget(Fleets.FLEET, machines.toArray(MachineAssessment[]::new));
        List<BudgetPeriod> quarters = budget.quarters().subList(0, 8);
        assertThat(budget.quarters()).extracting(BudgetPeriod::label).containsExactly("2025-Q1", "2025-Q2", "2025-Q3", "2025-Q4", "2026-Q1", "2026-Q2",
            "2026-Q3", "2026-Q4", "2025", "2026", "all 8 quarters");
        BudgetPeriod all = budget.quarters().get(10);
        assertThat(quarters.stream().map(BudgetPeriod::namedAmount).reduce(BigDecimal.ZERO, BigDecimal::add)).isEqualTo(all.namedAmount())
            .isEqualTo(budget.lines().stream().map(PlannedReplacement::amount).reduce(BigDecimal.ZERO, BigDecimal::add));
        assertThat(quarters.stream().map(quarter -> quarter.cost().expected()).reduce(BigDecimal.ZERO, BigDecimal::add)).isEqualTo(all.cost().expected());
        assertThat(budget.quarters().get(8).namedAmount().add(budget.quarters().get(9).namedAmount())).isEqualTo(all.namedAmount());
        assertThat(all.counts().p90()).as("the shock that all share").isGreaterThan(all.independentP90());
        assertThat(all.counts().p50()).isLessThan(all.counts().p80());
        assertThat(quarters.stream().mapToInt(quarter -> quarter.counts().p90()).sum()).isGreaterThan(all.counts().p90());
    }

    @Test
    void theOrderOfTheMachinesChangesNothing() {
        List<MachineAssessment> machines = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            machines.add(machine("LT-" + i, drive("S" + i, i % 2 == 0 ? Attachment.UNKNOWN : Attachment.SOCKETED, 0.1 + 0.03 * i)));
        }
        Budget expected = Budgets.of(machines, Fleets.FLEET, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        Collections.shuffle(machines, new Random(4));
        Budget shuffled = Budgets.of(machines, Fleets.FLEET, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(shuffled.lines()).isEqualTo(expected.lines());
        assertThat(shuffled.quarters().get(0).counts()).isEqualTo(expected.quarters().get(0).counts());
    }

    @Test
    void severalDrivesOfAMachineAreSeveralLinesUnlessTheyAreSolderedTogether() {
        Budget budget = budget(Fleets.FLEET, machine("LT-1", drive("S1", Attachment.SOCKETED, 0.2), drive("S2", Attachment.SOCKETED, 0.3)),
            machine("LT-2", drive("S3", Attachment.SOLDERED, 0.5), drive("S4", Attachment.SOLDERED, 0.2)));
        assertThat(budget.lines()).extracting(line -> line.machine().id() + " " + line.drive().serial())
            .containsExactlyInAnyOrder("LT-1 S1", "LT-1 S2", "LT-2 S4");
    }

    /** A report counts as of this sweep for 45 days; a later one that a rule set aside makes its figures stale, too. */
    @Test
    void aMachineThatDidNotReportStaysInThePlanWithStaleFigures() {
        MachineAssessment quiet = machine("LT-1", false, drive("S1", Attachment.SOCKETED, 0.1));
        assertThat(stale(quiet, AS_OF.plusDays(45))).isNull();
        assertThat(stale(quiet, AS_OF.plusDays(46))).isEqualTo("not reported this sweep");
        MachineAssessment aside = new MachineAssessment(quiet.machine(), Attachment.UNKNOWN, quiet.activeDrives(), quiet.standing(), "", quiet.lastSeenAt(), true,
            ProblemKind.SERIAL_PLACEHOLDER, null, true);
        assertThat(stale(aside, AS_OF)).isEqualTo("a later report arrived and was set aside (serial-placeholder)");
        MachineAssessment refused = new MachineAssessment(quiet.machine(), Attachment.UNKNOWN, quiet.activeDrives(), quiet.standing(), "", quiet.lastSeenAt(), false,
            null, null, true, "a record of it was refused (field-missing)", null, null, Ownership.OWN);
        assertThat(stale(refused, AS_OF.plusDays(46))).isEqualTo("no usable report this sweep, a record of it was refused (field-missing)");
        assertThat(budget(Fleets.FLEET, machine("LT-2")).machines()).as("the allowance covers one never seen, too").isEqualTo(1);
    }

    private static String stale(MachineAssessment machine, LocalDate asOf) {
        return Budgets.of(List.of(machine), Fleets.FLEET, Fleets.PRICES, asOf, SweepSettings.withDefaults(), BudgetSettings.withDefaults())
            .lines().get(0).staleBecause();
    }

    /** Prices with odd cents: 40 certain lines at 88.57 are 3,542.80 at every probability. */
    @Test
    void whatIsCertainIsExactToTheCent() {
        MachineAssessment[] machines = java.util.stream.IntStream.range(0, 40).mapToObj(i -> machine("LT-" + i,
            drive("S" + i, Attachment.SOCKETED, Standing.PAST_RATING, 120, new Projection.None("-"), null))).toArray(MachineAssessment[]::new);
        Budget budget = Budgets.of(List.of(machines), Fleets.FLEET, List.of(Fleets.price("drive 256 GB", "39.99", "45.05", "3.53")), AS_OF,
            SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(budget.quarters().get(0).cost().amounts()).isEqualTo(new BudgetPeriod.Levels<>(new BigDecimal("3542.80"), new BigDecimal("3542.80"),
            new BigDecimal("3542.80")));
        assertThat(budget.quarters().get(0).plan()).isEqualTo("3542.80");
    }

    @Test
    void aMachineIsPricedOnceHoweverManyOfItsDrivesMayTakeItAlong() {
        Budget budget = budget(Fleets.FLEET, machine("LT-1", past("S1", Attachment.UNKNOWN), past("S2", Attachment.UNKNOWN), past("S3", Attachment.UNKNOWN)));
        assertThat(budget.lines()).extracting(PlannedReplacement::upperItem).containsExactlyInAnyOrder("machine", "drive 256 GB", "drive 256 GB");
        assertThat(budget.quarters().get(0).dearerCost().amounts().p90()).isEqualTo("1137.00");
        Budget mixed = budget(Fleets.FLEET, machine("LT-1", past("S1", Attachment.SOLDERED), past("S2", Attachment.UNKNOWN)));
        assertThat(mixed.lines()).extracting(PlannedReplacement::upperItem).containsExactlyInAnyOrder("machine", "drive 256 GB");
    }

    private static org.wearledger.model.DriveAssessment past(String serial, Attachment attachment) {
        return drive(serial, attachment, Standing.PAST_RATING, 120, new Projection.None("-"), null);
    }

    @Test
    void ofSolderedDrivesTheEarliestDecidesOnTheStraightLineToo() {
        Budget budget = budget(null, machine("LT-1", line("S1", LocalDate.of(2025, 11, 2)), line("S2", LocalDate.of(2025, 8, 14))));
        assertThat(budget.lines()).extracting(PlannedReplacement::needOn).containsExactly(LocalDate.of(2025, 8, 14));
    }

    private static org.wearledger.model.DriveAssessment line(String serial, LocalDate day) {
        return drive(serial, Attachment.SOLDERED, Standing.WATCH, 90, new Projection.Reaches(day, "line", false), null);
    }

    /** 2 machines x 1 % a year x 85 days / 365.25 = 0.0047 (0.2327 years); mean cost (87.50 + 533.50) / 2 = 310.50. */
    @Test
    void theAllowanceIsMachinesTimesRateTimesMeanCost() {
        Budget budget = budget(Fleets.FLEET, machine("LT-1", drive("S1", Attachment.SOCKETED, 0.9)), machine("LT-2", drive("S2", Attachment.SOLDERED, 0.9)));
        assertThat(budget.quarters().get(0).years()).isEqualTo(0.2327);
        assertThat(budget.quarters().get(0).randomFailures()).isEqualTo(0.0047);
        assertThat(budget.quarters().get(0).allowance()).isEqualTo("1.46");
    }

    @Test
    void theStraightLineNamesReplacementsWithoutProbabilities() {
        Budget budget = budget(null, machine("LT-1", drive("S1", Attachment.SOCKETED, Standing.WATCH, 90,
            new Projection.Reaches(LocalDate.of(2025, 8, 20), "line", false), null)));
        assertThat(budget.lines()).extracting(PlannedReplacement::quarter).containsExactly("2025-Q3");
        assertThat(budget.quarters().get(2).cost()).isNull();
        assertThat(budget.quarters().get(2).plan()).isEqualTo("87.50");
        assertThat(budget.demand()).isEmpty();
    }

    @Test
    void anEmptyFleetAndOneWithoutPricesGetTheirBudgetToo() {
        Budget none = Budgets.of(List.of(), Fleets.FLEET, List.of(), AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(none.lines()).isEmpty();
        assertThat(none.quarters().get(0).toAskFor()).isEqualTo("0.00");
        Budget unpriced = Budgets.of(List.of(machine("LT-1", drive("S1", Attachment.SOCKETED, 0.1))), Fleets.FLEET, List.of(), AS_OF, SweepSettings.withDefaults(),
            BudgetSettings.withDefaults());
        assertThat(unpriced.lines()).singleElement().satisfies(line -> {
            assertThat(line.price()).isNull();
            assertThat(line.item()).isEqualTo("drive 256 GB");
            assertThat(line.amount()).isEqualTo("0.00");
        });
        assertThat(unpriced.demand().get(0).bought().p90()).as("in counts, so that a price can be filled in").isGreaterThan(0);
    }

    /** A price list without boards and machines: the plan is what its lines cost, no more. */
    @Test
    void withAPriceMissingThePlanIsItsLines() {
        List<MachineAssessment> machines = List.of(machine("LT-1", drive("S1", Attachment.SOCKETED, 0.3)), machine("LT-2", drive("S2", Attachment.SOLDERED, 0.3)),
            machine("LT-3", drive("S3", Attachment.SOCKETED, 0.5)));
        Budget budget = Budgets.of(machines, Fleets.FLEET, Fleets.PRICES.subList(0, 1), AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(budget.quarters()).allSatisfy(period -> {
            assertThat(period.priced()).isFalse();
            assertThat(period.plan()).isEqualTo(period.namedAmount());
            assertThat(period.contingencyForWear()).isNull();
            assertThat(period.contingencyForPrices()).isNull();
            assertThat(period.cap()).isNull();
            assertThat(period.toAskFor()).isEqualTo(period.plan().add(period.allowance()));
        });
        assertThat(budget.quarters().get(10).plan()).isEqualTo("175.00");
    }

    @Test
    void orderQuantitiesFollowTheCostsOfBeingShort() {
        BudgetSettings d = BudgetSettings.withDefaults();
        MachineAssessment[] machines = java.util.stream.IntStream.range(0, 40)
            .mapToObj(i -> machine("LT-" + i, drive("S" + i, Attachment.SOCKETED, 0.6))).toArray(MachineAssessment[]::new);
        Budget dear = Budgets.of(List.of(machines), Fleets.FLEET, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), new BudgetSettings(d.quarters(), 1, 14, 0.5, 0.25, 0.01,
            new BigDecimal("900"), new BigDecimal("100"), d.unplanned()));
        BudgetPeriod third = dear.quarters().get(2);
        assertThat(third.orderQuantity()).as("the quantile at 900 / (900 + 100)").isEqualTo(third.counts().p90());
        assertThat(dear.demand().stream().filter(row -> row.period().equals("2025-Q3"))).singleElement()
            .satisfies(row -> assertThat(row.orderQuantity()).isEqualTo(third.counts().p90()));
        assertThat(budget(Fleets.FLEET, machines).quarters().get(2).orderQuantity()).isNull();
    }

    /**
     * A drive at 87.50 and a board at 533.50 cross within the plan by themselves, each with a chance near 0.55: neither with 0.20, the
     * drive alone with 0.25, the board alone with 0.25, both with 0.30. Half the chance is reached at the board alone, whatever the
     * count of one costs on the mean.
     */
    @Test
    void quantilesOfTheCostAreThoseOfTheAmountsNotOfTheCount() {
        BudgetSettings d = BudgetSettings.withDefaults();
        Budget budget = Budgets.of(List.of(machine("LT-1", drive("S1", Attachment.SOCKETED, 0.7)), machine("LT-2", drive("S2", Attachment.SOLDERED, 0.7))),
            Fleets.NO_SHOCK, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(),
            new BudgetSettings(8, 1, 14, 0.99, 0.99, 0.01, null, null, d.unplanned()));
        BudgetPeriod all = budget.quarters().get(10);
        assertThat(budget.lines()).isEmpty();
        assertThat(all.expected() / 2).as("the chance of each").isBetween(0.5, 0.7);
        assertThat(all.counts()).isEqualTo(new BudgetPeriod.Levels<>(1, 2, 2));
        assertThat(all.cost().amounts().p50()).isCloseTo(new BigDecimal("533.50"), within(new BigDecimal("0.01")));
        assertThat(all.cost().amounts().p80()).isCloseTo(new BigDecimal("621.00"), within(new BigDecimal("0.01")));
    }

    /** Without a price the cost at each probability is told in counts, so that finance can fill the price in. */
    @Test
    void withoutAPriceTheNumbersBoughtAreThoseOfTheCount() {
        MachineAssessment[] machines = java.util.stream.IntStream.range(0, 4)
            .mapToObj(i -> machine("LT-" + i, drive("S" + i, Attachment.SOCKETED, Standing.PAST_RATING, 120, new Projection.None("-"), null)))
            .toArray(MachineAssessment[]::new);
        Budget budget = Budgets.of(List.of(machines), Fleets.FLEET, List.of(), AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(budget.quarters().get(0).cost()).isEqualTo(new BudgetPeriod.Cost(new BigDecimal("0.00"),
            new BudgetPeriod.Levels<>(new BigDecimal("0.00"), new BigDecimal("0.00"), new BigDecimal("0.00"))));
        assertThat(budget.demand().get(0).bought()).isEqualTo(new BudgetPeriod.Levels<>(4.0, 4.0, 4.0));
    }

    @ParameterizedTest(name = "{0} quarters from January, fiscal year from month {1}: {2}")
    @CsvSource(delimiter = '|', textBlock = """
        1 | 1 | 2025-Q1, the whole plan
        3 | 1 | 2025-Q1, 2025-Q2, 2025-Q3, 2025, Q1 to Q3, all 3 quarters
        4 | 1 | 2025-Q1, 2025-Q2, 2025-Q3, 2025-Q4, 2025, all 4 quarters
        2 | 4 | FY2025-Q4, FY2026-Q1, FY2025, Q4 only, FY2026, Q1 only, all 2 quarters
        """)
    void yearsThatArePlannedInPartSayWhichQuarters(int quarters, int startMonth, String labels) {
        BudgetSettings d = BudgetSettings.withDefaults();
        Budget budget = Budgets.of(List.of(machine("LT-1", drive("S1", Attachment.SOCKETED, 0.3))), Fleets.FLEET, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(),
            new BudgetSettings(quarters, startMonth, 14, 0.5, 0.25, 0.01, null, null, d.unplanned()));
        assertThat(budget.quarters().stream().map(BudgetPeriod::label).collect(java.util.stream.Collectors.joining(", "))).isEqualTo(labels);
    }

    @Test
    void linesOfOneDayAndStandingStandByMachineThenDrive() {
        Budget budget = budget(Fleets.FLEET, machine("LT-3", past("S3", Attachment.SOCKETED)), machine("LT-1", past("S4", Attachment.SOCKETED),
            past("S2", Attachment.SOCKETED)), machine("LT-2", past("S1", Attachment.UNKNOWN)));
        assertThat(budget.lines()).extracting(line -> line.machine().id() + " " + line.drive().serial() + ", " + line.replaces()).containsExactly(
            "LT-1 S2, socketed drive", "LT-1 S4, socketed drive", "LT-2 S1, drive, attachment not known", "LT-3 S3, socketed drive");
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        board          | board, for its soldered drive
        Board          | board, for its soldered drive
        BOARD torvane 14 | board, for its soldered drive
        Machine        | machine, for its soldered drive
        """)
    void whatIsReplacedDoesNotDependOnLetterCase(String item, String replaces) {
        Budget budget = Budgets.of(List.of(machine("LT-1", past("S1", Attachment.SOLDERED))), Fleets.FLEET, List.of(Fleets.price(item, "410", "0", "0")), AS_OF,
            SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(budget.lines()).extracting(line -> line.item() + ": " + line.replaces()).containsExactly(item + ": " + replaces);
    }

    @Test
    void anOrderQuantityNeedsBothCosts() {
        BudgetSettings d = BudgetSettings.withDefaults();
        Budget budget = Budgets.of(List.of(machine("LT-1", drive("S1", Attachment.SOCKETED, 0.3))), Fleets.FLEET, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(),
            new BudgetSettings(d.quarters(), 1, 14, 0.5, 0.25, 0.01, null, new BigDecimal("100"), d.unplanned()));
        assertThat(budget.quarters()).extracting(BudgetPeriod::orderQuantity).containsOnlyNulls();
    }
}
