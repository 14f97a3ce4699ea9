package org.wearledger.cli;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.util.concurrent.atomic.AtomicBoolean;

/**
 * Ctrl-C and its like. Java ends by itself, with 128 and the signal's number, and the launcher says so in a sentence. Until then Spark
 * and its tasks would fill the console with what fails because the program ends: that is kept back.
 */
final class Interruption {
    private static final int TRIES = 20;
    private static final long MILLIS_BETWEEN_TRIES = 50;

    private Interruption() {
    }

    /** To be called before anything keeps the error stream for itself. */
    static void endQuietly(Scratch scratch) {
        AtomicBoolean ending = new AtomicBoolean();
        System.setErr(new PrintStream(new FilterOutputStream(System.err) {
            @Override
            public void write(int b) throws IOException {
                if (!ending.get()) {
                    out.write(b);
                }
            }

            @Override
            public void write(byte[] bytes, int from, int length) throws IOException {
                if (!ending.get()) {
                    out.write(bytes, from, length);
                }
            }
        }, true));
        Runtime.getRuntime().addShutdownHook(new Thread(() -> {
            ending.set(true);
            tidy(scratch);
        }, "ending"));
    }

    /** Spark still writes there while it ends. What is left in spite of this the next run clears away. */
    private static void tidy(Scratch scratch) {
        try {
            for (int i = 0; i < TRIES && !scratch.isGone(); i++) {
                scratch.close();
                Thread.sleep(MILLIS_BETWEEN_TRIES);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
