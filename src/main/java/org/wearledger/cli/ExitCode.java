package org.wearledger.cli;

import org.wearledger.model.Accounting;

/** The exit codes, as {@code --help} lists them. */
final class ExitCode {
    static final int DONE = 0;
    static final int FAILED = 1;
    static final int USAGE = 2;
    static final int DONE_WITH_REFUSALS = 3;
    static final int STANDING_REACHED = 4;

    private ExitCode() {
    }

    static int of(Accounting sums) {
        return sums.readingsKept() == 0 || refusesReports(sums) || sums.rowsRefused() > 0 ? DONE_WITH_REFUSALS : DONE;
    }

    /** What to print last for {@link #DONE_WITH_REFUSALS}. */
    static String refusals(Accounting sums) {
        return done(sums) + ": exit code 3, see problems.csv";
    }

    /** What to print last for {@link #STANDING_REACHED}, which must not hide that something was refused. */
    static String reached(FailOn standing, Accounting sums) {
        return done(sums) + (of(sums) == DONE_WITH_REFUSALS ? ": see problems.csv" : "") + "; a machine is at \"" + standing + "\" or worse: exit code 4";
    }

    private static String done(Accounting sums) {
        if (of(sums) == DONE) {
            return "Done";
        }
        if (sums.readingsKept() == 0) {
            return "Done, but no reading was kept";
        }
        String rows = sums.rowsRefused() == 0 ? "" : sums.rowsRefused() + (sums.rowsRefused() == 1 ? " row" : " rows") + " of side tables";
        return !refusesReports(sums) ? "Done, with " + rows + " refused"
            : "Done, with files or records refused" + (rows.isEmpty() ? "" : ", and " + rows);
    }

    private static boolean refusesReports(Accounting sums) {
        return sums.filesRefused() > 0 || sums.recordsRefused() > 0;
    }
}
