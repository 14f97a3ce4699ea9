package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.stream.Collectors;
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
    private static final int KILLS = Integer.getInteger("kills", 3);
    private static final String REPORTS = "sample-reports/2025-q1";

    @TempDir
    private Path folder;
    private final Random random = new Random(20250106);
    private Path target;

    private Process start(String... words) throws IOException {
        ProcessBuilder builder = new ProcessBuilder(Started.HOME.resolve("bin/wearledger").toString()).redirectOutput(ProcessBuilder.Redirect.DISCARD).redirectErrorStream(true);
        builder.command().addAll(List.of(words));
        builder.environment().put("WEARLEDGER_JAVA_OPTS", "-Djava.io.tmpdir=" + folder.resolve("tmp"));
        return builder.start();
    }

    private static void kill(Process launcher) throws InterruptedException {
        launcher.descendants().filter(each -> each.info().command().orElse("").endsWith("java")).forEach(ProcessHandle::destroyForcibly);
        assertThat(launcher.waitFor(10, TimeUnit.MINUTES)).isTrue();
    }

    /** Every file by its bytes' text, since the same sweep gives the same bytes; here the program is in no jar that says its version. */
    private Map<String, String> output() throws IOException {
        Map<String, String> files = new TreeMap<>();
        OutputTexts.below(target).forEach((name, text) -> files.put(name.substring(target.toString().length()), text.replaceAll("Wearledger (unpackaged|\\d[\\d.]*\\d)", "Wearledger")));
        return files;
    }

    private boolean isBeside(Predicate<Path> wanted) {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.filter(entry -> entry.getFileName().toString().startsWith(".out.partial-")).anyMatch(wanted);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private Set<Path> works() throws IOException {
        try (Stream<Path> works = Files.list(folder.resolve("tmp"))) {
            return works.collect(Collectors.toSet());
        }
    }

    /** Waits until the run begins, writes, or replaces the earlier output, each in its turn, and then a random while. */
    private String waitForMoment(int turn, Process run, Set<Path> earlierWorks) throws InterruptedException, IOException {
        String moment = List.of("beginning", "writing", "replacing").get(turn % 3);
        while (run.isAlive() && !(switch (moment) {
            case "beginning" -> !earlierWorks.containsAll(works());
            case "writing" -> isBeside(Files::isDirectory);
            default -> isBeside(work -> Files.exists(work.resolve("old")));
        })) {
            // Between the two renamings there is no time to sleep.
            TimeUnit.MILLISECONDS.sleep(moment.equals("replacing") && isBeside(Files::isDirectory) ? 0 : 5);
        }
        int most = turn % 3 == 0 ? 3_000 : turn % 3 == 1 ? 700 : 1;
        run.waitFor(random.nextInt(most), TimeUnit.MILLISECONDS);
        return moment;
    }

    /** Here, without a process of its own. */
    private Map<String, String> swept(String asOf) throws IOException {
        assertThat(Runs.of("sweep", REPORTS, "--as-of", asOf, "--out", target, "--overwrite").exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        return output();
    }

    @Test
    void theOutputIsTheEarlierOneOrTheNewOne() throws IOException, InterruptedException {
        target = folder.resolve("out");
        Files.createDirectory(folder.resolve("tmp"));
        String[] dates = {"2025-01-06", "2025-01-07"};
        Map<String, String> first = swept(dates[0]);
        Map<String, String> second = swept(dates[1]);
        assertThat(first).hasSizeGreaterThan(20).isNotEqualTo(second);

        Map<String, Integer> seen = new TreeMap<>();
        Map<String, String> before = second;
        for (int turn = 0; turn < KILLS; turn++) {
            boolean isFirst = before.equals(first);
            Set<Path> earlierWorks = works();
            Process run = start("sweep", REPORTS, "--as-of", dates[isFirst ? 1 : 0], "--out", target.toString(), "--overwrite");
            String moment = waitForMoment(turn, run, earlierWorks);
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
        // Any run clears the temporary files of all that were killed.
        assertThat(start("--version").waitFor()).isEqualTo(ExitCode.DONE);
        assertThat(works()).isEmpty();
    }
}
