package org.wearledger.report;

/** How tables of values are written. */
public enum CsvForm {
    /** For programs: comma, decimal point, no byte order mark. */
    COMMA(',', '.', ""),
    /** For spreadsheets of places that write 12,5: semicolon, decimal comma, and a byte order mark, by which they know UTF-8. */
    SEMICOLON(';', ',', "\uFEFF");

    private final char separator;
    private final char decimalSign;
    private final String mark;

    CsvForm(char separator, char decimalSign, String mark) {
        this.separator = separator;
        this.decimalSign = decimalSign;
        this.mark = mark;
    }

    char separator() {
        return separator;
    }

    /** That of the other form. */
    char otherSeparator() {
        return this == COMMA ? SEMICOLON.separator : COMMA.separator;
    }

    char decimalSign() {
        return decimalSign;
    }

    /** What stands before the headings. */
    String mark() {
        return mark;
    }
}
