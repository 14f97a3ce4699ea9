package org.wearledger.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.wearledger.job.Check;
import org.wearledger.job.Drafting;
import org.wearledger.job.InputRefusedException;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.FolderDraft;
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
    description = "Looks at exports, CSV or JSON, and writes a mapping as it may be: for a folder one for each site whose exports are alike. What neither headings nor values "
        + "settle is left as a question, with what each answer would mean: fill it in, then run check.",
    footerHeading = Wearledger.EXAMPLES, footer = {"  wearledger draft-mapping reports/", "  wearledger draft-mapping export.json --out mapping-north.json"},
    exitCodeListHeading = Wearledger.EXIT_CODES, exitCodeList = {"0:written, and nothing is open", "1:failed for a reason that lies with the program or the machine",
        "2:wrong usage: no export with a record that can be read, a mapping that is there already", "3:written, and something is to be filled in"})
final class DraftMappingCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "FILE|FOLDER", description = "The export, or a folder of exports.")
    private Path exports;

    @Option(names = "--out", paramLabel = "FILE", description = "The mapping of one export; never over one that is there (default: " + Drafting.MAPPING_FILE + " beside the exports, where check and sweep find it).")
    private Path out;

    @Override
    public Integer call() throws Exception {
        PrintWriter console = spec.commandLine().getOut();
        List<FolderDraft> drafts = Drafting.of(exports);
        if (out != null && drafts.size() > 1) {
            throw new ParameterException(spec.commandLine(), "leave out --out: " + drafts.size() + " folders need a mapping each");
        }
        List<Path> open = new ArrayList<>();
        for (FolderDraft draft : drafts) {
            Path mapping = out != null ? out : Path.of(draft.folder(), Drafting.MAPPING_FILE);
            if (drafts.size() > 1 && Files.exists(mapping)) {
                console.println(VisibleText.of(mapping + " is there already, and stays"));
                continue;
            }
            write(mapping, draft.draft());
            DraftText.lines(draft, mapping).forEach(console::println);
            if (draft.draft().isOpen()) {
                open.add(mapping);
            }
        }
        if (open.isEmpty()) {
            console.println("With " + (drafts.size() == 1 ? "it" : "them") + " check says:");
            check().lines().forEach(line -> console.println("  " + line));
        }
        console.println(DraftText.next(open, out == null && drafts.get(0).files().size() > 1 && !Files.isDirectory(exports) ? Path.of(drafts.get(0).folder()) : exports, out));
        console.flush();
        return open.isEmpty() ? ExitCode.DONE : ExitCode.DONE_WITH_REFUSALS;
    }

    private void write(Path mapping, MappingDraft draft) throws IOException {
        try {
            Files.writeString(mapping, DraftText.json(draft), StandardOpenOption.CREATE_NEW);
        } catch (FileAlreadyExistsException e) {
            throw new ParameterException(spec.commandLine(), mapping + " is there already; name another file by --out");
        }
    }

    private String check() throws IOException {
        SweepRequest request = new SweepRequest(List.of(exports.toString()), Map.of(), out == null ? null : out.toString(), null, SweepSettings.withDefaults(),
            BudgetSettings.withDefaults(), null, null, Instant.now(), Version.text());
        try {
            return CheckText.of(out == null ? Check.run(request) : Check.underItsMappingAlone(request));
        } catch (InputRefusedException e) {
            return VisibleText.ofLines(e.getMessage());
        }
    }
}
