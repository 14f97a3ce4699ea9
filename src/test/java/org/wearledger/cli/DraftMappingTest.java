package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The export of the README, whose mapping is drafted, filled in and used. */
class DraftMappingTest {
    @TempDir
    Path folder;
    private Path export;

    @BeforeEach
    void export() throws IOException {
        export = Files.writeString(folder.resolve("export.csv"), """
            Computer,Read on,Disk,Disk no.,Size,Host writes,Wear %,RAM GB
            LT-101,06.01.2025 09:30,Velkan D2,VX000123,256,118.4,61,8
            LT-102,06.01.2025 09:45,Ondrel E3,ON000456,256,12.25,7,16
            """);
    }

    @Test
    void whatIsOpenIsAsked() {
        Runs run = Runs.of("draft-mapping", export);
        assertThat(run.exitCode()).as(run.err()).isEqualTo(3);
        assertThat(run.out().lines()).contains(
            "Written to " + folder + "/mapping.json, from the first 2 records of " + export,
            "  health.dataUnitsWritten from \"Host writes\": which unit? 118.4 is 0.118 TB in GB, 0.127 TB in GiB, 118.400 TB in TB, 130.182 TB in TiB",
            "  health.percentageUsed from \"Wear %\": which unit? 61 is 61 % used in percent, 39 % used in percentRemaining",
            "  drive.capacityBytes from \"Size\": GB, as no other fits heading and values; 256 is 256.0 GB",
            "  machine.id from \"Computer\", such as LT-101");
        assertThat(run.out()).endsWith("Next: fill in " + folder + "/mapping.json, then run wearledger check " + export + "\n").doesNotContain("check says");
    }

    /** Each site has its own headings; two quarters of one site have the same. What is in the report form needs none. */
    @Test
    void aFolderOfSitesIsDraftedAtOnce() throws IOException {
        Path sites = Files.createDirectory(folder.resolve("sites"));
        String[] names = {"north/q1/a.csv", "north/q2/a.csv", "south/b.json", "form/c.csv"};
        String[] texts = {"Host,Serial,Model,Model,Writes TB,Seen\nA,S1,Velkan D2,Velkan D2,31.299,07/08/2024\n", "Host,Serial,Model,Model,Writes TB,Seen\nA,S1,Velkan D2,Velkan D2,32.100,10/07/2024\n",
            "{\"devices\": [{\"host\": \"B\", \"lastContact\": 1736172300, \"disks\": [{\"name\": \"Ondrel E3\", \"sn\": \"S2\", \"bytesWritten\": 34695316880787}]}]}",
            "schemaVersion,machine.id,drive.serial,drive.model,collectedAt,health.percentageUsed\n1,C,S3,Velkan D2,2025-01-06T10:00:00Z,5\n"};
        for (int i = 0; i < names.length; i++) {
            Files.createDirectories(sites.resolve(names[i]).getParent());
            Files.writeString(sites.resolve(names[i]), texts[i]);
        }
        Runs run = Runs.of("draft-mapping", sites);
        assertThat(run.exitCode()).as(run.out() + run.err()).isZero();
        assertThat(run.out().lines()).contains(
            "Written to " + sites + "/north/mapping.json, from the first 2 records of 2 files, " + sites + "/north/q1/a.csv and others",
            "  collectedAt from \"Seen\": M/d/yyyy, as by any other totals fall; 07/08/2024 is 2024-07-08, and 2024-08-07 if it is d/M/yyyy",
            "  numbers: \"decimal\": \".\"; one of them is 31.299, since 31299 is more or less than a drive can have been written",
            "  \"Model\" stands over more than one column, with the same in each",
            "Written to " + sites + "/south/mapping.json, from the first 1 record of " + sites + "/south/b.json",
            "  drive.model from \"name\", such as Ondrel E3",
            "  records: 4 found = 4 readings + 0 refused",
            "Next: wearledger sweep " + sites + " --out sweep; put prices.csv, ratings.csv and inventory.csv at its top first, where you have them");
        Files.delete(sites.resolve("south/mapping.json"));
        Runs again = Runs.of("draft-mapping", sites);
        assertThat(again.out()).startsWith(sites + "/north/mapping.json is there already, and stays\nWritten to " + sites + "/south/mapping.json");
        assertThat(Runs.of("draft-mapping", sites, "--out", folder.resolve("one.json")).err()).contains("leave out --out: 2 folders need a mapping each");
        assertThat(Runs.of("draft-mapping", sites.resolve("form")).err()).contains("no export that needs a mapping in " + sites + "/form; wearledger check says what is there");
    }

    /** Of several kinds in one folder the commonest is drafted. */
    @Test
    void whatDoesNotFitIsNamed() throws IOException {
        Path mixed = Files.createDirectory(folder.resolve("mixed"));
        Files.writeString(mixed.resolve("a.csv"), "Host,Serial,Model,Seen\nA,S1,Velkan D2,2025-01-06T10:00:00Z\n");
        Files.writeString(mixed.resolve("b.csv"), "Computer;SN;Model;Seen\nA;S1;Velkan D2;2025-01-06T10:00:00Z\n");
        Files.writeString(mixed.resolve("c.csv"), "Host,Serial,Model,Seen\nA,S1,Velkan D2,2025-01-06T11:00:00Z\n");
        assertThat(Runs.of("draft-mapping", mixed).out()).contains("of 2 files, " + mixed + "/a.csv and others\n", "Other headings, so move each into a folder of its own: " + mixed + "/b.csv\n");
    }

    /** It lies where check finds it: nothing is named. */
    @Test
    void onceFilledInItIsRead() throws IOException {
        Runs.of("draft-mapping", export);
        assertThat(Runs.of("check", folder).exitCode()).isEqualTo(2);
        Path mapping = folder.resolve("mapping.json");
        Files.writeString(mapping, Files.readString(mapping).replace("GB or GiB or TB or TiB?", "TB").replace("percent or percentRemaining?", "percent"));
        Runs check = Runs.of("check", folder);
        assertThat(check.exitCode()).as(check.out() + check.err()).isZero();
        assertThat(check.out()).contains("records: 2 found = 2 readings + 0 refused", "65.3 TB written, 34 % used");
    }

    @Test
    void whatIsThereStays() throws IOException {
        Path mapping = Files.writeString(folder.resolve("mapping.json"), "mine");
        Runs run = Runs.of("draft-mapping", export);
        assertThat(run.exitCode()).isEqualTo(2);
        assertThat(run.err()).contains(mapping + " is there already; name another file by --out");
        assertThat(mapping).hasContent("mine");
        assertThat(Runs.of("draft-mapping", export, "--out", folder.resolve("other.json")).exitCode()).isEqualTo(3);
        assertThat(folder.resolve("other.json")).exists();
    }

    @Test
    void whereNothingIsOpenCheckIsContent() throws IOException {
        Path plain = Files.writeString(folder.resolve("plain.csv"), """
            Device name,Last seen,Model,Serial number,Data units written,Percentage used
            A,2025-04-01T10:00:00Z,Velkan D2,VX1,"231,250,000",61
            """);
        Runs run = Runs.of("draft-mapping", plain, "--out", folder.resolve("plain.json"));
        assertThat(run.exitCode()).as(run.out() + run.err()).isZero();
        assertThat(run.out()).contains("  no problem found in the input");
    }

    /** The mapping that is there already is none of this draft's. */
    @Test
    void checkedIsWhatWasWritten() throws IOException {
        Files.writeString(folder.resolve("mapping.json"), "{\"fields\": {\"machine.id\": \"Elsewhere\"}}");
        Runs run = Runs.of("draft-mapping", export, "--out", folder.resolve("other\u202e.json"));
        assertThat(run.out()).contains("Next: fill in " + folder + "/other\\u202E.json").doesNotContain("Elsewhere", "\u202e");
    }

    @Test
    void aFileThatIsNotThereIsTold() {
        Runs run = Runs.of("draft-mapping", folder.resolve("gone.csv"));
        assertThat(run.exitCode()).isEqualTo(2);
        assertThat(run.err()).contains("no such file: " + folder + "/gone.csv");
    }
}
