package org.wearledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Callable;
import org.wearledger.job.Check;
import org.wearledger.job.Drafting;
import org.wearledger.job.InputRefusedException;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.MappingDraft;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.CheckText;
import org.wearledger.report.DraftText;
import org.wearledger.report.VisibleText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(name = "draft-mapping", mixinStandardHelpOptions = true, showDefaultValues = false,
    description = "Looks at an export, CSV or JSON, and writes a mapping as it may be. A unit that neither a heading nor the values settle is left as a question, "
        + "with what each answer would mean: fill it in, then run check.",
    footerHeading = Wearledger.EXAMPLES, footer = {"  wearledger draft-mapping reports/2025-q1/export.csv", "  wearledger draft-mapping export.json --out mapping-north.json"},
    exitCodeListHeading = Wearledger.EXIT_CODES, exitCodeList = {"0:written, and nothing is open", "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: a file without a record that can be read, a mapping that is there already", "3:written, and something is to be filled in"})
final class DraftMappingCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "The export.")
    private Path export;

    @Option(names = "--out", paramLabel = "FILE", description = "The mapping; never over one that is there (default: " + Drafting.MAPPING_FILE + " beside the export, where check and sweep find it).")
    private Path out;

    @Override
    public Integer call() throws Exception {
        PrintWriter console = spec.commandLine().getOut();
        MappingDraft draft = Drafting.of(export);
        Path mapping = out != null ? out : export.resolveSibling(Drafting.MAPPING_FILE);
        try {
            Files.writeString(mapping, DraftText.json(draft), StandardOpenOption.CREATE_NEW);
        } catch (FileAlreadyExistsException e) {
            throw new ParameterException(spec.commandLine(), mapping + " is there already; name another file by --out");
        }
        console.println(VisibleText.of("Written to " + mapping + ", from the first " + draft.records() + " records of " + export));
        DraftText.lines(draft).forEach(console::println);
        console.println("With it check says:");
        check(mapping).lines().forEach(line -> console.println("  " + line));
        console.flush();
        return draft.isOpen() || !draft.lacking().isEmpty() ? ExitCode.DONE_WITH_REFUSALS : ExitCode.DONE;
    }

    private String check(Path mapping) throws IOException {
        try {
            return CheckText.of(Check.underItsMappingAlone(new SweepRequest(List.of(export.toString()), null, null, null, null, null, mapping.toString(), null, SweepSettings.withDefaults(),
                BudgetSettings.withDefaults(), null, null, Instant.now(), Version.text())));
        } catch (InputRefusedException e) {
            return VisibleText.ofLines(e.getMessage());
        }
    }
}
