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

    private PseudonymKey() {
    }

    static byte[] read(Path file, CommandLine command) {
        byte[] key;
        try (InputStream in = Files.newInputStream(file)) {
            key = in.readNBytes(MOST_BYTES + 1);
        } catch (IOException e) {
            throw new ParameterException(command, InputOptions.PSEUDONYMISE + ": no key can be read from " + file + "; to make one: head -c 32 /dev/urandom > " + file);
        }
        if (key.length > MOST_BYTES) {
            throw new ParameterException(command, InputOptions.PSEUDONYMISE + ": " + file + " has more than " + MOST_BYTES + " bytes and is no key file; to make one: "
                + "head -c 32 /dev/urandom > FILE");
        }
        if (key.length < FEWEST_BYTES) {
            throw new ParameterException(command, InputOptions.PSEUDONYMISE + ": the key in " + file + " has " + key.length + " bytes; at least " + FEWEST_BYTES
                + " are needed, or it can be guessed");
        }
        return key;
    }
}
