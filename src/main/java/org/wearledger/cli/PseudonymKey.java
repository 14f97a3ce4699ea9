package org.wearledger.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;

/** The key of {@code --pseudonymise}: the bytes of its file. */
final class PseudonymKey {
    /** RFC 2104 advises against fewer than the hash's length, 32; half of that cannot be guessed either. */
    private static final int FEWEST_BYTES = 16;
    /** A device such as /dev/urandom has no end. */
    private static final int MOST_BYTES = 1 << 20;

    /** Never in place of a key that exists. */
    private static final String TO_MAKE = "(set -C; umask 077; head -c 32 /dev/urandom > %s)";

    private PseudonymKey() {
    }

    static byte[] read(Path file, CommandLine command) {
        byte[] key;
        try (InputStream in = Files.newInputStream(file)) {
            key = in.readNBytes(MOST_BYTES + 1);
        } catch (IOException e) {
            // What is there may be a key that others know their machines by.
            throw new ParameterException(command, InputOptions.PSEUDONYMISE + ": no key can be read from " + file
                + (Files.exists(file) ? ", which is there: is it a file, and may you read it?" : "; to make one: " + TO_MAKE.formatted(file)));
        }
        if (key.length > MOST_BYTES) {
            throw new ParameterException(command, InputOptions.PSEUDONYMISE + ": " + file + " has more than " + MOST_BYTES + " bytes and is no key file; to make one: "
                + TO_MAKE.formatted("FILE"));
        }
        if (key.length < FEWEST_BYTES) {
            throw new ParameterException(command, InputOptions.PSEUDONYMISE + ": the key in " + file + " has " + key.length + (key.length == 1 ? " byte" : " bytes") + "; at least " + FEWEST_BYTES
                + " are needed, or it can be guessed");
        }
        return key;
    }
}
