package org.wearledger.report;

import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Effect;
import org.wearledger.model.Fact;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;

/** What the input lacks, or has and cannot be used, where nobody would miss it: a line for each. */
public final class InputGaps {
    private static final int MOST_ROWS = 12;
    private static final int MOST_NAMES = 3;

    private InputGaps() {
    }

    /** A line for each field that standings are decided by and the newest reports lack, or earlier ones of the same drives: the mapping does not fit. */
    public static List<String> missingColumns(List<Problem> problems) {
        return missingColumnSentences(problems).stream().map(sentence -> VisibleText.of("columns missing: " + sentence)).toList();
    }

    static List<String> missingColumnSentences(List<Problem> problems) {
        return problems.stream().filter(problem -> problem.kind() == ProblemKind.COLUMN_MISSING).map(ProblemWords::of)
            .map(words -> words.found() + " (" + words.problem().source().file() + "): " + words.remedy()).toList();
    }

    /** A line for each side table, such as {@code rows of inventory.csv not used: line 2, line 5; see problems.csv}. */
    static List<String> unusedRows(List<Problem> problems) {
        TreeMap<String, List<String>> byFile = problems.stream().filter(problem -> problem.kind().effect() == Effect.ROW_REFUSED).sorted()
            .collect(Collectors.groupingBy(problem -> problem.source().file(), TreeMap::new, Collectors.mapping(problem -> problem.source().place(), Collectors.toList())));
        return byFile.entrySet().stream().map(table -> "rows of " + table.getKey() + " not used: " + firstOf(table.getValue(), MOST_ROWS) + "; see " + SweepWriter.PROBLEMS_CSV).toList();
    }

    /**
     * Rows of the ratings table that may have been meant: a slip there makes every rating of a model an assumed one. Example:
     * {@code 18 of 29 drives go by an assumed rating; nearest rows of the ratings table: line 2 has Kestrel K-2, 256 GB (for KESTREL K2, taken as 153.6 TB)}.
     */
    static Optional<String> nearRatings(SweepResult result) {
        List<Problem> near = result.problems().stream().filter(problem -> problem.kind() == ProblemKind.RATING_ASSUMED && problem.fact(Fact.NEAR) != null).toList();
        if (near.isEmpty()) {
            return Optional.empty();
        }
        List<DriveAssessment> drives = result.machines().stream().flatMap(machine -> machine.activeDrives().stream()).toList();
        long assumed = drives.stream().filter(drive -> drive.wear().endurance() != null && drive.wear().endurance().assumed()).count();
        return Optional.of(assumed + " of " + Wording.count(drives.size(), "drive") + (assumed == 1 ? " goes" : " go") + " by an assumed rating; nearest rows of the ratings table: "
            + near.stream().limit(MOST_NAMES).map(problem -> new FactWords(problem).nearRows() + " (for " + problem.subject() + ")").collect(Collectors.joining("; "))
            + (near.size() > MOST_NAMES ? "; more in " + SweepWriter.PROBLEMS_CSV : ""));
    }

    /** @param rows of drives whose attachment is not known */
    static String unknownAttachments(List<MachineRow> rows) {
        String unlisted = names(rows, row -> !row.assessment().inInventory());
        return "the attachment of " + Wording.count(rows.size(), "drive") + " is not known (" + names(rows, row -> true) + "): fill in attachment in inventory.csv"
            + (unlisted.isEmpty() ? "" : "; no row there yet: " + unlisted + ": add one, or change the name in its row if the machine was renamed");
    }

    private static String names(List<MachineRow> rows, Predicate<MachineRow> which) {
        return firstOf(rows.stream().filter(which).map(MachineRow::machineId).distinct().sorted().toList(), MOST_NAMES);
    }

    private static String firstOf(List<String> names, int most) {
        return String.join(", ", names.subList(0, Math.min(most, names.size()))) + (names.size() > most ? " and " + (names.size() - most) + " more" : "");
    }
}
