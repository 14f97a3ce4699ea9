package org.wearledger.intake;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.wearledger.model.Fact;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/**
 * What probably happened to a text that should be a whole number or a time, and what to do about it. Asked only once the
 * text is known to be at fault; nothing here repairs a value.
 *
 * @param kind of a field that a verdict rests on
 * @param slip what happened; {@code null} when the text tells nothing
 * @param advice what to do
 * @param first of two numbers that may be day and month, {@code null} for other slips
 * @param second the other, as the first
 */
record Misread(ProblemKind kind, String slip, String advice, String first, String second) {
    private record Form(Pattern pattern, Misread meaning) {
        static Form of(String pattern, ProblemKind kind, String slip, String advice) {
            return new Form(Pattern.compile(pattern, Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE), Misread.of(kind, slip, advice));
        }
    }

    /** Percent are to be exported whole, or read by a mapping that names their unit, and the comma where there is one. */
    static final String BY_UNIT = "BY_UNIT";
    static final String BY_UNIT_AND_COMMA = "BY_UNIT_AND_COMMA";
    /** What stands between groups of digits: comma, point, apostrophes, underscore, blanks of every width. */
    private static final String GROUPING = "[,.'\u2019_ \u00a0\u2007\u2009\u202f]";
    private static final Pattern PERCENT = Pattern.compile("\\d+([.,]\\d+)?[\\s\u00a0\u2009\u202f]*%|\\d+[.,]\\d+");
    static final Misread OTHER = of(ProblemKind.FIELD_INVALID, null, "CORRECT");
    private static final Misread NUMBER = of(ProblemKind.FIELD_INVALID, null, "EXACT");
    private static final Misread TIME = of(ProblemKind.FIELD_INVALID, null, "GIVE_TIME");

    /** The first that fits; the order matters where one form contains another. */
    private static final List<Form> NUMBERS = List.of(
        // Out of range: what was expected says it all.
        Form.of("\\d+", NUMBER.kind, NUMBER.slip, NUMBER.advice),
        Form.of("[+-]?\\d+([.,]\\d+)?e[+-]?\\d+", ProblemKind.NUMBER_MANGLED,
            "SCIENTIFIC", "AS_TEXT_LOST"),
        Form.of("'\\d+", ProblemKind.NUMBER_MANGLED, "APOSTROPHE", "DIGITS_ONLY"),
        Form.of("[\"'`\u2018-\u201f]\\d+[\"'`\u2018-\u201f]", ProblemKind.NUMBER_MANGLED, "QUOTED", "DIGITS_ONLY"),
        Form.of("#+|#[a-z/0]+[!?]?", ProblemKind.NUMBER_MANGLED, "SHOWN_INSTEAD", "WIDEN"),
        Form.of("-(?=.*[1-9])\\d+([.,]\\d+)?", ProblemKind.COUNTER_NEGATIVE,
            "NEGATIVE", "UNSIGNED"),
        Form.of("[1-9]\\d{0,2},\\d{3}", ProblemKind.NUMBER_MANGLED, "GROUPED_OR_COMMA", "DIGITS_ONLY"),
        Form.of("[1-9]\\d{0,2}\\.\\d{3}", ProblemKind.NUMBER_MANGLED, "GROUPED_OR_FRACTION", "DIGITS_ONLY"),
        Form.of("(?!0[.,]\\d+$|\\d+[.,]\\d\\d$)\\d{1,3}(" + GROUPING + "\\d{2,4})+", ProblemKind.NUMBER_MANGLED, "GROUPED", "NO_SEPARATORS"),
        Form.of("\\d+,\\d+", ProblemKind.NUMBER_MANGLED, "DECIMAL_COMMA", "WHOLE"),
        Form.of("\\d+\\.\\d*", ProblemKind.NUMBER_MANGLED, "FRACTION", "WHOLE"),
        Form.of("\\d{1,4}[-/.][a-z0-9]{1,9}([-/.]\\d{2,4})?", ProblemKind.NUMBER_MANGLED, "DATE_MADE", "AS_TEXT"),
        Form.of("0x[0-9a-f]+|[0-9a-f]+h", ProblemKind.FIELD_INVALID, "HEXADECIMAL", "DECIMAL"),
        Form.of("[+-]\\d+", ProblemKind.FIELD_INVALID, "SIGNED", "DIGITS_ONLY"),
        Form.of("[+-]?[\\d.,' ]*\\d\\s*(%|\u00b0?[a-z\u00b5]+)", ProblemKind.FIELD_INVALID, "WITH_UNIT", "BARE"),
        Form.of("\\p{Nd}+", ProblemKind.FIELD_INVALID, "OTHER_DIGITS", "DIGITS_0_TO_9"),
        Form.of("[+-]?(nan|inf|infinity|\u221e)", ProblemKind.FIELD_INVALID, "NO_NUMBER", "LEAVE_OUT"),
        Form.of("true|false|yes|no", ProblemKind.FIELD_INVALID, "YES_OR_NO", "LEAVE_OUT"),
        Form.of("-+|\u2013|\u2014|\\?+|n/?a|n\\.a\\.|null|nil|none|unknown|undefined|not (available|reported)", ProblemKind.FIELD_INVALID,
            "WORD_FOR_NOT_KNOWN", "LEAVE_KEY_OUT"));

    private static final Pattern DAY_OR_MONTH_FIRST = Pattern.compile("0?([1-9]|1[0-2])[/.-]0?([1-9]|1[0-2])[/.-](\\d{4}|\\d{2})\\b.*");
    private static final List<Form> TIMES = List.of(
        Form.of("\\d{1,2}[/.-]\\d{1,2}[/.-](\\d{4}|\\d{2})\\b.*", ProblemKind.FIELD_INVALID, "COUNTRY_ORDER", "GIVE_OFFSET"),
        Form.of("\\d{4}-\\d{2}-\\d{2}", ProblemKind.FIELD_INVALID, "NO_TIME", "GIVE_OFFSET"),
        Form.of("\\d{4}-\\d{2}-\\d{2}[t ]\\d{2}:\\d{2}(:\\d{2})?(\\.\\d+)?", ProblemKind.FIELD_INVALID, "NO_OFFSET", "GIVE_OFFSET"),
        Form.of("\\d{4}-\\d{2}-\\d{2} .*", ProblemKind.FIELD_INVALID, "BLANK_FOR_T", "GIVE_OFFSET"),
        Form.of("\\d{4}-\\d{2}-\\d{2}t\\d{2}:\\d{2}:60.*", ProblemKind.FIELD_INVALID, "LEAP_SECOND", "SECOND_BEFORE"),
        Form.of("\\d{9,10}", ProblemKind.FIELD_INVALID, "SECONDS", "MAP_SECONDS"),
        Form.of("\\d{12,13}", ProblemKind.FIELD_INVALID, "MILLISECONDS", "MAP_MILLISECONDS"),
        Form.of("\\d{5}([.,]\\d+)?", ProblemKind.FIELD_INVALID, "DAY_NUMBER", "GIVE_OFFSET"),
        Form.of("\\d{5,}-.*", ProblemKind.FIELD_INVALID, "LONG_YEAR", "SET_CLOCK"));

    static Misread number(String text) {
        return first(NUMBERS, text, NUMBER);
    }

    /** Of a field in percent: decimals and the sign are what a mapping can read. */
    static Misread percent(String text) {
        Misread number = number(text);
        return PERCENT.matcher(text).matches() ? of(number.kind, number.slip, text.indexOf(',') < 0 ? BY_UNIT : BY_UNIT_AND_COMMA) : number;
    }

    static Misread time(String text) {
        Matcher either = DAY_OR_MONTH_FIRST.matcher(text);
        if (!either.matches() || either.group(1).equals(either.group(2))) {
            return first(TIMES, text, TIME);
        }
        return new Misread(ProblemKind.DATE_AMBIGUOUS, "DAY_OR_MONTH", "GIVE_OFFSET", either.group(1), either.group(2));
    }

    static Misread date(String text) {
        Misread time = time(text);
        return new Misread(ProblemKind.FIELD_INVALID, time.slip, "GIVE_DATE", time.first, time.second);
    }

    static Misread of(ProblemKind kind, String slip, String advice) {
        return new Misread(kind, slip, advice, null, null);
    }

    /** The problem with what happened and what to do. */
    Problem told(Problem problem) {
        return problem.with(Fact.SLIP, slip).with(Fact.ADVICE, advice).with(Fact.BEFORE, first).with(Fact.AFTER, second);
    }

    private static Misread first(List<Form> forms, String text, Misread otherwise) {
        for (Form form : forms) {
            if (form.pattern.matcher(text).matches()) {
                return form.meaning;
            }
        }
        return otherwise;
    }
}
