package org.wearledger.report;

/**
 * A cell that the workbook works out.
 *
 * @param text without the equals sign
 * @param result what it gives with the figures written; {@code null} for an empty text
 */
record Formula(String text, Object result, CellType type) {
    /** A formula's text in quotation marks may have no more characters, in the programs that people have. */
    static final int MOST_LITERAL = 250;

    static String quoted(String text) {
        return "\"" + text.replace("\"", "\"\"") + "\"";
    }
}
