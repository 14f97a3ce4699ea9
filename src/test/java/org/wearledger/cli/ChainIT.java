package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The second sample, a chain of three repair shops, as its README sweeps it. */
class ChainIT {
    private static final String CHAIN = "sample-reports/_chain";

    @TempDir
    private static Path shared;

    private static String summary;

    @BeforeAll
    static void sweep() throws IOException {
        assertThat(Runs.of("sweep", CHAIN, "--ownership", "customers", "--out", shared.resolve("chain")).exitCode()).isEqualTo(ExitCode.DONE);
        summary = Files.readString(shared.resolve("chain/summary.md")).replace("\n  ", " ");
    }

    @Test
    void bothSumsHoldTheRepairs() throws IOException {
        long rows = Files.readAllLines(Path.of(CHAIN, "repairs.csv")).size() - 1L;
        assertThat(summary).contains("- side tables: 4 (4 ratings, 6 inventory machines, 5 prices, " + rows + " repairs)\n");
        assertThat(Files.readAllLines(shared.resolve("chain/repair-costs.csv")).stream().filter(row -> row.matches("all,[a-z ]+,.*,all")).mapToLong(row -> Long.parseLong(row.split(",")[2])).sum()).isEqualTo(rows);
    }

    /** As many as the table of repairs has; those read have a report on the day, or before it. */
    @Test
    void deadDrivesAreToldWithThoseThatCouldNotBeRead() throws IOException {
        long dead = Files.readAllLines(Path.of(CHAIN, "repairs.csv")).stream().filter(row -> row.contains(",dead drive,")).count();
        assertThat(summary).containsPattern("of " + dead + " drives that came in dead, [1-9]\\d could be read, and \\d+ of them were worn \\(\\d+ %\\); of all, \\d+ to \\d+ % \\(95 %\\)");
    }

    @Test
    void whatEndedIsNoLongerThere() throws IOException {
        List<String> gone = Files.readAllLines(Path.of(CHAIN, "repairs.csv")).stream().filter(row -> row.matches(".*,(sold|withdrawn),.*")).map(row -> row.split(",")[1]).toList();
        String machines = Files.readString(shared.resolve("chain/machines.csv"));
        assertThat(gone).hasSizeGreaterThan(10).noneMatch(machine -> machines.contains(machine + ","));
        assertThat(Files.readString(shared.resolve("chain/problems.csv"))).contains("the table of repairs has it on");
        long named = Files.readAllLines(Path.of(CHAIN, "repairs.csv")).stream().skip(1).map(row -> row.split(",")[1]).distinct().count();
        long there = Files.readAllLines(Path.of(CHAIN, "repairs.csv")).stream().skip(1).map(row -> row.split(",")[1]).distinct().filter(machine -> machines.contains("\n" + machine + ",")).count();
        assertThat(summary).contains("; not counted: " + (named - there) + " sold, withdrawn or never read; ", "- Owners to tell, past rating: ");
        assertThat(machines).containsPattern("drive replaced on 20\\d\\d-\\d\\d-\\d\\d \\(dead drive\\), not read since").doesNotContain("came in for repair");
        assertThat(summary).contains("(noted): a drive is no longer in use: another one reports, or a repair or the inventory ended it\n");
    }

    /** Without the number in the field a shop cannot know how often drives fail. */
    @Test
    void theRateNeedsTheNumberInTheField(@TempDir Path folder) throws IOException {
        assertThat(summary).containsPattern("\\d+ drives failed without being worn in 2,7\\d\\d drive years");
        Path ratings = Files.writeString(folder.resolve("ratings.csv"), Files.readString(Path.of(CHAIN, "ratings.csv")).replaceAll("(?m),[^,]*$", ""));
        Runs run = Runs.of("sweep", CHAIN, "--ownership", "customers", "--ratings", ratings, "--out", folder.resolve("out"));
        assertThat(run.out().replace("\n  ", " ")).contains("how often drives fail is not known without the number in use (ratings.csv, inField)")
            .contains("random failures: 1.00 % of machines a year, assumed");
    }

    /** The chain's own laptop is no customer's, and no rating is known of the worst model: what its controller says is not in doubt. */
    @Test
    void ownersGetPagesAndTheChainItselfNone(@TempDir Path folder) throws IOException {
        Path pages = folder.resolve("pages");
        assertThat(Runs.of("explain", CHAIN, "--standing", "past rating", "--for", "customer", "--ownership", "customers", "--out", pages).out())
            .endsWith("one for each machine that is \"past rating\"; 1 left out as own: --ownership customers, or the inventory, says whose they are\n");
        try (var files = Files.list(pages)) {
            assertThat(files.toList()).allSatisfy(page -> assertThat(page).content().contains("Your computer CU-").doesNotContain("not certain"))
                .anySatisfy(page -> assertThat(page).content().contains("By its own estimate your drive is used up."));
        }
    }

    /** Under pseudonyms no ticket, machine or serial number of the table comes out. */
    @Test
    void pseudonymsHoldForRepairs(@TempDir Path folder) throws IOException {
        Path key = Files.writeString(folder.resolve("key"), "0123456789abcdef");
        assertThat(Runs.of("sweep", CHAIN, "--ownership", "customers", "--pseudonymise", key, "--out", folder.resolve("out")).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(Files.readString(folder.resolve("out/problems.csv")) + Files.readString(folder.resolve("out/machines.csv"))).doesNotContain("CU-0", "R-20");
        assertThat(Files.readString(folder.resolve("out/repair-costs.csv"))).isEqualTo(Files.readString(shared.resolve("chain/repair-costs.csv")));
        assertThat(Files.readString(folder.resolve("out/stock.csv"))).isEqualTo(Files.readString(shared.resolve("chain/stock.csv")));
    }
}
