package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The sample sweep from the command line to the files, and every exit code. */
class SweepIT {
    private static final List<String> TABLES = List.of("machines.csv", "models.csv", "problems.csv", "summary.md");

    private static final SampleSweep SAMPLE = SampleSweep.once();

    @TempDir
    Path folder;

    private static List<CSVRecord> table(String name) throws IOException {
        return table(SAMPLE.file(name));
    }

    private static List<CSVRecord> table(Path file) throws IOException {
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get().parse(Files.newBufferedReader(file))) {
            return parser.getRecords();
        }
    }

    /** A check assesses no drive, so it cannot tell which have no rating. */
    @Test
    void aCheckFindsWhatTheSweepFinds() throws IOException {
        JsonNode check = new ObjectMapper().readTree(Runs.of("check", "sample-reports", "--format", "json").out());
        List<String> checked = new ArrayList<>();
        check.path("problems").forEach(p -> checked.add(String.join("|", p.path("rule").asText(), p.path("file").asText(), p.path("place").asText(),
            p.path("subject").asText(), p.path("found").asText())));
        assertThat(checked).containsExactlyElementsOf(table("problems.csv").stream().filter(row -> !row.get("rule").equals("rating-assumed"))
            .map(row -> String.join("|", row.get("rule"), row.get("file"), row.get("place"), row.get("subject"), row.get("found"))).toList());
        assertThat(check.path("readingsKept").asInt()).isEqualTo(331);
        assertThat(check.path("readingsSetAside").asInt()).isEqualTo(17);
    }

    private String summaryWithoutThePriceOf(String item) throws IOException {
        Path prices = Files.write(folder.resolve("prices.csv"),
            Files.readAllLines(Path.of("sample-reports/prices.csv")).stream().filter(row -> !row.startsWith(item)).toList());
        return Runs.of("sweep", "sample-reports", "--prices", prices.toString(), "--full", "--out", folder.resolve("least")).out();
    }

    @Test
    void withoutThePriceOfAMachineTheDearerChoiceIsToldToBeMissing() throws IOException {
        assertThat(summaryWithoutThePriceOf("machine").replace("\n  ", " ")).contains("- no price of a machine: 4 boards of the plan may turn out to be machines: the price "
            + "list has no dearer \"machine\", so the amounts lack it\n");
        assertThat(SAMPLE.run().out()).doesNotContain("no price of a machine", "incomplete");
    }

    /** One missing price leaves no reserve to be worked out: 0.00 would read as none needed. */
    @Test
    void withoutOnePriceTheAmountsAreTheLeast() throws IOException {
        String summary = summaryWithoutThePriceOf("drive 1000");
        assertThat(summary.lines().filter(line -> line.startsWith("| at least") || line.startsWith("| this quarter")))
            .containsExactly("| at least, in EUR       |     plan | boards as machines | risk reserve | random failures | less, and tax | funding request |",
                "| this quarter (2025-Q1) | 1,329.50 |          not known |    not known |           36.56 |       -224.50 |        1,141.56 |");
        assertThat(summary.replace("\n  ", " ")).contains("- incomplete: no price for drive 1000 GB: give the prices. Until then there is no reserve "
            + "and no worst case\n");
    }

    @Test
    void whenNothingIsKeptTheFirstProblemsAreShown() throws IOException {
        Path export = Files.writeString(folder.resolve("a.jsonl"), "{}\n{}\n{\"x\": 1}\n[]\n");
        Runs run = Runs.of("sweep", export.toString(), "--out", folder.resolve("nothing"));
        assertThat(run.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(run.out()).contains("delete it\n    field-missing (record refused): " + export + ", lines 1 to 2: a record without any value; expected a report\n")
            .contains("    broken-json (record refused): ").endsWith("Done, but no reading was kept: exit code 3, see problems.csv\n");
    }

    /** A busy person reads no more. */
    @Test
    void whatIsPrintedFitsOneScreen() {
        Runs run = Runs.of("sweep", "sample-reports", "--out", folder.resolve("screen"));
        assertThat(run.out().lines()).hasSizeLessThanOrEqualTo(40).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(120))
            .contains("60 machines, as of 2025-01-06: 3 urgent, 2 past rating, 1 due, 2 watch, 49 within rating, 3 no verdict",
                "this quarter (2025-Q1): plan 1,470.00, funding request 1,405.38 EUR (less 270.50 from warranty); 2025: plan 2,519.50,", "  funding request 2,566.45 EUR (less 270.50 from warranty)",
                "LT-020   South    within rating  2025-01-20           not reported since 2024-10-07: collect a report",
                "Done, with files or records refused: exit code 3, see problems.csv");
    }

    @Test
    void theSumsHoldAndArePrinted() throws IOException {
        assertThat(SAMPLE.run().exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(SAMPLE.run().err()).isEmpty();
        assertThat(SAMPLE.run().out()).contains(
            "files: 81 found = 73 read + 8 refused\n",
            "records: 354 found = 348 readings + 6 refused\n",
            "readings: 348 in = 331 kept + 17 set aside\n", "side table rows: 68 found = 68 read + 0 refused\n");
        assertThat(table("problems.csv").stream().filter(row -> row.get("effect").equals("file refused"))).hasSize(8);
        assertThat(table("problems.csv").stream().filter(row -> row.get("effect").equals("record refused"))).hasSize(6);
        assertThat(table("problems.csv").stream().filter(row -> row.get("effect").equals("reading set aside"))).hasSize(17);
        try (Stream<Path> files = Files.walk(Path.of("sample-reports"))) {
            // 81 reports, three side tables and the README; the second sample is left aside.
            assertThat(files.filter(file -> Files.isRegularFile(file) && !file.toString().contains("/_"))).hasSize(81 + 3 + 1);
        }
    }

    /** The oddities that sample-reports/README.md lists, as they come out. */
    @ParameterizedTest(name = "{0} is {1}")
    @CsvSource(delimiter = '|', textBlock = """
        LT-001 | past rating   | 185.3 % of the rating is written; the controller itself reports 20 % used
        LT-002 | within rating | no wear or error signal seen
        LT-003 | past rating   | 105 %
        LT-004 | urgent        | media is read-only
        LT-005 | urgent        | media errors rose from 12 to 20
        LT-006 | urgent        | spare blocks are down to 10 %
        LT-007 | due           | 146.0 of 150 TB
        LT-008 | watch         | 135.0 of 150 TB
        LT-009 | watch         | 282.0 of 300 TB
        LT-016 | no verdict    | its latest report was set aside (serial-placeholder)
        LT-017 | no verdict    | its latest report was set aside (serial-shared)
        LT-019 | no verdict    | in the inventory, but no report found
        LT-020 | within rating | last report is 91 days old
        """)
    void eachDeliberateOddityComesOut(String machineId, String standing, String reason) throws IOException {
        List<CSVRecord> rows = table("machines.csv").stream().filter(row -> row.get("machineId").equals(machineId)).toList();
        assertThat(rows).singleElement().satisfies(row -> {
            assertThat(row.get("standing")).isEqualTo(standing);
            assertThat(row.get("reason")).contains(reason);
        });
    }

    @Test
    void theMachinePastRatingShowsBothClocks() throws IOException {
        CSVRecord row = table("machines.csv").stream().filter(r -> r.get("machineId").equals("LT-001")).findFirst().orElseThrow();
        assertThat(Double.parseDouble(row.get("terabytesWritten"))).isEqualTo(278, org.assertj.core.api.Assertions.within(0.05));
        assertThat(Double.parseDouble(row.get("consumedPercent"))).isEqualTo(185.3, org.assertj.core.api.Assertions.within(0.1));
        assertThat(row.get("percentageUsed")).isEqualTo("20");
        assertThat(Double.parseDouble(row.get("impliedEnduranceLowTerabytes"))).isEqualTo(1324, org.assertj.core.api.Assertions.within(1.0));
        assertThat(Double.parseDouble(row.get("impliedEnduranceHighTerabytes"))).isEqualTo(1463, org.assertj.core.api.Assertions.within(1.0));
    }

    @Test
    void partitionsAndInputOrderChangeNoByte() throws IOException {
        List<Object> arguments = new ArrayList<>(List.of("sweep", "--partitions", "8", "--out", folder.resolve("eight"),
            "--ratings", "sample-reports/ratings.csv", "--inventory", "sample-reports/inventory.csv", "--prices", "sample-reports/prices.csv"));
        List<String> quarters = new ArrayList<>();
        try (Stream<Path> files = Files.list(Path.of("sample-reports"))) {
            files.filter(each -> Files.isDirectory(each) && !each.getFileName().toString().startsWith("_")).map(Path::toString).forEach(quarters::add);
        }
        Collections.shuffle(quarters, new Random(7));
        arguments.addAll(quarters);
        Runs.of(arguments.toArray());
        Runs.of("sweep", "sample-reports", "--partitions", "1", "--master", "local[1]", "--out", folder.resolve("one"));
        for (String table : List.of("machines.csv", "models.csv", "problems.csv", "replacements.csv", "budget.csv", "totals.csv", "items.csv", "work-list.csv",
            "coverage.csv", "warranty.csv")) {
            byte[] expected = Files.readAllBytes(SAMPLE.file(table));
            assertThat(folder.resolve("one").resolve(table)).as(table).hasBinaryContent(expected);
            assertThat(folder.resolve("eight").resolve(table)).as(table).hasBinaryContent(expected);
        }
        assertThat(folder.resolve("one/summary.md")).hasBinaryContent(Files.readAllBytes(SAMPLE.file("summary.md")));
    }

    @Test
    void renamedFilesGiveTheSameMachines() throws IOException {
        // Other names put the files into another order; machines.csv names no file.
        Path copy = folder.resolve("copy");
        try (Stream<Path> files = Files.walk(Path.of("sample-reports"))) {
            for (Path file : files.filter(each -> Files.isRegularFile(each) && !each.toString().contains("/_")).toList()) {
                String name = Path.of("sample-reports").relativize(file).toString();
                boolean sideTable = !name.contains("/") || file.getParent().endsWith("sample-reports");
                Path target = copy.resolve(sideTable ? name : Integer.toHexString(name.hashCode()) + "/" + file.getFileName());
                Files.createDirectories(target.getParent());
                Files.copy(file, target);
            }
        }
        Runs.of("sweep", copy.toString(), "--out", folder.resolve("renamed"));
        assertThat(folder.resolve("renamed/machines.csv")).hasBinaryContent(Files.readAllBytes(SAMPLE.file("machines.csv")));
    }

    @Test
    void anEarlierDateSetsLaterReportsAside() throws IOException {
        Runs run = Runs.of("sweep", "sample-reports", "--as-of", "2024-07-31", "--full", "--out", folder.resolve("earlier"));
        assertThat(run.out()).contains("as of 2024-07-31", "collected-after-as-of");
    }

    @Test
    void aFleetWithoutOneReadingStillGetsItsFiles() throws IOException {
        Path empty = Files.createDirectories(folder.resolve("in"));
        Files.writeString(empty.resolve("a.json"), "");
        Runs run = Runs.of("sweep", empty.toString(), "--out", folder.resolve("out"));
        assertThat(run.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(run.out()).contains("files: 1 found = 0 read + 1 refused");
        for (String table : TABLES) {
            assertThat(folder.resolve("out").resolve(table)).exists();
        }
    }

    /** Reports may be flawless and the budget too small all the same: a row in another language, a price with its thousands parted, an item misspelt. */
    @Test
    void aRefusedRowOfASideTableIsNoSilentZero() throws IOException {
        Path in = Files.createDirectories(folder.resolve("fleet"));
        Files.copy(Path.of("sample-reports/2025-q1/lt-014.csv"), in.resolve("lt-014.csv"));
        Files.writeString(in.resolve("inventory.csv"), "machineId,attachment\nLT-014,verl\u00F6tet\nLT-002,soldered\n");
        Files.writeString(in.resolve("prices.csv"), "item;currency;unitPrice;priceDate\nmachine;EUR;1.039,00;2025-01-06\nbord;EUR;410;2025-01-06\nboard;EUR;410;2025-01-06\n");
        Runs check = Runs.of("check", in.toString());
        assertThat(check.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(check.out()).contains("side table rows: 5 found = 2 read + 3 refused\nread of 1 drive, ", "\nproblems: 3\n", "was \"board\" meant?");
        Runs sweep = Runs.of("sweep", in.toString(), "--full", "--out", folder.resolve("rows"));
        assertThat(sweep.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(sweep.out()).contains("side table rows: 5 found = 2 read + 3 refused\n", "inventory.csv not used: line 2; see problems.csv\n")
            .endsWith("Done, with 3 rows of side tables refused: exit code 3, see problems.csv\n");
    }

    /** A made-up export of another form: checked, mapped, swept. */
    @Test
    void anExportWithOtherHeadingsIsCheckedAndSwept() throws IOException {
        Path export = Files.writeString(Files.createDirectories(folder.resolve("export")).resolve("all.csv"),
            "Computer;Read on;Disk;Disk no.;Size;Host writes;Wear %\nPC-7;06.01.2025 09:30;Ondrel E3;ON1;256;278;20\nPC-8;soon;Ondrel E3;ON2;256;1;0\n").getParent();
        Path mapping = Files.writeString(folder.resolve("mapping.json"), """
            {"fields": {"collectedAt": {"from": "Read on", "format": "dd.MM.yyyy HH:mm", "zone": "Europe/Berlin"}, "machine.id": "Computer",
              "drive.serial": "Disk no.", "drive.model": "Disk", "drive.capacityBytes": {"from": "Size", "unit": "GB"},
              "health.dataUnitsWritten": {"from": "Host writes", "unit": "TB"}, "health.percentageUsed": "Wear %"}}
            """);
        Runs unmapped = Runs.of("check", export.toString());
        assertThat(unmapped.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(unmapped.out()).startsWith("if it is an export with other headings, run wearledger draft-mapping on its folder; see notebooks-free-docs/report-format.md\n    file-format-unknown (file refused): ");
        Runs check = Runs.of("check", export.toString(), "--mapping", mapping.toString());
        assertThat(check.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(check.out()).isEqualTo("correct the format in the mapping, or the value; wearledger draft-mapping proposes one for this file\n    field-invalid (record refused, PC-8): " + export + "/all.csv, line 3: collectedAt (from \"Read on\") is \"soon\", which does not fit "
            + "dd.MM.yyyy HH:mm; expected a time as the mapping says, dd.MM.yyyy HH:mm\n"
            + "mapping " + mapping + ": 1 file, " + export + "/all.csv\n"
            + "files: 1 found = 1 read + 0 refused\nrecords: 2 found = 1 readings + 1 refused\nreadings: 1 in = 1 kept + 0 set aside\n"
            + "read of 1 drive, in the middle (median): 278.0 TB written, 20 % used\nproblems: 1\n");
        assertThat(Runs.of("check", export.toString(), "--mapping", mapping.toString(), "--format", "json").out())
            .contains("\"records\" : 2", "\"rule\" : \"field-invalid\"", "\"place\" : \"line 3\"", "\"found\" : \"collectedAt (from \\\"Read on\\\") is \\\"soon\\\", which does not fit dd.MM.yyyy HH:mm\"");
        Runs sweep = Runs.of("sweep", export.toString(), "--mapping", mapping.toString(), "--full", "--out", folder.resolve("mapped"));
        assertThat(sweep.out()).contains("- PC-7, Ondrel E3: 278.0 TB written of 153.6 TB rated");
    }

    /** All at zero: it counts no spare. With the warning, or a threshold to fall to, zero is what it says. */
    @Test
    void onlyASpareThatIsCountedMakesADriveUrgent() throws IOException {
        Runs.of("sweep", "src/test/resources/bad-input/spare-not-implemented/in", "--out", folder.resolve("spare"));
        assertThat(table(folder.resolve("spare/machines.csv"))).extracting(row -> row.get("machineId") + " " + row.get("machineStanding"))
            .containsExactlyInAnyOrder("BAD-1 within rating", "BAD-2 urgent", "BAD-3 urgent");
    }

    /** The same change, told from the folder of an earlier sweep and from the history. */
    @Test
    void theEarlierSweepAndTheHistoryTellTheSameChanges() throws IOException {
        Path earlier = folder.resolve("earlier");
        Runs.of("sweep", "sample-reports", "--as-of", "2024-10-07", "--out", earlier.toString());
        Runs byFolder = Runs.of("sweep", "sample-reports", "--previous", earlier.toString(), "--full", "--out", folder.resolve("by-folder"));
        Runs byHistory = Runs.of("sweep", "sample-reports", "--compare-with", "2024-10-07", "--full", "--out", folder.resolve("by-history"));
        assertThat(folder.resolve("by-folder/changes.csv")).hasSameBinaryContentAs(folder.resolve("by-history/changes.csv"));
        assertThat(Files.readAllLines(folder.resolve("by-history/changes.csv"))).contains(
            "newly urgent,LT-004,North,within rating,urgent,,", "newly past rating,LT-003,Harbour,due,past rating,,",
            "not reported,LT-020,South,last seen 2024-10-07,no report since,,", "cost added,LT-004,North,not planned,2025-Q1: 140.50,140.50,",
            "quarter moved,LT-043,North,\"2026-Q3, order by 2026-06-25\",\"2026-Q4: 87.50, order by 2026-11-04\",0.00,");
        assertThat(byFolder.out()).contains("## Changes since the sweep in " + earlier, "- named replacements: then 2,466.50 EUR, now 3,140.50 EUR (+674.00)\n");
        assertThat(byHistory.out()).contains("## Changes since the same reports as of 2024-10-07");
        assertThat(Runs.of("sweep", "sample-reports", "--compare-with", "2025-01-06", "--out", folder.resolve("no")).err())
            .isEqualTo("wearledger: --compare-with 2025-01-06 is not before the as-of date, 2025-01-06\n");
        assertThat(Runs.of("sweep", "sample-reports", "--compare-with", "2020-01-01", "--out", folder.resolve("no")).err())
            .isEqualTo("wearledger: --compare-with 2020-01-01: there is no reading up to that date\n");
        assertThat(Runs.of("sweep", "sample-reports", "--previous", "sample-reports", "--out", folder.resolve("no")).err())
            .isEqualTo("wearledger: no earlier sweep in sample-reports: it has no machines.csv\n");
    }

    /** The same reports and day: nothing changed but the money, of what is planned and of what is not. */
    @Test
    void aNewPriceListIsToldOnceForEachItem() throws IOException {
        List<String> prices = Files.readAllLines(Path.of("sample-reports/prices.csv"));
        assertThat(changesSincePrices(prices.stream().map(row -> row.replace("drive 256 GB,EUR,39.00", "drive 256 GB,EUR,27.00")).toList()))
            .containsExactly("price changed,,,\"75.50 each, with labour and disposal\",\"87.50 each, with labour and disposal, in 5 lines of both plans, 3 of them this quarter (+36.00)\",60.00,drive 256 GB",
                "ask changed,,,2522.21,2566.45,44.24,2025", "ask changed,,,1374.85,1405.38,30.53,2025-Q1", "ask changed,,,3363.37,3421.88,58.51,all 8 quarters");
        assertThat(changesSincePrices(prices.stream().filter(row -> !row.startsWith("drive")).toList())).containsExactly(
            "price changed,,,no price,\"140.50 each, with labour and disposal, in 1 line of both plans, this quarter\",140.50,drive 1000 GB",
            "price changed,,,no price,\"87.50 each, with labour and disposal, in 5 lines of both plans, 3 of them this quarter (+262.50)\",437.50,drive 256 GB",
            "price changed,,,no price,\"106.50 each, with labour and disposal, in no line of both plans\",0.00,drive 512 GB",
            "ask changed,,,2139.46,2566.45,426.99,2025", "ask changed,,,936.48,1405.38,468.90,2025-Q1", "ask changed,,,2992.79,3421.88,429.09,all 8 quarters");
    }

    private List<String> changesSincePrices(List<String> rows) throws IOException {
        Path prices = Files.write(folder.resolve("prices.csv"), rows);
        Path earlier = folder.resolve("at-earlier-prices");
        Runs.of("sweep", "sample-reports", "--prices", prices.toString(), "--overwrite", "--out", earlier.toString());
        Runs.of("sweep", "sample-reports", "--previous", earlier.toString(), "--overwrite", "--out", folder.resolve("at-new-prices"));
        List<String> changes = Files.readAllLines(folder.resolve("at-new-prices/changes.csv"));
        // Of the amounts to ask for these three will do.
        return changes.subList(1, changes.size()).stream().filter(row -> !row.startsWith("ask changed") || row.matches(".*,(2025|2025-Q1|all 8 quarters)")).toList();
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        --failure-rate 1%        | Invalid value for option '--failure-rate': '1%' is not a plain number, such as 0.5
        --budget-quarters two    | Invalid value for option '--budget-quarters': 'two' is not a whole number, such as 4
        --rush-fee 75,50         | Invalid value for option '--rush-fee': '75,50' is not a plain number, such as 99.50
        --fiscal-year-start 13   | --fiscal-year-start lies from 1 to 12, the month, not 13
        --downtime-cost 75       | --downtime-hours and --downtime-cost are given together
        --vat 190                | --vat lies from 0 to 100, such as 19, not 190.0
        --machine-share 20       | --machine-share lies from 0 to 1, such as 0.2 for one in five, not 20.0
        --year-name Year         | --year-name holds {end}, {end2}, {start} or {start2}, and few other letters, such as FY{end2}, not Year
        --cost-short 75          | --cost-short and --cost-spare are given together
        """)
    void aWrongBudgetOptionSaysWhatIsAllowed(String options, String sentence) {
        List<Object> arguments = new ArrayList<>(List.of("sweep", "sample-reports", "--out", folder.resolve("no")));
        arguments.addAll(List.of(options.split(" ")));
        Runs run = Runs.of(arguments.toArray());
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).isEqualTo("wearledger: " + sentence + "\nAll options: wearledger sweep --help\n");
    }

    @Test
    void everyExitCodeIsReachedAndToldInHelp() throws IOException {
        String good = folder.resolve("good.jsonl").toString();
        Files.writeString(Path.of(good), """
            {"schemaVersion":"1.0","collectedAt":"2025-01-06T09:30:00Z","machine":{"id":"A"},"drive":{"serial":"KX77","model":"Kestrel K2","capacityBytes":256060514304},"health":{"percentageUsed":20,"dataUnitsWritten":542968750}}
            """);
        assertThat(Runs.of("sweep", good, "--out", folder.resolve("o1")).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(Runs.of("sweep", good, "--fail-on", "past-rating", "--out", folder.resolve("o2")).exitCode())
            .isEqualTo(ExitCode.STANDING_REACHED);
        assertThat(Runs.of("sweep", good, "--fail-on", "urgent", "--out", folder.resolve("o3")).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(Runs.of("sweep", folder.resolve("absent"), "--out", folder.resolve("o4")))
            .isEqualTo(new Runs(ExitCode.USAGE, "", "wearledger: no such file or folder: " + folder.resolve("absent") + "\n"));
        assertThat(Runs.of("sweep", good).exitCode()).isEqualTo(ExitCode.USAGE);
        Runs inUse = Runs.of("sweep", good, "--out", folder.toString());
        assertThat(inUse.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(inUse.err()).startsWith("wearledger: ").contains("--overwrite").hasLineCount(1);
        assertThat(Runs.of("sweep", good, "--overwrite", "--out", folder.resolve("o1")).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(Runs.of("sweep", "--help").out()).contains("Exit codes:", "  0 ", "  1 ", "  2 ", "  3 ", "  4 ", "--fail-on");
    }

    /** Inside them it is refused, which the test of the command line shows. */
    @Test
    void anOutputMayLieBesideTheReportsUnderALikeName() throws IOException {
        Files.createDirectories(folder.resolve("reports"));
        Files.createSymbolicLink(folder.resolve("link"), folder.resolve("reports"));
        // No report is there: what is refused is not the place.
        assertThat(Runs.of("sweep", folder + "/link", "--out", folder + "/reports-2025").err()).contains("no report file");
    }

    @Test
    void theSampleCanBeMadeAgain() {
        Runs run = Runs.of("simulate", "--out", folder.resolve("again"));
        assertThat(run.exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(folder.resolve("again/2025-q1/north.json")).hasSameBinaryContentAs(Path.of("sample-reports/2025-q1/north.json"));
        assertThat(Runs.of("simulate", "--machines", "2", "--out", folder.resolve("few")).exitCode()).isEqualTo(ExitCode.USAGE);
    }
}
