package org.wearledger.intake;

import java.util.regex.Pattern;

/** What to write into a mapping so that a number with decimals is read, where that can be done. */
final class DecimalRemedy {
    private static final Pattern COMMA = Pattern.compile("\\d+,\\d+");
    private static final Pattern POINT = Pattern.compile("\\d+\\.\\d+");
    private static final Pattern MAY_BE_GROUPED = Pattern.compile("[1-9]\\d{0,2}[.,]\\d{3}");
    private static final Pattern PERCENT_SIGN = Pattern.compile("[\\s\u00a0\u2009\u202f]*%$");
    /** The advice where the text has another sign than the mapping says, which is no fraction too many. */
    static final String CORRECT_DECIMAL = "CORRECT_DECIMAL";

    private DecimalRemedy() {
    }

    /** The advice; {@code null} where the text is no number with decimals, or may be grouped digits and nothing says which. */
    static String of(String field, MappedSource source, String text) {
        boolean percent = FieldUnits.isOfPercent(field);
        String number = percent && source.unit() != null && !FieldUnits.isShare(source.unit()) ? PERCENT_SIGN.matcher(text).replaceFirst("") : text;
        boolean comma = COMMA.matcher(number).matches();
        if (!comma && !POINT.matcher(number).matches()) {
            return null;
        }
        boolean asTheMappingSays = comma == source.numbers().decimalComma();
        boolean mayBeGrouped = MAY_BE_GROUPED.matcher(number).matches() && !(comma && source.numbers().decimalComma());
        if (source.unit() != null) {
            return asTheMappingSays ? null : withUnit(comma, mayBeGrouped);
        }
        if (percent || mayBeGrouped) {
            return null;
        }
        if (FieldUnits.allowed(field).isEmpty()) {
            return "NO_UNIT";
        }
        String otherSign = comma ? "SAY_COMMA_AND_MAP" : "CORRECT_AND_MAP";
        return asTheMappingSays ? "MAP_UNIT" : otherSign;
    }

    /** Of another sign than the mapping's. */
    private static String withUnit(boolean comma, boolean mayBeGrouped) {
        if (mayBeGrouped) {
            return comma ? "SAY_COMMA_OR_DIGITS" : null;
        }
        return comma ? "SAY_COMMA" : CORRECT_DECIMAL;
    }
}
