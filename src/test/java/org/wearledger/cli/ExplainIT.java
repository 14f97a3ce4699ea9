package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.apache.commons.text.StringEscapeUtils;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One machine's page: what it says. */
class ExplainIT {
    @TempDir
    static Path shared;
    @TempDir
    Path folder;

    /** Made once for all tests that look at it. */
    private static Path page(String machineId) throws Exception {
        Path page = shared.resolve(machineId + ".html");
        if (Files.exists(page)) {
            return page;
        }
        Runs run = Runs.of("explain", "--machine", machineId, "sample-reports", "--out", page);
        assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
        assertThat(run.out()).endsWith("Written to " + page + "\n");
        assertThat(run.out().contains("\nBefore anything is ordered, check the ")).as("of the two whose measures disagree").isEqualTo(Set.of("lt-001", "LT-001", "LT-003").contains(machineId));
        return page;
    }

    private static String words(Path page) throws Exception {
        return StringEscapeUtils.unescapeHtml4(Files.readString(page).replaceAll("(?s)<style>.*?</style>|<svg.*?</svg>", "")
            .replaceAll("<[^>]+>", " ").replace("&#x27;", "'")).replaceAll("\\s+", " ");
    }

    /** 542,968,750 data units x 512,000 bytes = 278 TB; 278 / 150 = 185.3 %; 278 / 0.21 and 278 / 0.19 are 1,324 and 1,463 TB. */
    @Test
    void thePageShowsHowEachFigureWasReached() throws Exception {
        Path page = page("lt-001");
        assertThat(words(page)).contains("LT-001: how far its drive is worn", "Standing: past rating.",
            "Written: 542,968,750 data units of 512,000 bytes = 278.000 TB", "Consumed: 100 x 278.000 / 150.0 = 185.3 %",
            "percentage used 20 %, each maker's own estimate; with the writes it implies an endurance of 1324 to 1463 TB",
            "What you can do Check that the backup is complete and can be read (by 2025-01-06).",
            "unpowered with data on it: a worn drive keeps its data for a limited time. What your IT does "
                + "Check the ratings row and the unit of percentage used first; then order: drive 256 GB, in place of ON7301009A",
            "Two measures: bytes written, and the controller's percentage used; the worse counts. Here they are 185 % of the rating, and 20 %.",
            "Wear is not failure.", "Back up first, before anything else is done to a machine.").doesNotContain("sample-reports", ".json", ".csv.gz").doesNotContainIgnoringCase("healthy");
        assertThat(Files.readString(page)).contains("<svg").doesNotContain("<script", "http://www.w3.org/1999/xlink\" xlink:href=\"http", "src=\"http",
            "url(http");
    }

    /** LT-001 is past by its writes, LT-003 by its controller; a date of the other measure would read as how long the drive lasts. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({"LT-001, The rating was passed ", "LT-003, By the controller's own estimate 100 % are reached. "})
    void noDateToComeIsGivenPastTheRating(String machineId, String passed) throws Exception {
        assertThat(words(page(machineId))).contains(passed, " is passed already, so no date to come is given")
            .doesNotContain("more than ten years ahead", "Nine in ten by");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        LT-004 | Standing: urgent.       | The drive reports that it is read-only: it takes no more data. Back up now, before anything else,
        LT-004 | Standing: urgent.       | No date is given: the drive is to be replaced now, however far it is worn.
        LT-004 | Standing: urgent.       | 2024-10-07 11:00:23 6.908 0 none 13,492,517 4,765 2025-01-06 13:32:48 7.596 0 read-only
        LT-005 | Standing: urgent.       | The drive could not read or keep some data: its media errors rose from 12 to 20 by 2025-01-06. Back up now
        LT-005 | Standing: urgent.       | Collected Written (TB) Used (%) Media errors Data units written
        LT-006 | Standing: urgent.       | The drive's spare blocks are down to 10 %; its own limit is 10 %. Back up now
        LT-006 | Standing: urgent.       | Spare blocks left, with the drive's own limit of 10 % dashed.
        LT-007 | Standing: due.          | Order: drive 256 GB
        LT-001 | Standing: past rating.  | The drive's writes have passed what its maker rates it for, while its controller estimates it as far from used up. It is checked which of the two is right before anything is bought. Be sure
        LT-003 | Standing: past rating.  | The drive's controller estimates its endurance as used up, while its writes are far below what drives of its size are usually rated for (its maker's rating is not known).
        LT-008 | Standing: watch.        | Why: its rating is reached around 2025-09-12 (8 in 10: 2025-06-28 to 2025-12-15).
        LT-008 | Standing: watch.        | Standing: watch, since 90.0 % of the rating is written
        LT-022 | Standing: within rating. | last report 2024-10-07, older than this sweep
        LT-008 | Standing: watch.        | A replacement is planned: drive 256 GB, needed by 2025-09-12
        LT-014 | Standing: within rating. | duplicate-identical (reading set aside)
        LT-017 | Standing: no verdict.   | There is no usable report of a drive in this machine
        LT-019 | Standing: no verdict.   | Find this machine and collect a report (by 2025-01-20)
        """)
    void everyStandingHasItsPage(String machineId, String standing, String sentence) throws Exception {
        assertThat(words(page(machineId))).contains(standing, sentence);
    }

    /** 141,600 GB read as TB. */
    @Test
    void thePageOfADriveInDoubtDoesNotSendItsUserToBuy() throws Exception {
        Path in = Files.createDirectory(folder.resolve("in"));
        Files.writeString(in.resolve("a.csv"), "machine.id,drive.serial,drive.model,drive.capacityBytes,schemaVersion,collectedAt,health.dataUnitsWritten\n"
            + "LT-1,S-0001,Velkan D2,256000000000,1.0,2025-01-06T09:30:00Z,276562500000\n");
        Runs run = Runs.of("explain", "--machine", "LT-1", in, "--out", folder.resolve("LT-1.html"));
        assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
        assertThat(words(folder.resolve("LT-1.html"))).contains("Standing: past rating. The figures of this drive contradict each other, so its standing is in doubt: that is "
            + "checked before anything is bought. Be sure of your backup.", "What your IT does Check the figures (unit, mapping) first; then order: ")
            .doesNotContain("plan to replace it");
    }

    /** One sweep writes them all; what the owner can do nothing with stands on none. */
    @Test
    void aPageForEachOwnerOfAMachineWithOneStanding() throws Exception {
        Path pages = folder.resolve("pages");
        Runs run = Runs.of("explain", "--standing", "urgent", "--for", "customer", "--ownership", "customers", "sample-reports", "--out", pages);
        assertThat(run).isEqualTo(new Runs(ExitCode.DONE, "Wrote 3 pages to " + pages + ": one for each machine that is \"urgent\"\n", ""));
        try (var entries = Files.list(pages)) {
            assertThat(entries.map(page -> page.getFileName().toString())).containsExactlyInAnyOrder("LT-004.html", "LT-005.html", "LT-006.html");
        }
        assertThat(words(pages.resolve("LT-006.html"))).contains("Your computer LT-006, Torvane 14: how far its drive is worn Page of ", ". As seen on 6 January 2025. Your drive shows signs of failing. Back up your data now. "
                + "It reports that its reserve for worn parts is nearly used up. It should be replaced, however much it has written. The drive: Brightfen P7, 1000 GB It has written 13 TB so far. "
                + "Its maker rates it for 600 TB. By its own estimate 1 % of its life is used. What you can do Back up now, before anything else is done to the computer",
            "Ask about the warranty: by its date it runs until 18 October 2027.", "It is soldered in and cannot be changed by itself: ask about a new board",
            "Any drive can fail without a warning sign", "Who to ask The shop that gave you this page: Harbour.")
            .doesNotContain("IT does", ".json", ".csv", "memory", "sample-reports", "work list", "Ondrel", "inventory", "serial", "set aside").doesNotContainIgnoringCase("healthy");
    }

    /** LT-001 is past by its writes and at 20 % by its controller, LT-012 has LT-011's former drive. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        LT-001 | How far your drive is worn is not certain. Its figures contradict each other, or the last ones could not be believed. We check that first, before you pay for anything.
        LT-007 | Your drive will probably soon have written what it is rated for. Plan to have it replaced, and keep your backup up to date.
        LT-008 | Your drive may have written what it is rated for within a year. Nothing has to be bought today. Keep your backup up to date.
        LT-008 | Used as before, it will have written what it is rated for between June 2025 and December 2025 (8 chances in 10).
        LT-012 | Your drive is within what it is rated for. Nothing has to be bought. Keep your backup up to date.
        LT-019 | No usable report of it was found. How far your drive is worn is not known. Too little was reported. Keep your backup up to date.
        """)
    void theOwnerReadsPlainWords(String machineId, String sentences) throws Exception {
        Path page = shared.resolve("owner-" + machineId + ".html");
        if (!Files.exists(page)) {
            assertThat(Runs.of("explain", "--machine", machineId, "--for", "customer", "sample-reports", "--out", page).exitCode()).isEqualTo(ExitCode.DONE);
        }
        assertThat(words(page)).contains(sentences).doesNotContain("IT does", ".json", ".csv", "memory", "set aside");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        --standing worn                     | Invalid value for option '--standing': expected one of urgent, past rating, due, watch, within rating, no verdict, not worn
        --standing due --machine LT-001     | --machine=ID, --standing=STANDING are mutually exclusive (specify only one)
        --standing due --overwrite          | --overwrite replaces one page: with --standing name a fresh folder
        --machine LT-001 --for owner        | Invalid value for option '--for': expected one of user, customer, not owner
        """)
    void whatDoesNotFitIsRefused(String options, String sentence) {
        List<Object> call = new ArrayList<>(List.of("explain", "sample-reports", "--out", folder.resolve("pages")));
        call.addAll(List.of((Object[]) options.split(" ")));
        Runs run = Runs.of(call.toArray());
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).startsWith("wearledger: " + sentence);
    }

    /** Of a customer's machine the page for the counter has care of the data, and nothing that IT would do. */
    @Test
    void thePageOfACustomersMachineSendsNobodyToOrder() throws Exception {
        Path page = folder.resolve("LT-007.html");
        assertThat(Runs.of("explain", "--machine", "LT-007", "--ownership", "customers", "sample-reports", "--out", page).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(words(page)).contains("What you can do Check that the backup is complete and can be read").doesNotContain("What your IT does", "Order:", "is planned");
    }

    /** As without the mapping that the export needs. */
    @Test
    void aMachineNeverSeenMayBeInTheFilesThatWereRefused() throws Exception {
        Path in = Files.createDirectory(folder.resolve("in"));
        Files.writeString(in.resolve("export.csv"), "Computer;Disk\nLT-1;Velkan D2\n");
        Files.writeString(in.resolve("inventory.csv"), "machineId\nLT-1\n");
        Runs run = Runs.of("explain", "--machine", "LT-1", in, "--out", folder.resolve("LT-1.html"));
        assertThat(run.out()).contains("LT-1: no verdict; in the inventory, but no report found\nFiles were refused, and its reports may be among them: ", "draft-mapping");
        assertThat(words(folder.resolve("LT-1.html"))).contains("For your IT, what the rules noted or set aside (a sweep's problems.csv says where): ", "(file refused): ");
    }

    @Test
    void aMachineThatIsNotThereAndAPageThatIsAreRefused() throws Exception {
        Runs none = Runs.of("explain", "--machine", "LT-999", "sample-reports", "--out", folder.resolve("none.html"));
        assertThat(none).isEqualTo(new Runs(ExitCode.USAGE, "",
            "wearledger: no machine LT-999 in these reports; there are 60, the nearest LT-009, LT-019, LT-029\n"));
        Path page = page("LT-002");
        Runs again = Runs.of("explain", "--machine", "LT-002", "sample-reports", "--out", page);
        assertThat(again.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(again.err()).isEqualTo("wearledger: " + page + " is there already: choose another name or pass --overwrite\n");
        assertThat(Runs.of("explain", "--machine", "LT-002", "sample-reports", "--overwrite", "--out", page).exitCode()).isEqualTo(ExitCode.DONE);
    }
}
