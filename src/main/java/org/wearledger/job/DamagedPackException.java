package org.wearledger.job;

import java.util.function.Supplier;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.ReportFile;

/** A task could not read a pack's rows. Spark hands it on as the cause of a cause. */
final class DamagedPackException extends RuntimeException {
    private static final long serialVersionUID = 1;
    private final ReportFile pack;

    DamagedPackException(ReportFile pack, Exception cause) {
        super(cause);
        this.pack = pack;
    }

    /** Runs a job, and tells the user of a damaged pack if that is why it failed. */
    static <T> T told(Supplier<T> job) throws InputMissingException {
        try {
            return job.get();
        } catch (Exception e) {
            for (Throwable cause = e; cause != null; cause = cause.getCause()) {
                if (cause instanceof DamagedPackException damage) {
                    throw PackFolder.damaged(damage.pack, "its rows cannot be read");
                }
            }
            throw e;
        }
    }
}
