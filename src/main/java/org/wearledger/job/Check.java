package org.wearledger.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FileSplits;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.ReportPart;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;

/** Reads every report and side table and says what is wrong, without a sweep and without Spark. */
public final class Check {
    private static IntakeTally read(ReportPart part, FieldMapping mapping) {
        IntakeTally.Counter counter = new IntakeTally.Counter();
        try (ReportReader reader = new ReportReader(part, mapping)) {
            reader.forEachRemaining(counter::add);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return counter.tally();
    }

    private Check() {
    }

    /** @throws InputRefusedException when an input is not there or cannot serve as what it is named for */
    public static CheckResult run(SweepRequest request) throws IOException {
        try {
            FoundFiles found = FoundFiles.find(request.reports());
            SideTableSet tables = SideTableSet.load(request, found);
            FieldMapping mapping = request.fieldMapping();
            List<ReportPart> parts = FileSplits.of(found.reports(), toCount -> toCount.parallelStream().map(FileSplits::count).toList());
            List<IntakeTally> tallies = parts.parallelStream().map(part -> read(part, mapping)).toList();
            List<Problem> problems = new ArrayList<>(tables.problems());
            tallies.forEach(tally -> problems.addAll(tally.problems()));
            FileSummary.added(tallies.stream().flatMap(tally -> tally.files().stream()).toList()).values()
                .forEach(file -> problems.addAll(file.problems(mapping)));
            List<PackFolder> packs = Packs.load(found, request.pseudonyms());
            packs.forEach(pack -> problems.addAll(pack.problems()));
            return new CheckResult(found.reports().size() + Packs.inPacks(packs, PackFolder.Contents::filesFound),
                count(problems, Effect.FILE_REFUSED),
                tallies.stream().mapToLong(IntakeTally::records).sum() + Packs.inPacks(packs, PackFolder.Contents::records),
                count(problems, Effect.RECORD_REFUSED),
                tallies.stream().mapToLong(IntakeTally::readings).sum() + Packs.inPacks(packs, PackFolder.Contents::readings), problems);
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static long count(List<Problem> problems, Effect effect) {
        return problems.stream().filter(problem -> problem.kind().effect() == effect).count();
    }
}
