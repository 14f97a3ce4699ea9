package org.wearledger.cli;

import picocli.CommandLine;

/** Starts Wearledger. */
public final class Main {
    private Main() {
    }

    public static void main(String[] args) {
        Scratch scratch = Scratch.open();
        int exitCode = run(args);
        scratch.close();
        System.exit(exitCode);
    }

    private static int run(String... args) {
        try {
            return commandLine().execute(args);
        } catch (OutOfMemoryError e) {
            System.err.println("wearledger: " + MachineFault.sentence(e));
            return ExitCode.FAILED;
        }
    }

    static CommandLine commandLine() {
        return new CommandLine(new Wearledger())
            .setExecutionExceptionHandler(new UserErrors())
            .setParameterExceptionHandler(new WrongUsage());
    }
}
