package org.wearledger.intake;

import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.wearledger.model.Fact;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/**
 * What the fields that a rule on histories puts in question are called in the files the readings came from. A mapping read a field only
 * where the file has the heading: one in the report form beside a mapped export has not, and of files in packs nobody knows.
 */
public final class QuestionedFields {
    /** How a file was read, and the names that its records have. */
    private record FileRead(FieldMapping mapping, Set<String> namesMet) {
    }

    private final boolean pseudonymised;
    /** By the names that files have in problems. */
    private final Map<String, FileRead> files = new HashMap<>();

    /** @param read those read under the mappings, each of them whole */
    public QuestionedFields(Mappings mappings, Collection<FileSummary> read) {
        pseudonymised = !mappings.pseudonyms().isNone();
        read.forEach(file -> files.put(mappings.pseudonyms().file(file.file()), new FileRead(mappings.of(file.file()), file.namesMet())));
    }

    /**
     * The problems, about the fields in question of those that the mapping did read in the problem's file.
     */
    public List<Problem> withHeadings(List<Problem> problems) {
        return problems.stream().map(problem -> problem.about(problem.kind().questioned().stream().filter(field -> isMapped(field, problem)).map(field -> mapped(field, problem)).toList())).toList();
    }

    /** The problems of dates, about the field that the mapping did read them from, and with the format in which day and month are exchanged. */
    public List<Problem> withFormats(Collection<Problem> problems) {
        String field = ReportField.COLLECTED_AT.dotted();
        return problems.stream().map(problem -> isMapped(field, problem) ? problem.about(List.of(mapped(field, problem))).with(Fact.FORMAT, files.get(problem.source().file()).mapping.exchangedFormat())
            : problem.about(field)).toList();
    }

    /**
     * All fields that the rule puts in question, with heading and unit where a mapping read them in the file of one of these problems
     * at least: those of the first of them.
     */
    public List<MappedField> of(ProblemKind rule, Collection<Problem> problems) {
        return rule.questioned().stream().map(field -> problems.stream().filter(problem -> isMapped(field, problem)).min(Comparator.naturalOrder())
            .map(problem -> mapped(field, problem)).orElse(MappedField.of(field))).toList();
    }

    private MappedField mapped(String field, Problem problem) {
        MappedField mapped = files.get(problem.source().file()).mapping.mapped(field).get(0);
        return pseudonymised ? mapped.withheld() : mapped;
    }

    private boolean isMapped(String field, Problem problem) {
        FileRead file = files.get(problem.source().file());
        return file != null && file.mapping.reads(field, file.namesMet);
    }
}
