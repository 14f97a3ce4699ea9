package org.wearledger.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import org.wearledger.job.Check;
import org.wearledger.model.CheckResult;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.CheckText;
import org.wearledger.report.InputGaps;
import org.wearledger.report.RulePage;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(name = "check", mixinStandardHelpOptions = true,
    description = "Reads the reports and says what is wrong with them, line by line, without a sweep. Try a mapping with it.",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger check reports/2025-q1", "  wearledger check export.csv --mapping mapping.json --format json"},
    exitCodeListHeading = Wearledger.EXIT_CODES,
    exitCodeList = {"0:nothing was refused; drives may be in doubt, which the last line printed then says", "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: an option, or an input that is not there", "3:files, records or rows of side tables were refused, a file was read in part, columns are missing under a mapping that does not fit (the last line then says so), or no reading was kept"})
final class CheckCommand implements Callable<Integer> {
    /** How to print. */
    enum Form { text, json }

    @Spec
    private CommandSpec spec;

    @Mixin
    private InputOptions inputs;

    @Option(names = "--format", defaultValue = "text", paramLabel = "FORM", description = "${COMPLETION-CANDIDATES} (default: ${DEFAULT-VALUE}).")
    private Form form;

    @Option(names = "--explain", paramLabel = "RULE", help = true, converter = LabelConverters.ForRule.class,
        description = "Say what a rule means and what to do, such as counter-went-back. Reads no reports.")
    private ProblemKind rule;

    @Override
    public Integer call() throws Exception {
        if (rule != null) {
            spec.commandLine().getOut().println(RulePage.of(rule));
            return ExitCode.DONE;
        }
        CheckResult result = Check.run(inputs.request(SweepSettings.withDefaults()));
        PrintWriter console = spec.commandLine().getOut();
        console.println(form == Form.json ? CheckText.json(result) : CheckText.of(result));
        if (form == Form.text) {
            InputGaps.missingColumns(result.problems()).forEach(console::println);
        }
        console.flush();
        boolean refused = result.filesReadInPart() > 0 || result.filesRefused() > 0 || result.recordsRefused() > 0 || result.rowsRefused() > 0;
        boolean nothingKept = result.readingsKept() + result.readingsInPacks() == 0;
        return refused || nothingKept || ExitCode.missesColumns(result.problems()) ? ExitCode.DONE_WITH_REFUSALS : ExitCode.DONE;
    }
}
