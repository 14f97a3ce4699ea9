package org.wearledger.cli;

import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.util.regex.Pattern;
import org.wearledger.job.MasterException;

/** Faults that lie with the machine, memory and disk above all, each in a sentence that says what to do. Spark hands some on as text only. */
final class MachineFault {
    private static final Pattern NO_MEMORY = Pattern.compile("java\\.lang\\.OutOfMemoryError|INVALID_DRIVER_MEMORY");
    /** As Linux, its quotas and file limits, macOS and Windows word it. */
    private static final Pattern NO_SPACE = Pattern.compile("No space left on device|Disk quota exceeded|File too large|not enough space on the disk");
    private static final Pattern NO_FILES = Pattern.compile("Too many open files");
    private static final Pattern SPARK_ENDED = Pattern.compile("stopped SparkContext|SparkContext was shut down|LiveListenerBus is stopped");
    static final int MOST_CAUSES = 20;
    private static final String NOTHING_WRITTEN = "; nothing was written";

    private MachineFault() {
    }

    /** {@code null} when it is none of these: then it is the program's own. */
    static String sentence(Throwable thrown) {
        int looked = 0;
        for (Throwable cause = thrown; cause != null && looked < MOST_CAUSES; cause = cause.getCause(), looked++) {
            if (cause instanceof MachineException || cause instanceof MasterException) {
                return cause.getMessage() + NOTHING_WRITTEN;
            }
            String text = cause.toString();
            if (NO_MEMORY.matcher(text).find()) {
                return "not enough memory: Java may use " + (Runtime.getRuntime().maxMemory() >> 20) + " MiB. Give it more, such as "
                    + "WEARLEDGER_JAVA_OPTS=-Xmx" + Math.max(4, (Runtime.getRuntime().maxMemory() >> 30) * 2 + 2) + "g before the command, or sweep on a machine that has more" + NOTHING_WRITTEN;
            }
            if (NO_SPACE.matcher(text).find()) {
                return "no space left on a disk, or a limit on file sizes reached: free some where --out lies and where temporary files go ("
                    + System.getProperty("java.io.tmpdir") + "; another place: WEARLEDGER_JAVA_OPTS=-Djava.io.tmpdir=FOLDER)" + NOTHING_WRITTEN;
            }
            if (NO_FILES.matcher(text).find()) {
                return "too many open files: raise their limit before the command, such as by ulimit -n 4096" + NOTHING_WRITTEN;
            }
            if (SPARK_ENDED.matcher(text).find()) {
                return "Spark was ended from outside: the cluster of --master went away, or threw the sweep out; see what the cluster logged" + NOTHING_WRITTEN;
            }
        }
        return thrown instanceof FileSystemException file && file.getFile() != null ? file.getFile() + ": " + reason(file) + NOTHING_WRITTEN : null;
    }

    private static String reason(FileSystemException file) {
        if (file instanceof AccessDeniedException) {
            return "access denied";
        }
        return file.getReason() == null ? file.getClass().getSimpleName() : file.getReason();
    }
}
