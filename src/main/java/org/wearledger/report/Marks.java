package org.wearledger.report;

import java.util.stream.IntStream;
import org.apache.poi.ss.usermodel.BorderFormatting;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.ComparisonOperator;
import org.apache.poi.ss.usermodel.ConditionalFormattingRule;
import org.apache.poi.ss.usermodel.FontFormatting;
import org.apache.poi.ss.usermodel.IndexedColors;
import org.apache.poi.ss.usermodel.PatternFormatting;
import org.apache.poi.ss.usermodel.SheetConditionalFormatting;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFColor;
import org.wearledger.model.Standing;

/** Formats that follow a cell when rows are sorted or changed: standings from dark to light, and figures beyond the rating bold in a frame. Read in grey as well. */
final class Marks {
    private static final String FULL = "100";

    private Marks() {
    }

    /** @param first row below the headings, from 0 */
    static void on(SXSSFSheet sheet, Table<?> table, int first) {
        int last = first + table.rows().size() - 1;
        IntStream.range(0, last < first ? 0 : table.columns().size()).forEach(i -> {
            CellRangeAddress[] cells = {new CellRangeAddress(first, last, i, i)};
            switch (table.columns().get(i).name()) {
                case "standing", "machineStanding" -> standings(sheet.getSheetConditionalFormatting(), cells);
                case "consumedPercent", "percentageUsed" -> full(sheet.getSheetConditionalFormatting(), cells);
                default -> { }
            }
        });
    }

    private static void standings(SheetConditionalFormatting formats, CellRangeAddress[] cells) {
        ConditionalFormattingRule[] rules = {standing(formats, Standing.URGENT, Styles.DARK), standing(formats, Standing.PAST_RATING, Styles.MIDDLE), standing(formats, Standing.DUE, Styles.LIGHT)};
        rules[0].getFontFormatting().setFontColorIndex(IndexedColors.WHITE.getIndex());
        formats.addConditionalFormatting(cells, rules);
    }

    private static ConditionalFormattingRule standing(SheetConditionalFormatting formats, Standing standing, XSSFColor fill) {
        ConditionalFormattingRule rule = formats.createConditionalFormattingRule(ComparisonOperator.EQUAL, "\"" + standing.label() + "\"");
        bold(rule);
        PatternFormatting pattern = rule.createPatternFormatting();
        pattern.setFillPattern(PatternFormatting.SOLID_FOREGROUND);
        pattern.setFillBackgroundColor(fill);
        return rule;
    }

    private static void full(SheetConditionalFormatting formats, CellRangeAddress[] cells) {
        ConditionalFormattingRule rule = formats.createConditionalFormattingRule(ComparisonOperator.GE, FULL);
        bold(rule);
        BorderFormatting frame = rule.createBorderFormatting();
        frame.setBorderTop(BorderStyle.THIN);
        frame.setBorderBottom(BorderStyle.THIN);
        frame.setBorderLeft(BorderStyle.THIN);
        frame.setBorderRight(BorderStyle.THIN);
        formats.addConditionalFormatting(cells, rule);
    }

    private static void bold(ConditionalFormattingRule rule) {
        FontFormatting font = rule.createFontFormatting();
        font.setFontStyle(false, true);
    }
}
