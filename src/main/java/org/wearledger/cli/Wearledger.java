package org.wearledger.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;
import picocli.CommandLine.Spec;

@Command(name = "wearledger", mixinStandardHelpOptions = true, versionProvider = Version.class,
    subcommands = {SweepCommand.class, CheckCommand.class, DraftMappingCommand.class, BacktestCommand.class, ExplainCommand.class, PackCommand.class, SimulateCommand.class,
        CompletionCommand.class},
    description = "Reads the health reports of a fleet's drives and says which machines are past their rated write "
        + "endurance, which will get there, and what was not reported.",
    synopsisSubcommandLabel = "COMMAND",
    exitCodeListHeading = Wearledger.EXIT_CODES,
    exitCodeList = {"0:done", "1:failed for a reason that lies with the program or the machine", "2:wrong usage",
        "3, 4:done, with something to look at: see the command's own help",
        "129, 130, 143:stopped: the terminal was closed, Ctrl-C, or a request to end; run it again"},
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger check reports/", "  wearledger sweep reports/ --out sweep-2025-q1"})
final class Wearledger implements Callable<Integer> {
    static final String EXAMPLES = "%nExamples:%n";
    static final String EXIT_CODES = "%nExit codes:%n";

    /** Read before the others, by {@link SettingsFile}. */
    @Option(names = SettingsFile.OPTION, paramLabel = "FILE", scope = ScopeType.INHERIT,
        description = "Options that are the same each quarter, one a line, such as lead-time-days=45. What stands on the command line wins.")
    private Path settings;

    @Spec
    private CommandSpec spec;

    /** Called without a command: says which there are. */
    @Override
    public Integer call() {
        spec.commandLine().usage(spec.commandLine().getErr());
        return ExitCode.USAGE;
    }
}
