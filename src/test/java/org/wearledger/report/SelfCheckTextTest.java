package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.BacktestRun;
import org.wearledger.model.Calibration;
import org.wearledger.model.Calibration.Check;
import org.wearledger.model.Calibration.Measure;
import org.wearledger.model.Calibration.Origin;

class SelfCheckTextTest {
    /** So many sweeps of as many ranges each, of which together {@code held} held, the later ones first. */
    static Check check(Measure measure, int quarters, int sweeps, int ranges, int held) {
        List<Origin> origins = new ArrayList<>();
        int left = held;
        for (int i = 0; i < sweeps; i++) {
            int own = Math.min(ranges, (left + sweeps - i - 1) / (sweeps - i));
            left -= own;
            origins.add(new Origin(ranges, own));
        }
        return new Check(measure, quarters, origins);
    }

    private static String text(Check... checks) {
        return SelfCheckText.of(new Calibration(List.of(checks)), 0);
    }

    @Test
    void whatHoldsAQuarterAheadNeedNotHoldForAYear() {
        assertThat(SelfCheckText.of(new Calibration(List.of(check(Measure.WRITES, 1, 8, 50, 368), check(Measure.WRITES, 4, 7, 50, 161),
            check(Measure.CONTROLLER, 1, 8, 50, 376), check(Measure.CONTROLLER, 4, 2, 50, 48))), 263)).isEqualTo(
            "Self-check on this fleet's own past, where 90 of 100 ranges should hold: writes 1 quarter ahead 92 % (of 400, from 8 sweeps); "
                + "writes 4 quarters ahead 46 % (of 350, from 7 sweeps); the controller's percentage 1 quarter ahead 94 % (of 400, from 8 sweeps). "
                + "These hold: writes 1 quarter ahead, the controller's percentage 1 quarter ahead. These are too narrow, so allow for more: writes 4 quarters ahead. "
                + "These cannot be checked yet: the controller's percentage 4 quarters ahead. 263 machines have a drive that was seen only once, and cannot be checked.");
    }

    /** Nine in ten on the whole, and after one sweep not even half. */
    @Test
    void oneSweepThatFailedIsNotAveragedAway() {
        List<Origin> origins = new ArrayList<>(check(Measure.WRITES, 1, 8, 50, 392).origins());
        origins.add(new Origin(50, 20));
        assertThat(text(new Check(Measure.WRITES, 1, origins))).isEqualTo("Self-check on this fleet's own past, where 90 of 100 ranges should hold: "
            + "writes 1 quarter ahead 92 % (of 450, from 9 sweeps, at worst 40 %). These are too narrow, so allow for more: writes 1 quarter ahead.");
        assertThat(new Check(Measure.WRITES, 1, List.of(new Origin(19, 0), new Origin(20, 18), new Origin(20, 20))).leastShare())
            .as("of few ranges nothing is said").hasValue(0.9);
    }

    /** From six past sweeps on, as in a backtest. */
    @Test
    void calibrationIsEstablishedWhereABacktestSaysSo() {
        assertThat(text()).isEqualTo("Calibration is not established yet: 0 past sweeps to forecast from, at least 6 are needed. Take dates and probabilities as provisional.");
        assertThat(text(check(Measure.WRITES, 1, 2, 50, 91), check(Measure.WRITES, 4, 0, 0, 0))).isEqualTo(
            "Calibration is not established yet: 2 past sweeps to forecast from, at least 6 are needed. Take dates and probabilities as provisional.");
        assertThat(text(check(Measure.WRITES, 1, 5, 20, 91))).endsWith("Shares from fewer than 6 past sweeps are an early sign only: calibration is not established yet.");
        assertThat(text(check(Measure.WRITES, 1, 6, 20, 109))).endsWith("91 % (of 120, from 6 sweeps, at worst 90 %). These hold: writes 1 quarter ahead.");
        assertThat(text(check(Measure.WRITES, 1, 6, 20, 118))).endsWith("These are wider than need be: writes 1 quarter ahead.");
    }

    /** Eight quarters are no help when no drive comes back. */
    @Test
    void aBacktestWithoutForecastsSaysWhy() {
        assertThat(backtest(12)).contains("- No forecast could be checked. That needs drives seen again 1, 2, 4 or 8 quarters later, after two quarters of readings or more.\n");
        assertThat(backtest(0)).contains("- No forecast could be checked: no drive has both bytes written and a rating.\n");
    }

    private static String backtest(long drives) {
        return BacktestText.of(new BacktestRun("1", Sweeps.small().accounting(), drives, (int) drives,
            new BacktestReport(0, "", "", List.of(), List.of(), List.of(), List.of()), List.of())).replace("\n  ", " ");
    }
}
