package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.wearledger.model.SweepResult;

/** Writes all outputs of a sweep. */
public final class SweepWriter {
    static final String SWEEP_XLSX = "sweep.xlsx";
    static final String MACHINES_CSV = "machines.csv";
    static final String MODELS_CSV = "models.csv";
    static final String PROBLEMS_CSV = "problems.csv";
    static final String SUMMARY_MD = "summary.md";
    static final Set<String> FILE_NAMES = Set.of(SWEEP_XLSX, MACHINES_CSV, MODELS_CSV, PROBLEMS_CSV, SUMMARY_MD);

    private SweepWriter() {
    }

    /** Writes the five files into {@code folder}, which exists. */
    public static void write(SweepResult result, Path folder) throws IOException {
        try (OutputStream out = Files.newOutputStream(folder.resolve(SWEEP_XLSX))) {
            WorkbookWriter.write(result, out);
        }
        CsvWriter.write(Tables.machines(result), folder.resolve(MACHINES_CSV));
        CsvWriter.write(Tables.models(result), folder.resolve(MODELS_CSV));
        CsvWriter.write(Tables.problems(result.problems()), folder.resolve(PROBLEMS_CSV));
        Files.writeString(folder.resolve(SUMMARY_MD), SummaryText.of(result), StandardCharsets.UTF_8);
    }
}
