package org.wearledger.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.Callable;
import org.wearledger.job.Sweep;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.CheckText;
import org.wearledger.report.OutputFolder;
import org.wearledger.report.SummaryText;
import org.wearledger.report.SweepWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

@Command(name = "sweep", mixinStandardHelpOptions = true,
    description = "Reads health reports and writes a summary, a workbook and tables into a fresh folder.",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger sweep reports/ --out sweep-2025-q1", "  wearledger sweep reports/ --settings fleet.properties --out sweep-2025-q1"},
    exitCodeListHeading = Wearledger.EXIT_CODES,
    exitCodeList = {
        "0:done",
        "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: an option, an input that is not there, an output folder in use",
        "3:done, with files or records refused (see problems.csv), or with no reading kept",
        "4:done, and a machine reached the standing of --fail-on (this goes before 3)"})
final class SweepCommand implements Callable<Integer> {
    /** When nothing could be kept, enough to see why. */
    private static final int MOST_PROBLEMS_SHOWN = 3;

    @Spec
    private CommandSpec spec;

    @Mixin
    private InputOptions inputs;

    @Option(names = "--out", required = true, paramLabel = "FOLDER", description = "Where to write; a folder that is fresh or empty.")
    private Path out;

    @Option(names = "--overwrite", description = "Replace an earlier sweep's output in --out.")
    private boolean overwrite;

    @Option(names = "--as-of", paramLabel = "DATE", converter = LabelConverters.ForDate.class,
        description = "The date to judge by, such as 2025-01-06; later reports are set aside (default: the latest report's date, UTC).")
    private LocalDate asOf;

    @Option(names = "--lead-time-days", defaultValue = "30", paramLabel = "DAYS",
        description = "From order to delivery; \"due\" looks at this and one quarter (default: ${DEFAULT-VALUE}).")
    private int leadTimeDays;

    @Option(names = "--recent-days", defaultValue = "45", paramLabel = "DAYS",
        description = "A machine with no report in this many days before the as-of date is \"not reported\" (default: ${DEFAULT-VALUE}).")
    private int recentDays;

    @Option(names = "--due-probability", defaultValue = "0.5", paramLabel = "P",
        description = "Least probability of crossing within lead time and one quarter for \"due\" (default: ${DEFAULT-VALUE}).")
    private double dueProbability;

    @Option(names = "--watch-probability", defaultValue = "0.1", paramLabel = "P",
        description = "Least probability of crossing within four quarters for \"watch\" (default: ${DEFAULT-VALUE}).")
    private double watchProbability;

    @Option(names = "--method", defaultValue = "pooled", paramLabel = "METHOD",
        description = "pooled: due and watch by probabilities from the whole fleet's past; straight-line: by the date of a "
            + "straight line, without an uncertainty (default: ${DEFAULT-VALUE}).", converter = LabelConverters.ForMethod.class)
    private ProjectionMethod method;

    @Mixin
    private BudgetOptions budget;

    @Option(names = "--previous", paramLabel = "FOLDER", description = "Output of an earlier sweep, to list what changed since.")
    private Path previous;

    @Option(names = "--compare-with", paramLabel = "DATE", converter = LabelConverters.ForDate.class,
        description = "List what changed since this date, worked out from the same reports.")
    private LocalDate compareWith;

    @Option(names = "--fail-on", paramLabel = "STANDING", converter = LabelConverters.ForFailOn.class,
        description = "Exit with 4 when a machine has this standing or a worse one: urgent, past-rating, due, watch.")
    private FailOn failOn;

    @Mixin
    private EngineOptions engine;

    @Override
    public Integer call() throws Exception {
        if (!(dueProbability > 0 && dueProbability <= 1 && watchProbability > 0 && watchProbability <= 1)) {
            throw new ParameterException(spec.commandLine(), "--due-probability and --watch-probability lie above 0, up to 1, not " + dueProbability + " and " + watchProbability);
        }
        if (leadTimeDays < 0 || recentDays < 0) {
            throw new ParameterException(spec.commandLine(), "--lead-time-days and --recent-days take 0 or more, not " + leadTimeDays + " and " + recentDays);
        }
        if (previous != null && compareWith != null) {
            throw new ParameterException(spec.commandLine(), "--previous and --compare-with exclude each other");
        }
        OutputPlace.requireOutside(out, inputs.reports(), spec.commandLine());
        OutputFolder.check(out, overwrite);
        SweepRequest request = inputs.request(new SweepSettings(asOf, leadTimeDays, recentDays, method, dueProbability, watchProbability),
            budget.settings(spec.commandLine()), previous == null ? null : previous.toString(), compareWith);
        TerminalProgress progress = new TerminalProgress();
        SweepResult result = Sweep.run(request, engine.engine(spec.commandLine(), progress));
        progress.at("writing", 0, 1);
        OutputFolder.write(out, overwrite, folder -> SweepWriter.write(result, folder));
        progress.close();
        int exitCode = exitCode(result);
        PrintWriter console = spec.commandLine().getOut();
        console.println(SummaryText.of(result));
        console.println("Written to " + out + ": " + String.join(", ", SweepWriter.filesOf(result)));
        console.println(progress.closing(result.accounting()));
        if (result.accounting().readingsKept() == 0) {
            CheckText.first(result.problems(), MOST_PROBLEMS_SHOWN).forEach(console::println);
        }
        if (exitCode == ExitCode.DONE_WITH_REFUSALS) {
            console.println(ExitCode.refusals(result.accounting()));
        } else if (exitCode == ExitCode.STANDING_REACHED) {
            console.println("Done; a machine is at \"" + failOn + "\" or worse: exit code 4");
        }
        console.flush();
        return exitCode;
    }

    private int exitCode(SweepResult result) {
        if (failOn != null && result.machines().stream().anyMatch(m -> failOn.isReachedBy(m.standing()))) {
            return ExitCode.STANDING_REACHED;
        }
        return ExitCode.of(result.accounting());
    }
}
