package org.wearledger.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;

/** Reads every report and side table and says what is wrong, without a sweep and without Spark. */
public final class Check {
    private record FileCheck(List<Problem> problems, long records, long readings) {
        static FileCheck of(ReportFile file, FieldMapping mapping) {
            List<Problem> problems = new ArrayList<>();
            long records = 0;
            long readings = 0;
            try (ReportReader reader = new ReportReader(file, mapping)) {
                while (reader.hasNext()) {
                    ReportReader.Item item = reader.next();
                    problems.addAll(item.outcome().problems());
                    records += item.records();
                    readings += item.outcome().values().size();
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return new FileCheck(problems, records, readings);
        }
    }

    private Check() {
    }

    /** @throws InputRefusedException when an input is not there or cannot serve as what it is named for */
    public static CheckResult run(SweepRequest request) throws IOException {
        try {
            FoundFiles found = FoundFiles.find(request.reports());
            SideTableSet tables = SideTableSet.load(request, found);
            FieldMapping mapping = request.mapping() == null ? FieldMapping.none() : FieldMapping.load(Path.of(request.mapping()));
            List<FileCheck> files = found.reports().parallelStream().map(file -> FileCheck.of(file, mapping)).toList();
            List<Problem> problems = new ArrayList<>(tables.problems());
            files.forEach(file -> problems.addAll(file.problems));
            return new CheckResult(files.size(), count(problems, Effect.FILE_REFUSED), files.stream().mapToLong(FileCheck::records).sum(),
                count(problems, Effect.RECORD_REFUSED), files.stream().mapToLong(FileCheck::readings).sum(), problems);
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static long count(List<Problem> problems, Effect effect) {
        return problems.stream().filter(problem -> problem.kind().effect() == effect).count();
    }
}
