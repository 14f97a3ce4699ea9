package org.wearledger.report;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.StringWriter;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Date;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGraphics2D;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.DateAxis;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.wearledger.model.BandPoint;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.MachineStory.DriveStory;

/** One drive's wear over time as an SVG: what was written, the controller's estimate, and where it goes; in greys. */
final class WearPicture {
    private static final int WIDTH = 640;
    private static final int HEIGHT = 400;
    private static final Font FONT = new Font(Font.SANS_SERIF, Font.PLAIN, 15);
    private static final Color BAND = new Color(0xC8, 0xC8, 0xC8);
    private static final Shape DOT = new Ellipse2D.Double(-4, -4, 8, 8);
    private static final Shape BOX = new Rectangle2D.Double(-4, -4, 8, 8);
    private static final BasicStroke SOLID = new BasicStroke(2);
    private static final BasicStroke DASHED = new BasicStroke(2, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 1, new float[] {8, 5}, 0);
    private static final BasicStroke DOTTED = new BasicStroke(2, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 1, new float[] {2, 4}, 0);
    private static final double LEAST_TOP_PERCENT = 110;

    private WearPicture() {
    }

    /**
     * @param label what a screen reader says
     * @return an {@code <svg>} element without width or height, so that it takes the room it is given
     */
    static String svg(DriveStory story, LocalDate asOf, String label) {
        JFreeChart chart = new JFreeChart(null, FONT, plot(story, asOf), true);
        chart.setBackgroundPaint(Color.WHITE);
        chart.setPadding(new RectangleInsets(6, 0, 0, 6));
        chart.getLegend().setItemFont(FONT);
        chart.getLegend().setPosition(RectangleEdge.BOTTOM);
        chart.getLegend().setBackgroundPaint(Color.WHITE);
        chart.getLegend().setFrame(org.jfree.chart.block.BlockBorder.NONE);
        SVGGraphics2D graphics = new SVGGraphics2D(document());
        chart.draw(graphics, new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
        Element root = graphics.getRoot();
        root.setAttribute("viewBox", "0 0 " + WIDTH + " " + HEIGHT);
        root.setAttribute("role", "img");
        root.setAttribute("aria-label", label);
        root.removeAttribute("width");
        root.removeAttribute("height");
        StringWriter out = new StringWriter();
        try {
            graphics.stream(root, out, false, false);
        } catch (IOException e) {
            throw new IllegalStateException("writing into memory cannot fail", e);
        }
        // The page is HTML: a declaration of XML or of a document type has no place in it.
        return out.toString().substring(out.toString().indexOf("<svg"));
    }

    private static Document document() {
        try {
            return DocumentBuilderFactory.newInstance().newDocumentBuilder().getDOMImplementation()
                .createDocument("http://www.w3.org/2000/svg", "svg", null);
        } catch (ParserConfigurationException e) {
            throw new IllegalStateException("the platform's own XML is missing", e);
        }
    }

    private static XYPlot plot(DriveStory story, LocalDate asOf) {
        DateAxis time = new DateAxis(null, TimeZone.getTimeZone(ZoneOffset.UTC), Locale.ROOT);
        time.setLabelFont(FONT);
        time.setTickLabelFont(FONT);
        // Room between the months, which would run into each other in other fonts than those measured.
        time.setTickLabelInsets(new RectangleInsets(2, 10, 2, 10));
        NumberAxis percent = new NumberAxis("% of rated endurance");
        percent.setLabelFont(FONT);
        percent.setTickLabelFont(FONT);
        percent.setRange(0, top(story));
        XYPlot plot = new XYPlot(null, time, percent, null);
        plot.setBackgroundPaint(Color.WHITE);
        plot.setDomainGridlinePaint(Color.LIGHT_GRAY);
        plot.setRangeGridlinePaint(Color.LIGHT_GRAY);
        measures(story, plot);
        band(story, plot);
        plot.addRangeMarker(marker(100, "rated endurance", DASHED));
        ValueMarker today = new ValueMarker(millis(asOf));
        today.setPaint(Color.DARK_GRAY);
        today.setStroke(DOTTED);
        plot.addDomainMarker(today);
        return plot;
    }

    private static double top(DriveStory story) {
        double written = story.drive().wear().consumedPercent() == null ? 0 : story.drive().wear().consumedPercent();
        double middle = story.band().isEmpty() ? 0 : story.band().get(story.band().size() - 1).middlePercent();
        return Math.max(LEAST_TOP_PERCENT, 1.15 * Math.max(written, middle));
    }

    private static ValueMarker marker(double at, String label, BasicStroke stroke) {
        ValueMarker marker = new ValueMarker(at, Color.BLACK, stroke);
        marker.setLabel(label);
        marker.setLabelFont(FONT);
        marker.setLabelBackgroundColor(Color.WHITE);
        marker.setLabelAnchor(RectangleAnchor.TOP_LEFT);
        marker.setLabelTextAnchor(TextAnchor.BOTTOM_LEFT);
        return marker;
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

    private static void add(XYSeriesCollection all, XYLineAndShapeRenderer lines, XYSeries series, BasicStroke stroke, Shape shape, boolean filled) {
        if (series.isEmpty()) {
            return;
        }
        int i = all.getSeriesCount();
        all.addSeries(series);
        lines.setSeriesPaint(i, Color.BLACK);
        lines.setSeriesStroke(i, stroke);
        lines.setSeriesShape(i, shape);
        lines.setSeriesShapesFilled(i, filled);
    }

    private static void band(DriveStory story, XYPlot plot) {
        List<BandPoint> band = story.band();
        if (band.isEmpty()) {
            return;
        }
        YIntervalSeries expected = new YIntervalSeries("expected, with 8 chances in 10 in grey");
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

    private static double millis(LocalDate day) {
        return Date.from(Instant.ofEpochSecond(day.toEpochDay() * 86_400)).getTime();
    }
}
