package org.wearledger.cli;

import picocli.CommandLine.Command;

@Command(name = "wearledger", mixinStandardHelpOptions = true, versionProvider = Version.class,
    subcommands = {SweepCommand.class, CheckCommand.class, BacktestCommand.class, ExplainCommand.class, PackCommand.class, SimulateCommand.class},
    description = "Reads the health reports of a fleet's drives and says which machines are past their rated write "
        + "endurance, which will get there, and what was not reported.",
    synopsisSubcommandLabel = "COMMAND")
final class Wearledger {
}
