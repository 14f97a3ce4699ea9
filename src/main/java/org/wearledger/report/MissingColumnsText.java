package org.wearledger.report;

import java.util.List;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/** That the mapping does not fit, where nobody misses it: standings that rest on less look better than they are. */
public final class MissingColumnsText {
    private MissingColumnsText() {
    }

    /** A line for each field that standings are decided by and the newest reports lack, or earlier ones of the same drives. */
    public static List<String> lines(List<Problem> problems) {
        return sentences(problems).stream().map(sentence -> VisibleText.of("columns missing: " + sentence)).toList();
    }

    static List<String> sentences(List<Problem> problems) {
        return problems.stream().filter(problem -> problem.kind() == ProblemKind.COLUMN_MISSING).map(ProblemWords::of)
            .map(words -> words.found() + " (" + words.problem().source().file() + "): " + words.remedy()).toList();
    }
}
