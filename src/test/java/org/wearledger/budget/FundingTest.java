package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.wearledger.budget.Fleets.AS_OF;
import static org.wearledger.budget.Fleets.drive;
import static org.wearledger.budget.Fleets.machine;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CentreFunding;
import org.wearledger.model.Decision;
import org.wearledger.model.Decisions;
import org.wearledger.model.Funding;
import org.wearledger.model.ItemOrder;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MoneySettings;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.Projection;
import org.wearledger.model.RefreshReason;
import org.wearledger.model.Repair;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

/** What the funding request is the sum of. A drive costs 87.50, a board 533.50, a machine 962.00; as of 2025-01-06. */
class FundingTest {
    private static final List<Function<Funding, BigDecimal>> PARTS = List.of(Funding::identified, Funding::refresh, Funding::further, Funding::machines, Funding::reserve, Funding::putOff, Funding::failures,
        Funding::stock, Funding::packs, Funding::warranty, Funding::vat, Funding::allMachines, Funding::plan, Funding::net);

    private static Budget budget(List<MachineAssessment> machines, List<Price> prices, List<Decision> decisions, BudgetSettings settings) {
        return Budgets.of(machines, Fleets.FLEET, new BudgetFacts(prices, Decisions.of(decisions, machines, AS_OF), Map.of(machines.get(0).activeDrives().get(0).id(), LocalDate.of(2025, 6, 30)), Map.of()), AS_OF,
            SweepSettings.withDefaults(), settings);
    }

    private static MachineAssessment past(String id, Attachment attachment) {
        return machine(id, drive("S-" + id, attachment, Standing.PAST_RATING, 120, new Projection.None("-"), null));
    }

    /** Whatever the prices and decisions are, quarters add up to years and years to the whole, and a line that leaves the plan takes its amount along. */
    @Test
    void twoHundredPriceListsAndDecisionsAddUpToTheCent() {
        Random random = new Random(7);
        List<MachineAssessment> machines = IntStream.range(0, 12).mapToObj(i -> i < 4 ? past("LT-" + i, i % 2 == 0 ? Attachment.SOLDERED : Attachment.SOCKETED)
            : machine("LT-" + i, drive("S" + i, i % 3 == 0 ? Attachment.UNKNOWN : i % 2 == 0 ? Attachment.SOLDERED : Attachment.SOCKETED, 0.1 + 0.06 * i))).toList();
        for (int run = 0; run < 200; run++) {
            List<Price> prices = List.of(price("drive 256 GB", random), price("board", random), price("machine", random));
            List<Decision> decisions = new ArrayList<>();
            for (int i = 0; i < 6; i++) {
                Decision.State state = Decision.State.values()[random.nextInt(Decision.State.values().length)];
                decisions.add(new Decision("LT-" + random.nextInt(12), state, AS_OF, state.hasEnd() ? AS_OF.plusDays(random.nextInt(900)) : null, null, cents(random, 900), null));
            }
            BudgetSettings settings = BudgetSettings.withDefaults().with(new MoneySettings(random.nextInt(101) / 100.0, BudgetSettings.RateSource.GIVEN, random.nextInt(101) / 100.0, 1 + random.nextInt(10),
                random.nextInt(101) / 100.0, random.nextInt(101) / 50.0, random.nextInt(26), null));
            Budget budget = budget(machines, prices, decisions, settings);
            List<Funding> quarters = fundings(budget, 0, 8);
            Funding whole = budget.quarters().get(10).funding();
            PARTS.forEach(part -> {
                assertThat(sum(quarters, part)).isEqualTo(part.apply(whole));
                assertThat(sum(fundings(budget, 8, 10), part)).isEqualTo(part.apply(whole));
            });
            assertThat(whole.request()).isEqualTo(whole.identified().add(whole.refresh()).add(whole.further()).add(whole.machines()).add(whole.reserve()).add(whole.putOff()).add(whole.failures()).subtract(whole.stock())
                .add(whole.packs()).subtract(whole.warranty()).add(whole.vat()).subtract(whole.relief()));
            assertThat(whole.request()).isEqualTo(sum(quarters, Funding::request).subtract(whole.relief())).isEqualTo(sum(fundings(budget, 8, 10), Funding::request));
            assertThat(whole.identified().add(whole.refresh())).isEqualTo(budget.lines().stream().filter(line -> line.boughtIn() != null && line.boughtIn().compareTo("2026-Q4") <= 0)
                .map(PlannedReplacement::amount).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add));
            budget.quarters().forEach(period -> assertThat(budget.centres().stream().filter(centre -> centre.period().equals(period.label())).map(CentreFunding::request)
                .reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add)).as("cost centres, " + period.label()).isEqualTo(period.toAskFor()));
            budget.quarters().stream().skip(8).filter(period -> period.funding().relief().signum() == 0).forEach(period -> budget.centres().stream().filter(centre -> centre.period().equals(period.label()))
                .forEach(sum -> assertThat(budget.centres().stream().filter(centre -> centre.centre().equals(sum.centre())).skip(period.first()).limit(period.quarters()).map(CentreFunding::request)
                    .reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add)).as(sum.centre() + ", quarters of " + period.label()).isEqualTo(sum.request())));
            assertThat(budget.orders().stream().mapToInt(ItemOrder::needed).sum()).isEqualTo(budget.quarters().get(10).named());
        }
    }

    private static List<Funding> fundings(Budget budget, int from, int until) {
        return budget.quarters().subList(from, until).stream().map(BudgetPeriod::funding).toList();
    }

    private static BigDecimal sum(List<Funding> each, Function<Funding, BigDecimal> part) {
        return each.stream().map(part).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }

    private static Price price(String item, Random random) {
        boolean foreign = !item.equals("board") && random.nextBoolean();
        return new Price(item, foreign ? "USD" : "EUR", cents(random, 1_000), cents(random, 90), cents(random, 9), null, null,
            new Price.Terms(foreign ? BigDecimal.valueOf(random.nextInt(20_000) + 1, 4) : null, 1 + random.nextInt(5), random.nextInt(4), random.nextBoolean() ? cents(random, 900) : null, random.nextInt(4), null, null));
    }

    private static BigDecimal cents(Random random, int most) {
        return BigDecimal.valueOf(random.nextInt(100 * most) + 1, 2);
    }

    /** Earlier the plan was the larger of lines and a frozen figure, so that nothing followed. */
    @ParameterizedTest(name = "{0}: named {1}, plan {2}, spent {3}")
    @CsvSource(nullValues = "-", value = {
        "-,        2, 621.00, -",
        "rejected, 1, 533.50, -",
        "ordered,  1, 533.50, 81.00",
        "claimed,  2, 621.00, -"})
    void whatIsDecidedChangesPlanAndRequest(String state, int named, String plan, String spent) {
        List<Decision> decisions = state == null ? List.of() : List.of(new Decision("LT-2", Decision.State.of(state).orElseThrow(), AS_OF, null, null, new BigDecimal("81.00"), "PO 7"));
        BudgetPeriod quarter = budget(List.of(past("LT-1", Attachment.SOLDERED), past("LT-2", Attachment.SOCKETED)), Fleets.PRICES, decisions, BudgetSettings.withDefaults()).quarters().get(0);
        assertThat(quarter.named()).isEqualTo(named);
        assertThat(quarter.plan()).isEqualTo(plan);
        assertThat(quarter.spent()).isEqualTo(spent == null ? null : new BigDecimal(spent));
    }

    /** Put off until the end of September, bought in the fourth quarter; meanwhile 1 % a year of 533.50 is at risk (5.34), or all of it where the drive reports failure; 85 days are 0.2327 years.
     * What was counted as a risk until October (0.7337 years) is not bought once more. */
    @ParameterizedTest(name = "{0}: {1}, {2}, {3}, {4}")
    @CsvSource({"PAST_RATING, 1.24, 1.33, 1.35, -3.91", "URGENT, 124.15, 132.89, 134.39, -391.43"})
    void whatIsDeferredMovesAndLeavesItsRiskBehind(Standing standing, String first, String second, String third, String fourth) {
        MachineAssessment machine = machine("LT-1", drive("S", Attachment.SOLDERED, standing, 120, new Projection.None("-"), null));
        Budget budget = budget(List.of(machine), Fleets.PRICES, List.of(deferred(LocalDate.of(2025, 9, 30))), BudgetSettings.withDefaults());
        assertThat(fundings(budget, 0, 4)).extracting(funding -> funding.plan().toPlainString()).containsExactly("0.00", "0.00", "0.00", "533.50");
        assertThat(fundings(budget, 0, 4)).extracting(funding -> funding.putOff().toPlainString()).containsExactly(first, second, third, fourth);
        assertThat(budget.lines().get(0).orderByOn()).as("when its quarter begins").isEqualTo("2025-10-01");
    }

    private static Decision deferred(LocalDate until) {
        return new Decision("LT-1", Decision.State.DEFERRED, AS_OF, until, null, null, null);
    }

    /** The maker pays half of 410.00 for a board whose warranty ends on 2025-06-30, if it is asked before. */
    @ParameterizedTest(name = "put off until {0}: {1}")
    @CsvSource({"2025-01-31, 205.00, 0.00", "2025-03-31, 0.00, 205.00", "2025-06-30, 0.00, 0.00"})
    void whatIsDeferredBeyondTheWarrantyRecoversNothing(LocalDate until, String first, String second) {
        Budget budget = budget(List.of(past("LT-1", Attachment.SOLDERED)), Fleets.PRICES, List.of(deferred(until)), BudgetSettings.withDefaults());
        assertThat(fundings(budget, 0, 3)).extracting(funding -> funding.warranty().toPlainString()).containsExactly(first, second, "0.00");
    }

    /** Nothing fails twice: an urgent drive that is refused is at risk for the year in which it fails for certain, 533.50 x the length of its four quarters. */
    @Test
    void theRiskOfWhatIsRefusedEndsWithTheYear() {
        MachineAssessment machine = machine("LT-1", drive("S", Attachment.SOLDERED, Standing.URGENT, 120, new Projection.None("-"), null));
        Budget budget = budget(List.of(machine), Fleets.PRICES, List.of(new Decision("LT-1", Decision.State.REJECTED, AS_OF, null, null, null, null)), BudgetSettings.withDefaults());
        assertThat(fundings(budget, 0, 8)).extracting(funding -> funding.putOff().toPlainString()).containsExactly("124.15", "132.89", "134.39", "134.39", "0.00", "0.00", "0.00", "0.00");
    }

    /** A board from stock is not bought, so that no maker pays for it. */
    @ParameterizedTest(name = "{0} in stock: {1}")
    @CsvSource({"0, 205.00", "1, 102.50", "2, 0.00"})
    void nothingIsRecoveredForWhatComesFromStock(int stock, String warranty) {
        Price board = new Price("board", "EUR", new BigDecimal("410.00"), new BigDecimal("120.00"), new BigDecimal("3.50"), null, null, new Price.Terms(null, 1, 0, null, stock, null, null));
        Budget budget = budget(List.of(past("LT-1", Attachment.SOLDERED), past("LT-2", Attachment.SOLDERED)), List.of(board, Fleets.PRICES.get(2)), List.of(), BudgetSettings.withDefaults());
        assertThat(budget.quarters().get(0).funding().warranty()).as("half of one claim").isEqualTo(warranty);
    }

    /** A thousand-gigabyte drive that no line buys leaves the request known; its price would only tell what random failures cost. */
    @Test
    void aPriceThatNoLineNeedsLeavesTheRequestComplete() {
        List<MachineAssessment> machines = List.of(past("LT-1", Attachment.SOLDERED), machine("LT-2", drive("S2", Attachment.SOCKETED, Standing.WITHIN_RATING, 1, new Projection.None("-"), null)));
        Budget budget = budget(machines, Fleets.PRICES.subList(1, 3), List.of(), BudgetSettings.withDefaults());
        assertThat(budget.items()).filteredOn(item -> item.price() == null).extracting(item -> item.item()).containsExactly("drive 256 GB");
        assertThat(budget.quarters().get(0).priced()).isTrue();
        assertThat(budget.quarters().get(0).contingencyForPrices()).as("a fifth of 962.00 less 533.50").isEqualTo("85.70");
    }

    @ParameterizedTest(name = "in service {0}, refresh on {1}, supported until {2}, board at {3}: {4}")
    @CsvSource(nullValues = "-", value = {
        "2022-03-01, -,          -,          410, -,              board",
        "2018-01-06, -,          -,          410, AGE,            machine",
        "2018-01-08, -,          -,          410, -,              board",
        "2022-03-01, 2025-01-06, -,          410, REFRESH_DATE,   machine",
        "2022-03-01, 2025-01-07, 2025-01-06, 410, SUPPORT_END,    machine",
        "2022-03-01, 2025-01-07, 2025-01-07, 410, -,              board",
        "2022-03-01, -,          -,          454, BOARD_TOO_DEAR, machine"})
    void aMachineThatIsNotWorthARepairIsReplaced(LocalDate inServiceOn, LocalDate refreshOn, LocalDate supportEndsOn, String board, RefreshReason reason, String item) {
        MachineAssessment m = past("LT-1", Attachment.SOLDERED);
        Machine machine = new Machine("LT-1", null, null, null, null, null, null, inServiceOn, null, null, refreshOn, supportEndsOn);
        MachineAssessment known = new MachineAssessment(machine, m.attachment(), m.activeDrives(), m.standing(), m.reason(), m.lastSeenAt(), true, null, null, true);
        Budget budget = budget(List.of(known), List.of(Fleets.price("board", board, "120.00", "3.50"), Fleets.PRICES.get(2)), List.of(), BudgetSettings.withDefaults());
        assertThat(budget.lines().get(0).repair().refresh()).isEqualTo(reason);
        assertThat(budget.lines().get(0).item()).isEqualTo(item);
        assertThat(budget.quarters().get(0).funding().refresh()).isEqualTo(reason == null ? "0.00" : "962.00");
        assertThat(budget.quarters().get(0).plan()).as("either way in the plan").isEqualTo(reason == null ? "533.50" : "962.00");
    }

    /** Five drives are needed: two from stock, the other three in packs of two at 39.00, or at 36.00 from four on. */
    @ParameterizedTest(name = "price break from {0}: {1} for packs and breaks")
    @CsvSource({"5, 39.00", "4, 27.00"})
    void stockIsTakenFirstThenWholePacks(int breakFrom, String packs) {
        List<MachineAssessment> machines = IntStream.range(0, 5).mapToObj(i -> past("LT-" + i, Attachment.SOCKETED)).toList();
        Price drive = new Price("drive 256 GB", "EUR", new BigDecimal("39.00"), new BigDecimal("45.00"), null, null, null, new Price.Terms(null, 2, breakFrom, new BigDecimal("36.00"), 2, null, null));
        Budget budget = budget(machines, List.of(drive), List.of(), BudgetSettings.withDefaults());
        assertThat(budget.orders().get(0)).isEqualTo(new ItemOrder("drive 256 GB", 0, 5, 2, 4, new BigDecimal("78.00"), new BigDecimal(packs)));
        assertThat(budget.quarters().get(0).funding().warranty()).as("half of one claim, of which two in five come from stock").isEqualTo("11.70");
    }

    @Test
    void theShareOfMachinesIsLearnedFromTenFitted() {
        List<Repair> repairs = IntStream.range(0, 10).mapToObj(i -> new Repair("R-" + i, "LT-1", null, null, AS_OF, Repair.Reason.DEAD_DRIVE, i < 3 ? "machine" : "Board Torvane 14", null)).toList();
        BudgetSettings settings = BudgetSettings.withDefaults();
        assertThat(Budgets.learned(settings, repairs, AS_OF).money().machineShare()).isEqualTo(0.3);
        assertThat(Budgets.learned(settings, repairs.subList(1, 10), AS_OF)).as("nine").isEqualTo(settings);
        assertThat(Budgets.learned(settings, repairs, AS_OF.minusDays(1))).as("before them").isEqualTo(settings);
    }

    @ParameterizedTest(name = "{0} from April: {1}")
    @CsvSource({"FY{end2}, FY25-Q4", "{start}/{end2}, 2024/25-Q4", "{start}, 2024-Q4"})
    void aFiscalYearIsNamedAsTheHouseNamesIt(String name, String label) {
        assertThat(new FiscalCalendar(4, name).of(AS_OF).label()).isEqualTo(label);
    }
}
