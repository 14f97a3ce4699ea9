package org.wearledger.report;

import org.apache.poi.xddf.usermodel.XDDFColor;
import org.apache.poi.xddf.usermodel.XDDFLineProperties;
import org.apache.poi.xddf.usermodel.XDDFShapeProperties;
import org.apache.poi.xddf.usermodel.XDDFSolidFillProperties;
import org.apache.poi.xddf.usermodel.chart.XDDFNumericalDataSource;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTErrBars;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTNumDataSource;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTNumRef;
import org.openxmlformats.schemas.drawingml.x2006.chart.STErrBarType;
import org.openxmlformats.schemas.drawingml.x2006.chart.STErrValType;

/** Lines from the top of a chart's bars, by so much down and up, {@code highest} of all. */
record Whiskers(XDDFNumericalDataSource<Double> down, XDDFNumericalDataSource<Double> up, double highest) {
    private static final double LINE_POINTS = 1;

    /** In the format's own terms: the library's wrapper fills no lines that are new, and no range. */
    void draw(CTErrBars lines) {
        lines.addNewErrBarType().setVal(STErrBarType.BOTH);
        lines.addNewErrValType().setVal(STErrValType.CUST);
        lines.addNewNoEndCap().setVal(false);
        fill(lines.addNewPlus(), up);
        fill(lines.addNewMinus(), down);
        XDDFShapeProperties shape = new XDDFShapeProperties();
        shape.setLineProperties(blackLine());
        lines.addNewSpPr().set(shape.getXmlObject());
    }

    private static void fill(CTNumDataSource target, XDDFNumericalDataSource<Double> values) {
        CTNumRef cells = target.addNewNumRef();
        cells.setF(values.getDataRangeReference());
        values.fillNumericalCache(cells.addNewNumCache());
    }

    static XDDFLineProperties blackLine() {
        XDDFLineProperties line = new XDDFLineProperties(new XDDFSolidFillProperties(XDDFColor.from(Styles.DARK.getRGB())));
        line.setWidth(LINE_POINTS);
        return line;
    }
}
