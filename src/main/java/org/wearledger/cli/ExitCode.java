package org.wearledger.cli;

import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.Accounting;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.report.VisibleText;

/** The exit codes, as {@code --help} lists them. */
final class ExitCode {
    static final int DONE = 0;
    static final int FAILED = 1;
    static final int USAGE = 2;
    static final int DONE_WITH_REFUSALS = 3;
    static final int STANDING_REACHED = 4;

    private ExitCode() {
    }

    static int of(Accounting sums, List<Problem> problems) {
        return sums.readingsKept() == 0 || refusesReports(sums) || sums.rowsRefused() > 0 || missesColumns(problems) ? DONE_WITH_REFUSALS : DONE;
    }

    /** A mapping that does not fit keeps figures out as a refusal does. */
    static boolean missesColumns(List<Problem> problems) {
        return problems.stream().anyMatch(problem -> problem.kind() == ProblemKind.COLUMN_MISSING);
    }

    /** What to print last for {@link #DONE_WITH_REFUSALS}. */
    static String refusals(Accounting sums, List<Problem> problems, List<String> sites) {
        String done = done(sums, problems);
        String inDoubt = (done.equals("Done") ? ", with " : ", and ") + VisibleText.of(String.join(", ", sites)) + " in doubt";
        return done + (sites.isEmpty() ? "" : inDoubt) + ": exit code 3, see problems.csv";
    }

    /** What to print last for {@link #STANDING_REACHED}, which must not hide that something was refused. */
    static String reached(FailOn standing, Accounting sums, List<Problem> problems) {
        String refused = of(sums, problems) == DONE_WITH_REFUSALS ? ": see problems.csv" : "";
        return done(sums, problems) + refused + "; a machine is at \"" + standing + "\" or worse: exit code 4";
    }

    private static String done(Accounting sums, List<Problem> problems) {
        if (sums.readingsKept() == 0) {
            return "Done, but no reading was kept";
        }
        List<String> clauses = new ArrayList<>();
        if (refusesReports(sums)) {
            clauses.add("files or records refused");
        }
        if (sums.rowsRefused() > 0) {
            clauses.add(sums.rowsRefused() + (sums.rowsRefused() == 1 ? " row" : " rows") + " of side tables" + (clauses.isEmpty() ? " refused" : ""));
        }
        if (missesColumns(problems)) {
            clauses.add("columns missing");
        }
        return "Done" + (clauses.isEmpty() ? "" : ", with " + String.join(", and ", clauses));
    }

    private static boolean refusesReports(Accounting sums) {
        return sums.filesRefused() > 0 || sums.filesReadInPart() > 0 || sums.recordsRefused() > 0;
    }
}
