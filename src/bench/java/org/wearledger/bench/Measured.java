package org.wearledger.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/**
 * One run of a process.
 *
 * @param seconds from its start to its end, as its user waits
 * @param peakMegabytes most memory resident, as the kernel counts it (VmHWM); 0 where there is no /proc
 */
record Measured(double seconds, long peakMegabytes) {

    /** Runs it, its output thrown away; ends the benchmark when it ends with a code that is none of those allowed. */
    static Measured run(List<String> command, Map<String, String> environment, Set<Integer> allowedCodes) {
        try {
            Path log = Files.createTempFile("bench", ".log");
            ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log.toFile());
            builder.environment().putAll(environment);
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
            Files.delete(log);
            return new Measured(seconds, peakKilobytes / 1024);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
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
