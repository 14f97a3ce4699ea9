package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.junit.jupiter.api.Test;
import org.wearledger.model.BacktestCase;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.DriveId;

class BacktestTest {
    /** Drives drawn from the model itself, swept on the first of each quarter from 2022 on. */
    static List<WearPast> fleet(long seed, int drives, int quarters) {
        UniformRandomProvider random = new SplittableRandom(seed)::nextLong;
        List<WearPast> fleet = new ArrayList<>();
        for (int i = 0; i < drives; i++) {
            double u = GammaDistribution.of(3, 1 / 0.06).createSampler(random).sample();
            long[] at = new long[quarters];
            double[] wear = new double[quarters];
            double total = 0.3;
            for (int q = 0; q < quarters; q++) {
                at[q] = LocalDate.of(2022, 1, 5).plusMonths(3L * q).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
                wear[q] = total;
                total += GammaDistribution.of(2.5, 1 / u).createSampler(random).sample();
            }
            fleet.add(new WearPast(new DriveId("KESTREL", "S" + i), null, at, wear, 1e-9, 0));
        }
        return fleet;
    }

    @Test
    void eachSweepForecastsWithItsOwnKnowledgeOnly() {
        List<WearPast> fleet = fleet(1, 30, 6);
        List<BacktestCase> all = Backtest.run(fleet, Backtest.HORIZONS);
        // The last quarter's readings thrown out of bounds: no forecast made before them may move.
        List<WearPast> changed = fleet.stream().map(p -> {
            double[] wear = p.wear().clone();
            wear[wear.length - 1] += 5;
            return new WearPast(p.id(), null, p.atMillis(), wear, 1e-9, 0);
        }).toList();
        int last = quarterOf(fleet.get(0).atMillis()[5]);
        assertThat(Backtest.run(changed, Backtest.HORIZONS).stream().filter(c -> c.originQuarter() + c.horizonQuarters() < last))
            .containsExactlyElementsOf(all.stream().filter(c -> c.originQuarter() + c.horizonQuarters() < last).toList());
        assertThat(all).extracting(BacktestCase::originQuarter).doesNotContain(last);
    }

    private static int quarterOf(long millis) {
        LocalDate on = LocalDate.ofInstant(Instant.ofEpochMilli(millis), ZoneOffset.UTC);
        return 4 * on.getYear() + (on.getMonthValue() - 1) / 3;
    }

    @Test
    void theOrderOfTheDrivesChangesNothing() {
        List<WearPast> fleet = new ArrayList<>(fleet(2, 40, 5));
        List<BacktestCase> expected = Backtest.run(fleet, Backtest.HORIZONS);
        Collections.shuffle(fleet, new Random(5));
        assertThat(Backtest.run(fleet, Backtest.HORIZONS)).isEqualTo(expected);
    }

    @Test
    void onAFleetOfTheModelsOwnKindIntervalsHoldAndBeatTheBaselines() {
        BacktestReport report = BacktestSummary.of(Backtest.run(fleet(3, 300, 10), Backtest.HORIZONS), 1);
        assertThat(report.origins()).isEqualTo(8);
        assertThat(report.isEstablished()).isTrue();
        assertThat(report.coverages().stream().filter(c -> c.method() == BacktestCase.Method.POOLED && c.level() == 0.9))
            .allSatisfy(c -> assertThat(c.share()).as("horizon %d", c.horizonQuarters()).isBetween(0.85, 0.99))
            .allSatisfy(c -> assertThat(c.contained() + c.slower() + c.faster()).isEqualTo(c.forecasts()));
        assertThat(coverage(report, BacktestCase.Method.DRIVE_ALONE)).isLessThan(0.8);
        assertThat(report.pitBins().stream().filter(b -> b.method() == BacktestCase.Method.POOLED && b.horizonQuarters() == 1)
            .mapToInt(BacktestReport.PitBin::forecasts).sum()).isEqualTo(8 * 300);
        assertThat(report.scores().stream().filter(s -> s.method() == BacktestCase.Method.POOLED && s.horizonQuarters() == 4))
            .singleElement().satisfies(s -> assertThat(s.crossings() / s.expectedCrossings()).isBetween(0.7, 1.3));
    }

    private static double coverage(BacktestReport report, BacktestCase.Method method) {
        return report.coverages().stream().filter(c -> c.method() == method && c.level() == 0.9 && c.horizonQuarters() == 4)
            .findFirst().orElseThrow().share();
    }

    @Test
    void tooShortAPastEstablishesNothing() {
        assertThat(Backtest.run(fleet(4, 10, 2), Backtest.HORIZONS)).isEmpty();
        assertThat(BacktestSummary.of(List.of(), 1).isEstablished()).isFalse();
    }

    @Test
    void aMissedSweepIsNoForecastForThatSweep() {
        List<WearPast> fleet = fleet(5, 1, 5);
        WearPast whole = fleet.get(0);
        int[] kept = {0, 1, 3, 4};
        WearPast gap = new WearPast(whole.id(), null, Arrays.stream(kept).mapToLong(i -> whole.atMillis()[i]).toArray(),
            Arrays.stream(kept).mapToDouble(i -> whole.wear()[i]).toArray(), 1e-9, 0);
        assertThat(Backtest.run(List.of(gap), List.of(1))).filteredOn(c -> c.method() == BacktestCase.Method.POOLED)
            .extracting(c -> c.originQuarter() - 4 * 2022).containsExactly(3);
    }

    /**
     * One drive at 0.5, 0.6, 0.8, 1.1, 1.5 of its rating, a mean quarter apart. After two readings its average is 0.1 a quarter, with
     * nothing known of the scatter (1 is assumed): 0.2 came, one deviation above, Phi(1) = 0.841345. After three, 0.15 and a scatter of
     * a third: 0.3 came, three deviations above, Phi(3) = 0.998650 (tables of the normal distribution); the 0.2 left to go lie one
     * deviation above, so that a crossing had a chance of 1 - Phi(1). Two quarters ahead the deviation is 0.05 sqrt(2), and
     * Phi(sqrt(2)) = (1 + erf(1)) / 2 = 0.921350.
     */
    @Test
    void theLifetimeAverageByHand() {
        long start = LocalDate.of(2022, 1, 5).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli();
        long[] at = java.util.stream.LongStream.range(0, 5).map(q -> start + q * 7_889_400_000L).toArray();
        List<BacktestCase> cases = Backtest.run(List.of(new WearPast(new DriveId("KESTREL", "S1"), null, at, new double[] {0.5, 0.6, 0.8, 1.1, 1.5}, 1e-9, 0)),
            List.of(1, 2)).stream().filter(c -> c.method() == BacktestCase.Method.LIFETIME_AVERAGE).toList();
        assertThat(cases).extracting(c -> c.originQuarter() - 4 * 2022 + "+" + c.horizonQuarters()).containsExactly("1+1", "1+2", "2+1", "2+2", "3+1");
        assertThat(cases.get(0).pit()).isCloseTo(0.841345, within(1e-6));
        assertThat(cases.get(2).pit()).isCloseTo(0.998650, within(1e-6));
        assertThat(cases.get(2).crossingProbability()).isCloseTo(1 - 0.841345, within(1e-6));
        assertThat(cases.get(3).crossingProbability()).isCloseTo(0.921350, within(1e-6));
        // 0.05 (3 (2 Phi(3) - 1) + 2 phi(3) - 1 / sqrt(pi)) with phi(3) = 0.004432.
        assertThat(cases.get(2).crps()).isCloseTo(0.121829, within(1e-6));
        assertThat(cases).extracting(BacktestCase::crossed).containsExactly(false, true, true, true, true);
        assertThat(cases).extracting(BacktestCase::wasBelow).containsExactly(true, true, true, true, false);
    }

    /** The first sweep knows no step of a drive that joined with it: the pooled model forecasts, the drive by itself cannot. */
    @Test
    void aDriveSeenOnceIsForecastByTheFleetAlone() {
        List<WearPast> fleet = new ArrayList<>(fleet(6, 5, 4));
        WearPast late = fleet.remove(0);
        fleet.add(new WearPast(late.id(), null, Arrays.copyOfRange(late.atMillis(), 1, 4), Arrays.copyOfRange(late.wear(), 1, 4), 1e-9, 0));
        assertThat(Backtest.run(fleet, List.of(1))).filteredOn(c -> c.originQuarter() == 4 * 2022 + 1).extracting(BacktestCase::method)
            .filteredOn(method -> method == BacktestCase.Method.DRIVE_ALONE).hasSize(4);
    }
}
