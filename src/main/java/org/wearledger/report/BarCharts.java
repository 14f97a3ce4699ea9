package org.wearledger.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xddf.usermodel.XDDFColor;
import org.apache.poi.xddf.usermodel.XDDFSolidFillProperties;
import org.apache.poi.xddf.usermodel.chart.AxisCrosses;
import org.apache.poi.xddf.usermodel.chart.AxisPosition;
import org.apache.poi.xddf.usermodel.chart.BarDirection;
import org.apache.poi.xddf.usermodel.chart.BarGrouping;
import org.apache.poi.xddf.usermodel.chart.ChartTypes;
import org.apache.poi.xddf.usermodel.chart.LegendPosition;
import org.apache.poi.xddf.usermodel.chart.XDDFBarChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryAxis;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFDataSourcesFactory;
import org.apache.poi.xddf.usermodel.chart.XDDFNumericalDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFValueAxis;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.apache.poi.xssf.usermodel.XSSFChart;
import org.apache.poi.xssf.usermodel.XSSFColor;
import org.apache.poi.xssf.usermodel.XSSFDrawing;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.apache.xmlbeans.XmlCursor;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTBarChart;

/**
 * Native bar charts in one hue, and a sheet with the figures they are drawn from. A chart stands beside its figures, or where it is read. Amounts to be added are stacked; what is uncertain is
 * one bar with a line over its range, for bars side by side read as so many amounts.
 */
final class BarCharts {
    /**
     * One value for each category.
     *
     * @param formulas that give the values, so that the picture follows the figures; empty for fixed values
     */
    record Series(String name, Double[] values, List<String> formulas) {
        Series(String name, Double[] values) {
            this(name, values, List.of());
        }
    }

    /** A rectangle of cells, from 0. */
    record Spot(String sheet, int column, int row, int columns, int rows) {
    }

    private record Titles(String chart, String categories, String values) {
    }

    private static final XSSFColor[] HUES = {Styles.DARK, Styles.MIDDLE, Styles.LIGHT};
    private static final int HEADING_ROWS = 1;
    /** Of a range: behind names, typical, low and high. */
    private static final int DOWN_COLUMN = 4;
    /** One column is left free between figures and pictures. */
    private static final int CHART_COLUMN = 8;
    private static final int CHART_WIDTH = 9;
    private static final int ROWS_PER_CHART = 24;
    private static final String FULL_OVERLAP = "100";

    private final XSSFWorkbook workbook;
    private final String name;
    private final SheetWriter figures;
    private Spot spot;
    private int nextRow;

    BarCharts(SXSSFWorkbook workbook, String name, Styles styles) {
        figures = new SheetWriter(workbook.createSheet(name), styles);
        figures.columnWidths(34, 16, 16, 16, 16, 16, 16, 4);
        figures.printOnOnePage();
        this.workbook = workbook.getXSSFWorkbook();
        this.name = name;
    }

    /** The next chart stands there. */
    BarCharts at(Spot next) {
        spot = next;
        return this;
    }

    /** Series side by side, to be compared. */
    void compared(String title, String categoryTitle, String valueTitle, List<String> categories, List<Series> series) {
        if (!categories.isEmpty() && !series.isEmpty()) {
            int first = figures(categoryTitle, categories, series);
            draw(new Titles(title, categoryTitle, valueTitle), categories, series, BarGrouping.CLUSTERED, null, first);
        }
    }

    /** Parts on top of each other, and as a hollow one what may come beyond them. */
    void stacked(String title, String categoryTitle, String valueTitle, List<String> categories, List<Series> parts, Series beyond) {
        List<Series> series = new ArrayList<>(parts);
        series.add(beyond);
        int first = figures(categoryTitle, categories, series);
        XDDFBarChartData bars = draw(new Titles(title, categoryTitle, valueTitle), categories, series, BarGrouping.STACKED, null, first);
        hollow(bars.getSeries(parts.size()));
    }

    private static void hollow(XDDFChartData.Series series) {
        series.setFillProperties(solid(Styles.WHITE));
        series.setLineProperties(Whiskers.blackLine());
    }

    /** A bar for what is typical, with a line from low to high. {@code beside} holds at most one series more, drawn as hollow bars. */
    void ranges(String title, String categoryTitle, String valueTitle, List<String> categories, Series typical, Series low, Series high, List<Series> beside) {
        if (!categories.isEmpty()) {
            int first = nextRow + HEADING_ROWS;
            Series down = difference("to " + low.name(), typical, "B", low, "C", first);
            Series up = difference("to " + high.name(), high, "D", typical, "B", first);
            figures(categoryTitle, categories, Stream.concat(Stream.of(typical, low, high, down, up), beside.stream()).toList());
            double highest = Stream.concat(Stream.of(high), beside.stream()).flatMap(series -> Arrays.stream(series.values())).max(Double::compare).orElseThrow();
            Whiskers whiskers = new Whiskers(source(down, first, DOWN_COLUMN), source(up, first, DOWN_COLUMN + 1), highest);
            List<Series> bars = Stream.concat(Stream.of(typical), beside.stream()).toList();
            XDDFBarChartData drawn = draw(new Titles(title, categoryTitle, valueTitle), categories, bars, BarGrouping.CLUSTERED, whiskers, first);
            IntStream.rangeClosed(1, beside.size()).forEach(i -> hollow(drawn.getSeries(i)));
        }
    }

    private static Series difference(String name, Series more, String moreLetter, Series less, String lessLetter, int first) {
        Double[] values = new Double[more.values().length];
        Arrays.setAll(values, i -> more.values()[i] - less.values()[i]);
        return new Series(name, values, IntStream.rangeClosed(first + 1, first + values.length).mapToObj(row -> moreLetter + row + "-" + lessLetter + row).toList());
    }

    /** Writes them below what is there, without the title, which the picture beside them bears; the row of the first category. */
    private int figures(String categoryTitle, List<String> categories, List<Series> series) {
        figures.moveTo(nextRow);
        Object[] header = new Object[series.size() + 1];
        header[0] = categoryTitle;
        for (int s = 0; s < series.size(); s++) {
            header[s + 1] = series.get(s).name();
        }
        figures.line(true, header);
        for (int i = 0; i < categories.size(); i++) {
            Object[] row = new Object[series.size() + 1];
            row[0] = categories.get(i);
            for (int s = 0; s < series.size(); s++) {
                row[s + 1] = series.get(s).formulas().isEmpty() ? figure(series.get(s), i)
                    : new Formula(series.get(s).formulas().get(i), series.get(s).values()[i], CellType.MONEY);
            }
            figures.line(false, row);
        }
        return nextRow + HEADING_ROWS;
    }

    /** Counts as whole numbers, anything else as a decimal. */
    private static Object figure(Series series, int i) {
        boolean counts = Arrays.stream(series.values()).allMatch(value -> value == Math.rint(value));
        return counts ? (Number) series.values()[i].longValue() : series.values()[i];
    }

    private XDDFBarChartData draw(Titles titles, List<String> categories, List<Series> series, BarGrouping grouping, Whiskers whiskers, int first) {
        XSSFChart chart = chart(titles.chart);
        if (series.size() > 1) {
            chart.getOrAddLegend().setPosition(LegendPosition.BOTTOM);
        }
        XDDFCategoryAxis bottom = chart.createCategoryAxis(AxisPosition.BOTTOM);
        bottom.setTitle(titles.categories);
        XDDFBarChartData bars = (XDDFBarChartData) chart.createData(ChartTypes.BAR, bottom, valueAxis(chart, titles.values, whiskers));
        bars.setBarDirection(BarDirection.COL);
        bars.setVaryColors(false);
        bars.setBarGrouping(grouping);
        int last = first + categories.size() - 1;
        XDDFCategoryDataSource names = XDDFDataSourcesFactory.fromArray(categories.stream().map(SheetWriter::asWritten).toArray(String[]::new), range(first, last, 0), 0);
        for (int s = 0; s < series.size(); s++) {
            XDDFChartData.Series bar = bars.addSeries(names, source(series.get(s), first, whiskers != null && s > 0 ? DOWN_COLUMN + 1 + s : s + 1));
            bar.setTitle(series.get(s).name(), null);
            // A line would not show on black.
            bar.setFillProperties(solid(whiskers != null ? Styles.LIGHT : HUES[s % HUES.length]));
        }
        if (whiskers != null) {
            whiskers.draw(((XDDFBarChartData.Series) bars.getSeries(0)).getCTBarSer().addNewErrBars());
        }
        chart.plot(bars);
        if (grouping == BarGrouping.STACKED) {
            overlap(chart.getCTChart().getPlotArea().getBarChartArray(0));
        }
        nextRow += Math.max(ROWS_PER_CHART, categories.size() + 4);
        return bars;
    }

    /** Still empty, on the next spot. */
    private XSSFChart chart(String title) {
        Spot place = spot == null ? new Spot(name, CHART_COLUMN, nextRow, CHART_WIDTH, ROWS_PER_CHART - 2) : spot;
        spot = null;
        XSSFDrawing drawing = workbook.getSheet(place.sheet()).createDrawingPatriarch();
        XSSFChart chart = drawing.createChart(drawing.createAnchor(0, 0, 0, 0, place.column(), place.row(), place.column() + place.columns(), place.row() + place.rows()));
        // The sheet of the figures may be hidden.
        chart.setPlotOnlyVisibleCells(false);
        chart.setTitleText(title);
        chart.setTitleOverlay(false);
        return chart;
    }

    private static XDDFValueAxis valueAxis(XSSFChart chart, String title, Whiskers whiskers) {
        XDDFValueAxis axis = chart.createValueAxis(AxisPosition.LEFT);
        axis.setTitle(title);
        axis.setCrosses(AxisCrosses.AUTO_ZERO);
        axis.setMinimum(0);
        if (title.equals("Contained (%)")) {
            axis.setMaximum(100);
        }
        if (whiskers != null && whiskers.highest() > 0) {
            // Not every program makes room for lines.
            axis.setMaximum(BigDecimal.valueOf(whiskers.highest()).round(new MathContext(1, RoundingMode.UP)).doubleValue());
        }
        return axis;
    }

    /** By hand, since the library's reduced schema lacks the type: without it the parts would stand beside each other. */
    private static void overlap(CTBarChart bars) {
        try (XmlCursor cursor = bars.getAxIdArray(0).newCursor()) {
            cursor.beginElement("overlap", cursor.getName().getNamespaceURI());
            cursor.insertAttributeWithValue("val", FULL_OVERLAP);
        }
    }

    private static XDDFSolidFillProperties solid(XSSFColor color) {
        return new XDDFSolidFillProperties(XDDFColor.from(color.getRGB()));
    }

    /** Of figures in one column of the sheet, which are streamed out already: the values from here, the range by name. */
    private XDDFNumericalDataSource<Double> source(Series series, int first, int column) {
        return XDDFDataSourcesFactory.fromArray(series.values(), range(first, first + series.values().length - 1, column), column);
    }

    private String range(int first, int last, int column) {
        return new CellRangeAddress(first, last, column, column).formatAsString(name, true);
    }
}
