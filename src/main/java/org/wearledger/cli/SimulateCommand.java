package org.wearledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.wearledger.report.Access;
import org.wearledger.report.OutputFolder;
import org.wearledger.simulate.FleetSettings;
import org.wearledger.simulate.FleetSimulation;
import org.wearledger.simulate.OfficeSample;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

@Command(name = "simulate", mixinStandardHelpOptions = true,
    description = "Writes the reports of an invented office, with deliberate oddities, to try a sweep on; with --drives those "
        + "of a fleet of any size, and beside them the truth they were drawn from.",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger simulate --out office", "  wearledger simulate --drives 1000 --quarters 8 --drift 0.1 --out fleet"},
    exitCodeListHeading = Wearledger.EXIT_CODES,
    exitCodeList = {"0:done", "1:failed for a reason that lies with the program or the machine", "2:wrong usage: an option, or an output folder in use"})
final class SimulateCommand implements Callable<Integer> {
    private CommandSpec spec;

    @Option(names = "--out", required = true, paramLabel = "FOLDER", description = "A fresh folder for the reports.")
    private Path out;

    @Option(names = "--seed", defaultValue = "20250106", paramLabel = "NUMBER", description = "The same seed gives the same files (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Option(names = "--machines", paramLabel = "N", description = "How many laptops the office has (default: " + OfficeSample.DEFAULT_MACHINES + ").")
    private Integer machines;

    @Option(names = "--quarters", defaultValue = "6", paramLabel = "N", description = "How many quarterly sweeps (default: ${DEFAULT-VALUE}).")
    private int quarters;

    @Spec
    void setSpec(CommandSpec command) {
        spec = command;
        command.addArgGroup(FleetOptions.group());
    }

    /** What is written is invented: nobody's data. */
    @Override
    public Integer call() throws Exception {
        if (FleetOptions.areGiven(spec.commandLine().getParseResult())) {
            writeFleet();
        } else {
            writeOffice(machines == null ? OfficeSample.DEFAULT_MACHINES : machines);
        }
        return ExitCode.DONE;
    }

    private void writeOffice(int laptops) throws IOException {
        if (laptops < OfficeSample.LEAST_MACHINES || quarters < OfficeSample.LEAST_QUARTERS) {
            throw new ParameterException(spec.commandLine(), "the oddities need --machines " + OfficeSample.LEAST_MACHINES
                + " and --quarters " + OfficeSample.LEAST_QUARTERS + " at least");
        }
        OutputFolder.write(out, false, Access.SHARED, folder -> OfficeSample.write(folder, seed, laptops, quarters));
        say("Wrote the reports of " + laptops + " machines over " + quarters + " quarters to " + out);
    }

    private void writeFleet() throws IOException {
        if (machines != null) {
            throw new ParameterException(spec.commandLine(), "--machines is for the office, --drives for a fleet: give one of them");
        }
        FleetSettings settings;
        try {
            settings = FleetOptions.settings(spec.commandLine().getParseResult(), quarters, seed);
        } catch (IllegalArgumentException e) {
            throw new ParameterException(spec.commandLine(), "--" + e.getMessage(), e);
        }
        OutputFolder.write(out, false, Access.SHARED, folder -> FleetSimulation.write(folder, settings));
        say("Wrote the reports of " + settings.drives() + " drives over " + quarters + " quarters to " + out
            + ": sweep " + out.resolve("reports") + "; the truth is beside it");
    }

    private void say(String sentence) {
        PrintWriter console = spec.commandLine().getOut();
        console.println(sentence);
        console.flush();
    }
}
