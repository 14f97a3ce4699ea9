package org.wearledger.report;

import java.util.List;
import org.apache.poi.ss.SpreadsheetVersion;
import org.apache.poi.ss.util.AreaReference;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFTable;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.CTTable;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.CTTableColumn;

/** The spreadsheet program's own kind of table: it sorts, filters and grows as one. Set up from our columns, for the rows are streamed out already. */
final class NativeTable {
    private NativeTable() {
    }

    /**
     * Over the table that was written last. The format knows none without rows.
     *
     * @param header row of the headings, from 0
     */
    static void over(SXSSFSheet streamed, Table<?> table, int header) {
        if (table.rows().isEmpty()) {
            return;
        }
        XSSFWorkbook workbook = streamed.getWorkbook().getXSSFWorkbook();
        XSSFSheet sheet = workbook.getSheet(streamed.getSheetName());
        String name = freeName(workbook, table.name());
        XSSFTable made = sheet.createTable(null);
        made.setName(name);
        made.setDisplayName(name);
        CTTable parts = made.getCTTable();
        String cells = new AreaReference(new CellReference(header, 0), new CellReference(header + table.rows().size(), table.columns().size() - 1), SpreadsheetVersion.EXCEL2007).formatAsString();
        parts.setRef(cells);
        parts.addNewAutoFilter().setRef(cells);
        List<String> headings = table.columns().stream().map(Column::headingWithUnit).toList();
        parts.addNewTableColumns().setCount(headings.size());
        for (int i = 0; i < headings.size(); i++) {
            CTTableColumn column = parts.getTableColumns().addNewTableColumn();
            column.setId(i + 1);
            column.setName(headings.get(i));
        }
    }

    /** Such as {@code DriveModelsTable}: no name of a cell, nor one that formulas use. */
    private static String freeName(XSSFWorkbook workbook, String table) {
        StringBuilder plain = new StringBuilder();
        for (String word : table.split("[^A-Za-z0-9]+")) {
            plain.append(Wording.sentenceCase(word));
        }
        String name = plain + "Table";
        for (int next = 2; workbook.getTable(name) != null; next++) {
            name = plain + "Table" + next;
        }
        return name;
    }
}
