package org.wearledger.intake;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * A mapped field that no record of a file has a value for.
 *
 * @param field as the report form names it
 * @param words the heading and what may have been meant by it, for a sentence; withheld under pseudonyms
 */
public record AbsentField(String field, String words) {
    private static final String NOTHING_FOR = "no record has a value for ";
    private static final String THEY_HAVE = "; they have ";
    private static final Pattern FOUND = Pattern.compile("^" + NOTHING_FOR + "([A-Za-z.]+)(.*)$", Pattern.DOTALL);
    private static final int MOST_NOT_USED = 5;

    /** What a problem tells of, be it of this sweep or of a pack; empty for one of another rule. */
    public static Optional<AbsentField> of(Problem problem) {
        Matcher found = FOUND.matcher(problem.found());
        return problem.kind() == ProblemKind.MAPPED_FIELD_ABSENT && found.matches() ? Optional.of(new AbsentField(found.group(1), found.group(2).split(THEY_HAVE)[0]))
            : Optional.empty();
    }

    /**
     * @param heading that the mapping names
     * @param met the names that the file has
     * @param notUsed those of them that nothing is read from
     */
    static Problem problem(String field, String heading, SourcePlace place, Collection<String> met, List<String> notUsed) {
        String found = NOTHING_FOR + field + " (from \"" + heading + "\")";
        Optional<String> garbled = met.stream().filter(name -> Headings.isGarbled(name, heading)).findFirst();
        if (garbled.isPresent()) {
            return new Problem(ProblemKind.MAPPED_FIELD_ABSENT, place, "", found + ": the header holds bytes that are no UTF-8, \"" + FileSummary.quoted(garbled.get()) + "\"",
                Fields.TEXT_EXPECTED, Fields.TEXT_REMEDY);
        }
        String near = Headings.near(heading, met);
        return new Problem(ProblemKind.MAPPED_FIELD_ABSENT, place, "", found + (near.isEmpty() ? notUsed(notUsed) : near) + THEY_HAVE + Headings.listed(met),
            "a heading or pointer of this file", "correct the mapping, or leave the field out of it; where only some files lack it, " + Problem.packApart("those"));
    }

    private static String notUsed(List<String> names) {
        return names.isEmpty() ? "" : "; the mapping does not use " + names.stream().limit(MOST_NOT_USED).map(name -> "\"" + FileSummary.quoted(name) + "\"").collect(Collectors.joining(", "))
            + (names.size() > MOST_NOT_USED ? " and others" : "");
    }
}
