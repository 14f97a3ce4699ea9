package org.wearledger.cli;

import java.util.List;
import org.wearledger.report.VisibleText;
import picocli.CommandLine;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** A wrong option in one or two lines, not at the head of a page of help that scrolls it away. */
final class WrongUsage implements CommandLine.IParameterExceptionHandler {
    @Override
    public int handleParseException(ParameterException e, String[] args) {
        CommandLine command = e.getCommandLine();
        if (e instanceof MissingParameterException && !command.getUnmatchedArguments().isEmpty()) {
            // A misspelt option is why another seems to be missing.
            return handleParseException(new UnmatchedArgumentException(command, command.getUnmatchedArguments()), args);
        }
        if (e instanceof UnmatchedArgumentException unmatched && unmatched.isUnknownOption()) {
            command.getErr().println("wearledger: " + VisibleText.of(unknown(unmatched)));
        } else {
            command.getErr().println("wearledger: " + VisibleText.of(plain(e.getMessage())));
            UnmatchedArgumentException.printSuggestions(e, command.getErr());
        }
        // The program itself has commands, and those the options.
        command.getErr().println("All options: " + command.getCommandSpec().qualifiedName() + (command.getSubcommands().isEmpty() ? "" : " COMMAND") + " --help");
        return ExitCode.USAGE;
    }

    private static String unknown(UnmatchedArgumentException e) {
        String near = e.getSuggestions().isEmpty() ? "" : "; did you mean " + String.join(" or ", e.getSuggestions()) + "?";
        return "unknown option " + e.getUnmatched().get(0) + near;
    }

    /** The parser speaks of types; users of numbers. */
    private static String plain(String message) {
        List<String[]> words = List.of(
            new String[] {"'([^']*)' is not a (double|float)", "'$1' is not a plain number, such as 0.5"},
            new String[] {"'([^']*)' is not an? (int|long)", "'$1' is not a whole number, such as 4"},
            new String[] {"cannot convert '([^']*)' to BigDecimal.*", "'$1' is not a plain number, such as 99.50"});
        String plain = message.replaceFirst("^Error: ", "");
        for (String[] word : words) {
            plain = plain.replaceFirst(word[0], word[1]);
        }
        return plain;
    }
}
