package org.wearledger.cli;

import picocli.CommandLine;

/** Starts Wearledger. */
public final class Main {
    private Main() {
    }

    /** Runs the command and ends the process with its exit code; {@code wearledger --help} lists the commands. */
    public static void main(String[] args) {
        MemoryWatch watch = MemoryWatch.start();
        Scratch scratch = Scratch.open();
        Interruption.endQuietly(scratch);
        int exitCode = run(watch, args);
        scratch.close();
        System.exit(exitCode);
    }

    private static int run(MemoryWatch watch, String... args) {
        try {
            return execute(commandLine(), args);
        } catch (OutOfMemoryError e) {
            watch.tell();
            return ExitCode.FAILED;
        } catch (LinkageError e) {
            // A class that could not be loaded for want of memory is not found by whoever asks for it next.
            if (!watch.isExhausted()) {
                throw e;
            }
            watch.tell();
            return ExitCode.FAILED;
        }
    }

    static CommandLine commandLine() {
        CommandLine command = new CommandLine(new Wearledger())
            .setExecutionExceptionHandler(new UserErrors())
            .setParameterExceptionHandler(new WrongUsage());
        command.getSubcommands().values().forEach(each -> {
            each.getCommandSpec().versionProvider(new Version());
            OptionSections.in(each);
        });
        return command;
    }

    /** As {@link CommandLine#execute}, with the defaults of a settings file. */
    static int execute(CommandLine command, String... args) {
        try {
            command.setDefaultValueProvider(SettingsFile.of(command, args));
        } catch (CommandLine.ParameterException e) {
            return new WrongUsage().handleParseException(e, args);
        }
        return command.execute(args);
    }
}
