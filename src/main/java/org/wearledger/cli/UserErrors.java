package org.wearledger.cli;

import org.wearledger.job.InputRefusedException;
import org.wearledger.report.OutputRefusedException;
import org.wearledger.report.VisibleText;
import picocli.CommandLine;

/** Faults of the user's making end in one sentence; anything else keeps its stack trace, since it is ours. */
final class UserErrors implements CommandLine.IExecutionExceptionHandler {
    @Override
    public int handleExecutionException(Exception e, CommandLine command, CommandLine.ParseResult parsed) {
        if (e instanceof InputRefusedException || e instanceof OutputRefusedException) {
            command.getErr().println("wearledger: " + VisibleText.of(e.getMessage()));
            return ExitCode.USAGE;
        }
        e.printStackTrace(command.getErr());
        return ExitCode.FAILED;
    }
}
