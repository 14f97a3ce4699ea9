package org.wearledger.intake;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.wearledger.model.MappedField;
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
     * The problems, about the fields in question of those that the mapping did read in the problem's file.
     */
    public List<Problem> withHeadings(List<Problem> problems) {
        return problems.stream().map(problem -> problem.about(problem.kind().questioned().stream().filter(field -> isMapped(field, problem)).map(this::mapped).toList())).toList();
    }

    /**
     * All fields that the rule puts in question, with heading and unit where the mapping read them in the file of one of these problems
     * at least.
     */
    public List<MappedField> of(ProblemKind rule, Collection<Problem> problems) {
        return rule.questioned().stream().map(field -> problems.stream().anyMatch(problem -> isMapped(field, problem)) ? mapped(field) : MappedField.of(field)).toList();
    }

    private MappedField mapped(String field) {
        MappedField mapped = mapping.mapped(field).get(0);
        return mapping.pseudonyms().isNone() ? mapped : mapped.withheld();
    }

    private boolean isMapped(String field, Problem problem) {
        return mapping.reads(field, namesMet.getOrDefault(problem.source().file(), Set.of()));
    }
}
