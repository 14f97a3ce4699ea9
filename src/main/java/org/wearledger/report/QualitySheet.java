package org.wearledger.report;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.wearledger.model.Accounting;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;

/** What the figures rest on: what was read, which machines are missing, and every problem found. */
final class QualitySheet {
    static final String NAME = "Data quality";
    private static final List<String> COVERAGE = List.of("machineId", "site", "lastSeenOn", "finding", "standing", "assetTag", "costCentre", "inPlan");
    private static final List<String> PROBLEMS = List.of("rule", "effect", "subject", "found", "remedy", "file", "place", "expected");
    private static final int IN_VIEW = 7;
    private static final int[] WIDTHS = {24, 16, 26, 42, 38, 24, 15};
    private static final Comparator<ProblemWords> GRAVEST_FIRST =
        Comparator.comparing((ProblemWords words) -> words.problem().kind().effect()).thenComparing(Comparator.naturalOrder());

    private final SweepResult result;
    private final RowLimit limit;
    private final SheetWriter sheet;

    QualitySheet(SweepResult result, RowLimit limit, SheetWriter sheet) {
        this.result = result;
        this.limit = limit;
        this.sheet = sheet;
    }

    void write() {
        sheet.columnWidths(WIDTHS);
        read(result.accounting());
        coverage();
        rules();
        problems();
        sheet.columnWidths(WIDTHS);
        sheet.view(IN_VIEW, IN_VIEW);
    }

    private void read(Accounting sums) {
        sheet.above("What was read: nothing is left out of these sums");
        FileSum.sums(sums).forEach(sum -> sheet.note(Wording.sentenceCase(sum)));
        sheet.note("Files passed over, since they hold no reports: " + sums.filesPassedOver());
    }

    private void coverage() {
        Table<MachineAssessment> missing = CareTables.coverage(result).sortedBy(Comparator.comparing(MachineAssessment::standing)).named("Coverage");
        if (!missing.rows().isEmpty()) {
            sheet.gap();
            sheet.above("Machines without a usable report this sweep, or that the inventory does not know");
            write(missing, COVERAGE, SweepWriter.COVERAGE_CSV);
        }
    }

    private void rules() {
        List<Map.Entry<ProblemKind, Long>> counts = List.copyOf(ProblemWords.problemsByRule(result).entrySet());
        if (!counts.isEmpty()) {
            sheet.gap();
            sheet.above("Rules that found something; more on one: wearledger check --explain RULE");
            sheet.table(new Table<>("Rules", List.<Column<Map.Entry<ProblemKind, Long>>>of(Column.text("rule", "Rule", rule -> rule.getKey().id()), Column.text("effect", "Effect", rule -> rule.getKey().effect().label()),
                Column.integer("problems", "Problems", "", Map.Entry::getValue), Column.longText("meaning", "What it means", rule -> FactWords.meaning(rule.getKey()))), counts), rule -> false);
        }
    }

    private void problems() {
        Table<ProblemWords> problems = Tables.problems(ProblemWords.listed(result.problems())).sortedBy(GRAVEST_FIRST);
        sheet.gap();
        sheet.above(problems.rows().isEmpty() ? "No problem was found." : "Problems, the gravest first");
        if (!problems.rows().isEmpty()) {
            write(problems, PROBLEMS, SweepWriter.PROBLEMS_CSV);
        }
    }

    private <T> void write(Table<T> table, List<String> columns, String csv) {
        Table<T> cut = limit.cut(table, row -> true);
        limit.say(sheet, cut, table.rows().size(), "", csv);
        sheet.table(cut.showing(columns), row -> false);
    }
}
