package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.simulate.FleetSetting;
import picocli.CommandLine;

class SimulateCommandTest {
    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String arguments) {
        List<String> all = new ArrayList<>(List.of("simulate", "--out", folder.resolve("fleet").toString()));
        all.addAll(List.of(arguments.split(" ")));
        return Main.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err)).execute(all.toArray(String[]::new));
    }

    @Test
    void everySettingIsAnOptionAndItsHelpTellsItsDefault() {
        CommandLine command = Main.commandLine().getSubcommands().get("simulate");
        for (FleetSetting setting : FleetSetting.values()) {
            String shortest = String.valueOf(setting.defaultValue()).replaceFirst("\\.0$", "");
            assertThat(command.getCommandSpec().findOption("--" + setting.option()).description()[0])
                .endsWith("(default: " + shortest + ").");
        }
    }

    @Test
    void aFleetIsWrittenWithItsTruthBeside() {
        int exitCode = run("--drives 30 --quarters 2 --seed 4 --increment-shape 2 --spread-shape 4 --median-percent 3 --model-spread 0.1 "
            + "--season 0.1 --drift 0.1 --shock 0.1 --memory-effect 2 --idle 0.1 --swaps 0.1 --resets 0.1 --missing 0.1");
        assertThat(err.toString()).isEmpty();
        assertThat(exitCode).isEqualTo(ExitCode.DONE);
        Path fleet = folder.resolve("fleet");
        assertThat(out.toString()).isEqualToIgnoringNewLines("Wrote the reports of 30 drives over 2 quarters to " + fleet + ": sweep "
            + fleet.resolve("reports") + "; the truth is beside it");
        // The README repeats the command, so it shows that each option has arrived.
        assertThat(fleet.resolve("README.md")).content().contains("--drives 30 --quarters 2 --seed 4 --increment-shape 2.0 "
            + "--spread-shape 4.0 --median-percent 3.0 --model-spread 0.1 --season 0.1 --drift 0.1 --shock 0.1 "
            + "--memory-effect 2.0 --idle 0.1 --swaps 0.1 --resets 0.1 --missing 0.1\n");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        --drives 0                | --drives takes a whole number from 1 to 2000000, not 0
        --drives 10 --quarters 1  | --quarters takes a whole number from 2 to 40, not 1
        --drives 10 --idle 1      | --idle takes a probability from 0 to below 1, not 1.0
        --drives 10 --season NaN  | --season takes a number from 0 to 3, not NaN
        --drives 10 --machines 60 | --machines is for the office, --drives for a fleet: give one of them
        --season 0.1              | Missing required argument(s): --drives=N
        --machines 3              | the oddities need --machines 31 and --quarters 3 at least
        """)
    void aBadValueIsWrongUsage(String arguments, String sentence) {
        assertThat(run(arguments)).isEqualTo(ExitCode.USAGE);
        assertThat(err.toString().lines()).first().isEqualTo("wearledger: " + sentence);
        assertThat(folder.resolve("fleet")).doesNotExist();
    }
}
