package org.wearledger.intake;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/**
 * What the fields that a rule on histories puts in question are called in the files the readings came from. A mapping read a field only
 * where the file has the heading: one in the report form beside a mapped export has not, and of files in packs nobody knows.
 */
public final class QuestionedFields {
    private final FieldMapping mapping;
    /** By the names that files have in problems. */
    private final Map<String, Set<String>> namesMet = new HashMap<>();

    /** @param files those read under the mapping, each of them whole */
    public QuestionedFields(FieldMapping mapping, Collection<FileSummary> files) {
        this.mapping = mapping;
        files.forEach(file -> namesMet.put(mapping.pseudonyms().file(file.file()), file.namesMet()));
    }

    /**
     * The problems, to the remedy of which is added "; the mapping reads" and the heading and unit of each field in question, of those
     * that the mapping did read in the problem's file; the others as they are.
     */
    public List<Problem> withHeadings(List<Problem> problems) {
        return problems.stream().map(problem -> {
            String headings = problem.kind().questioned().stream().filter(field -> isMapped(field, problem)).map(mapping::inWords).collect(Collectors.joining(", "));
            return headings.isEmpty() ? problem : new Problem(problem.kind(), problem.source(), problem.subject(), problem.found(), problem.expected(),
                problem.remedy() + "; the mapping reads " + headings);
        }).toList();
    }

    /**
     * All fields that the rule puts in question, comma between: {@code health.dataUnitsWritten from "Host writes" in TB} where the mapping
     * read it in the file of one of these problems at least, else the field alone.
     */
    public String inWords(ProblemKind rule, Collection<Problem> problems) {
        Stream<String> fields = rule.questioned().stream();
        return fields.map(field -> problems.stream().anyMatch(problem -> isMapped(field, problem)) ? mapping.inWords(field) : field).collect(Collectors.joining(", "));
    }

    private boolean isMapped(String field, Problem problem) {
        return mapping.reads(field, namesMet.getOrDefault(problem.source().file(), Set.of()));
    }
}
