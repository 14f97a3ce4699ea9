package org.wearledger.report;

import static org.wearledger.report.SvgCharts.*;

import java.awt.Color;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.SymbolAxis;
import org.jfree.chart.plot.CombinedDomainXYPlot;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.StandardXYBarPainter;
import org.jfree.chart.renderer.xy.XYBarRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYBarDataset;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.wearledger.model.TrendQuarter;

/** The fleet's wear by quarter as an SVG: above what its drives have consumed, below how many machines are past their rating. */
final class FleetTrendPicture {
    private static final DateTimeFormatter MONTH = DateTimeFormatter.ofPattern("MMM uuuu", Locale.ENGLISH);
    private static final int HEIGHT = 420;
    private static final int SHARE_OF_PERCENT = 5;
    private static final int SHARE_OF_MACHINES = 2;
    private static final double BAR_WIDTH = 0.5;
    private static final double ROOM_ABOVE = 1.15;
    private static final double LEAST_PERCENT = 10;

    private FleetTrendPicture() {
    }

    /** When a quarter was seen last. Example: {@code Mar 2024}. */
    static String name(TrendQuarter quarter, LocalDate asOf) {
        return MONTH.format(quarter.until().isAfter(asOf) ? asOf : quarter.until());
    }

    /** @param label what a screen reader says */
    static String svg(List<TrendQuarter> quarters, LocalDate asOf, String label) {
        SymbolAxis time = new SymbolAxis(null, quarters.stream().map(quarter -> name(quarter, asOf)).toArray(String[]::new));
        time.setTickLabelFont(FONT);
        time.setGridBandsVisible(false);
        CombinedDomainXYPlot plot = new CombinedDomainXYPlot(time);
        plot.setGap(16);
        plot.add(consumed(quarters), SHARE_OF_PERCENT);
        plot.add(machines(quarters), SHARE_OF_MACHINES);
        return SvgCharts.svg(plot, HEIGHT, label);
    }

    private static XYPlot consumed(List<TrendQuarter> quarters) {
        XYSeries worst = new XYSeries("worst tenth is above");
        XYSeries median = new XYSeries("median");
        for (int i = 0; i < quarters.size(); i++) {
            worst.add(i, quarters.get(i).ninetiethConsumedPercent());
            median.add(i, quarters.get(i).medianConsumedPercent());
        }
        XYSeriesCollection both = new XYSeriesCollection();
        XYLineAndShapeRenderer lines = new XYLineAndShapeRenderer(true, true);
        add(both, lines, worst, DASHED, BOX, false);
        add(both, lines, median, SOLID, DOT, true);
        XYPlot plot = new XYPlot(both, null, axis("% of rated", ROOM_ABOVE * Math.max(LEAST_PERCENT, worst.isEmpty() ? 0 : worst.getMaxY())), lines);
        return onWhite(plot);
    }

    private static XYPlot machines(List<TrendQuarter> quarters) {
        XYSeries past = new XYSeries("machines past rating");
        for (int i = 0; i < quarters.size(); i++) {
            past.add(i, quarters.get(i).machinesPastRating());
        }
        XYBarRenderer bars = new XYBarRenderer();
        bars.setBarPainter(new StandardXYBarPainter());
        bars.setShadowVisible(false);
        bars.setSeriesPaint(0, Color.GRAY);
        NumberAxis counts = axis("machines", Math.max(2, ROOM_ABOVE * past.getMaxY()));
        counts.setStandardTickUnits(NumberAxis.createIntegerTickUnits());
        return onWhite(new XYPlot(new XYBarDataset(new XYSeriesCollection(past), BAR_WIDTH), null, counts, bars));
    }

    private static XYPlot onWhite(XYPlot plot) {
        plot.setBackgroundPaint(Color.WHITE);
        plot.setRangeGridlinePaint(Color.LIGHT_GRAY);
        plot.setDomainGridlinesVisible(false);
        return plot;
    }
}
