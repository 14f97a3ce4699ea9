package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.commons.io.FileUtils;

/** The sample swept as it stands, once for all tests that look at it or compare with it. */
record SampleSweep(Runs run, Path folder) {
    private static SampleSweep once;

    static synchronized SampleSweep once() {
        if (once == null) {
            try {
                Path place = Files.createTempDirectory("sample-sweep");
                Runtime.getRuntime().addShutdownHook(new Thread(() -> FileUtils.deleteQuietly(place.toFile())));
                once = new SampleSweep(Runs.of("sweep", "sample-reports", "--full", "--out", place.resolve("sweep")), place.resolve("sweep"));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            assertThat(once.run.exitCode()).as(once.run.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        }
        return once;
    }

    Path file(String name) {
        return folder.resolve(name);
    }
}
