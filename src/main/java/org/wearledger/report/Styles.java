package org.wearledger.report;

import java.util.HashMap;
import java.util.Map;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.FillPatternType;
import org.apache.poi.ss.usermodel.Font;
import org.apache.poi.ss.usermodel.FontFamily;
import org.apache.poi.ss.usermodel.FontScheme;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.apache.poi.xssf.usermodel.XSSFCellStyle;
import org.apache.poi.xssf.usermodel.XSSFColor;
import org.apache.poi.xssf.usermodel.XSSFFont;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;

/** The workbook's few cell styles and its one hue, told apart by lightness, so that a black-and-white print loses nothing. */
final class Styles {
    static final XSSFColor DARK = color(0x2F, 0x48, 0x58);
    static final XSSFColor MIDDLE = color(0x9F, 0xB4, 0xBF);
    static final XSSFColor LIGHT = color(0xD5, 0xDF, 0xE4);
    static final XSSFColor WHITE = color(0xFF, 0xFF, 0xFF);
    private static final XSSFColor HEADING = color(0xE6, 0xEC, 0xEF);

    private enum Look { LOOSE, FRAMED, IN_TABLE }

    private record Key(CellType type, boolean bold, Look look) {
    }

    private final XSSFWorkbook workbook;
    private final String title;
    private final XSSFFont plain;
    private final XSSFFont bold;
    private final XSSFFont link;
    private final CellStyle header;
    private final CellStyle headerOfNumbers;
    private final Map<Key, CellStyle> cells = new HashMap<>();
    private final Map<Short, Boolean> wrapping = new HashMap<>();

    /** @param title printed at the head of each page */
    Styles(SXSSFWorkbook streamed, String title) {
        this.title = title;
        workbook = streamed.getXSSFWorkbook();
        plain = font();
        bold = font();
        bold.setBold(true);
        link = font();
        link.setUnderline(Font.U_SINGLE);
        link.setColor(DARK);
        XSSFCellStyle left = workbook.createCellStyle();
        left.setFont(bold);
        left.setWrapText(true);
        left.setVerticalAlignment(VerticalAlignment.CENTER);
        left.setBorderBottom(BorderStyle.THIN);
        left.setFillPattern(FillPatternType.SOLID_FOREGROUND);
        left.setFillForegroundColor(HEADING);
        left.setIndention((short) 1);
        left.setAlignment(HorizontalAlignment.LEFT);
        header = left;
        headerOfNumbers = workbook.createCellStyle();
        headerOfNumbers.cloneStyleFrom(header);
        headerOfNumbers.setAlignment(HorizontalAlignment.RIGHT);
    }

    /** The workbook's default, named in each cell: not every program takes it from the workbook. */
    private XSSFFont font() {
        XSSFFont font = workbook.createFont();
        font.setFamily(FontFamily.SWISS);
        font.setScheme(FontScheme.MINOR);
        return font;
    }

    private static XSSFColor color(int red, int green, int blue) {
        return new XSSFColor(new byte[] {(byte) 0xFF, (byte) red, (byte) green, (byte) blue}, null);
    }

    /** Above its column as the cells below it. */
    CellStyle header(CellType type) {
        return type.isText() ? header : headerOfNumbers;
    }

    String title() {
        return title;
    }

    CellStyle cell(CellType type, boolean emphasised) {
        return cells.computeIfAbsent(new Key(type, emphasised, Look.LOOSE), this::create);
    }

    CellStyle input(CellType type) {
        return cells.computeIfAbsent(new Key(type, false, Look.FRAMED), this::create);
    }

    /** Of a table: with a rule below. */
    CellStyle row(CellType type, boolean emphasised) {
        return cells.computeIfAbsent(new Key(type, emphasised, Look.IN_TABLE), this::create);
    }

    /** Remembered: to ask the style itself is slow in a sheet of many rows. */
    boolean wraps(CellStyle style) {
        return wrapping.computeIfAbsent(style.getIndex(), index -> style.getWrapText());
    }

    private CellStyle create(Key key) {
        XSSFCellStyle style = workbook.createCellStyle();
        style.setVerticalAlignment(VerticalAlignment.CENTER);
        style.setWrapText(key.type.kind() == CellType.Kind.LONG_TEXT);
        style.setAlignment(key.type.isText() ? HorizontalAlignment.LEFT : HorizontalAlignment.RIGHT);
        // Keeps a text clear of the right-aligned number before it.
        style.setIndention((short) 1);
        style.setDataFormat(workbook.createDataFormat().getFormat(format(key.type)));
        style.setFont(key.type.kind() == CellType.Kind.LINK ? link : key.bold ? bold : plain);
        if (key.look == Look.IN_TABLE) {
            style.setBorderBottom(BorderStyle.HAIR);
            style.setBottomBorderColor(LIGHT);
        }
        if (key.look == Look.FRAMED) {
            style.setBorderTop(BorderStyle.THIN);
            style.setBorderBottom(BorderStyle.THIN);
            style.setBorderLeft(BorderStyle.THIN);
            style.setBorderRight(BorderStyle.THIN);
        }
        return style;
    }

    private static String format(CellType type) {
        return switch (type.kind()) {
            // "@" keeps a text a text when somebody edits the cell.
            case TEXT, LONG_TEXT -> "@";
            case LINK -> "General";
            case INTEGER -> "0";
            case DECIMAL -> "0." + "0".repeat(type.decimals());
            case MONEY -> "#,##0.00";
            case DATE -> "yyyy-mm-dd";
            case INSTANT -> "yyyy-mm-dd hh:mm:ss";
        };
    }
}
