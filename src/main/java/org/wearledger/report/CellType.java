package org.wearledger.report;

/**
 * What the cells of a column hold.
 *
 * @param decimals fixed places after the point; 0 for all but {@link Kind#DECIMAL}
 */
record CellType(Kind kind, int decimals) {
    enum Kind { TEXT, LONG_TEXT, INTEGER, DECIMAL, MONEY, DATE, INSTANT, LINK }

    static final CellType TEXT = new CellType(Kind.TEXT, 0);
    /** Sentences: wrapped in the workbook. */
    static final CellType LONG_TEXT = new CellType(Kind.LONG_TEXT, 0);
    static final CellType INTEGER = new CellType(Kind.INTEGER, 0);
    static final CellType MONEY = new CellType(Kind.MONEY, 2);
    static final CellType DATE = new CellType(Kind.DATE, 0);
    /** A moment, shown in UTC. */
    static final CellType INSTANT = new CellType(Kind.INSTANT, 0);
    /** To another place of the workbook. */
    static final CellType LINK = new CellType(Kind.LINK, 0);

    static CellType decimal(int places) {
        return new CellType(Kind.DECIMAL, places);
    }

    boolean isText() {
        return kind == Kind.TEXT || kind == Kind.LONG_TEXT || kind == Kind.LINK;
    }
}
