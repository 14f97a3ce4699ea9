package org.wearledger.report;

import java.util.HashMap;
import java.util.Map;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.Font;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.ss.usermodel.Workbook;

/** The workbook's few cell styles: plain, bold and ruled, no colour, so that a black-and-white print loses nothing. */
final class Styles {
    private record Key(CellType type, boolean bold, boolean framed) {
    }

    private final Workbook workbook;
    private final String title;
    private final Font bold;
    private final CellStyle header;
    private final CellStyle headerOfNumbers;
    private final Map<Key, CellStyle> cells = new HashMap<>();
    private final Map<Short, Boolean> wrapping = new HashMap<>();

    /** @param title printed at the head of each page */
    Styles(Workbook workbook, String title) {
        this.title = title;
        this.workbook = workbook;
        bold = workbook.createFont();
        bold.setBold(true);
        header = workbook.createCellStyle();
        header.setFont(bold);
        header.setWrapText(true);
        header.setVerticalAlignment(VerticalAlignment.TOP);
        header.setBorderBottom(BorderStyle.THIN);
        header.setIndention((short) 1);
        header.setAlignment(HorizontalAlignment.LEFT);
        headerOfNumbers = workbook.createCellStyle();
        headerOfNumbers.cloneStyleFrom(header);
        headerOfNumbers.setAlignment(HorizontalAlignment.RIGHT);
    }

    /** Above its column as the cells below it. */
    CellStyle header(CellType type) {
        return type.isText() ? header : headerOfNumbers;
    }

    String title() {
        return title;
    }

    CellStyle cell(CellType type, boolean emphasised) {
        return cells.computeIfAbsent(new Key(type, emphasised, false), this::create);
    }

    CellStyle input(CellType type) {
        return cells.computeIfAbsent(new Key(type, false, true), this::create);
    }

    /** Remembered: to ask the style itself is slow in a sheet of many rows. */
    boolean wraps(CellStyle style) {
        return wrapping.computeIfAbsent(style.getIndex(), index -> style.getWrapText());
    }

    private CellStyle create(Key key) {
        CellStyle style = workbook.createCellStyle();
        style.setVerticalAlignment(VerticalAlignment.TOP);
        style.setWrapText(key.type.kind() == CellType.Kind.LONG_TEXT);
        style.setAlignment(key.type.isText() ? HorizontalAlignment.LEFT : HorizontalAlignment.RIGHT);
        // Keeps a text clear of the right-aligned number before it.
        style.setIndention((short) 1);
        style.setDataFormat(workbook.createDataFormat().getFormat(format(key.type)));
        if (key.bold) {
            style.setFont(bold);
        }
        if (key.framed) {
            // Clear of the frame's lines in print, where another font may be taller.
            style.setVerticalAlignment(VerticalAlignment.CENTER);
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
            case INTEGER -> "0";
            case DECIMAL -> "0." + "0".repeat(type.decimals());
            case MONEY -> "#,##0.00";
            case DATE -> "yyyy-mm-dd";
            case INSTANT -> "yyyy-mm-dd hh:mm:ss";
        };
    }
}
