package org.wearledger.report;

import java.util.Locale;
import org.wearledger.model.BacktestCase;
import org.wearledger.model.BacktestReport.Coverage;
import org.wearledger.model.BacktestReport.Score;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.BacktestRun;

/** A backtest on one screen. */
public final class BacktestText {
    private static final int LEAST_CROSSINGS = 10;

    private BacktestText() {
    }

    /** Markdown that also reads well unrendered, ending with a line break. */
    public static String of(BacktestRun run) {
        BacktestReport report = run.report();
        MarkdownLines lines = new MarkdownLines();
        lines.title("Backtest of the forecasts");
        lines.bullet(report.origins() == 0 ? run.drives() == 0 ? "No forecast could be checked: no drive has both bytes written and a rating."
            : "No forecast could be checked. That needs drives seen again 1, 2, 4 or 8 quarters later, after two quarters of readings or more."
            : "Forecasts from " + Wording.count(report.origins(), "past sweep") + ", " + report.firstOrigin() + " to "
                + report.lastOrigin() + ", each with the readings up to it only, held against what came.");
        FileSum.sums(run.accounting()).forEach(lines::bullet);
        lines.bullet(String.format(Locale.ROOT, "drives with bytes written and a rating: %,d, of which %,d are forecast", run.drives(),
            run.drivesForecast()));
        if (!report.isEstablished()) {
            lines.bullet("Calibration is not established yet: at least " + BacktestReport.LEAST_ORIGINS
                + " past sweeps are needed, since drives of one sweep share what happened after it.");
        }
        lines.heading("90 % intervals of the pooled model");
        report.coverages().stream().filter(c -> c.method() == BacktestCase.Method.POOLED && c.level() == 0.9)
            .map(BacktestText::coverage).forEach(lines::bullet);
        lines.heading("Mean CRPS, in percent of the rating; smaller is better");
        report.scores().stream().map(BacktestText::crps).forEach(lines::bullet);
        lines.heading("Crossings of the rating, pooled model");
        report.scores().stream().filter(s -> s.method() == BacktestCase.Method.POOLED).map(BacktestText::crossings)
            .forEach(lines::bullet);
        lines.heading("How to read this");
        lines.bullet("A 90 % interval should contain about 90 of 100 later readings. Misses above are the costly ones: the drive "
            + "wore faster than foreseen.");
        lines.bullet("CRPS is the mean miss of the whole range, in percent of the rating: it rewards a range that is narrow and right. On steady fleets "
            + "with few sweeps a simpler method may score better, because the pooled model keeps its ranges wide enough for a change of use; it pays when "
            + "use changes. The Brier score is the mean squared miss of the chance of crossing; PIT is where in its range each reading fell, which should "
            + "be anywhere equally often.");
        if (report.scores().stream().filter(s -> s.method() == BacktestCase.Method.POOLED).mapToInt(Score::crossings).max().orElse(0) < LEAST_CROSSINGS) {
            lines.bullet("Fewer than " + LEAST_CROSSINGS + " drives crossed their rating: the chances of crossing have hardly been tested.");
        }
        lines.bullet("Drives of one sweep are not independent trials: the intervals in brackets come from drawing whole sweeps "
            + "anew.");
        lines.bullet("Wear is not failure: drives often fail for other causes. Back up always.");
        return lines.text();
    }

    private static String coverage(Coverage c) {
        return String.format(Locale.ROOT, "%s ahead: %,d of %,d contained, %.1f %%%s; %.1f %% wore slower, %.1f %% faster",
            Wording.count(c.horizonQuarters(), "quarter"), c.contained(), c.forecasts(), 100 * c.share(),
            c.coverage95() == null ? "" : String.format(Locale.ROOT, " (%.1f to %.1f)", 100 * c.coverage95().low(),
                100 * c.coverage95().high()), 100.0 * c.slower() / c.forecasts(), 100.0 * c.faster() / c.forecasts());
    }

    private static String crps(Score s) {
        return String.format(Locale.ROOT, "%s ahead, %s: %.4f", Wording.count(s.horizonQuarters(), "quarter"), s.method().label(),
            s.meanCrpsPercent());
    }

    private static String crossings(Score s) {
        return String.format(Locale.ROOT, "%s ahead: %d of %,d drives crossed, %.1f expected; Brier score %.5f",
            Wording.count(s.horizonQuarters(), "quarter"), s.crossings(), s.crossingForecasts(), s.expectedCrossings(), s.brier());
    }
}
