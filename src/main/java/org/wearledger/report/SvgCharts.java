package org.wearledger.report;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.StringWriter;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.TimeZone;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGraphics2D;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.DateAxis;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.Plot;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** What the pictures of pages share: greys, strokes, axes, and the way from a chart to an SVG. */
final class SvgCharts {
    /** On a phone 390 points wide a picture is shown at three quarters: its letters then are of 12 points. */
    static final int WIDTH = 480;
    static final Font FONT = new Font(Font.SANS_SERIF, Font.PLAIN, 16);
    static final Shape DOT = new Ellipse2D.Double(-4, -4, 8, 8);
    static final Shape BOX = new Rectangle2D.Double(-4, -4, 8, 8);
    static final BasicStroke SOLID = new BasicStroke(2);
    static final BasicStroke DASHED = dashes(8, 5);
    static final BasicStroke DOTTED = dashes(2, 4);
    private static final long SECONDS_PER_DAY = 86_400;

    private SvgCharts() {
    }

    private static BasicStroke dashes(float line, float gap) {
        return new BasicStroke(2, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 1, new float[] {line, gap}, 0);
    }

    /**
     * An {@code <svg>} element without width or height, so that it takes the room it is given.
     *
     * @param label what a screen reader says
     */
    static String svg(Plot plot, int height, String label) {
        JFreeChart chart = new JFreeChart(null, FONT, plot, true);
        chart.setBackgroundPaint(Color.WHITE);
        chart.setPadding(new RectangleInsets(6, 0, 0, 6));
        chart.getLegend().setItemFont(FONT);
        chart.getLegend().setPosition(RectangleEdge.BOTTOM);
        chart.getLegend().setBackgroundPaint(Color.WHITE);
        chart.getLegend().setFrame(BlockBorder.NONE);
        SVGGraphics2D graphics = new SVGGraphics2D(document());
        chart.draw(graphics, new Rectangle2D.Double(0, 0, WIDTH, height));
        Element root = graphics.getRoot();
        root.setAttribute("viewBox", "0 0 " + WIDTH + " " + height);
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

    /** Over time, with a dotted line at the date of the sweep. */
    static XYPlot overTime(NumberAxis values, LocalDate asOf) {
        DateAxis time = new DateAxis(null, TimeZone.getTimeZone(ZoneOffset.UTC), Locale.ROOT);
        time.setLabelFont(FONT);
        time.setTickLabelFont(FONT);
        // Room between the months, which would run into each other in other fonts than those measured.
        time.setTickLabelInsets(new RectangleInsets(2, 10, 2, 10));
        XYPlot plot = new XYPlot(null, time, values, null);
        plot.setBackgroundPaint(Color.WHITE);
        plot.setDomainGridlinePaint(Color.LIGHT_GRAY);
        plot.setRangeGridlinePaint(Color.LIGHT_GRAY);
        ValueMarker today = new ValueMarker(millis(asOf));
        today.setPaint(Color.DARK_GRAY);
        today.setStroke(DOTTED);
        plot.addDomainMarker(today);
        return plot;
    }

    static NumberAxis axis(String label, double top) {
        NumberAxis axis = new NumberAxis(label);
        axis.setLabelFont(FONT);
        axis.setTickLabelFont(FONT);
        axis.setRange(0, top);
        return axis;
    }

    static ValueMarker marker(double at, String label, BasicStroke stroke) {
        ValueMarker marker = new ValueMarker(at, Color.BLACK, stroke);
        marker.setLabel(label);
        marker.setLabelFont(FONT);
        marker.setLabelBackgroundColor(Color.WHITE);
        marker.setLabelAnchor(RectangleAnchor.TOP_LEFT);
        marker.setLabelTextAnchor(TextAnchor.BOTTOM_LEFT);
        return marker;
    }

    /** Black; nothing of a series without a value. */
    static void add(XYSeriesCollection all, XYLineAndShapeRenderer lines, XYSeries series, BasicStroke stroke, Shape shape, boolean filled) {
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

    static double millis(LocalDate day) {
        return 1000.0 * SECONDS_PER_DAY * day.toEpochDay();
    }
}
