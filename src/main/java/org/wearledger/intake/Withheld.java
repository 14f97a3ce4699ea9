package org.wearledger.intake;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.wearledger.model.Fact;
import org.wearledger.model.Problem;

/**
 * A problem's sentence without what it quotes of the file. In a broken file, or a row shifted by a column, a serial number may stand
 * anywhere; so a sentence is kept only as far as it is known to hold the program's own words, and a new rule is withheld until it is
 * named here.
 */
final class Withheld {
    private static final String MARK = "(withheld)";
    private static final String WHOLLY = "what stood there is withheld; check without --pseudonymise tells it";
    private static final Pattern QUOTED = Pattern.compile("\".*\"", Pattern.DOTALL);
    /** The first quoted is the heading, the second the cell; either may hold quotation marks, so they go together. */
    private static final Pattern MAPPED = Pattern.compile("^(\\S+) \\(from \".*\"\\) is \".*\"", Pattern.DOTALL);
    private static final Pattern OWN_WORDS = Pattern.compile("the file cannot be read|a folder that cannot be searched|reading stopped here, [a-z ,]+"
        + "|broken CSV: (a quotation mark opens here that (nothing closes|is closed in another row)|a quotation mark opens here; line \\d+ closes it in the midst of text"
        + "|text behind the closing quotation mark of a cell)(; (reading stopped here, )?about \\d+ records? unread(, reading goes on in line \\d+)?)?|broken JSON at line \\d+, column \\d+|a row of \\d+ cells"
        + "|a line of \\d+ bytes|a JSON (array|string|boolean|null|number)$|no record has a value for [A-Za-z.]+|none of its \\d+ records gave a reading|its only record gave no reading|it holds no record$"
        + "|a CSV header without .*(?=; it has )|no [A-Za-z]+$|bytes that are no UTF-8 in [A-Za-z, ]+$"
        + "|available spare of 0 % with a threshold of 0 % and no warning of it$");

    private Withheld() {
    }

    static Problem from(Problem p) {
        return p.with(Fact.FOUND, found(p)).with(Fact.REMEDY, remedy(p.remedy()));
    }

    private static String found(Problem problem) {
        String found = problem.found();
        return switch (problem.kind()) {
            case HIDDEN_CHARACTERS, TEMPERATURE_IMPLAUSIBLE, POWER_ON_HOURS_IMPLAUSIBLE, HEALTH_GIVEN_TWICE, LOG_PAGE_INVALID,
                LOG_PAGE_WITHOUT_DATA, FILE_EMPTY, FILE_READ_IN_PART -> found;
            case FIELD_MISSING -> withoutQuotes(found);
            case FIELD_INVALID, NUMBER_MANGLED, COUNTER_NEGATIVE, DATE_AMBIGUOUS, LOCAL_TIME_TWICE, PERCENTAGE_REMAINING_BELOW_ZERO, UNITS_DOUBTFUL, SIDE_TABLE_FIELD_INVALID ->
                found.contains(" is \"") ? withoutQuotes(found) : WHOLLY;
            case OPTIONAL_FIELD_INVALID, SIDE_TABLE_ROW_INVALID -> found.contains(" is \"") ? withoutQuotes(found) : ownWords(found);
            case MAPPED_FIELD_ABSENT, BROKEN_JSON, BROKEN_CSV, FILE_HAS_NO_READING, FILE_UNREADABLE, BROKEN_COMPRESSION -> ownWords(found);
            default -> WHOLLY;
        };
    }

    /** What it begins with is the program's own. */
    private static String remedy(String remedy) {
        int from = remedy.startsWith(Fields.NOT_REPORTED) ? Fields.NOT_REPORTED.length() : 0;
        return Stream.of(DecimalRemedy.SAY_COMMA, DecimalRemedy.CORRECT_DECIMAL).filter(own -> remedy.startsWith(own, from)).findFirst()
            .map(own -> remedy.substring(0, from + own.length()) + withoutQuotes(remedy.substring(from + own.length()))).orElseGet(() -> withoutQuotes(remedy));
    }

    private static String withoutQuotes(String text) {
        String unmapped = MAPPED.matcher(text).replaceFirst("$1 (from a withheld heading) is " + MARK);
        return QUOTED.matcher(unmapped).replaceAll(MARK);
    }

    private static String ownWords(String found) {
        Matcher own = OWN_WORDS.matcher(found);
        return own.lookingAt() ? own.group() : WHOLLY;
    }
}
