package org.wearledger.cli;

import java.time.Duration;
import java.util.Locale;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;
import org.wearledger.model.Accounting;
import org.wearledger.model.Progress;

/** How far a run has come, on a terminal and only after a few seconds; and at its end what it did in how long. */
final class TerminalProgress implements Progress, AutoCloseable {
    /** Set by the launcher when the error stream is a terminal. */
    static final String TERMINAL = "wearledger.terminal";
    private static final Duration QUIET = Duration.ofSeconds(3);

    private final boolean shown = Boolean.getBoolean(TERMINAL);
    private final long startedNanos = System.nanoTime();
    private ProgressBar bar;
    private String stage;

    @Override
    public synchronized void at(String name, int done, int total) {
        if (!shown || elapsed().compareTo(QUIET) < 0) {
            return;
        }
        if (!name.equals(stage)) {
            close();
            stage = name;
            bar = new ProgressBarBuilder().setTaskName(name).setInitialMax(total).setUpdateIntervalMillis(500).setStyle(ProgressBarStyle.ASCII).build();
        }
        bar.maxHint(total).stepTo(done);
    }

    @Override
    public synchronized void close() {
        if (bar != null) {
            bar.close();
            bar = null;
            stage = null;
        }
    }

    private Duration elapsed() {
        return Duration.ofNanos(System.nanoTime() - startedNanos);
    }

    /** Example: {@code 354 reports of 81 files in 2.4 s, 148 a second; memory grew to 210 MiB}. */
    String closing(Accounting sums) {
        double seconds = Math.max(0.1, elapsed().toMillis() / 1000.0);
        return String.format(Locale.ROOT, "%,d reports of %,d files in %.1f s, %,.0f a second; memory grew to %,d MiB", sums.recordsFound(), sums.filesFound(),
            seconds, sums.recordsFound() / seconds, Runtime.getRuntime().totalMemory() >> 20);
    }
}
