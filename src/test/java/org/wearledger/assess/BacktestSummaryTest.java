package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.model.BacktestCase;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.Interval;

/** Four forecasts over two sweeps, counted and scored by hand. */
class BacktestSummaryTest {
    private static final int AUTUMN_2023 = 4 * 2023 + 3;
    private final BacktestReport report = BacktestSummary.of(List.of(forecast(AUTUMN_2023, 0.02, 0.1, true, 0.05, false),
        forecast(AUTUMN_2023, 0.5, 0.2, true, 0.55, true), forecast(AUTUMN_2023 + 1, 0.97, 0.3, true, 0.58, false),
        forecast(AUTUMN_2023 + 1, 1, 0.4, false, 1, true)), 1);

    private static BacktestCase forecast(int origin, double pit, double crps, boolean below, double crossingProbability, boolean crossed) {
        return new BacktestCase(BacktestCase.Method.POOLED, origin, 1, pit, crps, below, crossingProbability, crossed);
    }

    @Test
    void sweepsAreNamedByTheirQuarter() {
        assertThat(report.origins()).isEqualTo(2);
        assertThat(report.firstOrigin()).isEqualTo("2023-Q4");
        assertThat(report.lastOrigin()).isEqualTo("2024-Q1");
    }

    /** Of the two sweeps one had its interval hold in one case of two, the other in none: drawn anew, from none to a half. */
    @Test
    void whatFellOutsideAnIntervalAndOnWhichSide() {
        assertThat(report.coverages()).containsExactly(
            new BacktestReport.Coverage(BacktestCase.Method.POOLED, 1, 0.5, 4, 1, 1, 2, new Interval(0, 0.5)),
            new BacktestReport.Coverage(BacktestCase.Method.POOLED, 1, 0.8, 4, 1, 1, 2, new Interval(0, 0.5)),
            new BacktestReport.Coverage(BacktestCase.Method.POOLED, 1, 0.9, 4, 1, 1, 2, new Interval(0, 0.5)));
    }

    @Test
    void oneSweepHasNoSpreadBetweenSweeps() {
        assertThat(BacktestSummary.of(List.of(forecast(AUTUMN_2023, 0.5, 0.2, true, 0.55, true)), 1).coverages())
            .extracting(BacktestReport.Coverage::coverage95).containsOnlyNulls();
    }

    /** Mean of 0.02, 0.5, 0.97, 1; Brier score (0.05^2 + 0.45^2 + 0.58^2) / 3 of the three drives that were below their rating. */
    @Test
    void scores() {
        assertThat(report.scores()).singleElement().satisfies(score -> {
            assertThat(score.forecasts()).isEqualTo(4);
            assertThat(score.meanPit()).isCloseTo(0.6225, within(1e-12));
            assertThat(score.meanCrpsPercent()).isCloseTo(25, within(1e-12));
            assertThat(score.crossingForecasts()).isEqualTo(3);
            assertThat(score.crossings()).isEqualTo(1);
            assertThat(score.expectedCrossings()).isCloseTo(1.18, within(1e-12));
            assertThat(score.brier()).isCloseTo(0.5414 / 3, within(1e-12));
        });
        assertThat(BacktestSummary.of(List.of(forecast(AUTUMN_2023, 0.5, 0.2, false, 1, true)), 1).scores().get(0).brier()).isNaN();
    }

    @Test
    void tenths() {
        assertThat(report.pitBins()).extracting(BacktestReport.PitBin::forecasts).containsExactly(1, 0, 0, 0, 0, 1, 0, 0, 0, 2);
    }

    /** Clopper and Pearson's interval by hand: for none of one from 0 to 0.975; for one of two from 1 - sqrt(0.975) to sqrt(0.975). */
    @Test
    void chancesByTenthsBesideWhatCame() {
        assertThat(report.reliabilities()).extracting(BacktestReport.Reliability::tenth).containsExactly(0, 5);
        assertThat(report.reliabilities()).extracting(BacktestReport.Reliability::forecasts).containsExactly(1, 2);
        assertThat(report.reliabilities()).extracting(BacktestReport.Reliability::crossed).containsExactly(0, 1);
        assertThat(report.reliabilities().get(0).crossed95()).satisfies(interval -> {
            assertThat(interval.low()).isZero();
            assertThat(interval.high()).isCloseTo(0.975, within(1e-9));
        });
        assertThat(report.reliabilities().get(1).crossed95()).satisfies(interval -> {
            assertThat(interval.low()).isCloseTo(1 - Math.sqrt(0.975), within(1e-9));
            assertThat(interval.high()).isCloseTo(Math.sqrt(0.975), within(1e-9));
        });
        assertThat(report.reliabilities().get(1).meanProbability()).isCloseTo(0.565, within(1e-12));
    }
}
