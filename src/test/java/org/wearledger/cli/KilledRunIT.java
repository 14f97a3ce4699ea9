package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.report.OutputFolder;
import org.wearledger.report.OutputRefusedException;

/**
 * Java killed as by {@code kill -9}, again and again, at random times and in the middle of replacing an earlier output: afterwards the
 * earlier output is there to the byte, or the new one is, whole. {@code -Dkills=N} says how often.
 */
class KilledRunIT {
    private static final int KILLS = Integer.getInteger("kills", 6);

    @TempDir
    private Path folder;
    private final Random random = new Random(20250106);
    private Path target;

    private Process start(String asOf) throws IOException {
        ProcessBuilder builder = new ProcessBuilder(Started.HOME.resolve("bin/wearledger").toString(), "sweep", "sample-reports/2025-q1", "--as-of", asOf, "--out",
            target.toString(), "--overwrite").redirectOutput(ProcessBuilder.Redirect.DISCARD).redirectErrorStream(true);
        builder.environment().put("WEARLEDGER_JAVA_OPTS", "-Djava.io.tmpdir=" + folder.resolve("tmp"));
        return builder.start();
    }

    private static void kill(Process launcher) throws InterruptedException {
        launcher.descendants().filter(each -> each.info().command().orElse("").endsWith("java")).forEach(ProcessHandle::destroyForcibly);
        assertThat(launcher.waitFor(10, TimeUnit.MINUTES)).isTrue();
    }

    /** Every file by its bytes' text, since the same sweep gives the same bytes. */
    private Map<String, String> output() throws IOException {
        Map<String, String> files = new TreeMap<>();
        OutputTexts.below(target).forEach((name, text) -> files.put(name.substring(target.toString().length()), text));
        return files;
    }

    private boolean isBeside(Predicate<Path> wanted) {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.filter(entry -> entry.getFileName().toString().startsWith(".out.partial-")).anyMatch(wanted);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    /** Waits for the moment that the turn asks for: any time, while the output is written, or between the two renamings or just behind. */
    private String waitForMoment(int turn, Process run, long wholeMillis) throws InterruptedException {
        String moment = turn % 3 == 0 ? "any time" : turn % 3 == 1 ? "writing" : "replacing";
        if (turn % 3 == 0) {
            Thread.sleep((long) (random.nextDouble() * wholeMillis));
            return moment;
        }
        while (run.isAlive() && !isBeside(turn % 3 == 1 ? Files::isDirectory : work -> Files.exists(work.resolve("old")))) {
            Thread.onSpinWait();
        }
        if (turn % 3 == 1) {
            Thread.sleep(random.nextInt(700));
        }
        return moment;
    }

    @Test
    void theOutputIsTheEarlierOneOrTheNewOne() throws IOException, InterruptedException {
        target = folder.resolve("out");
        Files.createDirectory(folder.resolve("tmp"));
        String[] dates = {"2025-01-06", "2025-01-07"};
        start(dates[0]).waitFor();
        Map<String, String> first = output();
        long started = System.nanoTime();
        start(dates[1]).waitFor();
        long wholeMillis = (System.nanoTime() - started) / 1_000_000;
        Map<String, String> second = output();
        assertThat(first).hasSizeGreaterThan(20).isNotEqualTo(second);

        Map<String, Integer> seen = new TreeMap<>();
        Map<String, String> before = second;
        for (int turn = 0; turn < KILLS; turn++) {
            boolean isFirst = before.equals(first);
            Process run = start(dates[isFirst ? 1 : 0]);
            String moment = waitForMoment(turn, run, wholeMillis);
            kill(run);
            boolean absent = !Files.exists(target);
            if (absent) {
                assertThat(isBeside(work -> Files.exists(work.resolve("old")) && Files.exists(work.resolve("out")))).as("the earlier output of turn " + turn).isTrue();
            }
            // What every next run does first.
            try {
                OutputFolder.check(target, false);
            } catch (OutputRefusedException e) {
                assertThat(e).hasMessageContaining("is not empty");
            }
            Map<String, String> after = output();
            assertThat(after.equals(before) || after.equals(isFirst ? second : first)).as("turn " + turn + ", killed at: " + moment).isTrue();
            assertThat(isBeside(work -> true)).isFalse();
            seen.merge(moment + ": " + (absent ? "earlier one, put back" : after.equals(before) ? "earlier one, untouched" : "new one, whole"), 1, Integer::sum);
            before = after;
        }
        System.out.println("Killed " + KILLS + " times: " + seen);
        // A run to the end clears the temporary files of all that were killed.
        start(dates[0]).waitFor();
        try (Stream<Path> left = Files.list(folder.resolve("tmp"))) {
            assertThat(left).isEmpty();
        }
    }
}
