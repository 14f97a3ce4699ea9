package org.wearledger.intake;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.wearledger.model.ProblemKind;

/**
 * What probably happened to a text that should be a whole number or a time, and what to do about it. Asked only once the
 * text is known to be at fault; nothing here repairs a value.
 *
 * @param kind of a field that a verdict rests on
 * @param what continues {@code field is "text", }; empty when the text tells nothing
 */
record Misread(ProblemKind kind, String what, String remedy) {
    private record Form(Pattern pattern, Misread meaning) {
        static Form of(String pattern, ProblemKind kind, String what, String remedy) {
            return new Form(Pattern.compile(pattern, Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE), new Misread(kind, what, remedy));
        }
    }

    private static final String AS_TEXT = "set the column to text before pasting, and export again";
    private static final String DIGITS_ONLY = "export digits only";
    private static final String WHOLE = "export the exact whole number";
    private static final String GIVE_OFFSET = "give date, time and offset, such as 2025-01-06T09:30:00+01:00";
    /** What stands between groups of digits: comma, point, apostrophes, underscore, blanks of every width. */
    private static final String GROUPING = "[,.'\u2019_ \u00a0\u2007\u2009\u202f]";
    private static final Pattern PERCENT = Pattern.compile("\\d+([.,]\\d+)?[\\s\u00a0\u2009\u202f]*%|\\d+[.,]\\d+");
    static final String FOR_THE_COMMA = ", and says \"decimal\": \",\" for the comma";
    static final String BY_UNIT = "export whole percent without a sign, or read it by a mapping that gives the field its unit: percent, or share where 0.52 means 52 percent";
    static final String LEAVE_OUT = "leave out what is not known";
    static final Misread OTHER = new Misread(ProblemKind.FIELD_INVALID, "", "");
    private static final Misread NUMBER = new Misread(ProblemKind.FIELD_INVALID, "", "export the exact number; a spreadsheet may have changed it");
    private static final Misread TIME = new Misread(ProblemKind.FIELD_INVALID, "", "give date, time and offset");

    /** The first that fits; the order matters where one form contains another. */
    private static final List<Form> NUMBERS = List.of(
        // Out of range: what was expected says it all.
        Form.of("\\d+", NUMBER.kind, NUMBER.what, NUMBER.remedy),
        Form.of("[+-]?\\d+([.,]\\d+)?e[+-]?\\d+", ProblemKind.NUMBER_MANGLED,
            "a number in scientific notation, as a spreadsheet writes long ones: its last digits are lost", AS_TEXT + "; the digits cannot be restored from here"),
        Form.of("'\\d+", ProblemKind.NUMBER_MANGLED, "digits behind the apostrophe by which a spreadsheet marks text", DIGITS_ONLY),
        Form.of("[\"'`\u2018-\u201f]\\d+[\"'`\u2018-\u201f]", ProblemKind.NUMBER_MANGLED, "digits in quotation marks", DIGITS_ONLY),
        Form.of("#+|#[a-z/0]+[!?]?", ProblemKind.NUMBER_MANGLED, "what a spreadsheet shows in place of a value", "widen the column or correct the formula, and export again"),
        Form.of("-(?=.*[1-9])\\d+([.,]\\d+)?", ProblemKind.COUNTER_NEGATIVE,
            "below zero: an unsigned counter read as a signed one, or a slip", "export it as an unsigned number, or leave the field out"),
        Form.of("[1-9]\\d{0,2},\\d{3}", ProblemKind.NUMBER_MANGLED, "which may be grouped digits or a decimal comma", DIGITS_ONLY),
        Form.of("[1-9]\\d{0,2}\\.\\d{3}", ProblemKind.NUMBER_MANGLED, "which may be grouped digits or a decimal fraction", DIGITS_ONLY),
        Form.of("(?!0[.,]\\d+$|\\d+[.,]\\d\\d$)\\d{1,3}(" + GROUPING + "\\d{2,4})+", ProblemKind.NUMBER_MANGLED, "digits in groups", "export without separators between the digits"),
        Form.of("\\d+,\\d+", ProblemKind.NUMBER_MANGLED, "a number with a decimal comma", WHOLE),
        Form.of("\\d+\\.\\d*", ProblemKind.NUMBER_MANGLED, "a decimal fraction where only whole numbers are counted", WHOLE),
        Form.of("\\d{1,4}[-/.][a-z0-9]{1,9}([-/.]\\d{2,4})?", ProblemKind.NUMBER_MANGLED, "which looks like a date made by a spreadsheet", AS_TEXT),
        Form.of("0x[0-9a-f]+|[0-9a-f]+h", ProblemKind.FIELD_INVALID, "a hexadecimal number", "export it as a decimal number"),
        Form.of("[+-]\\d+", ProblemKind.FIELD_INVALID, "a number with a sign", DIGITS_ONLY),
        Form.of("[+-]?[\\d.,' ]*\\d\\s*(%|\u00b0?[a-z\u00b5]+)", ProblemKind.FIELD_INVALID, "a number with a unit behind it",
            "export the bare number, converted to the field's own unit"),
        Form.of("\\p{Nd}+", ProblemKind.FIELD_INVALID, "digits of another script or width", "export the digits 0 to 9"),
        Form.of("[+-]?(nan|inf|infinity|\u221e)", ProblemKind.FIELD_INVALID, "which is no number", LEAVE_OUT),
        Form.of("true|false|yes|no", ProblemKind.FIELD_INVALID, "a yes or no where a number is counted", LEAVE_OUT),
        Form.of("-+|\u2013|\u2014|\\?+|n/?a|n\\.a\\.|null|nil|none|unknown|undefined|not (available|reported)", ProblemKind.FIELD_INVALID,
            "a word for \"not known\"", LEAVE_OUT + ": no key in JSON, an empty cell in CSV"));

    private static final Pattern DAY_OR_MONTH_FIRST = Pattern.compile("0?([1-9]|1[0-2])[/.-]0?([1-9]|1[0-2])[/.-](\\d{4}|\\d{2})\\b.*");
    private static final List<Form> TIMES = List.of(
        Form.of("\\d{1,2}[/.-]\\d{1,2}[/.-](\\d{4}|\\d{2})\\b.*", ProblemKind.FIELD_INVALID, "a date in the order of one country, without an offset", GIVE_OFFSET),
        Form.of("\\d{4}-\\d{2}-\\d{2}", ProblemKind.FIELD_INVALID, "a date without a time", GIVE_OFFSET),
        Form.of("\\d{4}-\\d{2}-\\d{2}[t ]\\d{2}:\\d{2}(:\\d{2})?(\\.\\d+)?", ProblemKind.FIELD_INVALID, "a time without its offset from UTC", GIVE_OFFSET),
        Form.of("\\d{4}-\\d{2}-\\d{2} .*", ProblemKind.FIELD_INVALID, "a blank where RFC 3339 has the letter T", GIVE_OFFSET),
        Form.of("\\d{4}-\\d{2}-\\d{2}t\\d{2}:\\d{2}:60.*", ProblemKind.FIELD_INVALID, "a leap second, which clocks do not agree on", "give the second before it"),
        Form.of("\\d{9,10}", ProblemKind.FIELD_INVALID, "which looks like seconds since 1970", GIVE_OFFSET),
        Form.of("\\d{12,13}", ProblemKind.FIELD_INVALID, "which looks like milliseconds since 1970", GIVE_OFFSET),
        Form.of("\\d{5}([.,]\\d+)?", ProblemKind.FIELD_INVALID, "which looks like a spreadsheet's day number", GIVE_OFFSET),
        Form.of("\\d{5,}-.*", ProblemKind.FIELD_INVALID, "a year of more than four digits", "set the machine's clock and collect again"));

    static Misread number(String text) {
        return first(NUMBERS, text, NUMBER);
    }

    /** Of a field in percent: decimals and the sign are what a mapping can read. */
    static Misread percent(String text) {
        Misread number = number(text);
        return PERCENT.matcher(text).matches() ? new Misread(number.kind, number.what, BY_UNIT + (text.indexOf(',') < 0 ? "" : FOR_THE_COMMA)) : number;
    }

    static Misread time(String text) {
        Matcher either = DAY_OR_MONTH_FIRST.matcher(text);
        if (!either.matches() || either.group(1).equals(either.group(2))) {
            return first(TIMES, text, TIME);
        }
        return new Misread(ProblemKind.DATE_AMBIGUOUS, "which is day " + either.group(1) + " of month " + either.group(2) + " or day " + either.group(2)
            + " of month " + either.group(1) + ": both are dates and nothing says which is meant", GIVE_OFFSET);
    }

    private static Misread first(List<Form> forms, String text, Misread otherwise) {
        for (Form form : forms) {
            if (form.pattern.matcher(text).matches()) {
                return form.meaning;
            }
        }
        return otherwise;
    }

    /** For the sentence: empty, or the words behind a comma. */
    String behindComma() {
        return what.isEmpty() ? "" : ", " + what;
    }
}
