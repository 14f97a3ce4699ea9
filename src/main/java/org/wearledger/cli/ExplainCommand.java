package org.wearledger.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.wearledger.job.Sweep;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Effect;
import org.wearledger.model.MachineStory;
import org.wearledger.report.ExplainPage;
import org.wearledger.report.OutputFile;
import org.wearledger.report.ProblemWords;
import org.wearledger.report.VisibleText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(name = "explain", mixinStandardHelpOptions = true,
    description = "Writes one machine's page for its user: what was written against the rating, when it runs out, how each figure was reached, "
        + "and what to do. The fleet's reports are read too, because a drive is judged beside its like: give the options that the sweep had.",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger explain --machine LT-008 reports/ --out LT-008.html", "  wearledger explain --machine LT-008 reports/ --out LT-008.html --overwrite"},
    exitCodeListHeading = Wearledger.EXIT_CODES,
    exitCodeList = {"0:done; the page tells what was refused of its machine, check and sweep what was refused elsewhere", "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: an option, an input or a machine that is not there, an output file in use",
        "3:done, but no reading of any machine could be kept"})
final class ExplainCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private InputOptions inputs;

    @Option(names = "--machine", required = true, paramLabel = "ID", description = "The machine, as its reports name it.")
    private String machineId;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "The page to write, such as LT-001.html.")
    private Path out;

    @Option(names = "--overwrite", description = "Replace the page if it is there.")
    private boolean overwrite;

    @Mixin
    private SharedOption shared;

    @Mixin
    private JudgingOptions judging;

    @Mixin
    private BudgetOptions budget;

    @Mixin
    private EngineOptions engine;

    @Override
    public Integer call() throws Exception {
        OutputPlace.requireOutside(out, inputs.reports(), spec.commandLine());
        OutputFile.check(out, overwrite);
        SweepRequest request = inputs.request(judging.settings(spec.commandLine()), budget.settings(spec.commandLine()), null, null);
        TerminalProgress progress = new TerminalProgress();
        MachineStory story = Sweep.explain(request, machineId, engine.engine(spec.commandLine(), progress));
        progress.close();
        OutputFile.write(out, overwrite, shared.access(), ExplainPage.of(story));
        PrintWriter console = spec.commandLine().getOut();
        console.println(VisibleText.of(story.machine().machine().id() + ": " + story.machine().standing().label() + "; " + story.machine().reason()));
        story.drives().stream().map(drive -> DrivesToCheck.of(drive.problems()).checkFirst(drive.drive())).filter(Objects::nonNull).distinct()
            .forEach(first -> console.println("Before anything is ordered, " + first + "."));
        if (story.machine().lastSeenAt() == null) {
            story.refusals().stream().filter(problem -> problem.kind().effect() == Effect.FILE_REFUSED).findFirst()
                .ifPresent(problem -> console.println(VisibleText.of("Files were refused, and its reports may be among them: " + ProblemWords.of(problem).sentence())));
        }
        console.println("Written to " + out);
        console.flush();
        return story.asOf() == null ? ExitCode.DONE_WITH_REFUSALS : ExitCode.DONE;
    }
}
