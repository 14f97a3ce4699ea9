package org.wearledger.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.wearledger.model.ProblemKind;

/** What the page of rules says of one rule. */
public final class RulePage {
    private static final String PAGE = "rules.md";
    private static final Pattern LINK = Pattern.compile("\\[([^\\]]+)]\\([^)]+\\)");

    private RulePage() {
    }

    /** Its section, without links; the first line is the rule and what becomes of the data. */
    public static String of(ProblemKind rule) {
        String heading = "### `" + rule.id() + "`";
        Matcher section = Pattern.compile(Pattern.quote(heading) + "(.*?)(?=\n#|\\z)", Pattern.DOTALL).matcher(page());
        if (!section.find()) {
            throw new IllegalStateException(PAGE + " lacks " + rule.id());
        }
        return rule.id() + LINK.matcher(section.group(1)).replaceAll("$1").stripTrailing();
    }

    private static String page() {
        try (InputStream in = RulePage.class.getResourceAsStream(PAGE)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
