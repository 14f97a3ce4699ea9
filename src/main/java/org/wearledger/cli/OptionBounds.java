package org.wearledger.cli;

import picocli.CommandLine;

/** What a value of an option must fulfil, beyond its type. */
final class OptionBounds {
    private OptionBounds() {
    }

    /** @throws CommandLine.ParameterException with this sentence, unless it is met */
    static void require(CommandLine command, boolean met, String message) {
        if (!met) {
            throw new CommandLine.ParameterException(command, message);
        }
    }
}
