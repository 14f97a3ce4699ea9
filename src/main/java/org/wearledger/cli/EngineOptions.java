package org.wearledger.cli;

import org.wearledger.job.Engine;
import org.wearledger.model.Progress;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** Where a command's job runs. */
final class EngineOptions {
    @Option(names = "--master", paramLabel = "URL", description = "For admins of a cluster: where Spark runs, such as spark://host:7077 (default: what spark-submit sets, else this machine).")
    private String master;

    @Option(names = "--partitions", paramLabel = "N", 
        description = "Work in this many parts; results do not depend on it (default: by the size of the input).")
    private Integer partitions;

    Engine engine(CommandLine command, Progress progress) {
        if (partitions != null && partitions < 1) {
            throw new ParameterException(command, "--partitions takes 1 or more, not " + partitions);
        }
        return new Engine(master, partitions, progress);
    }
}
