package org.wearledger.cli;

import java.io.PrintWriter;
import java.nio.file.FileSystemException;
import org.wearledger.job.InputRefusedException;
import org.wearledger.report.OutputRefusedException;
import org.wearledger.report.VisibleText;
import picocli.CommandLine;

/** Faults of the user's making, and of the machine's, end in one sentence; anything else keeps its stack trace, since it is ours. */
final class UserErrors implements CommandLine.IExecutionExceptionHandler {
    @Override
    public int handleExecutionException(Exception e, CommandLine command, CommandLine.ParseResult parsed) {
        boolean refused = e instanceof InputRefusedException || e instanceof OutputRefusedException;
        boolean named = !isPseudonymised(parsed);
        String sentence = refused ? e.getMessage() : MachineFault.sentence(e);
        if (sentence != null) {
            // A file's name may name a machine.
            boolean mayName = !named && !refused && e instanceof FileSystemException;
            command.getErr().println("wearledger: " + (mayName ? "a file cannot be read or written; without " + InputOptions.PSEUDONYMISE + " it is said which" : VisibleText.of(sentence)));
        } else if (named) {
            e.printStackTrace(command.getErr());
        } else {
            printNameless(e, command.getErr());
        }
        return refused ? ExitCode.USAGE : ExitCode.FAILED;
    }

    private static boolean isPseudonymised(CommandLine.ParseResult parsed) {
        return parsed != null && (parsed.hasMatchedOption(InputOptions.PSEUDONYMISE) || isPseudonymised(parsed.subcommand()));
    }

    /** The trace without its messages, which may quote what was read. */
    private static void printNameless(Throwable thrown, PrintWriter err) {
        for (Throwable cause = thrown; cause != null; cause = cause.getCause()) {
            err.println((cause == thrown ? "" : "Caused by: ") + cause.getClass().getName() + " (its message is withheld)");
            for (StackTraceElement frame : cause.getStackTrace()) {
                err.println("\tat " + frame);
            }
        }
    }
}
