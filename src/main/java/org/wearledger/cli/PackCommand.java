package org.wearledger.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.wearledger.job.Packs;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.Effect;
import org.wearledger.model.PackResult;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.FileSum;
import org.wearledger.report.OutputFolder;
import org.wearledger.report.VisibleText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

@Command(name = "pack", mixinStandardHelpOptions = true, showDefaultValues = false,
    description = "Reads reports once and keeps their readings in Parquet files. Every command takes the folder in place of the reports, or beside "
        + "newer ones, and tells the same. Side tables at the top of a folder or named by an option go with it, and serve until others are named. "
        + "Keep the reports as well: a pack holds what the report form knows and nothing else.",
    footerHeading = Wearledger.EXAMPLES,
    footer = {"  wearledger pack 2024-q1 2024-q2 2024-q3 2024-q4 --out 2024.pack", "  wearledger pack 2024.pack 2025-q1 --out 2025-q1.pack"},
    exitCodeListHeading = Wearledger.EXIT_CODES, exitCodeList = {
        "0:done", "1:failed; nothing was written", "2:wrong usage: an option, an input that is not there, an output folder in use",
        "3:done, with files or records refused, or files read in part (see problems.jsonl in the pack); side tables are packed as they stand, and their rows judged by the sweep"})
final class PackCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private InputOptions inputs;

    @Mixin
    private FreshFolder output;

    @Mixin
    private EngineOptions engine;

    @Override
    public Integer call() throws Exception {
        Path out = output.checked(inputs.reports(), false, spec.commandLine());
        SweepRequest request = inputs.request(SweepSettings.withDefaults());
        TerminalProgress progress = new TerminalProgress();
        PackResult[] result = new PackResult[1];
        OutputFolder.write(out, false, output.access(), folder -> result[0] = Packs.write(request, engine.engine(spec.commandLine(), progress), folder));
        progress.close();
        PackResult packed = result[0];
        PrintWriter console = spec.commandLine().getOut();
        long inPart = packed.count(Effect.FILE_READ_IN_PART);
        long refused = packed.count(Effect.FILE_REFUSED);
        long recordsRefused = packed.count(Effect.RECORD_REFUSED);
        console.println(FileSum.of(packed.files(), inPart, refused));
        console.println("records: " + packed.records() + " found = " + packed.readings() + " readings + " + recordsRefused + " refused");
        console.println("side tables packed: " + (packed.tables().isEmpty() ? "none" : String.join(", ", packed.tables())));
        console.println("Packed into " + VisibleText.of(out.toString()) + "; give this folder to any command in place of those reports");
        console.flush();
        return inPart + refused + recordsRefused > 0 ? ExitCode.DONE_WITH_REFUSALS : ExitCode.DONE;
    }
}
