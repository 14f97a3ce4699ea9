package org.wearledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.wearledger.job.Sweep;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Effect;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.report.OutputFile;
import org.wearledger.report.OutputFolder;
import org.wearledger.report.PageNames;
import org.wearledger.report.ProblemWords;
import org.wearledger.report.VisibleText;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

@Command(name = "explain", mixinStandardHelpOptions = true,
    description = "Writes a machine's page for its user or owner, or those of all machines with one standing. It says what was written against the rating, "
        + "when that runs out, and what to do. Give the reports of the whole fleet and the options that the sweep had: a drive is judged beside its like.",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger explain --machine LT-008 reports/ --out LT-008.html", "  wearledger explain --standing past-rating --for customer reports/ --out pages"},
    exitCodeListHeading = Wearledger.EXIT_CODES,
    exitCodeList = {"0:done; the page tells what was refused of its machine, check and sweep what was refused elsewhere", "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: an option, an input or a machine that is not there, an output file in use",
        "3:done, but no reading of any machine could be kept"})
final class ExplainCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private InputOptions inputs;

    @ArgGroup(exclusive = true, multiplicity = "1", heading = "%nOf which machine, or of which machines:%n")
    private Which which;

    private static final class Which {
        @Option(names = "--machine", paramLabel = "ID", description = "The machine, as its reports name it.")
        private String machineId;

        @Option(names = "--standing", paramLabel = "STANDING", converter = LabelConverters.ForStanding.class,
            description = "A page for each machine with this standing, such as past-rating or \"past rating\".")
        private Standing standing;
    }

    @Option(names = "--for", defaultValue = "user", paramLabel = "READER", converter = LabelConverters.ForReader.class,
        description = "Who reads it: user, who works with the machine, and your IT; or customer, its owner: in plain words, without files, rules and what others do "
            + "(default: ${DEFAULT-VALUE}).")
    private PageReader reader;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "The page to write, such as LT-001.html; with --standing a fresh folder for the pages.")
    private Path out;

    @Option(names = "--overwrite", description = "Replace the page if it is there. A folder of pages is never replaced.")
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
        if (which.standing != null && overwrite) {
            throw new ParameterException(spec.commandLine(), "--overwrite replaces one page: with --standing name a fresh folder");
        }
        SweepRequest request = inputs.request(judging.settings(spec.commandLine()), budget.settings(spec.commandLine()), null, null);
        return which.standing != null ? all(request) : one(request);
    }

    private int all(SweepRequest request) throws IOException {
        OutputFolder.check(out, false);
        TerminalProgress progress = new TerminalProgress();
        SweepResult[] swept = new SweepResult[1];
        OutputFolder.write(out, false, shared.access(), folder -> {
            try {
                swept[0] = Sweep.explain(request, this::isToBeWritten, engine.engine(spec.commandLine(), progress), story -> write(story, day(request), folder));
            } catch (UncheckedIOException e) {
                throw e.getCause();
            }
        });
        progress.close();
        long pages = swept[0].machines().stream().filter(this::isToBeWritten).count();
        long own = swept[0].machines().stream().filter(machine -> machine.standing() == which.standing).count() - pages;
        PrintWriter console = spec.commandLine().getOut();
        console.println("Wrote " + pages + (pages == 1 ? " page" : " pages") + " to " + out + ": one for each machine that is \"" + which.standing.label() + "\""
            + (own == 0 ? "" : "; " + own + " left out as own: --ownership customers, or the inventory, says whose they are"));
        console.flush();
        return exitCode(swept[0].asOf());
    }

    /** An owner's page is for customers: nobody hands one out for the office's own machine. */
    private boolean isToBeWritten(MachineAssessment machine) {
        return machine.standing() == which.standing && (reader != PageReader.CUSTOMER || !machine.isOwn());
    }

    /** Never over another's page. */
    private void write(MachineStory story, LocalDate issuedOn, Path folder) {
        try {
            Files.writeString(folder.resolve(PageNames.of(story.machine().machine().id())), reader.page(story, issuedOn), StandardOpenOption.CREATE_NEW);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static LocalDate day(SweepRequest request) {
        return LocalDate.ofInstant(request.now(), ZoneOffset.UTC);
    }

    private static int exitCode(LocalDate asOf) {
        return asOf == null ? ExitCode.DONE_WITH_REFUSALS : ExitCode.DONE;
    }

    private int one(SweepRequest request) throws IOException {
        OutputFile.check(out, overwrite);
        TerminalProgress progress = new TerminalProgress();
        MachineStory story = Sweep.explain(request, which.machineId, engine.engine(spec.commandLine(), progress));
        progress.close();
        OutputFile.write(out, overwrite, shared.access(), reader.page(story, day(request)));
        PrintWriter console = spec.commandLine().getOut();
        MachineAssessment machine = story.machine();
        console.println(VisibleText.of(machine.machine().id() + ": " + machine.standing().label() + "; " + machine.reason()));
        story.drives().stream().map(drive -> DrivesToCheck.of(drive.problems()).checkFirst(drive.drive())).filter(Objects::nonNull).distinct()
            .forEach(first -> console.println("Before anything is ordered, " + first + "."));
        if (machine.lastSeenAt() == null) {
            story.refusals().stream().filter(problem -> problem.kind().effect() == Effect.FILE_REFUSED).findFirst()
                .ifPresent(problem -> console.println(VisibleText.of("Files were refused, and its reports may be among them: " + ProblemWords.of(problem).sentence())));
        }
        console.println("Written to " + VisibleText.of(out.toString()));
        console.flush();
        return exitCode(story.asOf());
    }
}
