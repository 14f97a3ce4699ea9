package org.wearledger.cli;

import static org.wearledger.cli.OptionBounds.require;

import java.util.regex.Pattern;
import org.wearledger.job.Engine;
import org.wearledger.model.Progress;
import picocli.CommandLine;
import picocli.CommandLine.Option;

/** Where a command's job runs. */
final class EngineOptions {
    /** What Spark documents as master URLs; it has room for other schemes. */
    private static final Pattern MASTER = Pattern.compile("local(-cluster)?(\\[(\\*|[1-9]\\d*)( *, *\\d+)*])?|yarn|[a-z][a-z0-9]*://.+");

    @Option(names = "--master", paramLabel = "URL", description = "For admins of a cluster: where Spark runs, such as spark://host:7077 (default: what spark-submit sets, else this machine).")
    private String master;

    @Option(names = "--partitions", paramLabel = "N", 
        description = "Work in this many parts; results do not depend on it (default: by the size of the input).")
    private Integer partitions;

    /** @throws MachineException when an engine would find no place for its temporary files */
    Engine engine(CommandLine command, Progress progress) throws MachineException {
        require(command, master == null || MASTER.matcher(master).matches(),
            "--master takes local[*], local[4], spark://host:7077, yarn or k8s://https://host:6443, not " + master);
        require(command, partitions == null || partitions >= 1, "--partitions takes 1 or more, not " + partitions);
        TemporaryFolders.require();
        return new Engine(master, partitions, progress);
    }
}
