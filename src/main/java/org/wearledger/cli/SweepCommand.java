package org.wearledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.wearledger.job.Sweep;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.SweepResult;
import org.wearledger.report.CheckText;
import org.wearledger.report.DoubtfulSites;
import org.wearledger.report.GlanceText;
import org.wearledger.report.InputGaps;
import org.wearledger.report.OutputFolder;
import org.wearledger.report.Overview;
import org.wearledger.report.SweepWriter;
import org.wearledger.report.VisibleText;
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
        "3:done, with files, records or rows of side tables refused or files read in part (see problems.csv), with columns missing or a third or more of a site's drives in doubt under a mapping that does not fit, or with no reading kept",
        "4:done, and an own machine reached the standing of --fail-on (takes precedence over 3; the last line also lists refusals)"})
final class SweepCommand implements Callable<Integer> {
    /** When nothing could be kept, enough to see why. */
    private static final int MOST_PROBLEMS_SHOWN = 3;

    @Spec
    private CommandSpec spec;

    @Mixin
    private InputOptions inputs;

    @Mixin
    private FreshFolder output;

    @Option(names = "--overwrite", description = "Replace an earlier sweep's output in --out.")
    private boolean overwrite;

    @Mixin
    private JudgingOptions judging;

    @Mixin
    private BudgetOptions budget;

    @Option(names = "--previous", paramLabel = "FOLDER", description = "Output of an earlier sweep, to list what changed since.")
    private Path previous;

    @Option(names = "--compare-with", paramLabel = "DATE", converter = LabelConverters.ForDate.class,
        description = "List what changed since this date, worked out from the same reports.")
    private LocalDate compareWith;

    @Option(names = "--fail-on", paramLabel = "STANDING", converter = LabelConverters.ForFailOn.class,
        description = "Exit with 4 when an own machine has this standing or a worse one: urgent, past-rating, due, watch.")
    private FailOn failOn;

    @Option(names = "--workbook-rows", paramLabel = "N", defaultValue = "20000", converter = LabelConverters.ForRows.class,
        description = "Rows that each sheet of facts holds, worst first: a number, or all. The CSV tables hold all (default: ${DEFAULT-VALUE}).")
    private int workbookRows;

    @Mixin
    private CsvOption csv;

    @Option(names = "--full", description = "Print the whole summary, as it stands in summary.md.")
    private boolean full;

    @Mixin
    private EngineOptions engine;

    @Override
    public Integer call() throws Exception {
        if (previous != null && compareWith != null) {
            throw new ParameterException(spec.commandLine(), "--previous and --compare-with exclude each other");
        }
        Path out = output.checked(inputs.reports(), overwrite, spec.commandLine());
        SweepRequest request = inputs.request(judging.settings(spec.commandLine()),
            budget.settings(spec.commandLine()), previous == null ? null : previous.toString(), compareWith);
        // While Spark opens.
        SweepWriter.warmUp();
        TerminalProgress progress = new TerminalProgress();
        SweepResult result = Sweep.run(request, engine.engine(spec.commandLine(), progress));
        progress.at("writing", 0, 1);
        OutputFolder.write(out, overwrite, output.access(), folder -> SweepWriter.write(result, folder, workbookRows, csv.form()));
        progress.close();
        PrintWriter console = spec.commandLine().getOut();
        summary(result, out).forEach(console::println);
        List<String> files = SweepWriter.filesOf(result);
        List<String> toRead = files.stream().filter(name -> !name.endsWith(".csv")).toList();
        console.println("Written to " + VisibleText.of(out.toString()) + ": " + String.join(", ", toRead) + " and " + (files.size() - toRead.size()) + " tables");
        console.println(progress.closing(result.accounting()));
        if (result.accounting().readingsKept() == 0) {
            CheckText.first(result.problems(), MOST_PROBLEMS_SHOWN).forEach(console::println);
        }
        int exitCode = exitCode(result);
        if (exitCode == ExitCode.DONE_WITH_REFUSALS) {
            console.println(ExitCode.refusals(result.accounting(), result.problems(), DoubtfulSites.of(result)));
        } else if (exitCode == ExitCode.STANDING_REACHED) {
            console.println(ExitCode.reached(failOn, result.accounting(), result.problems()));
        }
        console.flush();
        return exitCode;
    }

    /** One screen, or the whole summary where it is wished for or there is too little for a screen. */
    private List<String> summary(SweepResult result, Path out) throws IOException {
        if (!full && result.machines().isEmpty()) {
            return Overview.nothingRead(result);
        }
        if (full || !Overview.isUseful(result)) {
            List<String> lines = new ArrayList<>(List.of(SweepWriter.summary(out)));
            GlanceText.doubt(result).lines().forEach(lines::add);
            lines.addAll(InputGaps.missingColumns(result.problems()));
            return lines;
        }
        List<String> lines = new ArrayList<>(new Screen(new Overview(result), Integer.getInteger(Screen.COLUMNS)).lines());
        lines.add("");
        return lines;
    }

    private int exitCode(SweepResult result) {
        if (failOn != null && result.ownMachines().stream().anyMatch(m -> failOn.isReachedBy(m.standing()))) {
            return ExitCode.STANDING_REACHED;
        }
        return DoubtfulSites.of(result).isEmpty() ? ExitCode.of(result.accounting(), result.problems()) : ExitCode.DONE_WITH_REFUSALS;
    }
}
