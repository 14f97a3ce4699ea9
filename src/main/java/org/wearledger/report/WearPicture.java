package org.wearledger.report;

import static org.wearledger.report.SvgCharts.*;

import java.awt.Color;
import java.time.LocalDate;
import java.util.List;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;
import org.wearledger.model.BandPoint;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.MachineStory.DriveStory;

/** One drive's wear over time as an SVG: what was written, the controller's estimate, and where it goes; in greys. */
final class WearPicture {
    private static final int HEIGHT = 340;
    private static final Color BAND = new Color(0xC8, 0xC8, 0xC8);
    private static final double LEAST_TOP_PERCENT = 115;

    private WearPicture() {
    }

    /** @param label what a screen reader says */
    static String svg(DriveStory story, List<BandPoint> band, LocalDate asOf, String label) {
        XYPlot plot = overTime(axis("% of rated endurance", top(story, band)), asOf);
        measures(story, plot);
        band(band, plot);
        plot.addRangeMarker(marker(100, "rated endurance", DASHED));
        SignSection.markWarning(story, plot);
        return SvgCharts.svg(plot, HEIGHT, label);
    }

    private static double top(DriveStory story, List<BandPoint> band) {
        double written = story.drive().wear().consumedPercent() == null ? 0 : story.drive().wear().consumedPercent();
        double middle = band.isEmpty() ? 0 : band.get(band.size() - 1).middlePercent();
        return Math.max(LEAST_TOP_PERCENT, 1.15 * Math.max(written, middle));
    }

    private static void measures(DriveStory story, XYPlot plot) {
        DriveAssessment drive = story.drive();
        XYSeries written = new XYSeries("written, % of rated");
        XYSeries controller = new XYSeries("percentage used, by the controller");
        for (HistoryPoint point : story.history().points()) {
            double at = point.reading().collectedAt().toEpochMilli();
            if (point.totalBytesWritten() != null && drive.wear().endurance() != null) {
                written.add(at, point.totalBytesWritten().doubleValue() / 1e10 / drive.wear().endurance().ratedTerabytesWritten().doubleValue());
            }
            if (point.reading().health().percentageUsed() != null) {
                controller.add(at, point.reading().health().percentageUsed());
            }
        }
        XYSeriesCollection measures = new XYSeriesCollection();
        XYLineAndShapeRenderer lines = new XYLineAndShapeRenderer(true, true);
        add(measures, lines, written, SOLID, DOT, true);
        add(measures, lines, controller, DOTTED, BOX, false);
        plot.setDataset(0, measures);
        plot.setRenderer(0, lines);
    }

    private static void band(List<BandPoint> band, XYPlot plot) {
        if (band.isEmpty()) {
            return;
        }
        YIntervalSeries expected = new YIntervalSeries("expected, 8 chances in 10 in grey");
        band.forEach(point -> expected.add(millis(point.on()), point.middlePercent(), point.lowPercent(), point.highPercent()));
        YIntervalSeriesCollection all = new YIntervalSeriesCollection();
        all.addSeries(expected);
        DeviationRenderer deviation = new DeviationRenderer(true, false);
        deviation.setSeriesPaint(0, Color.DARK_GRAY);
        deviation.setSeriesFillPaint(0, BAND);
        deviation.setSeriesStroke(0, DASHED);
        plot.setDataset(1, all);
        plot.setRenderer(1, deviation);
    }
}
