package org.wearledger.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

@Command(name = "completion", mixinStandardHelpOptions = true,
    description = "Prints a script that lets bash or zsh complete commands, options and their values.",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  source <(wearledger completion)", "  wearledger completion > /etc/bash_completion.d/wearledger"},
    exitCodeListHeading = Wearledger.EXIT_CODES, exitCodeList = {"0:done", "1:failed for a reason that lies with the program or the machine", "2:wrong usage"})
final class CompletionCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        PrintWriter console = spec.commandLine().getOut();
        console.print(AutoComplete.bash(spec.root().name(), spec.root().commandLine()));
        console.flush();
        return ExitCode.DONE;
    }
}
