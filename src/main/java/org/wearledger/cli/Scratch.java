package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.wearledger.report.WorkFolder;

/**
 * One folder for the temporary files of every library, so that they go when the program ends, or when the next one starts: those of
 * a killed run hold what was read.
 */
final class Scratch implements AutoCloseable {
    private static final String PREFIX = "wearledger-work-";
    private static final String TEMPORARY = "java.io.tmpdir";

    /** {@code null} where none could be made; {@link TemporaryFolders} tells it to commands that need one. */
    private final WorkFolder work;

    private Scratch(WorkFolder work) {
        this.work = work;
    }

    /** To be called before anything asks for a temporary file. */
    static Scratch open() {
        try {
            Path parent = Files.createDirectories(Path.of(System.getProperty(TEMPORARY)));
            WorkFolder.clearAbandoned(parent, PREFIX, folder -> false);
            WorkFolder work = WorkFolder.in(parent, PREFIX);
            System.setProperty(TEMPORARY, work.path().toString());
            return new Scratch(work);
        } catch (IOException e) {
            return new Scratch(null);
        }
    }

    boolean isGone() {
        return work == null || !Files.exists(work.path());
    }

    @Override
    public void close() {
        try {
            if (work != null) {
                work.close();
            }
        } catch (IOException e) {
            // The next run clears it away.
            System.setProperty(TEMPORARY, work.path().getParent().toString());
        }
    }
}
