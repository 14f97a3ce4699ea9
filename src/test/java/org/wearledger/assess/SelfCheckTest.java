package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.junit.jupiter.api.Test;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.Limits;
import org.wearledger.history.Sample;
import org.wearledger.model.Calibration;
import org.wearledger.model.Calibration.Check;
import org.wearledger.model.Calibration.Measure;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.Reading;

class SelfCheckTest {
    private static final int DRIVES = 120;
    private static final double UNITS_OF_100_TERABYTES = 1e14 / 512_000;
    private static final Limits LIMITS = new Limits(Instant.parse("2030-01-01T00:00:00Z"), null);

    private record Fleet(List<WearPast> pasts, Map<DriveId, SelfCheck.Controlled> controlled) {
        Calibration checked() {
            return SelfCheck.of(pasts, () -> controlled);
        }
    }

    /**
     * Drives rated 100 TB, drawn from the model and swept each quarter.
     *
     * @param laterFactor on all writes from the seventh sweep on
     * @param amplification of flash writes by host writes, growing by this factor a quarter
     */
    private static Fleet fleet(int quarters, double laterFactor, double amplification) {
        UniformRandomProvider random = new SplittableRandom(17)::nextLong;
        Fleet fleet = new Fleet(new ArrayList<>(), new HashMap<>());
        Endurance rated = new Endurance(BigDecimal.valueOf(100), false, null, null);
        for (int i = 0; i < DRIVES; i++) {
            double u = GammaDistribution.of(5, 1 / 0.06).createSampler(random).sample();
            double wear = 0.1;
            double flash = 0.2;
            List<Reading> readings = new ArrayList<>();
            String serial = String.format(Locale.ROOT, "S%04d", i);
            for (int q = 0; q < quarters; q++) {
                String on = LocalDate.of(2021, 1, 5).plusMonths(3L * q).toString();
                readings.add(Sample.at(on).serial(serial).units(Math.round(wear * UNITS_OF_100_TERABYTES)).used((int) Math.min(254, 100 * flash)).reading());
                double written = GammaDistribution.of(2.5, 1 / u).createSampler(random).sample() * (q >= 6 ? laterFactor : 1);
                wear += written;
                flash += 2 * written * Math.pow(amplification, q);
            }
            DriveHistory history = DriveHistories.build(readings.get(0).drive().id(), readings, LIMITS).history();
            fleet.pasts.add(WearPast.of(history, rated, null));
            fleet.controlled.put(history.id(), new SelfCheck.Controlled(history, rated, null));
        }
        return fleet;
    }

    private static Check check(Calibration calibration, Measure measure, int quarters) {
        return calibration.checks().stream().filter(check -> check.measure() == measure && check.quarters() == quarters).findFirst().orElseThrow();
    }

    @Test
    void onAFleetOfTheModelsOwnKindAllFourHold() {
        Calibration calibration = fleet(12, 1, 1).checked();
        assertThat(calibration.checks()).extracting(check -> check.measure() + " " + check.quarters()).containsExactly("WRITES 1", "WRITES 4", "CONTROLLER 1", "CONTROLLER 4");
        assertThat(calibration.checks()).extracting(check -> check.origins().size()).containsExactly(10, 7, 10, 7);
        assertThat(calibration.checks()).allSatisfy(check -> assertThat(check.holds()).as("%s", check).isTrue());
        assertThat(check(calibration, Measure.WRITES, 4).ranges()).isEqualTo(7 * DRIVES);
    }

    /** The fleet's work changes for good, once: a quarter ahead that is one bad sweep of fourteen, for a year ahead it is four of eleven. */
    @Test
    void aChangeOfWorkShowsInTheYearAndAfterItsOwnSweep() {
        Calibration calibration = fleet(16, 3, 1).checked();
        Check quarter = check(calibration, Measure.WRITES, 1);
        Check year = check(calibration, Measure.WRITES, 4);
        assertThat(quarter.share()).as("pooled over the sweeps it looks sound").isGreaterThan(0.85);
        assertThat(quarter.leastShare().orElseThrow()).as("but not after the one").isLessThan(0.6);
        assertThat(quarter.holds()).isFalse();
        assertThat(year.share()).isLessThan(0.7);
        assertThat(year.holds()).isFalse();
    }

    /** Writes that cost the flash ever more: the forecasts of writes hold, those of the controller's percentage must not be called so. */
    @Test
    void theControllersForecastsAreCheckedByThemselves() {
        Calibration calibration = fleet(12, 1, 1.15).checked();
        assertThat(check(calibration, Measure.WRITES, 4).holds()).isTrue();
        assertThat(check(calibration, Measure.CONTROLLER, 4).share()).isLessThan(check(calibration, Measure.WRITES, 4).share() - 0.1);
        assertThat(check(calibration, Measure.CONTROLLER, 4).holds()).isFalse();
    }

    @Test
    void aShortPastLeavesTheYearUnchecked() {
        Calibration five = fleet(5, 1, 1).checked();
        assertThat(check(five, Measure.WRITES, 1).isTold()).isTrue();
        assertThat(check(five, Measure.WRITES, 4).origins()).isEmpty();
        assertThat(SelfCheck.of(fleet(2, 1, 1).pasts, () -> {
            throw new AssertionError("no history is needed");
        }).checks()).isEmpty();
    }

    /** Without a controller's percentage nothing is said of one. */
    @Test
    void whatIsNotReportedIsNotListed() {
        assertThat(SelfCheck.of(BacktestTest.fleet(3, 40, 7), Map::of).checks()).extracting(Check::measure).containsExactly(Measure.WRITES, Measure.WRITES);
    }
}
