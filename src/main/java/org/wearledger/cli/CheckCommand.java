package org.wearledger.cli;

import java.io.PrintWriter;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Callable;
import org.wearledger.job.Check;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CheckResult;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.CheckText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(name = "check", mixinStandardHelpOptions = true,
    description = "Reads the reports and says what is wrong with them, line by line, without a sweep. Try a mapping with it.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:nothing was refused", "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: an option, or an input that is not there", "3:files or records were refused"})
final class CheckCommand implements Callable<Integer> {
    /** How to print. */
    enum Form { text, json }

    @Spec
    private CommandSpec spec;

    @Parameters(arity = "1..*", paramLabel = "REPORTS", description = "As for sweep.")
    private List<String> reports;

    @Option(names = "--mapping", paramLabel = "FILE", description = "As for sweep.")
    private String mapping;

    @Option(names = "--ratings", paramLabel = "FILE", description = "As for sweep.")
    private String ratings;

    @Option(names = "--inventory", paramLabel = "FILE", description = "As for sweep.")
    private String inventory;

    @Option(names = "--prices", paramLabel = "FILE", description = "As for sweep.")
    private String prices;

    @Option(names = "--format", defaultValue = "text", paramLabel = "FORM", description = "${COMPLETION-CANDIDATES} (default: ${DEFAULT-VALUE}).")
    private Form form;

    @Override
    public Integer call() throws Exception {
        CheckResult result = Check.run(new SweepRequest(reports, ratings, inventory, prices, mapping, SweepSettings.withDefaults(),
            BudgetSettings.withDefaults(), null, null, Instant.now(), Version.text()));
        PrintWriter console = spec.commandLine().getOut();
        console.println(form == Form.json ? CheckText.json(result) : CheckText.of(result));
        console.flush();
        return result.filesRefused() > 0 || result.recordsRefused() > 0 ? ExitCode.DONE_WITH_REFUSALS : ExitCode.DONE;
    }
}
