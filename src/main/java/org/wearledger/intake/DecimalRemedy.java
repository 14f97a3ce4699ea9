package org.wearledger.intake;

import com.fasterxml.jackson.databind.node.TextNode;
import java.util.regex.Pattern;

/** What to write into a mapping so that a number with decimals is read, where that can be done. */
final class DecimalRemedy {
    private static final Pattern COMMA = Pattern.compile("\\d+,\\d+");
    private static final Pattern POINT = Pattern.compile("\\d+\\.\\d+");
    private static final Pattern MAY_BE_GROUPED = Pattern.compile("[1-9]\\d{0,2}[.,]\\d{3}");
    private static final Pattern PERCENT_SIGN = Pattern.compile("[\\s\u00a0\u2009\u202f]*%$");
    /** Withheld keeps it, so it stands first. */
    static final String SAY_COMMA = "write \"decimal\": \",\" beside the fields of the mapping";
    /** Likewise. */
    static final String CORRECT_DECIMAL = "correct \"decimal\" in the mapping, or the value";

    private DecimalRemedy() {
    }

    /** {@code null} where the text is no number with decimals, or may be grouped digits and nothing says which. */
    static String of(String field, MappedSource source, String text) {
        boolean percent = FieldUnits.isOfPercent(field);
        String number = percent && source.unit() != null && !FieldUnits.isShare(source.unit()) ? PERCENT_SIGN.matcher(text).replaceFirst("") : text;
        boolean comma = COMMA.matcher(number).matches();
        if (!comma && !POINT.matcher(number).matches()) {
            return null;
        }
        boolean asTheMappingSays = comma == source.decimalComma();
        boolean mayBeGrouped = MAY_BE_GROUPED.matcher(number).matches() && !(comma && source.decimalComma());
        String sign = comma ? SAY_COMMA : CORRECT_DECIMAL;
        if (source.unit() != null) {
            return asTheMappingSays || mayBeGrouped && !comma ? null : mayBeGrouped ? sign + " if the comma is a decimal sign, else export digits only" : sign;
        }
        if (percent || mayBeGrouped) {
            return null;
        }
        return FieldUnits.allowed(field).isEmpty() ? "export the exact whole number: this field has no unit to choose and takes no decimals"
            : (asTheMappingSays ? "" : sign + ", and ") + mapped(field, source);
    }

    private static String mapped(String field, MappedSource source) {
        return "map it with the unit that it is in, as {\"from\": " + TextNode.valueOf(source.from()) + ", \"unit\": \"" + FieldUnits.usualWithDecimals(field)
            + "\"}: decimals are then read, and rounded to " + FieldUnits.wholes(field);
    }
}
