package org.wearledger.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.wearledger.report.OutputFolder;
import org.wearledger.simulate.OfficeSample;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

@Command(name = "simulate", mixinStandardHelpOptions = true,
    description = "Writes the reports of an invented office, with deliberate oddities, to try a sweep on.")
final class SimulateCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Option(names = "--out", required = true, paramLabel = "FOLDER", description = "A fresh folder for the reports.")
    private Path out;

    @Option(names = "--seed", defaultValue = "20250106", description = "The same seed gives the same files (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Option(names = "--machines", defaultValue = "60", description = "How many laptops (default: ${DEFAULT-VALUE}).")
    private int machines;

    @Option(names = "--quarters", defaultValue = "6", description = "How many quarterly sweeps (default: ${DEFAULT-VALUE}).")
    private int quarters;

    @Override
    public Integer call() throws Exception {
        if (machines < OfficeSample.LEAST_MACHINES || quarters < OfficeSample.LEAST_QUARTERS) {
            throw new ParameterException(spec.commandLine(), "the oddities need --machines " + OfficeSample.LEAST_MACHINES
                + " and --quarters " + OfficeSample.LEAST_QUARTERS + " at least");
        }
        OutputFolder.write(out, false, folder -> OfficeSample.write(folder, seed, machines, quarters));
        PrintWriter console = spec.commandLine().getOut();
        console.println("Wrote the reports of " + machines + " machines over " + quarters + " quarters to " + out);
        console.flush();
        return ExitCode.DONE;
    }
}
