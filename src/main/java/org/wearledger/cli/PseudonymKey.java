package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** The key of {@code --pseudonymise}, as the bytes of its file. */
record PseudonymKey(byte[] bytes) {
    /** What RFC 2104 advises against going below is the hash's length, 32; half of it cannot be guessed either. */
    private static final int FEWEST_BYTES = 16;

    static final class FromFile implements ITypeConverter<PseudonymKey> {
        @Override
        public PseudonymKey convert(String file) {
            byte[] key;
            try {
                key = Files.readAllBytes(Path.of(file));
            } catch (IOException e) {
                throw new TypeConversionException("no key can be read from " + file + "; to make one: head -c 32 /dev/urandom > " + file);
            }
            if (key.length < FEWEST_BYTES) {
                throw new TypeConversionException("the key in " + file + " has " + key.length + " bytes; at least " + FEWEST_BYTES
                    + " are needed, or it can be guessed");
            }
            return new PseudonymKey(key);
        }
    }
}
