package org.wearledger.report;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;

/** A problem in words: what was found, what was expected and what to do, each without a final stop. */
public record ProblemWords(Problem problem, String found, String expected, String remedy) implements Comparable<ProblemWords> {
    private static final Comparator<ProblemWords> ORDER = Comparator.comparing((ProblemWords words) -> words.problem.source()).thenComparing(words -> words.problem.kind())
        .thenComparing(words -> words.problem.subject()).thenComparing(ProblemWords::found).thenComparing(ProblemWords::expected).thenComparing(ProblemWords::remedy)
        .thenComparing(ProblemWords::problem);

    /** Of any problem. */
    public static ProblemWords of(Problem problem) {
        FactWords words = new FactWords(problem);
        String finding = problem.finding().name();
        String unused = problem.kind() == ProblemKind.SIDE_TABLE_ROW_INVALID ? "the row is not used; " : "";
        return new ProblemWords(problem, words.of(finding + ".found"), words.of(finding + ".expected"), unused + words.of(finding + ".remedy"));
    }

    /** One line for people: {@code file, place: found; expected ...; remedy}. */
    public String sentence() {
        return problem.source().inWords() + ": " + foundToRemedy();
    }

    String foundToRemedy() {
        return found + "; expected " + expected + "; " + remedy;
    }

    /** All of them in the order of outputs: by place, rule and subject, then by their words. */
    public static List<ProblemWords> sorted(Collection<Problem> problems) {
        return problems.stream().map(ProblemWords::of).sorted().toList();
    }

    /**
     * The problems as outputs list them: of each rule and file the first {@value Problem#MOST_LISTED} by place, the others as one line with
     * their number. Sorted; the counts add up as before.
     */
    static List<ProblemWords> listed(Collection<Problem> problems) {
        Map<String, Map<ProblemKind, List<Problem>>> byFile = problems.stream()
            .collect(Collectors.groupingBy(problem -> problem.source().file(), TreeMap::new, Collectors.groupingBy(Problem::kind)));
        List<ProblemWords> listed = new ArrayList<>();
        byFile.forEach((file, byKind) -> byKind.forEach((kind, all) -> {
            List<ProblemWords> first = sorted(all).stream().filter(words -> !words.problem.standsForMore()).limit(Problem.MOST_LISTED).toList();
            listed.addAll(first);
            long more = Problem.count(all) - first.size();
            if (more > 0) {
                listed.add(of(Problem.more(kind, file, "", more)));
            }
        }));
        listed.sort(null);
        return listed;
    }

    @Override
    public int compareTo(ProblemWords other) {
        return ORDER.compare(this, other);
    }

    static Map<ProblemKind, Long> problemsByRule(SweepResult result) {
        return result.problems().stream()
            .collect(Collectors.groupingBy(Problem::kind, TreeMap::new, Collectors.summingLong(Problem::count)));
    }
}
