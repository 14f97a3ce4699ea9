package org.wearledger.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.Callable;
import org.wearledger.job.Sweep;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.BacktestRun;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.BacktestText;
import org.wearledger.report.BacktestWriter;
import org.wearledger.report.OutputFolder;
import org.wearledger.report.VisibleText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(name = "backtest", mixinStandardHelpOptions = true,
    description = "Forecasts from each past sweep with that sweep's knowledge only, and holds it against what came: "
        + "do the stated intervals hold on your fleet?",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger backtest reports/ --out backtest-2025-q1", "  wearledger backtest reports/ --as-of 2024-10-07 --out backtest-2024-q4"},
    exitCodeListHeading = Wearledger.EXIT_CODES,
    exitCodeList = {"0:done", "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: an option, an input that is not there, an output folder in use",
        "3:done, with files, records or rows of side tables refused or files read in part (see problems.csv), with columns missing under a mapping that does not fit, or with no reading kept"})
final class BacktestCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private InputOptions inputs;

    @Mixin
    private FreshFolder output;

    @Option(names = "--as-of", paramLabel = "DATE", converter = LabelConverters.ForDate.class, 
        description = "Set reports after this date aside, such as 2025-01-06 (default: none).")
    private LocalDate asOf;

    @Option(names = "--seed", defaultValue = "1", paramLabel = "NUMBER",
        description = "Sweeps are drawn anew to tell how sure the scores are; the same seed draws the same (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Mixin
    private CsvOption csv;

    @Mixin
    private EngineOptions engine;

    @Override
    public Integer call() throws Exception {
        Path out = output.checked(inputs.reports(), false, spec.commandLine());
        SweepRequest request = inputs.request(SweepSettings.withDefaults().withAsOf(asOf));
        TerminalProgress progress = new TerminalProgress();
        BacktestRun run = Sweep.backtest(request, engine.engine(spec.commandLine(), progress), seed);
        progress.close();
        OutputFolder.write(out, false, output.access(), folder -> BacktestWriter.write(run, folder, csv.form()));
        PrintWriter console = spec.commandLine().getOut();
        console.println(BacktestText.of(run));
        console.println("Written to " + VisibleText.of(out.toString()) + ": backtest.md, backtest.xlsx, interval-coverage.csv, scores.csv, pit.csv, forecast-reliability.csv, problems.csv");
        int exitCode = ExitCode.of(run.accounting(), run.problems());
        if (exitCode == ExitCode.DONE_WITH_REFUSALS) {
            console.println(ExitCode.refusals(run.accounting(), run.problems(), List.of()));
        }
        console.flush();
        return exitCode;
    }
}
