package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Made-up sites with an export each: north writes German CSV and earlier wrote gigabytes, south JSON, west the report form, east what
 * {@code --mapping} says. One sweep reads them all.
 */
class FolderMappingsIT {
    private static final String OF_NORTH = """
        {"decimal": ",", "constants": {"machine.site": "North"}, "fields": {
          "machine.id": "Rechner", "collectedAt": {"from": "Stand", "format": "HH:mm dd.MM.yyyy", "zone": "Europe/Berlin"}, "drive.serial": "Nummer", "drive.model": "Platte",
          "health.percentageUsed": "Verbraucht", "health.dataUnitsWritten": {"from": "Geschrieben", "unit": "TB"}}}
        """;
    private static final String OF_EAST = """
        {"constants": {"machine.site": "East"}, "fields": {"machine.id": "pc", "collectedAt": {"from": "t", "format": "epochSeconds"}, "drive.serial": "sn", "drive.model": "disk",
          "health.percentageUsed": "used", "health.dataUnitsWritten": {"from": "written", "unit": "bytes"}}}
        """;

    @TempDir
    Path folder;
    private Path sites;
    private Path mapping;

    @BeforeEach
    void sites() throws IOException {
        sites = folder.resolve("sites");
        write("north/mapping.json", OF_NORTH);
        write("north/q1.csv", "Rechner;Stand;Nummer;Platte;Verbraucht;Geschrieben\nN-1;09:30 06.01.2025;KX1;Kestrel K2;20;41,5\nN-2;09:30 06.01.2025;KX2;Kestrel K2;30;62,5\n");
        write("north/2024/mapping.json", OF_NORTH.replace("\"TB\"", "\"GB\""));
        write("north/2024/q4.csv", "Rechner;Stand;Nummer;Platte;Verbraucht;Geschrieben\nN-1;09:30 06.10.2024;KX1;Kestrel K2;19;39500\n");
        write("south/mapping.json", """
            {"constants": {"machine.site": "South"}, "fields": {"machine.id": "/host", "collectedAt": {"from": "/at", "format": "yyyyMMdd HHmm"},
              "drive.serial": "/disk/sn", "drive.model": "/disk/name", "health.percentageUsed": "/disk/life", "health.dataUnitsWritten": {"from": "/disk/written", "unit": "sectors"}}}
            """);
        write("south/pc1.json", "{\"host\": \"S-1\", \"at\": \"20250106 0930\", \"disk\": {\"sn\": \"OA1\", \"name\": \"Ondrel E3\", \"life\": 25, \"written\": 100000000000}}");
        write("west/w.csv", "schemaVersion,collectedAt,machine.id,machine.site,drive.serial,drive.model,health.percentageUsed,health.dataUnitsWritten\n"
            + "1.0,2025-01-06T09:30:00Z,W-1,West,VE1,Velkan D2,12,50000000\n");
        write("east/e.csv", "pc,t,sn,disk,used,written\nE-1,1736155800,VE2,Velkan D2,40,90000000000000\n");
        mapping = Files.writeString(folder.resolve("east.json"), OF_EAST);
    }

    private void write(String name, String text) throws IOException {
        Path file = sites.resolve(name);
        Files.createDirectories(file.getParent());
        Files.writeString(file, text);
    }

    private Path sweep(String name, int partitions, Object... inputs) {
        Path out = folder.resolve(name);
        Object[] words = new Object[inputs.length + 5];
        words[0] = "sweep";
        System.arraycopy(inputs, 0, words, 1, inputs.length);
        words[inputs.length + 1] = "--partitions";
        words[inputs.length + 2] = partitions;
        words[inputs.length + 3] = "--out";
        words[inputs.length + 4] = out;
        assertThat(Runs.of(words)).extracting(Runs::exitCode).isEqualTo(ExitCode.DONE);
        return out;
    }

    @Test
    void everySiteIsReadByItsOwnMapping() throws IOException {
        Path all = sweep("all", 1, sites, "--mapping", mapping);
        assertThat(Files.readAllLines(all.resolve("machines.csv"))).hasSize(6);
        assertThat(Files.readString(all.resolve("summary.md")).replace("\n  ", " ")).contains("files: 5 found = 5 read + 0 refused",
            "- mapping " + mapping + ": 2 files, " + sites + "/east/e.csv to " + sites + "/west/w.csv\n",
            "- mapping " + sites + "/north/mapping.json: 1 file, " + sites + "/north/q1.csv\n",
            "- mapping " + sites + "/north/2024/mapping.json: 1 file, " + sites + "/north/2024/q4.csv\n",
            "- mapping " + sites + "/south/mapping.json: 1 file, " + sites + "/south/pc1.json\n");

        // As each site was read before, by a pack under its own mapping.
        Path packs = folder.resolve("packs");
        for (List<String> one : List.of(List.of("north/2024/q4.csv", "north/2024/mapping.json"), List.of("north/q1.csv", "north/mapping.json"), List.of("south/pc1.json", "south/mapping.json"))) {
            Path alone = folder.resolve("alone").resolve(one.get(0));
            Files.createDirectories(alone.getParent());
            Files.copy(sites.resolve(one.get(0)), alone);
            assertThat(Runs.of("pack", alone, "--mapping", sites.resolve(one.get(1)), "--out", packs.resolve(one.get(0))).exitCode()).isEqualTo(ExitCode.DONE);
        }
        Path packed = sweep("packed", 1, packs, sites.resolve("west"), sites.resolve("east"), "--mapping", mapping);
        assertThat(packed.resolve("machines.csv")).hasSameBinaryContentAs(all.resolve("machines.csv"));

        // And whichever way the files come.
        Path parted = sweep("parted", 7, sites.resolve("west"), sites.resolve("south/pc1.json"), sites + "/*/q?.csv", sites.resolve("north/2024"), sites.resolve("east"), "--mapping", mapping);
        Path whole = sweep("whole", 1, sites.resolve("east"), sites.resolve("north"), sites.resolve("south"), sites.resolve("west"), "--mapping", mapping);
        for (String table : List.of("machines.csv", "problems.csv", "models.csv", "summary.md")) {
            assertThat(parted.resolve(table)).as(table).hasSameBinaryContentAs(whole.resolve(table));
        }
        Path pack = folder.resolve("all.pack");
        assertThat(Runs.of("pack", sites, "--mapping", mapping, "--out", pack).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(sweep("of-pack", 3, pack).resolve("machines.csv")).hasSameBinaryContentAs(all.resolve("machines.csv"));
    }

    /** Each by what the mapping of its folder says, from a folder and from a pack of it. */
    @Test
    void sideTablesAreReadByTheMappingOfTheirFolderAndSoInAPack() throws IOException {
        write("north/mapping.json", OF_NORTH.substring(0, OF_NORTH.lastIndexOf('}')) + """
            , "inventory": {"machineId": "Rechner", "assetTag": "Inv", "user": "Benutzer", "refreshOn": {"from": "Tausch", "format": "dd.MM.yyyy"}},
              "repairs": {"ticket": "Nr", "machineId": "Rechner", "repairDate": {"from": "Tag", "format": "dd.MM.yyyy"}, "reason": "Grund", "verkauft": "sold"}}
            """);
        write("north/inventory.csv", "Rechner;Inv;Benutzer;Tausch\nN-1;A-1;Kasse;01.03.2026\nN-2;A-2;;\n");
        write("north/repairs.csv", "Nr;Rechner;Tag;Grund\nR-1;N-2;07.01.2025;verkauft\n");
        Path north = sweep("north", 2, sites.resolve("north"));
        assertThat(Files.readAllLines(north.resolve("machines.csv"))).hasSize(2).last().asString().startsWith("N-1,").contains(",A-1,").endsWith(",Kasse,2026-03-01");
        Path pack = folder.resolve("north.pack");
        assertThat(Runs.of("pack", sites.resolve("north"), "--out", pack).exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(sweep("north-pack", 1, pack).resolve("machines.csv")).hasSameBinaryContentAs(north.resolve("machines.csv"));
        assertThat(Runs.of("check", pack).out()).contains("side table rows: 3 found = 3 read + 0 refused").doesNotContain("mapping ");
    }

    /** What a program wrote in its own words stays so wherever it is put. */
    @Test
    void aPackIsReadByNoMappingButItsOwnAndHoldsOneForItsTables() throws IOException {
        write("west/inventory.csv", "machineId,machineModel\nW-1,Torvane 15\n");
        write("west/repairs.csv", "ticket,machineId,repairDate,reason,action\nR-1,W-1,2025-01-07,worn,board\n");
        Path moved = sites.resolve("north/moved.pack");
        assertThat(Runs.of("pack", sites.resolve("west"), "--out", moved).exitCode()).isEqualTo(ExitCode.DONE);
        write("north/mapping.json", OF_NORTH.substring(0, OF_NORTH.lastIndexOf('}')) + ", \"inventory\": {\"machineId\": \"Rechner\"}, \"repairs\": {\"machineId\": \"Rechner\", \"board\": \"machine\"}}");
        Path all = sweep("moved", 1, sites.resolve("north"));
        // The machine's model, of which no report tells, is the inventory's.
        assertThat(Files.readString(all.resolve("stock.csv"))).contains("board,1,", "Torvane 15").doesNotContain(",machine,");

        write("north/moved.pack/mapping.json", OF_NORTH);
        write("north/moved.pack/extra.csv", Files.readString(sites.resolve("north/q1.csv")).replace("KX", "KY"));
        assertThat(Runs.of("check", sites.resolve("north"), moved.resolve("extra.csv")).out()).contains("mapping " + moved + "/mapping.json: 1 file, " + moved + "/extra.csv\n");

        write("north/inventory.csv", "Rechner\nN-1\n");
        Runs two = Runs.of("pack", sites.resolve("north/q1.csv"), "--inventory", sites.resolve("north/inventory.csv"), "--repairs", sites.resolve("west/repairs.csv"), "--out", folder.resolve("two.pack"));
        assertThat(two.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(two.err()).contains("inventory.csv and repairs.csv are not read by the same mapping, and a pack holds one for both; give one mapping the columns of both");
    }

    @Test
    void aCheckSaysWhatServesWhat() {
        assertThat(Runs.of("check", sites.resolve("north"), sites.resolve("west")).out()).contains(
            "mapping " + sites + "/north/mapping.json: 1 file, " + sites + "/north/q1.csv\n"
            + "mapping " + sites + "/north/2024/mapping.json: 1 file, " + sites + "/north/2024/q4.csv\n"
            + "no mapping: 1 file, " + sites + "/west/w.csv\n"
            + "files: 3 found = 3 read + 0 refused\n");
        assertThat(Runs.of("check", sites.resolve("west"), "--mapping", mapping).out()).contains("mapping " + mapping + ": 1 file, " + sites + "/west/w.csv\n");
        assertThat(Runs.of("check", sites.resolve("west")).out()).doesNotContain("mapping");
    }

    /** All of them at once, before anything is read. */
    @Test
    void brokenMappingsAreNamedWithWhatIsAllowed() throws IOException {
        write("north/mapping.json", OF_NORTH.replace("\"TB\"", "\"T\""));
        write("south/mapping.json", "{");
        Runs run = Runs.of("check", sites, "--mapping", mapping);
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).contains(sites + "/north/mapping.json: health.dataUnitsWritten has unit \"T\"; allowed are GB, GiB, KB, KiB, MB, MiB, TB, TiB, bytes, dataUnits, sectors; "
            + sites + "/south/mapping.json: broken JSON at line 1, column 2: the text ends too soon; a closing bracket or a value is expected");
    }
}
