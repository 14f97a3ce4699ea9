package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.wearledger.model.Problem;
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
    static final String ITEMS_CSV = "items.csv";
    static final String WORK_LIST_CSV = "work-list.csv";
    static final String COVERAGE_CSV = "coverage.csv";
    static final String CHANGES_CSV = "changes.csv";
    static final String WARRANTY_CSV = "warranty.csv";
    static final Set<String> FILE_NAMES = Set.of(SWEEP_XLSX, MACHINES_CSV, MODELS_CSV, PROBLEMS_CSV, SUMMARY_MD, REPLACEMENTS_CSV,
        BUDGET_CSV, TOTALS_CSV, ITEMS_CSV, WORK_LIST_CSV, COVERAGE_CSV, CHANGES_CSV, WARRANTY_CSV);

    private SweepWriter() {
    }

    /** What {@link #write} writes, the first to read first. */
    public static List<String> filesOf(SweepResult result) {
        List<String> files = new ArrayList<>(List.of(SUMMARY_MD, SWEEP_XLSX, WORK_LIST_CSV));
        if (result.plan().budget() != null) {
            files.addAll(List.of(REPLACEMENTS_CSV, BUDGET_CSV, TOTALS_CSV, ITEMS_CSV));
        }
        files.addAll(List.of(MACHINES_CSV, MODELS_CSV, COVERAGE_CSV, WARRANTY_CSV));
        if (result.plan().comparison() != null) {
            files.add(CHANGES_CSV);
        }
        files.add(PROBLEMS_CSV);
        return files;
    }

    /** The summary that {@link #write} wrote into {@code folder}. */
    public static String summary(Path folder) throws IOException {
        return Files.readString(folder.resolve(SUMMARY_MD));
    }

    /** One file to write. */
    private interface Writing {
        void run() throws IOException;
    }

    /**
     * Writes all files into {@code folder}, which exists; those of the budget and the changes where there are such.
     *
     * @param workbookRows of each sheet of the workbook that no amount rests on, at most; the tables hold all
     */
    public static void write(SweepResult result, Path folder, int workbookRows) throws IOException {
        List<Writing> writings = new ArrayList<>();
        // First, since it takes as long as all others together, which another core writes meanwhile.
        writings.add(() -> workbook(result, folder.resolve(SWEEP_XLSX), workbookRows));
        writings.add(() -> CsvWriter.write(Tables.machines(result), folder.resolve(MACHINES_CSV)));
        writings.add(() -> CsvWriter.write(Tables.models(result), folder.resolve(MODELS_CSV)));
        writings.add(() -> CsvWriter.write(Tables.problems(Problem.listed(result.problems())), folder.resolve(PROBLEMS_CSV)));
        writings.add(() -> CsvWriter.write(CareTables.work(result), folder.resolve(WORK_LIST_CSV)));
        writings.add(() -> CsvWriter.write(CareTables.coverage(result), folder.resolve(COVERAGE_CSV)));
        writings.add(() -> CsvWriter.write(CareTables.warranties(result), folder.resolve(WARRANTY_CSV)));
        if (result.plan().comparison() != null) {
            writings.add(() -> CsvWriter.write(CareTables.changes(result), folder.resolve(CHANGES_CSV)));
        }
        if (result.plan().budget() != null) {
            BudgetTables budget = new BudgetTables(result, Integer.MAX_VALUE);
            writings.add(() -> CsvWriter.write(budget.lines(), folder.resolve(REPLACEMENTS_CSV)));
            writings.add(() -> CsvWriter.write(budget.periods(), folder.resolve(BUDGET_CSV)));
            writings.add(() -> CsvWriter.write(budget.totals(), folder.resolve(TOTALS_CSV)));
            writings.add(() -> CsvWriter.write(budget.items(), folder.resolve(ITEMS_CSV)));
        }
        writings.add(() -> Files.writeString(folder.resolve(SUMMARY_MD), SummaryText.of(result), StandardCharsets.UTF_8));
        all(writings);
    }

    private static void workbook(SweepResult result, Path file, int rows) throws IOException {
        try (OutputStream out = Files.newOutputStream(file)) {
            WorkbookWriter.write(result, out, rows);
        }
    }

    private static void all(List<Writing> writings) throws IOException {
        CompletableFuture<Void> workbook = CompletableFuture.runAsync(() -> run(writings.get(0)));
        try {
            writings.subList(1, writings.size()).forEach(SweepWriter::run);
            workbook.join();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        } catch (CompletionException e) {
            if (e.getCause() instanceof UncheckedIOException failed) {
                throw failed.getCause();
            }
            throw e;
        } finally {
            // The folder is removed when a file could not be written: nobody may still be writing into it.
            workbook.handle((done, failed) -> null).join();
        }
    }

    private static void run(Writing writing) {
        try {
            writing.run();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
