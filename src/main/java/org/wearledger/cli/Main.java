package org.wearledger.cli;

import picocli.CommandLine;

/** Starts Wearledger. */
public final class Main {
    private Main() {
    }

    /** Runs the command and ends the process with its exit code; {@code wearledger --help} lists the commands. */
    public static void main(String[] args) {
        System.exit(commandLine().execute(args));
    }

    static CommandLine commandLine() {
        return new CommandLine(new Wearledger())
            .setExecutionExceptionHandler(new UserErrors())
            .setParameterExceptionHandler(new WrongUsage());
    }
}
