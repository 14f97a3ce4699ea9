package org.wearledger.intake;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What is wrong with a JSON text, in plain words; the place is the library's. */
final class JsonFault {
    /** The library goes on to say where the open bracket stood, and names its own settings. */
    private static final Pattern OWN_TERMS = Pattern.compile("\\s*\\(start marker at .*|,? from `[^`]*`|: enable `[^`]*` to allow|\\s*\\(not recognized as one since .*");
    private static final String CHARACTER = "Unexpected character \\('(.)' \\(code .*\\)\\): ";
    private static final String ONE_TOO_MANY = " is expected; the comma before it is one too many";
    private static final Pattern COMMA = Pattern.compile("Unexpected character \\('[\"{\\[0-9-]' .*was expecting comma to separate");
    private static final int MOST_QUOTED = 40;
    /** By the library's sentence, of which group 1 goes into the words. */
    private static final Map<Pattern, String> WORDS = new LinkedHashMap<>();

    static {
        word("Unexpected character \\('([}\\]])' \\(code .*\\)\\): was expecting double-quote to start field name.*", "'%s' where a name in double quotation marks" + ONE_TOO_MANY);
        word(CHARACTER + "was expecting double-quote to start field name.*", "'%s' where a name in double quotation marks is expected");
        word("Unexpected character \\('([}\\]])' \\(code .*\\)\\): expected a v.*", "'%s' where a value is expected; is there a comma too many, or a value missing?");
        word(CHARACTER + "(?:expected a v|was expecting \\(JSON|was expecting double-quote).*",
            "'%s' where a value is expected: a text in double quotation marks, a number, true, false, null, { or [");
        word(CHARACTER + "was expecting comma to separate.*", "'%s' where a comma or the closing bracket is expected");
        word(CHARACTER + "was expecting a colon.*", "'%s' where the colon between a name and its value is expected");
        word(CHARACTER + "maybe a \\(non-standard\\) comment.*", "'%s', a comment, which JSON does not have");
        word("Unexpected close marker '(.)'.*", "'%s' closes a bracket that is not open, or that another one inside leaves open");
        word("Unexpected end-of-input: was expecting closing quote.*", "the text ends within quotation marks; the closing one is expected");
        word("Unexpected end-of-input.*|No content to map.*", "the text ends too soon; a closing bracket or a value is expected");
        word("(?:Unrecognized|Non-standard) token '([^']*)'.*", "'%s' is no value; expected is a text in double quotation marks, a number, true, false or null");
        word("Illegal unquoted character \\(\\(CTRL-CHAR, code 10\\)\\).*", "a line end within quotation marks; \\n is expected for it");
        word("Illegal unquoted character \\(\\(CTRL-CHAR, code (\\d+)\\)\\).*", "the control character %s within quotation marks; an escape with a backslash is expected for it");
        word("Unrecognized character escape '?(.)'?.*", "a backslash before '%s'; two are expected for one backslash");
        word("Duplicate field '(.*)'", "the field '%s' stands twice; each is expected once");
        word("Invalid numeric value: Leading zeroes not allowed.*", "a number with leading zeros; write it without them, or in quotation marks");
    }

    private JsonFault() {
    }

    private static void word(String sentence, String words) {
        WORDS.put(Pattern.compile(sentence, Pattern.DOTALL), words);
    }

    /** Example: {@code broken JSON at line 3, column 1: '}' where a name in double quotation marks is expected; ...}. */
    static String of(JsonProcessingException e) {
        JsonLocation at = e.getLocation();
        return "broken JSON" + (at == null ? "" : " at line " + at.getLineNr() + ", column " + at.getColumnNr()) + ": " + words(e);
    }

    /** The same, but for a comma that is missing: then where it belongs, which is behind what stands before. */
    static String of(JsonProcessingException e, String text) {
        JsonLocation at = e.getLocation();
        if (at == null || !COMMA.matcher(e.getOriginalMessage()).find()) {
            return of(e);
        }
        String before = text.substring(0, (int) Math.max(0, Math.min(text.length(), at.getCharOffset()))).stripTrailing();
        String line = before.substring(before.lastIndexOf('\n') + 1).strip();
        return "put a comma into line " + (before.chars().filter(c -> c == '\n').count() + 1) + ", behind " + (line.length() <= MOST_QUOTED ? line : "..." + line.substring(line.length() - MOST_QUOTED));
    }

    /** Without the place. */
    static String words(JsonProcessingException e) {
        return words(OWN_TERMS.matcher(e.getOriginalMessage().lines().findFirst().orElse("")).replaceAll("").strip());
    }

    /** What is not known stays as the library says it. */
    private static String words(String sentence) {
        for (Map.Entry<Pattern, String> each : WORDS.entrySet()) {
            Matcher known = each.getKey().matcher(sentence);
            if (known.matches()) {
                return each.getValue().replace("%s", known.groupCount() == 0 || known.group(1) == null ? "" : known.group(1));
            }
        }
        return sentence;
    }
}
