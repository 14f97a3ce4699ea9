package org.wearledger.report;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** Problems of one rule and sentence in neighbouring lines of one file. */
record ProblemRun(ProblemWords words, Problem last, int problems, boolean oneSubject) {
    private static final String LINE = "line ";
    /** Faults that a whole column may have, and then every line of the file. */
    private static final Set<ProblemKind> OF_A_COLUMN = EnumSet.of(ProblemKind.FIELD_MISSING, ProblemKind.FIELD_INVALID, ProblemKind.NUMBER_MANGLED,
        ProblemKind.COUNTER_NEGATIVE, ProblemKind.DATE_AMBIGUOUS, ProblemKind.OPTIONAL_FIELD_INVALID, ProblemKind.HIDDEN_CHARACTERS,
        ProblemKind.LOCAL_TIME_TWICE, ProblemKind.TEMPERATURE_IMPLAUSIBLE, ProblemKind.POWER_ON_HOURS_IMPLAUSIBLE, ProblemKind.BROKEN_CSV,
        ProblemKind.COUNTER_IMPOSSIBLE, ProblemKind.UNITS_DOUBTFUL, ProblemKind.WRITTEN_CONTRADICTS_USED, ProblemKind.PERCENTAGE_USED_FELL,
        ProblemKind.IMPLAUSIBLE_INCREASE, ProblemKind.CAPACITY_DOUBTFUL, ProblemKind.LATEST_REPORT_SET_ASIDE, ProblemKind.NO_REPORT_BELIEVED, ProblemKind.MEMORY_DIFFERS);
    /** Faults that all files of one folder have alike. */
    private static final Set<Finding> OF_A_FOLDER = EnumSet.of(Finding.RECORDS_INSIDE, Finding.FOREIGN, Finding.HEADER_LACKS_MAPPED, Finding.HEADER_GARBLED,
        Finding.ALL_RECORDS_REFUSED, Finding.ONLY_RECORD_REFUSED);
    /** What follows from records that have lines of their own. */
    private static final Set<Finding> IN_CONSEQUENCE = EnumSet.of(Finding.ALL_RECORDS_REFUSED, Finding.ONLY_RECORD_REFUSED);

    ProblemRun plus(Problem next) {
        return new ProblemRun(words, next, problems + 1, oneSubject && next.subject().equals(first().subject()));
    }

    Problem first() {
        return words.problem();
    }

    /** The same for runs that tell the same fault of one column, of pages in one folder, or of files that need one mapping. */
    List<Object> likeness() {
        Problem problem = first();
        if (OF_A_FOLDER.contains(problem.finding())) {
            return List.of(problem.finding(), words.remedy(), folder(problem));
        }
        Map<Fact, List<String>> alike = new HashMap<>(problem.facts());
        alike.keySet().removeIf(Fact::isOfOneLine);
        if (problem.kind() == ProblemKind.LOG_PAGE_WITHOUT_RECORD) {
            return List.of(problem.kind(), folder(problem));
        }
        return OF_A_COLUMN.contains(problem.kind()) ? List.of(problem.kind(), folder(problem), problem.finding(), problem.fields(), alike) : List.of(problem);
    }

    private static String folder(Problem problem) {
        String file = problem.source().file();
        return file.substring(0, file.lastIndexOf('/') + 1);
    }

    boolean isNextTo(Problem next) {
        return next.source().place().startsWith(LINE) && next.source().index() <= last.source().index() + 1;
    }

    String sentence() {
        SourcePlace from = first().source();
        String place = from.index() == last.source().index() ? from.place() : "lines " + from.index() + " to " + last.source().index();
        String subject = oneSubject && !first().subject().isEmpty() ? ", " + first().subject() : "";
        return first().kind().id() + " (" + first().kind().effect().label() + subject + "): " + from.file() + ", " + place + ": " + words.found() + "; expected " + words.expected();
    }

    boolean isOfAFolder() {
        return OF_A_FOLDER.contains(first().finding());
    }

    /** What a column has in common stands together, where it occurs first. */
    static Collection<List<ProblemRun>> groups(List<Problem> problems) {
        Set<String> inside = problems.stream().filter(problem -> problem.finding() == Finding.RECORDS_INSIDE).map(problem -> problem.source().file()).collect(Collectors.toSet());
        Set<String> exchanged = problems.stream().filter(problem -> problem.finding() == Finding.DATES_EXCHANGED).map(ProblemRun::folder).collect(Collectors.toSet());
        return runs(problems).stream().filter(run -> !followsFrom(inside, run.first()))
            .filter(run -> !run.first().kind().followsFromOrder() || !exchanged.contains(folder(run.first())))
            .collect(Collectors.groupingBy(ProblemRun::likeness, LinkedHashMap::new, Collectors.toList())).values();
    }

    /** Where the records of a file lie inside, what its outermost object lacks is no news. */
    private static boolean followsFrom(Set<String> inside, Problem problem) {
        return inside.contains(problem.source().file()) && (problem.kind() == ProblemKind.FIELD_MISSING || problem.kind() == ProblemKind.FIELD_UNKNOWN);
    }

    /** What a mapping names and no record has is the cause of much of the rest; what follows from other problems comes last. */
    private static int rank(Problem problem) {
        if (problem.kind() == ProblemKind.MAPPED_FIELD_ABSENT) {
            return 0;
        }
        return IN_CONSEQUENCE.contains(problem.finding()) ? 2 : 1;
    }

    static List<ProblemRun> runs(List<Problem> problems) {
        List<ProblemWords> ordered = ProblemWords.sorted(problems).stream().sorted(Comparator.comparing(words -> rank(words.problem()))).toList();
        List<ProblemRun> runs = new ArrayList<>();
        Map<List<Object>, Integer> latest = new HashMap<>();
        for (ProblemWords words : ordered) {
            Problem problem = words.problem();
            List<Object> key = List.of(problem.kind(), problem.source().file(), words.found(), words.expected(), words.remedy());
            Integer at = latest.get(key);
            if (at != null && runs.get(at).isNextTo(problem)) {
                runs.set(at, runs.get(at).plus(problem));
            } else {
                latest.put(key, runs.size());
                runs.add(new ProblemRun(words, problem, 1, true));
            }
        }
        return runs;
    }
}
