package org.wearledger.report;

/** How much of a sheet can be read in print: fitted to one page's width, text may not shrink below a size. */
final class PrintFit {
    /** Left and right. */
    static final double MARGIN_INCHES = 0.4;
    static final double LEAST_POINTS = 8;
    /** Of the workbook's default letters, Calibri: 7 pixels of 1/96 inch for a digit of 11 points. */
    static final double FONT_POINTS = 11;
    static final double POINTS_PER_CHARACTER = 5.25;
    private static final double POINTS_PER_INCH = 72;
    /** The narrower of A4 (297 x 210 mm) and Letter (11 x 8.5 in), as the paper lies. */
    private static final double LANDSCAPE_INCHES = 11;
    private static final double PORTRAIT_INCHES = 210 / 25.4;

    private PrintFit() {
    }

    /** How many characters fit across a page on which letters have the least size. */
    static int mostCharacters(boolean landscape) {
        double points = ((landscape ? LANDSCAPE_INCHES : PORTRAIT_INCHES) - 2 * MARGIN_INCHES) * POINTS_PER_INCH;
        return (int) (points / POINTS_PER_CHARACTER * FONT_POINTS / LEAST_POINTS);
    }

    /** How many columns from the first on fit, of so many at most; one at least. */
    static int columns(ColumnWidths widths, int most, boolean landscape) {
        int fitting = 0;
        int characters = 0;
        while (fitting < most && (characters += widths.characters(fitting)) <= mostCharacters(landscape)) {
            fitting++;
        }
        return Math.max(1, fitting);
    }
}
