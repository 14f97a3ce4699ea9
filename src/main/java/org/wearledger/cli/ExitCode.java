package org.wearledger.cli;

/** The exit codes, as {@code --help} lists them. */
final class ExitCode {
    static final int DONE = 0;
    static final int FAILED = 1;
    static final int USAGE = 2;
    static final int DONE_WITH_REFUSALS = 3;
    static final int STANDING_REACHED = 4;

    private ExitCode() {
    }
}
