package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;
import org.wearledger.model.SweepResult;

/** Writes all outputs of a sweep. */
public final class SweepWriter {
    /** Of the tables and their columns; columns are only added at the end. */
    static final int FORM = 2;
    static final String SWEEP_XLSX = "sweep.xlsx";
    static final String MACHINES_CSV = "machines.csv";
    static final String MODELS_CSV = "models.csv";
    static final String MACHINE_MODELS_CSV = "machine-models.csv";
    static final String SITES_CSV = "sites.csv";
    static final String PROBLEMS_CSV = "problems.csv";
    static final String SUMMARY_MD = "summary.md";
    static final String FLEET_HTML = "fleet.html";
    static final String REPLACEMENTS_CSV = "replacements.csv";
    static final String BUDGET_CSV = "budget.csv";
    static final String TOTALS_CSV = "totals.csv";
    static final String ITEMS_CSV = "items.csv";
    static final String CUSTOMERS_CSV = "customers.csv";
    static final String WORK_LIST_CSV = "work-list.csv";
    static final String COVERAGE_CSV = "coverage.csv";
    static final String CHANGES_CSV = "changes.csv";
    static final String WARRANTY_CSV = "warranty.csv";
    static final String REPAIR_COSTS_CSV = "repair-costs.csv";
    static final String STOCK_CSV = "stock.csv";
    static final String FAILURES_CSV = "failures.csv";
    static final Set<String> FILE_NAMES = Set.of(SWEEP_XLSX, MACHINES_CSV, MODELS_CSV, MACHINE_MODELS_CSV, SITES_CSV, PROBLEMS_CSV, SUMMARY_MD, FLEET_HTML, REPLACEMENTS_CSV,
        BUDGET_CSV, TOTALS_CSV, ITEMS_CSV, WORK_LIST_CSV, COVERAGE_CSV, CHANGES_CSV, WARRANTY_CSV, REPAIR_COSTS_CSV, STOCK_CSV, FAILURES_CSV, CUSTOMERS_CSV);

    private SweepWriter() {
    }

    /** What {@link #write} writes, the first to read first. */
    public static List<String> filesOf(SweepResult result) {
        return List.copyOf(files(result, 1, CsvForm.COMMA).keySet());
    }

    /** The summary that {@link #write} wrote into {@code folder}. */
    public static String summary(Path folder) throws IOException {
        return Files.readString(folder.resolve(SUMMARY_MD));
    }

    /** Loads what {@link #write} needs on a thread of its own, for a caller who waits for something else meanwhile. */
    public static void warmUp() {
        Thread thread = new Thread(WorkbookWarmUp::run, "loading the workbook's library");
        thread.setDaemon(true);
        thread.start();
    }

    /** One file, which is not there yet. */
    private interface Writing {
        void to(Path file) throws IOException;
    }

    private static Map<String, Writing> files(SweepResult result, int workbookRows, CsvForm form) {
        Map<String, Writing> files = new LinkedHashMap<>();
        files.put(SUMMARY_MD, file -> Files.writeString(file, SummaryText.of(result), StandardCharsets.UTF_8));
        files.put(FLEET_HTML, file -> Files.writeString(file, FleetPage.of(result), StandardCharsets.UTF_8));
        files.put(SWEEP_XLSX, file -> workbook(result, file, workbookRows));
        CsvWriter csv = new CsvWriter(form);
        tables(result).forEach((name, table) -> files.put(name, file -> csv.write(table.get(), file)));
        return files;
    }

    private static Map<String, Supplier<Table<?>>> tables(SweepResult result) {
        boolean plans = !result.isOfCustomersAlone();
        Map<String, Supplier<Table<?>>> tables = new LinkedHashMap<>();
        if (plans) {
            tables.put(WORK_LIST_CSV, () -> CareTables.work(result));
        }
        if (result.plan().budget() != null) {
            BudgetTables budget = new BudgetTables(result);
            tables.put(REPLACEMENTS_CSV, budget::lines);
            tables.put(BUDGET_CSV, budget::periods);
            tables.put(TOTALS_CSV, budget::totals);
            tables.put(ITEMS_CSV, budget::items);
        }
        tables.put(MACHINES_CSV, () -> Tables.machines(result));
        tables.put(MODELS_CSV, () -> ModelTables.drives(result));
        tables.put(MACHINE_MODELS_CSV, () -> ModelTables.machines(result));
        if (!ModelTables.sites(result).rows().isEmpty()) {
            tables.put(SITES_CSV, () -> ModelTables.sites(result));
        }
        if (!result.customersMachines().isEmpty()) {
            tables.put(CUSTOMERS_CSV, () -> CustomerCounts.table(result));
        }
        if (plans) {
            tables.put(COVERAGE_CSV, () -> CareTables.coverage(result));
            tables.put(WARRANTY_CSV, () -> CareTables.warranties(result));
        }
        if (!result.fleet().repairs().isEmpty()) {
            tables.put(REPAIR_COSTS_CSV, () -> RepairTables.repairs(result));
            tables.put(STOCK_CSV, () -> RepairTables.stock(result));
        }
        if (!result.fleet().repairs().failures().incidences().isEmpty()) {
            tables.put(FAILURES_CSV, () -> FailureTable.of(result));
        }
        if (result.plan().comparison() != null) {
            tables.put(CHANGES_CSV, () -> CareTables.changes(result));
        }
        tables.put(PROBLEMS_CSV, () -> Tables.problems(ProblemWords.listed(result.problems())));
        return tables;
    }

    private static void workbook(SweepResult result, Path file, int rows) throws IOException {
        try (OutputStream out = Files.newOutputStream(file)) {
            WorkbookWriter.write(result, out, rows);
        }
    }

    /**
     * Writes all files into {@code folder}, which exists; those of the budget, the changes and customers' machines where there are such.
     *
     * @param workbookRows of each sheet of the workbook that no amount rests on, at most; the tables hold all
     * @param form of the tables
     */
    public static void write(SweepResult result, Path folder, int workbookRows, CsvForm form) throws IOException {
        Map<String, Writing> files = files(result, workbookRows, form);
        Writing first = files.remove(SWEEP_XLSX);
        // It takes as long as all others together, which another core writes meanwhile.
        CompletableFuture<Void> workbook = CompletableFuture.runAsync(() -> run(first, folder.resolve(SWEEP_XLSX)));
        try {
            files.forEach((name, writing) -> run(writing, folder.resolve(name)));
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

    private static void run(Writing writing, Path file) {
        try {
            writing.to(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
