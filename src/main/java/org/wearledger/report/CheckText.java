package org.wearledger.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Effect;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** What a check found, for people and for programs. */
public final class CheckText {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Set<Effect> KEEPING_OUT = EnumSet.of(Effect.FILE_REFUSED, Effect.RECORD_REFUSED, Effect.READING_SET_ASIDE);
    private static final int MOST_ALIKE = 2;
    private static final int MOST_CHARACTERS = 160;
    /** As many as stand on a line; what is too long goes on below. */
    private static final Pattern CLAUSES = Pattern.compile("(.{1," + MOST_CHARACTERS + "})(?=; )");
    private static final String INDENT = "    ";
    private static final String AND = INDENT + "and ";

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
        return ProblemRun.groups(keepingOut).stream().limit(most).flatMap(group -> told(group).stream()).toList();
    }

    private static List<String> lines(List<Problem> problems) {
        return ProblemRun.groups(problems).stream().flatMap(group -> told(group).stream()).toList();
    }

    private static boolean isAnyLeftOut(List<Problem> problems) {
        return ProblemRun.groups(problems).stream().mapToLong(List::size).sum() < ProblemRun.runs(problems).size();
    }

    private static List<String> told(List<ProblemRun> group) {
        List<String> lines = new ArrayList<>();
        ProblemRun first = group.get(0);
        String remedy = VisibleText.of(first.words().remedy());
        Matcher clause = CLAUSES.matcher(remedy);
        int cut = remedy.length() <= MOST_CHARACTERS || !clause.lookingAt() ? remedy.length() : clause.end(1);
        lines.add(remedy.substring(0, cut));
        if (cut < remedy.length()) {
            lines.add(INDENT + remedy.substring(cut + 2));
        }
        int most = first.isOfAFolder() ? 1 : MOST_ALIKE;
        group.stream().limit(most).forEach(run -> lines.add(INDENT + VisibleText.of(run.sentence())));
        int more = group.stream().skip(most).mapToInt(ProblemRun::problems).sum();
        if (more > 0) {
            lines.add(AND + more + " more like it, the last in " + VisibleText.of(lastPlace(group.get(group.size() - 1).last().source(), first.first().source().file())));
        }
        return lines;
    }

    private static String lastPlace(SourcePlace last, String firstFile) {
        if (last.index() == 0) {
            return last.file();
        }
        return last.file().equals(firstFile) ? last.place() : last.inWords();
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
