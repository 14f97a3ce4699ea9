package org.wearledger.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.wearledger.report.Access;
import org.wearledger.report.OutputFolder;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Where a command writes its folder. */
final class FreshFolder {
    @Option(names = "--out", required = true, paramLabel = "FOLDER", description = "Where to write; a folder that is fresh or empty.")
    private Path out;

    @Mixin
    private SharedOption shared;

    Access access() {
        return shared.access();
    }

    /** Once it is sure that it may be written; a refusal comes before any work is done. */
    Path checked(List<String> reports, boolean overwrite, CommandLine command) throws IOException {
        OutputPlace.requireOutside(out, reports, command);
        OutputFolder.check(out, overwrite);
        return out;
    }
}
