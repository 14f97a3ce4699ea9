package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.wearledger.model.SweepResult;

/** Writes all outputs of a sweep. */
public final class SweepWriter {
    static final String SWEEP_XLSX = "sweep.xlsx";
    static final String MACHINES_CSV = "machines.csv";
    static final String MODELS_CSV = "models.csv";
    static final String PROBLEMS_CSV = "problems.csv";
    static final String SUMMARY_MD = "summary.md";
    static final String REPLACEMENTS_CSV = "replacements.csv";
    static final String BUDGET_CSV = "budget.csv";
    static final String TOTALS_CSV = "totals.csv";
    static final String WORK_LIST_CSV = "work-list.csv";
    static final String COVERAGE_CSV = "coverage.csv";
    static final String CHANGES_CSV = "changes.csv";
    static final String WARRANTY_CSV = "warranty.csv";
    static final Set<String> FILE_NAMES = Set.of(SWEEP_XLSX, MACHINES_CSV, MODELS_CSV, PROBLEMS_CSV, SUMMARY_MD, REPLACEMENTS_CSV,
        BUDGET_CSV, TOTALS_CSV, WORK_LIST_CSV, COVERAGE_CSV, CHANGES_CSV, WARRANTY_CSV);

    private SweepWriter() {
    }

    /** What {@link #write} writes, the first to read first. */
    public static List<String> filesOf(SweepResult result) {
        List<String> files = new ArrayList<>(List.of(SUMMARY_MD, SWEEP_XLSX, WORK_LIST_CSV));
        if (result.budget() != null) {
            files.addAll(List.of(REPLACEMENTS_CSV, BUDGET_CSV, TOTALS_CSV));
        }
        files.addAll(List.of(MACHINES_CSV, MODELS_CSV, COVERAGE_CSV, WARRANTY_CSV));
        if (result.comparison() != null) {
            files.add(CHANGES_CSV);
        }
        files.add(PROBLEMS_CSV);
        return files;
    }

    /** Writes all files into {@code folder}, which exists; those of the budget and the changes where there are such. */
    public static void write(SweepResult result, Path folder) throws IOException {
        try (OutputStream out = Files.newOutputStream(folder.resolve(SWEEP_XLSX))) {
            WorkbookWriter.write(result, out);
        }
        CsvWriter.write(Tables.machines(result), folder.resolve(MACHINES_CSV));
        CsvWriter.write(Tables.models(result), folder.resolve(MODELS_CSV));
        CsvWriter.write(Tables.problems(result.problems()), folder.resolve(PROBLEMS_CSV));
        CsvWriter.write(CareTables.work(result), folder.resolve(WORK_LIST_CSV));
        CsvWriter.write(CareTables.coverage(result), folder.resolve(COVERAGE_CSV));
        CsvWriter.write(CareTables.warranties(result), folder.resolve(WARRANTY_CSV));
        if (result.comparison() != null) {
            CsvWriter.write(CareTables.changes(result), folder.resolve(CHANGES_CSV));
        }
        if (result.budget() != null) {
            BudgetTables budget = new BudgetTables(result.budget(), Integer.MAX_VALUE);
            CsvWriter.write(budget.lines(), folder.resolve(REPLACEMENTS_CSV));
            CsvWriter.write(budget.periods(), folder.resolve(BUDGET_CSV));
            CsvWriter.write(budget.totals(), folder.resolve(TOTALS_CSV));
        }
        Files.writeString(folder.resolve(SUMMARY_MD), SummaryText.of(result), StandardCharsets.UTF_8);
    }
}
