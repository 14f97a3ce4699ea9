package org.wearledger.report;

import java.util.Arrays;
import java.util.List;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xddf.usermodel.PresetColor;
import org.apache.poi.xddf.usermodel.XDDFColor;
import org.apache.poi.xddf.usermodel.XDDFSolidFillProperties;
import org.apache.poi.xddf.usermodel.chart.AxisCrosses;
import org.apache.poi.xddf.usermodel.chart.AxisPosition;
import org.apache.poi.xddf.usermodel.chart.BarDirection;
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
import org.apache.poi.xssf.usermodel.XSSFDrawing;
import org.apache.poi.xssf.usermodel.XSSFSheet;

/** A sheet of native bar charts in greys, each beside the figures it is drawn from. */
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

    private static final PresetColor[] GREYS = {PresetColor.BLACK, PresetColor.DARK_GRAY, PresetColor.LIGHT_GRAY};
    private static final int CHART_COLUMN = 5;
    private static final int CHART_WIDTH = 9;
    private static final int ROWS_PER_CHART = 24;

    private final XSSFSheet drawn;
    private final SheetWriter figures;
    private int nextRow;

    BarCharts(SXSSFWorkbook workbook, String name, Styles styles) {
        figures = new SheetWriter(workbook.createSheet(name), styles);
        figures.columnWidths(34, 16, 16, 16);
        figures.printOnOnePage();
        drawn = workbook.getXSSFWorkbook().getSheet(name);
    }

    void add(String title, String categoryTitle, String valueTitle, List<String> categories, List<Series> series) {
        if (categories.isEmpty() || series.isEmpty()) {
            return;
        }
        figures.moveTo(nextRow);
        figures.line(true, title);
        Object[] header = new Object[series.size() + 1];
        header[0] = categoryTitle;
        for (int s = 0; s < series.size(); s++) {
            header[s + 1] = series.get(s).name();
        }
        figures.line(true, header);
        int first = nextRow + 2;
        for (int i = 0; i < categories.size(); i++) {
            Object[] row = new Object[series.size() + 1];
            row[0] = categories.get(i);
            for (int s = 0; s < series.size(); s++) {
                row[s + 1] = series.get(s).formulas().isEmpty() ? figure(series.get(s), i)
                    : new Formula(series.get(s).formulas().get(i), series.get(s).values()[i], CellType.MONEY);
            }
            figures.line(false, row);
        }
        draw(title, categoryTitle, valueTitle, categories, series, first);
        nextRow += Math.max(ROWS_PER_CHART, categories.size() + 4);
    }

    /** Counts as whole numbers, anything else as a decimal. */
    private static Object figure(Series series, int i) {
        boolean counts = Arrays.stream(series.values()).allMatch(value -> value == Math.rint(value));
        return counts ? (Number) series.values()[i].longValue() : series.values()[i];
    }

    private void draw(String title, String categoryTitle, String valueTitle, List<String> categories, List<Series> series, int first) {
        XSSFDrawing drawing = drawn.createDrawingPatriarch();
        XSSFChart chart = drawing.createChart(drawing.createAnchor(0, 0, 0, 0, CHART_COLUMN, nextRow + 1, CHART_COLUMN + CHART_WIDTH,
            nextRow + ROWS_PER_CHART - 2));
        chart.setTitleText(title);
        chart.setTitleOverlay(false);
        chart.getOrAddLegend().setPosition(LegendPosition.BOTTOM);
        XDDFCategoryAxis bottom = chart.createCategoryAxis(AxisPosition.BOTTOM);
        bottom.setTitle(categoryTitle);
        XDDFValueAxis left = chart.createValueAxis(AxisPosition.LEFT);
        left.setTitle(valueTitle);
        left.setCrosses(AxisCrosses.AUTO_ZERO);
        left.setMinimum(0);
        if (valueTitle.equals("Contained (%)")) {
            left.setMaximum(100);
        }
        XDDFBarChartData bars = (XDDFBarChartData) chart.createData(ChartTypes.BAR, bottom, left);
        bars.setBarDirection(BarDirection.COL);
        bars.setVaryColors(false);
        int last = first + categories.size() - 1;
        // The rows are streamed out already, so the chart gets its values from here and the range by name.
        XDDFCategoryDataSource names = XDDFDataSourcesFactory.fromArray(categories.stream().map(VisibleText::of).toArray(String[]::new), range(first, last, 0), 0);
        for (int s = 0; s < series.size(); s++) {
            XDDFNumericalDataSource<Double> values = XDDFDataSourcesFactory.fromArray(series.get(s).values(), range(first, last, s + 1), s + 1);
            XDDFChartData.Series bar = bars.addSeries(names, values);
            bar.setTitle(series.get(s).name(), null);
            bar.setFillProperties(new XDDFSolidFillProperties(XDDFColor.from(GREYS[s % GREYS.length])));
        }
        chart.plot(bars);
    }

    private String range(int first, int last, int column) {
        return new CellRangeAddress(first, last, column, column).formatAsString(drawn.getSheetName(), true);
    }
}
