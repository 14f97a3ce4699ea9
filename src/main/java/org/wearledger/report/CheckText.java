package org.wearledger.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Effect;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** What a check found, for people and for programs. */
public final class CheckText {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Set<Effect> KEEPING_OUT = EnumSet.of(Effect.FILE_REFUSED, Effect.RECORD_REFUSED, Effect.READING_SET_ASIDE);
    private static final String LINE = "line ";
    /** Faults that a whole column may have, and then every line of the file. */
    private static final Set<ProblemKind> OF_A_COLUMN = EnumSet.of(ProblemKind.FIELD_MISSING, ProblemKind.FIELD_INVALID, ProblemKind.NUMBER_MANGLED,
        ProblemKind.COUNTER_NEGATIVE, ProblemKind.DATE_AMBIGUOUS, ProblemKind.OPTIONAL_FIELD_INVALID, ProblemKind.HIDDEN_CHARACTERS,
        ProblemKind.LOCAL_TIME_TWICE, ProblemKind.TEMPERATURE_IMPLAUSIBLE, ProblemKind.POWER_ON_HOURS_IMPLAUSIBLE, ProblemKind.BROKEN_CSV,
        ProblemKind.COUNTER_IMPOSSIBLE, ProblemKind.UNITS_DOUBTFUL, ProblemKind.WRITTEN_CONTRADICTS_USED, ProblemKind.PERCENTAGE_USED_FELL,
        ProblemKind.IMPLAUSIBLE_INCREASE, ProblemKind.CAPACITY_DOUBTFUL, ProblemKind.LATEST_REPORT_SET_ASIDE, ProblemKind.NO_REPORT_BELIEVED, ProblemKind.MEMORY_DIFFERS);
    /** Faults that all files of one folder have alike. */
    private static final Set<Finding> OF_A_FOLDER = EnumSet.of(Finding.RECORDS_INSIDE, Finding.FOREIGN, Finding.HEADER_LACKS_MAPPED, Finding.HEADER_GARBLED, Finding.ALL_RECORDS_REFUSED, Finding.ONLY_RECORD_REFUSED);
    /** What follows from records that have lines of their own. */
    private static final Set<Finding> IN_CONSEQUENCE = EnumSet.of(Finding.ALL_RECORDS_REFUSED, Finding.ONLY_RECORD_REFUSED);
    private static final int MOST_ALIKE = 2;
    private static final int MOST_CHARACTERS = 160;
    /** As many as stand on a line; what is too long goes on below. */
    private static final Pattern CLAUSES = Pattern.compile("(.{1," + MOST_CHARACTERS + "})(?=; )");
    private static final String INDENT = "    ";
    private static final String AND = INDENT + "and ";

    /** Problems of one rule and sentence in neighbouring lines of one file. */
    private record Run(ProblemWords words, Problem last, int problems, boolean oneSubject) {
        Run plus(Problem next) {
            return new Run(words, next, problems + 1, oneSubject && next.subject().equals(first().subject()));
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
    }

    private CheckText() {
    }

    /**
     * What to do, and below it a line for each problem that asks for it, or for its repeats in neighbouring lines; then the sums. Of a fault
     * that a whole column has the first lines are printed and the number of the others. What a mapping names and no record has comes first: it is the cause of much of the
     * rest; that drives are in doubt comes last, where nobody misses it.
     */
    public static String of(CheckResult result) {
        StringBuilder text = new StringBuilder();
        List<String> lines = lines(result.problems());
        lines.forEach(line -> text.append(line).append('\n'));
        result.passedOver().forEach(file -> text.append("passed over, being no report by its ending: ").append(VisibleText.of(file)).append('\n'));
        result.mappings().forEach(use -> text.append(VisibleText.of(Wording.mapping(use))).append('\n'));
        text.append(FileSum.of(result.files(), result.filesReadInPart(), result.filesRefused())).append('\n');
        text.append("records: ").append(result.records()).append(" found = ").append(result.readings()).append(" readings + ")
            .append(result.recordsRefused()).append(" refused\n");
        text.append("readings: ").append(result.readings()).append(" in = ").append(result.readingsKept()).append(" kept + ")
            .append(result.readingsSetAside()).append(" set aside");
        if (result.readingsInPacks() > 0) {
            text.append(" + ").append(result.readingsInPacks()).append(" in packs, which only a sweep joins");
        }
        if (result.rows() > 0) {
            text.append("\nside table rows: ").append(result.rows()).append(" found = ").append(result.rowsRead()).append(" read + ")
                .append(result.rowsRefused()).append(" refused");
        }
        GlanceText.lines(result.glance()).forEach(line -> text.append('\n').append(VisibleText.of(line)));
        text.append('\n').append(result.problems().isEmpty() ? "no problem found in the input" : "problems: " + Problem.count(result.problems()))
            .append(lines.stream().anyMatch(line -> line.startsWith(AND)) || isAnyLeftOut(result.problems()) ? "; --format json lists them" : "");
        if (result.glance().inDoubt() > 0) {
            text.append('\n').append(VisibleText.of(GlanceText.doubt(result.glance())));
        }
        return text.toString();
    }

    /** The first of what {@link #of} tells: of what kept readings out. */
    public static List<String> first(List<Problem> problems, int most) {
        List<Problem> keepingOut = problems.stream().filter(problem -> problem.kind() == ProblemKind.MAPPED_FIELD_ABSENT
            || KEEPING_OUT.contains(problem.kind().effect())).toList();
        return groups(keepingOut).stream().limit(most).flatMap(group -> told(group).stream()).toList();
    }

    private static List<String> lines(List<Problem> problems) {
        return groups(problems).stream().flatMap(group -> told(group).stream()).toList();
    }

    private static boolean isAnyLeftOut(List<Problem> problems) {
        return groups(problems).stream().mapToLong(List::size).sum() < runs(problems).size();
    }

    /** What a column has in common stands together, where it occurs first. */
    private static Collection<List<Run>> groups(List<Problem> problems) {
        Set<String> inside = problems.stream().filter(problem -> problem.finding() == Finding.RECORDS_INSIDE).map(problem -> problem.source().file()).collect(Collectors.toSet());
        Set<String> exchanged = problems.stream().filter(problem -> problem.finding() == Finding.DATES_EXCHANGED).map(Run::folder).collect(Collectors.toSet());
        return runs(problems).stream().filter(run -> !followsFrom(inside, run.first()) && !(run.first().kind().followsFromOrder() && exchanged.contains(Run.folder(run.first())))).collect(Collectors.groupingBy(Run::likeness, LinkedHashMap::new, Collectors.toList())).values();
    }

    /** Where the records of a file lie inside, what its outermost object lacks is no news. */
    private static boolean followsFrom(Set<String> inside, Problem problem) {
        return inside.contains(problem.source().file()) && (problem.kind() == ProblemKind.FIELD_MISSING || problem.kind() == ProblemKind.FIELD_UNKNOWN);
    }

    private static List<String> told(List<Run> group) {
        List<String> lines = new ArrayList<>();
        Run first = group.get(0);
        String remedy = VisibleText.of(first.words.remedy());
        Matcher clause = CLAUSES.matcher(remedy);
        int cut = remedy.length() <= MOST_CHARACTERS || !clause.lookingAt() ? remedy.length() : clause.end(1);
        lines.add(remedy.substring(0, cut));
        if (cut < remedy.length()) {
            lines.add(INDENT + remedy.substring(cut + 2));
        }
        int most = OF_A_FOLDER.contains(first.first().finding()) ? 1 : MOST_ALIKE;
        group.stream().limit(most).forEach(run -> lines.add(INDENT + VisibleText.of(run.sentence())));
        int more = group.stream().skip(most).mapToInt(Run::problems).sum();
        if (more > 0) {
            lines.add(AND + more + " more like it, the last in " + VisibleText.of(lastPlace(group.get(group.size() - 1).last().source(), first.first().source().file())));
        }
        return lines;
    }

    private static String lastPlace(SourcePlace last, String firstFile) {
        return last.index() == 0 ? last.file() : last.file().equals(firstFile) ? last.place() : last.inWords();
    }

    private static List<Run> runs(List<Problem> problems) {
        List<ProblemWords> ordered = ProblemWords.sorted(problems).stream().sorted(Comparator.comparing(words -> words.problem().kind() == ProblemKind.MAPPED_FIELD_ABSENT ? 0 : IN_CONSEQUENCE.contains(words.problem().finding()) ? 2 : 1)).toList();
        List<Run> runs = new ArrayList<>();
        Map<List<Object>, Integer> latest = new HashMap<>();
        for (ProblemWords words : ordered) {
            Problem problem = words.problem();
            List<Object> key = List.of(problem.kind(), problem.source().file(), words.found(), words.expected(), words.remedy());
            Integer at = latest.get(key);
            if (at != null && runs.get(at).isNextTo(problem)) {
                runs.set(at, runs.get(at).plus(problem));
            } else {
                latest.put(key, runs.size());
                runs.add(new Run(words, problem, 1, true));
            }
        }
        return runs;
    }

    /** The same as one JSON object; every problem by itself. */
    public static String json(CheckResult result) {
        ObjectNode root = JSON.createObjectNode();
        root.put("files", result.files()).put("filesReadInPart", result.filesReadInPart()).put("filesRefused", result.filesRefused()).put("records", result.records())
            .put("recordsRefused", result.recordsRefused()).put("readings", result.readings()).put("readingsKept", result.readingsKept())
            .put("readingsSetAside", result.readingsSetAside()).put("readingsInPacks", result.readingsInPacks())
            .put("sideTableRows", result.rows()).put("sideTableRowsRefused", result.rowsRefused());
        FleetGlance glance = result.glance();
        root.put("drives", glance.drives()).put("drivesInDoubt", glance.inDoubt()).put("drivesUnchecked", glance.unchecked())
            .put("medianTerabytesWritten", glance.terabytesWritten().median()).put("medianPercentageUsed", glance.percentageUsed().median())
            .put("medianPowerOnHours", glance.powerOnHours().median());
        ArrayNode passedOver = root.putArray("passedOver");
        result.passedOver().forEach(passedOver::add);
        ArrayNode mappings = root.putArray("mappings");
        result.mappings().forEach(use -> mappings.addObject().put("mapping", use.mapping()).put("files", use.files()).put("first", use.first()).put("last", use.last()));
        ArrayNode problems = root.putArray("problems");
        for (ProblemWords words : ProblemWords.listed(result.problems())) {
            Problem problem = words.problem();
            problems.addObject().put("rule", problem.kind().id()).put("effect", problem.kind().effect().label()).put("file", problem.source().file())
                .put("place", problem.source().place()).put("subject", problem.subject()).put("found", words.found())
                .put("expected", words.expected()).put("remedy", words.remedy());
        }
        try {
            // In JSON the visible form is the character itself, written otherwise.
            return VisibleText.ofLines(JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of texts and numbers can be written", e);
        }
    }
}
