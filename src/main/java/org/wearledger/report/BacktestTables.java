package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.util.List;
import org.wearledger.model.BacktestReport.Coverage;
import org.wearledger.model.BacktestReport.PitBin;
import org.wearledger.model.BacktestReport.Reliability;
import org.wearledger.model.BacktestReport.Score;
import org.wearledger.model.BacktestReport;

/** The tables of a backtest. */
final class BacktestTables {
    private BacktestTables() {
    }

    /** In the order of the workbook's sheets. Each is a file under its name in small letters. */
    static List<Table<?>> of(BacktestReport report) {
        return List.of(coverage(report), scores(report), pit(report), reliability(report));
    }

    static Table<Coverage> coverage(BacktestReport report) {
        return new Table<>("Interval coverage", List.of(
            text("method", "Method", c -> c.method().label()),
            integer("horizonQuarters", "Horizon", "quarters", Coverage::horizonQuarters),
            decimal("statedPercent", "Stated level", "%", 0, c -> 100 * c.level()),
            integer("forecasts", "Forecasts", "", Coverage::forecasts),
            integer("contained", "Contained", "", Coverage::contained),
            decimal("containedPercent", "Contained", "%", 1, c -> 100 * c.share()),
            decimal("containedLow95Percent", "Contained, 95 % interval over sweeps, low", "%", 1,
                c -> c.coverage95() == null ? null : (Double) (100 * c.coverage95().low())),
            decimal("containedHigh95Percent", "Contained, 95 % interval over sweeps, high", "%", 1,
                c -> c.coverage95() == null ? null : (Double) (100 * c.coverage95().high())),
            decimal("slowerPercent", "Wore slower than the interval", "%", 1, c -> 100.0 * c.slower() / c.forecasts()),
            decimal("fasterPercent", "Wore faster than the interval (costly)", "%", 1, c -> 100.0 * c.faster() / c.forecasts())),
            report.coverages());
    }

    static Table<Score> scores(BacktestReport report) {
        return new Table<>("Scores", List.of(
            text("method", "Method", s -> s.method().label()),
            integer("horizonQuarters", "Horizon", "quarters", Score::horizonQuarters),
            integer("forecasts", "Forecasts", "", Score::forecasts),
            decimal("meanPit", "Mean PIT (0.5 if right)", "", 3, Score::meanPit),
            decimal("meanCrpsPercentOfRating", "Mean CRPS (smaller is better)", "% of rating", 4, Score::meanCrpsPercent),
            integer("crossingForecasts", "Forecasts of drives below the rating", "", Score::crossingForecasts),
            integer("crossings", "Crossed", "", Score::crossings),
            decimal("expectedCrossings", "Crossings expected", "", 1, Score::expectedCrossings),
            decimal("brier", "Brier score (smaller is better)", "", 5, Score::brier)), report.scores());
    }

    static Table<PitBin> pit(BacktestReport report) {
        return new Table<>("PIT", List.of(
            text("method", "Method", b -> b.method().label()),
            integer("horizonQuarters", "Horizon", "quarters", PitBin::horizonQuarters),
            text("pit", "PIT", PitBin::label),
            integer("forecasts", "Forecasts", "", PitBin::forecasts)), report.pitBins());
    }

    static Table<Reliability> reliability(BacktestReport report) {
        return new Table<>("Forecast reliability", List.of(
            text("method", "Method", r -> r.method().label()),
            integer("horizonQuarters", "Horizon", "quarters", Reliability::horizonQuarters),
            decimal("fromPercent", "Probability from", "%", 0, r -> 10.0 * r.tenth()),
            decimal("toPercent", "Probability to", "%", 0, r -> 10.0 * (r.tenth() + 1)),
            integer("forecasts", "Forecasts", "", Reliability::forecasts),
            decimal("meanProbabilityPercent", "Mean probability", "%", 1, r -> 100 * r.meanProbability()),
            integer("crossed", "Crossed", "", Reliability::crossed),
            decimal("crossedPercent", "Crossed", "%", 1, r -> 100.0 * r.crossed() / r.forecasts()),
            decimal("crossedLow95Percent", "Crossed, 95 % interval, low", "%", 1, r -> 100 * r.crossed95().low()),
            decimal("crossedHigh95Percent", "Crossed, 95 % interval, high", "%", 1, r -> 100 * r.crossed95().high())),
            report.reliabilities());
    }
}
