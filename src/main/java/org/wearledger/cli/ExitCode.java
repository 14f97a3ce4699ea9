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
        return sums.readingsKept() == 0 || sums.filesRefused() > 0 || sums.recordsRefused() > 0 ? DONE_WITH_REFUSALS : DONE;
    }

    /** What to print for {@link #DONE_WITH_REFUSALS}. */
    static String refusals(Accounting sums) {
        return (sums.readingsKept() == 0 ? "Done, but no reading was kept" : "Done, with files or records refused")
            + ": exit code 3, see problems.csv";
    }
}
