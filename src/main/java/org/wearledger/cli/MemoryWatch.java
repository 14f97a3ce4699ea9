package org.wearledger.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.lang.management.GarbageCollectorMXBean;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;

/**
 * Ends the process where memory runs out in a thread that nobody waits for, or where next to all time goes into finding some. The way
 * by an exception is left a few seconds, since it clears up behind itself. All that is needed for the end is made beforehand.
 */
final class MemoryWatch implements Thread.UncaughtExceptionHandler {
    private static final long LOOK_EVERY_MILLIS = 500;
    private static final int LOOKS_FOR_THE_OTHER_WAY = 16;
    /** Time is lost when so much of it goes into collecting garbage, look after look. */
    private static final double SHARE_LOST = 0.9;
    private static final int LOOKS_LOST = 40;

    private final byte[] sentence = ("wearledger: " + MachineFault.sentence(new OutOfMemoryError()) + "\n").getBytes(StandardCharsets.UTF_8);
    private final GarbageCollectorMXBean[] collectors = ManagementFactory.getGarbageCollectorMXBeans().stream()
        // Those that count what they do beside the program take none of its time.
        .filter(collector -> !collector.getName().contains("Cycles") && !collector.getName().contains("Concurrent")).toArray(GarbageCollectorMXBean[]::new);
    private final Thread.UncaughtExceptionHandler others;
    private volatile boolean exhausted;
    private volatile boolean told;

    /** Hands on to {@code others}, which may be {@code null}, what is no want of memory. */
    MemoryWatch(Thread.UncaughtExceptionHandler others) {
        this.others = others;
    }

    /** Watches every thread from now on. */
    static MemoryWatch start() {
        MemoryWatch watch = new MemoryWatch(Thread.getDefaultUncaughtExceptionHandler());
        Thread.setDefaultUncaughtExceptionHandler(watch);
        Thread thread = new Thread(watch::look, "memory watch");
        thread.setDaemon(true);
        thread.setPriority(Thread.MAX_PRIORITY);
        thread.start();
        return watch;
    }

    @Override
    public void uncaughtException(Thread thread, Throwable thrown) {
        if (isOutOfMemory(thrown)) {
            exhausted = true;
        } else if (others != null) {
            others.uncaughtException(thread, thrown);
        } else {
            System.err.print("Exception in thread \"" + thread.getName() + "\" ");
            thrown.printStackTrace();
        }
    }

    static boolean isOutOfMemory(Throwable thrown) {
        int looked = 0;
        for (Throwable cause = thrown; cause != null && looked < MachineFault.MOST_CAUSES; cause = cause.getCause(), looked++) {
            if (cause instanceof OutOfMemoryError) {
                return true;
            }
        }
        return false;
    }

    /** Prints the sentence, once; to be called by whoever ends the process for want of memory. */
    void tell() {
        if (!told) {
            told = true;
            try (FileOutputStream err = new FileOutputStream(FileDescriptor.err)) {
                err.write(sentence);
            } catch (IOException e) {
                // Nobody listens.
                told = true;
            }
        }
    }

    /** Whether memory ran out in some thread. */
    boolean isExhausted() {
        return exhausted;
    }

    private void look() {
        int lost = 0;
        int left = LOOKS_FOR_THE_OTHER_WAY;
        long collectedBefore = 0;
        long before = System.nanoTime();
        while (left > 0 && lost < LOOKS_LOST) {
            pause();
            long now = System.nanoTime();
            long collected = 0;
            for (GarbageCollectorMXBean collector : collectors) {
                collected += Math.max(0, collector.getCollectionTime());
            }
            lost = 1e6 * (collected - collectedBefore) > SHARE_LOST * (now - before) ? lost + 1 : 0;
            collectedBefore = collected;
            before = now;
            left -= exhausted ? 1 : 0;
        }
        tell();
        Runtime.getRuntime().halt(ExitCode.FAILED);
    }

    private static void pause() {
        try {
            Thread.sleep(LOOK_EVERY_MILLIS);
        } catch (InterruptedException e) {
            // Looks at once.
            Thread.interrupted();
        }
    }
}
