package org.wearledger.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/**
 * One run of a process.
 *
 * @param seconds from its start to its end, as its user waits
 * @param processorSeconds user and system time of it and all that it started, as the shell's {@code times} tells
 * @param peakMegabytes most memory resident, as the kernel counts it (VmHWM); 0 where there is no /proc
 */
record Measured(double seconds, double processorSeconds, double peakMegabytes) {
    private static final Pattern TIME = Pattern.compile("(\\d+)m([\\d.]+)s");

    /** Runs it, its output thrown away; ends the benchmark when it ends with a code that is none of those allowed. */
    static Measured run(List<String> command, Map<String, String> environment, Set<Integer> allowedCodes) {
        try {
            Path log = Files.createTempFile("bench", ".log");
            Path times = Files.createTempFile("bench", ".times");
            List<String> timed = new ArrayList<>(List.of("sh", "-c", "\"$@\"; code=$?; times >\"$TIMES\"; exit $code", "sh"));
            timed.addAll(command);
            ProcessBuilder builder = new ProcessBuilder(timed).redirectErrorStream(true).redirectOutput(log.toFile());
            builder.environment().putAll(environment);
            builder.environment().put("TIMES", times.toString());
            long start = System.nanoTime();
            Process process = builder.start();
            long peakKilobytes = 0;
            while (!process.waitFor(20, TimeUnit.MILLISECONDS)) {
                peakKilobytes = Math.max(peakKilobytes, peakOfTree(process.toHandle()));
            }
            double seconds = (System.nanoTime() - start) / 1e9;
            if (!allowedCodes.contains(process.exitValue())) {
                throw new IllegalStateException(String.join(" ", command) + " ended with " + process.exitValue() + ":\n" + Files.readString(log));
            }
            double processor = TIME.matcher(Files.readString(times)).results().mapToDouble(Measured::inSeconds).sum();
            Files.delete(log);
            Files.delete(times);
            return new Measured(seconds, processor, peakKilobytes / 1024.0);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static double inSeconds(MatchResult time) {
        return 60 * Double.parseDouble(time.group(1)) + Double.parseDouble(time.group(2));
    }

    /** Of the process or its heaviest child: the launcher is a shell. */
    private static long peakOfTree(ProcessHandle process) {
        return Math.max(peakKilobytes(process.pid()), process.descendants().mapToLong(child -> peakKilobytes(child.pid())).max().orElse(0));
    }

    private static long peakKilobytes(long pid) {
        try {
            return Files.readAllLines(Path.of("/proc/" + pid + "/status")).stream().filter(line -> line.startsWith("VmHWM"))
                .mapToLong(line -> Long.parseLong(line.replaceAll("\\D", ""))).findFirst().orElse(0);
        } catch (IOException | UncheckedIOException e) {
            // It has just ended.
            return 0;
        }
    }
}
