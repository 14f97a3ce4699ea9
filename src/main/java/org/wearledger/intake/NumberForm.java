package org.wearledger.intake;

import java.io.Serializable;
import java.util.regex.Pattern;

/**
 * How a mapped export writes numbers.
 *
 * @param decimalComma numbers are written {@code 12,5}
 * @param saysGrouping the mapping says what parts groups, with decimals and without
 * @param separator what parts groups of three digits; {@code null} where the mapping tells of none
 * @param grouped a number with such groups; {@code null} as the separator
 */
record NumberForm(boolean decimalComma, boolean saysGrouping, Pattern separator, Pattern grouped) implements Serializable {
    /** Decimals after a point, and no groups. */
    static final NumberForm PLAIN = new NumberForm(false, false, null, null);
    private static final String BLANKS = "[ \u00a0\u2007\u2009\u202f]";
    private static final Pattern NO_DIGITS = Pattern.compile("[^0-9-]");
    private static final String APOSTROPHES = "['\u2019]";

    /**
     * Where the decimal sign is said and no grouping, the other sign groups only in front of it: {@code 118.400,50} has one meaning and
     * {@code 118.400} two.
     *
     * @param decimal {@code null} for what the grouping leaves, else the point
     * @param grouping one of {@code . , ' } and a blank; {@code null} for none
     */
    static NumberForm of(String decimal, String grouping) {
        boolean comma = ",".equals(decimal) || decimal == null && ".".equals(grouping);
        if (decimal == null && grouping == null) {
            return PLAIN;
        }
        String groups = " ".equals(grouping) ? BLANKS : "'".equals(grouping) ? APOSTROPHES : comma ? "\\." : ",";
        String decimals = comma ? ",\\d+" : "\\.\\d+";
        return new NumberForm(comma, grouping != null, Pattern.compile(groups), Pattern.compile("-?\\d{1,3}(" + groups + "\\d{3})+" + (grouping == null ? decimals : "(" + decimals + ")?")));
    }

    /** The first sign that is no digit: it may part groups. */
    static String sign(String number) {
        return NO_DIGITS.matcher(number).results().findFirst().map(found -> found.group()).orElse(null);
    }

    /** The number with a decimal point and without groups; the text as it stands, or {@code null}, where it is none. */
    String plain(String text) {
        String whole = ungrouped(text);
        // Where commas are decimal, a point that parts no groups is judged as it stands, not taken for a fraction.
        return !decimalComma ? whole : whole.indexOf('.') >= 0 ? null : whole.replace(',', '.');
    }

    /** The text without groups, where it has such. */
    String ungrouped(String text) {
        return grouped != null && grouped.matcher(text).matches() ? separator.matcher(text).replaceAll("") : text;
    }
}
