package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.wearledger.budget.BudgetFacts;
import org.wearledger.budget.Budgets;
import org.wearledger.history.Sample;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Price;
import org.wearledger.model.Rating;
import org.wearledger.model.SweepSettings;

/**
 * Does the funding request suffice in four of five quarters? Fleets of 60 to 300 machines follow rules of their own; half of their drives are soldered. The
 * house follows its plan: a drive is replaced on the day planned, or when it crosses if that comes first. Then chance decides what the settings only assume:
 * which boards turn out to be machines, which machines fail without wear, which claims are met. The reserve allows for the number of worn drives alone, so
 * each quarter is looked at twice: with these three at their mean, and as chance has them. Of a fleet eight quarters count.
 */
class RealisedCostTest {
    private static final Ratings RATINGS = Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500), BigDecimal.valueOf((long) Scenario.RATED), null, "data sheet", null)));
    private static final BudgetSettings SETTINGS = BudgetSettings.withDefaults();
    private static final double HALF_A_CENT_EACH = 0.005;
    private static final Price DRIVE = price("drive", "39.00", "45.00");
    private static final Price BOARD = price("board", "410.00", "120.00");
    private static final Price MACHINE = price("machine", "890.00", "60.00");

    private static Price price(String item, String unitPrice, String labour) {
        return new Price(item, "EUR", new BigDecimal(unitPrice), new BigDecimal(labour), BigDecimal.ZERO, null, null);
    }

    /** @param crossesOn not before the as-of date; {@code null} when it never does */
    private record Truth(MachineAssessment machine, LocalDate crossesOn) {
        DriveId drive() {
            return machine.activeDrives().get(0).id();
        }

        boolean isSoldered() {
            return machine.attachment() == Attachment.SOLDERED;
        }

        Price item() {
            return isSoldered() ? BOARD : DRIVE;
        }

        /** A board that turns out to be a machine with the share assumed. */
        double meanCost() {
            double dearer = isSoldered() ? MACHINE.costOfOne().subtract(BOARD.costOfOne()).doubleValue() : 0;
            return item().costOfOne().doubleValue() + SETTINGS.money().machineShare() * dearer;
        }

        /** By the plan, or when it crosses before. */
        LocalDate replacedOn(PlannedReplacement line) {
            return line == null || crossesOn != null && crossesOn.isBefore(line.needOn()) ? crossesOn : line.needOn();
        }
    }

    /** Fleets of which the quarter cost no more than was asked for, by quarter; what was asked for and what it cost, of all fleets together. */
    private static final class Tally {
        private final int fleets;
        private final int[] withinAtMean = new int[SETTINGS.quarters()];
        private final int[] within = new int[SETTINGS.quarters()];
        private final double[] asked = new double[SETTINGS.quarters()];
        private final double[] cost = new double[SETTINGS.quarters()];

        Tally(int fleets) {
            this.fleets = fleets;
            IntStream.range(0, fleets).forEach(this::add);
            for (int quarter = 0; quarter < within.length; quarter++) {
                System.getLogger("calibration").log(System.Logger.Level.INFO, String.format(Locale.ROOT, "quarter %d: of %d fleets %2d within the request, %2d by chance; asked for %.0f, cost %.0f",
                    quarter + 1, fleets, withinAtMean[quarter], within[quarter], asked[quarter] / fleets, cost[quarter] / fleets));
            }
        }

        double shareAtMean() {
            return Arrays.stream(withinAtMean).sum() / (double) (fleets * within.length);
        }

        double share() {
            return Arrays.stream(within).sum() / (double) (fleets * within.length);
        }

        private void add(int number) {
            SplittableRandom random = new SplittableRandom(22_000 + number);
            Scenario scenario = Scenarios.ALL.get(number % Scenarios.ALL.size());
            List<Scenario.Seen> seen = scenario.draw(random.nextLong(), 60 + random.nextInt(241));
            List<DriveAssessor> assessors = seen.stream().map(drive -> new DriveAssessor(drive.history(), RATINGS, drive.inServiceOn() != null, drive.inServiceOn())).toList();
            List<WearPast> pasts = assessors.stream().map(DriveAssessor::past).filter(Objects::nonNull).toList();
            WearModel model = WearModel.of(pasts);
            List<Truth> fleet = IntStream.range(0, seen.size()).mapToObj(i -> truth(assessors.get(i).assess(model, Scenario.AS_OF, SweepSettings.withDefaults()), seen.get(i).crossedAfter(), i)).toList();
            compare(fleet, model.summary(CommonShock.of(pasts.stream().filter(past -> !past.byPercentage()).toList())), random);
        }

        private void compare(List<Truth> fleet, FleetModel model, SplittableRandom random) {
            Map<DriveId, LocalDate> claims = fleet.stream().filter(one -> Scenario.AS_OF.equals(one.crossesOn) && random.nextInt(4) == 0).collect(Collectors.toMap(Truth::drive, one -> LocalDate.MAX));
            Budget budget = Budgets.of(fleet.stream().map(Truth::machine).toList(), model, new BudgetFacts(List.of(DRIVE, BOARD, MACHINE), Decisions.none(), claims, Map.of()),
                Scenario.AS_OF, SweepSettings.withDefaults(), SETTINGS);
            Map<DriveId, PlannedReplacement> lines = budget.lines().stream().collect(Collectors.toMap(PlannedReplacement::drive, line -> line));
            for (int quarter = 0; quarter < within.length; quarter++) {
                BudgetPeriod period = budget.quarters().get(quarter);
                double request = period.funding().request().doubleValue();
                double atMean = period.funding().failures().doubleValue();
                double real = 0;
                for (Truth one : fleet) {
                    LocalDate day = one.replacedOn(lines.get(one.drive()));
                    if (day != null && !day.isBefore(period.from()) && !day.isAfter(period.until())) {
                        double claimed = claims.containsKey(one.drive()) ? one.item().costOfUnit().doubleValue() : 0;
                        atMean += one.meanCost() - SETTINGS.money().warrantyShare() * claimed;
                        real += cost(one, random) - (random.nextDouble() < SETTINGS.money().warrantyShare() ? claimed : 0);
                    }
                    real += random.nextDouble() < SETTINGS.failuresPerMachineYear() * period.years() ? cost(one, random) : 0;
                }
                withinAtMean[quarter] += atMean <= request + HALF_A_CENT_EACH * fleet.size() ? 1 : 0;
                within[quarter] += real <= request ? 1 : 0;
                asked[quarter] += request;
                cost[quarter] += real;
            }
        }

        private static double cost(Truth one, SplittableRandom random) {
            return (one.isSoldered() && random.nextDouble() < SETTINGS.money().machineShare() ? MACHINE : one.item()).costOfOne().doubleValue();
        }
    }

    private static Truth truth(DriveAssessment drive, double crossedAfter, int number) {
        LocalDate crossesOn = Double.isInfinite(crossedAfter) ? null
            : LocalDate.ofInstant(drive.latest().collectedAt().plusMillis(Math.round(crossedAfter * WearPast.MILLIS_PER_QUARTER)), ZoneOffset.UTC);
        Machine machine = new Machine("PC-" + number, null, null, null, null, null, null, null);
        return new Truth(new MachineAssessment(machine, number % 2 == 0 ? Attachment.SOLDERED : Attachment.SOCKETED, List.of(drive), drive.standing(), "-", drive.latest().collectedAt(), true,
            null, null, true), crossesOn != null && crossesOn.isBefore(Scenario.AS_OF) ? Scenario.AS_OF : crossesOn);
    }

    /** Of 64 quarters a share of 0.8 has a standard deviation of 0.05. */
    @Test
    void theRequestSufficesInAboutFourOfFiveQuarters() {
        assertThat(new Tally(8).shareAtMean()).isBetween(0.65, 0.95);
    }

    @Tag("thorough")
    @Test
    void soItDoesInFortyFleets() {
        Tally tally = new Tally(40);
        assertThat(tally.shareAtMean()).isBetween(0.72, 0.90);
        assertThat(tally.share()).as("as chance has it").isBetween(0.72, 0.90);
    }
}
