package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Whose machines are planned for: two past their rating, LT-1 and LT-2, and LT-3, which never reported. */
class OwnershipIT {
    @TempDir
    Path folder;

    @BeforeEach
    void threeMachines() throws IOException {
        Path in = Files.createDirectory(folder.resolve("in"));
        Files.writeString(in.resolve("a.csv"), "machine.id,machine.site,machine.model,drive.serial,drive.model,drive.capacityBytes,schemaVersion,collectedAt,health.dataUnitsWritten,health.percentageUsed\n"
            + "LT-1,North,Plover 14,S-0001,Velkan D2,256000000000,1.0,2025-01-06T09:30:00Z,312500000,104\n"
            + "LT-2,South,Plover 14,S-0002,Velkan D2,256000000000,1.0,2025-01-06T09:30:00Z,312500000,104\n");
        Files.writeString(in.resolve("prices.csv"), "item,currency,unitPrice\ndrive,EUR,39\n");
    }

    private void inventory(String... ownership) throws IOException {
        Files.writeString(folder.resolve("in/inventory.csv"), "machineId,ownership\n" + IntStream.range(0, ownership.length)
            .mapToObj(i -> "LT-" + (i + 1) + "," + (ownership[i] == null ? "" : ownership[i])).collect(Collectors.joining("\n")) + "\n");
    }

    private Runs sweep(String out, Object... options) {
        return Runs.of(Stream.concat(Stream.of("sweep", folder.resolve("in"), "--out", folder.resolve(out)), Stream.of(options)).toArray());
    }

    /** Machines that a table of the output names. */
    private TreeSet<String> named(String table) throws IOException {
        Path file = folder.resolve("out").resolve(table);
        String text = Files.exists(file) ? Files.readString(file) : "";
        return IntStream.rangeClosed(1, 3).mapToObj(i -> "LT-" + i).filter(text::contains).collect(Collectors.toCollection(TreeSet::new));
    }

    @ParameterizedTest(name = "--ownership {0}; in the inventory {1}, {2}, {3}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        own       | -        | -        | -        | [LT-1, LT-2] | [LT-3]
        own       | customer | -        | customer | [LT-2]       | []
        customers | -        | own      | own      | [LT-2]       | [LT-3]
        customers | customer | customer | own      | []           | [LT-3]
        customers | -        | -        | -        | []           | []
        """)
    void onlyOwnMachinesArePlannedForAndMissed(String all, String first, String second, String third, String planned, String missed) throws IOException {
        inventory(first, second, third);
        assertThat(sweep("out", "--ownership", all).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(named("replacements.csv")).hasToString(planned);
        assertThat(named("work-list.csv")).as("with those to be found").containsAll(named("replacements.csv")).containsAll(named("coverage.csv")).hasSize(named("replacements.csv").size() + named("coverage.csv").size());
        assertThat(named("coverage.csv")).hasToString(missed);
        assertThat(named("warranty.csv")).hasToString(planned);
        assertThat(named("machines.csv")).hasToString("[LT-1, LT-2, LT-3]");
    }

    @Test
    void whereAllAreCustomersThereIsNoPlanAndNobodyIsLookedFor() throws Exception {
        Runs run = sweep("out", "--ownership", "customers", "--fail-on", "past-rating");
        assertThat(run.exitCode()).as("no own machine is past its rating").isEqualTo(ExitCode.DONE);
        assertThat(run.out()).contains("customers.csv").doesNotContain("Not reported", "Budget", "EUR", "work-list.csv", "replacements.csv", "budget.csv", "coverage.csv", "warranty.csv");
        assertThat(Files.readAllLines(folder.resolve("out/customers.csv"))).containsExactly("by,name,machines,urgent,pastRating,due,watch,withinRating,noVerdict",
            "site,North,1,0,1,0,0,0,0", "site,South,1,0,1,0,0,0,0", "model,Plover 14,2,0,2,0,0,0,0");
        try (XSSFWorkbook workbook = new XSSFWorkbook(folder.resolve("out/sweep.xlsx").toFile())) {
            assertThat(IntStream.range(0, workbook.getNumberOfSheets()).mapToObj(workbook::getSheetName))
                .contains("Summary", "Machines", "Customers").doesNotContain("Budget", "Replacements", "Purchases", "Totals", "Orders", "To do", "Coverage", "Warranty", "Assumptions");
        }
        assertThat(sweep("later", "--ownership", "customers", "--previous", folder.resolve("out")).err())
            .isEqualTo("wearledger: --previous and --compare-with compare own machines, and all of these are customers': leave the option out\n");
    }

    /** LT-1 is a customer's: that it does not come again is no change. */
    @Test
    void customersMachinesAreNoChange() throws IOException {
        inventory("customer", null, null);
        assertThat(sweep("before").exitCode()).isEqualTo(ExitCode.DONE);
        Path reports = folder.resolve("in/a.csv");
        Files.writeString(reports, Files.readAllLines(reports).stream().filter(line -> !line.startsWith("LT-1")).collect(Collectors.joining("\n", "", "\n")));
        Files.writeString(folder.resolve("in/inventory.csv"), "machineId\nLT-2\nLT-3\n");
        assertThat(sweep("out", "--previous", folder.resolve("before")).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(List.copyOf(named("changes.csv"))).isEmpty();
    }

    @Test
    void anotherWordIsRefusedWithTheWordsThereAre() {
        assertThat(sweep("out", "--ownership", "mine").err()).startsWith("wearledger: Invalid value for option '--ownership': expected one of own, customers, not mine");
    }
}
