package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Ownership;
import org.wearledger.model.Price;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Rating;
import org.wearledger.model.Repair;
import org.wearledger.report.ProblemWords;

class SideTablesTest {
    private static final String RATINGS = "driveModel,nominalCapacityGigabytes,ratedTerabytesWritten,warrantyYears,source,sourceDate\n";
    private static final String INVENTORY = "machineId,site,costCentre,inServiceOn,warrantyEndsOn,memoryBytes,attachment\n";
    private static final String INVENTORY_OF_CHANGES = "machineId,userSince,driveReplacedOn\n";
    private static final String PRICES = "item,currency,unitPrice,labour,disposalFee,supplier,priceDate\n";

    @TempDir
    Path folder;

    private ReportFile file(String name, String content) throws IOException {
        return new ReportFile(Files.writeString(folder.resolve(name), content).toString(), name);
    }

    @Test
    void everyColumnIsRead() throws IOException {
        SideTable<Rating> ratings = SideTables.ratings(file("ratings.csv", RATINGS + "Kestrel K2,500,300,5,data sheet,2024-03-01\nMerlin M1,256.1,80,,data sheet,\n"));
        assertThat(ratings.values()).containsExactly(
            new Rating("Kestrel K2", new BigDecimal("500"), new BigDecimal("300"), new BigDecimal("5"), "data sheet", LocalDate.of(2024, 3, 1)),
            new Rating("Merlin M1", new BigDecimal("256.1"), new BigDecimal("80"), null, "data sheet", null));
        SideTable<InventoryEntry> inventory = SideTables.inventory(file("inventory.csv", INVENTORY
            + "LT-1,North,410,2022-01-06,2025-06-30,8589934592,Soldered\nLT-2,,,,,,\n"));
        assertThat(inventory.values()).containsExactly(
            new InventoryEntry("LT-1", "North", "410", LocalDate.of(2022, 1, 6), LocalDate.of(2025, 6, 30), 8L << 30, Attachment.SOLDERED),
            new InventoryEntry("LT-2", null, null, null, null, null, null));
        SideTable<Price> prices = SideTables.prices(file("prices.csv", PRICES + "drive 256 GB,EUR,39,45.0050,,Invented Supplies,2024-12-02\n"));
        assertThat(prices.values()).containsExactly(new Price("drive 256 GB", "EUR", new BigDecimal("39"), new BigDecimal("45.0050"), null, "Invented Supplies",
            LocalDate.of(2024, 12, 2)));
        assertThat(ratings.problems()).isEmpty();
        assertThat(inventory.problems()).isEmpty();
        assertThat(prices.problems()).isEmpty();
    }

    @Test
    void anInventoryTellsOfANewUserAndANewDrive() throws IOException {
        SideTable<InventoryEntry> inventory = SideTables.inventory(file("inventory.csv", INVENTORY_OF_CHANGES + "LT-1,2024-09-02,2024-11-04\nLT-2,2.9.2024,\n"));
        assertThat(inventory.values()).containsExactly(
            new InventoryEntry("LT-1", null, null, null, null, null, null, LocalDate.of(2024, 9, 2), LocalDate.of(2024, 11, 4), null, null, null, null, null, null),
            new InventoryEntry("LT-2", null, null, null, null, null, null));
        assertThat(inventory.problems()).singleElement().satisfies(problem -> assertThat(ProblemWords.of(problem).found()).isEqualTo("userSince is \"2.9.2024\""));
    }

    private FieldMapping mapping(String json) throws IOException {
        return FieldMapping.load(Files.writeString(folder.resolve("m.js"), json));
    }

    /** Three digits behind the sign are thousands or decimals, as the mapping says. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', quoteCharacter = '"', textBlock = """
        "decimal": ","                    | 12,500     | 12.5
        "decimal": ",", "grouping": "."   | 1.250,750  | 1250.75
        "decimal": ",", "grouping": "."   | 12.500     | 12500
        "decimal": "."                    | 12.500     | 12.5
        """)
    void theSignOfTheMappingSettlesWhatACostIs(String signs, String cost, String read) throws IOException {
        SideTable<Repair> repairs = SideTables.repairs(file("repairs.csv", "ticket;machineId;repairDate;reason;Kosten\nR-1;PC-1;2025-01-06;worn;" + cost + "\n"),
            mapping("{" + signs + ", \"repairs\": {\"cost\": \"Kosten\"}}"), LocalDate.of(2025, 12, 31));
        assertThat(repairs.problems()).isEmpty();
        assertThat(repairs.values()).singleElement().satisfies(repair -> assertThat(repair.cost()).isEqualByComparingTo(read));
    }

    /** Its zero bytes would pass for UTF-8 too. */
    @Test
    void utf16WithoutAByteOrderMarkIsReadWhereTheMappingSaysSo() throws IOException {
        Path file = Files.write(folder.resolve("inventory.csv"), "machineId,site\nPC-1,North\n".getBytes(StandardCharsets.UTF_16LE));
        FieldMapping mapping = mapping("{\"encoding\": \"UTF-16LE\", \"fields\": {\"machine.site\": \"x\"}}");
        assertThat(SideTables.inventory(ReportFile.of(file), null, mapping).values()).extracting(InventoryEntry::site).containsExactly("North");
    }

    /** As an inventory of a German office has it, in Windows-1252; the mapping says no more than the headings and forms. */
    @Test
    void anInventoryIsReadUnderItsOwnHeadingsAndForms() throws IOException {
        FieldMapping mapping = mapping("""
            {"encoding": "windows-1252", "decimal": ",", "notReported": ["-"], "inventory": {"machineId": "Gerät", "assetTag": "Inv.-Nr.", "machineModel": "Typ", "user": "Benutzer", "site": "Filiale",
              "inServiceOn": {"from": "Gekauft", "format": "dd.MM.yyyy"}, "refreshOn": {"from": "Austausch", "format": "MM/yyyy/dd"},
              "memoryBytes": {"from": "RAM GB", "unit": "GiB"}}}
            """);
        Path file = Files.write(folder.resolve("inventory.csv"), "Inv.-Nr.;Gerät;Typ;Benutzer;Filiale;Gekauft;Austausch;RAM GB;Bemerkung\nA-7;PC-1;Torvane 15;Büro;Nord;06.01.2022;03/2026/01;7,5;x\n-;PC-2;-;-;-;31.02.2022;-;1.024\n"
            .replace("1.024\n", "1.024;\n").getBytes(java.nio.charset.Charset.forName("windows-1252")));
        SideTable<InventoryEntry> inventory = SideTables.inventory(new ReportFile(file.toString(), "inventory.csv"), null, mapping);
        assertThat(inventory.values()).containsExactly(new InventoryEntry("PC-1", "Nord", null, LocalDate.of(2022, 1, 6), null, 15L << 29, null, null, null, null, "A-7", "Torvane 15", "Büro",
            LocalDate.of(2026, 3, 1), null));
        assertThat(inventory.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).satisfiesExactly(
            number -> assertThat(number).startsWith("inventory.csv, line 3: memoryBytes (from \"RAM GB\") is \"1.024\""));
        // What is UTF-8 stays so, whatever the exports beside it are.
        assertThat(SideTables.inventory(file("inventory.csv", "Gerät;Benutzer\nPC-1;Büro\n"), null, mapping).values()).extracting(InventoryEntry::user).containsExactly("Büro");
    }

    @Test
    void aDateThatDoesNotFitTheMappingAndAHeadingThatIsNotThereAreTold() throws IOException {
        FieldMapping mapping = mapping("{\"inventory\": {\"machineId\": \"PC\", \"refreshOn\": \"Refresh\", \"inServiceOn\": {\"from\": \"Bought\", \"format\": \"dd.MM.yyyy\"}}}");
        SideTable<InventoryEntry> inventory = SideTables.inventory(file("inventory.csv", "PC,Bought\nPC-1,31.02.2022\n"), null, mapping);
        assertThat(inventory.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).satisfiesExactly(
            heading -> assertThat(heading).startsWith("inventory.csv, whole file: no record has a value for refreshOn (from \"Refresh\")"),
            date -> assertThat(date).isEqualTo("inventory.csv, line 2: inServiceOn (from \"Bought\") is \"31.02.2022\"; expected a date as the mapping says, dd.MM.yyyy; "
                + "the date is taken as unknown; correct it"));
        assertThatThrownBy(() -> SideTables.inventory(file("inventory.csv", "Name\nPC-1\n"), null, mapping)).isInstanceOf(InputMissingException.class)
            .hasMessage("inventory.csv: no heading \"PC\" for machineId; it has Name: correct the mapping");
        assertThatThrownBy(() -> mapping("{\"inventory\": {\"machineid\": \"PC\"}}")).isInstanceOf(InputMissingException.class)
            .hasMessage(folder.resolve("m.js") + ": \"machineid\" is no column of the inventory (near: machineId); see schemas/side-tables.md");
    }

    @Test
    void repairsAreReadUnderTheirOwnHeadingsAndForms() throws IOException {
        FieldMapping mapping = mapping("""
            {"grouping": ".", "repairs": {"ticket": "Auftrag", "machineId": "Rechner", "repairDate": {"from": "Tag", "format": "dd.MM.yyyy"}, "reason": "Grund", "cost": "Betrag", "SSD tot": "dead drive"}}
            """);
        assertThat(SideTables.repairs(file("repairs.csv", "Auftrag;Rechner;Tag;Grund;Betrag\nR-1;LT-1;06.01.2025;SSD tot;1.103,50\n"), mapping, LocalDate.of(2025, 1, 6)).values())
            .containsExactly(new Repair("R-1", "LT-1", null, null, LocalDate.of(2025, 1, 6), Repair.Reason.DEAD_DRIVE, null, new BigDecimal("1103.50")));
    }

    @Test
    void repairsAreReadByOnesOwnWords() throws IOException {
        SideTable<Repair> repairs = SideTables.repairs(file("repairs.csv", """
            ticket,machineId,driveSerial,site,repairDate,reason,action,cost
            R-1,LT-1,KX-1,North,2025-01-06,SSD Tot,ssd 512,103.50
            R-1,LT-1,,,2025-01-06,supply circuit,,
            """), mapping("{\"repairs\": {\"SSD tot\": \"dead drive\", \"ssd 512\": \"drive 512 GB\"}}"), LocalDate.of(2025, 1, 6));
        assertThat(repairs.values()).containsExactly(
            new Repair("R-1", "LT-1", "KX-1", "North", LocalDate.of(2025, 1, 6), Repair.Reason.DEAD_DRIVE, "drive 512 GB", new BigDecimal("103.50")),
            new Repair("R-1", "LT-1", null, null, LocalDate.of(2025, 1, 6), Repair.Reason.SUPPLY_CIRCUIT, null, null));
        assertThat(repairs.problems()).isEmpty();
    }

    /** Without a word on it a machine is as the sweep takes all. */
    @ParameterizedTest(name = "ownership {0}")
    @CsvSource({"own, OWN", "Customer, CUSTOMER", "'', "})
    void anInventoryTellsWhoseAMachineIs(String owner, Ownership read) throws IOException {
        SideTable<InventoryEntry> inventory = SideTables.inventory(file("inventory.csv", "machineId,ownership\nLT-1," + owner + "\n"));
        assertThat(inventory.values()).extracting(InventoryEntry::ownership).containsExactly(read);
        assertThat(inventory.problems()).isEmpty();
    }

    /** As spreadsheets write it: a byte order mark, semicolons and a decimal comma. */
    @Test
    void aSpreadsheetsOwnFormIsReadToo() throws IOException {
        assertThat(SideTables.prices(file("prices.csv", "\uFEFF" + PRICES.replace(',', ';') + "board;EUR;410,50;0,1234;;;2024-12-02\r\n")).values()).singleElement()
            .satisfies(price -> {
                assertThat(price.unitPrice()).isEqualTo("410.50");
                assertThat(price.labour()).isEqualTo("0.1234");
            });
    }

    @Test
    void whereSemicolonsPartTheCellsADecimalCommaIsAllowed() throws IOException {
        assertThat(SideTables.prices(file("prices.csv", PRICES.replace(',', ';') + "board;EUR;1,410;;;;2024-12-02\n")).problems()).extracting(problem -> ProblemWords.of(problem).expected())
            .containsExactly("a plain number such as 150, 99.50 or 99,50, without currency sign and separators between the digits");
    }

    /** Spreadsheets write such a line; places count it. */
    @Test
    void aLineThatNamesTheSeparatorIsRead() throws IOException {
        SideTable<Price> prices = SideTables.prices(file("prices.csv", "sep=;\r\n" + PRICES.replace(',', ';') + "board;EUR;410,50;0;;;2024-12-02\r\nboard;EUR;0;0;;;\r\n"));
        assertThat(prices.values()).extracting(Price::unitPrice).containsExactly(new java.math.BigDecimal("410.50"));
        assertThat(prices.problems()).extracting(problem -> problem.source().place()).containsExactly("line 4");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        ,EUR,39,,,,2024-12-02                  | prices.csv, line 2: no item; expected a value for item; the row is not used; see schemas/side-tables.md
        board,EUR,,,,,2024-12-02               | prices.csv, line 2: no unitPrice; expected a value for unitPrice; the row is not used; see schemas/side-tables.md
        board,EUR,0,,,,2024-12-02              | prices.csv, line 2: unitPrice is "0"; expected a number above 0; the row is not used; see schemas/side-tables.md
        board,EUR,-1,,,,2024-12-02             | prices.csv, line 2: unitPrice is "-1"; expected a number above 0; the row is not used; see schemas/side-tables.md
        board,EUR,39,-0.50,,,2024-12-02        | prices.csv, line 2: labour is "-0.50"; expected a number that is not below 0; the row is not used; see schemas/side-tables.md
        board,EUR,1e3,,,,2024-12-02            | prices.csv, line 2: unitPrice is "1e3"; expected a plain number such as 150 or 99.50, without currency sign and separators between the digits; the row is not used; see schemas/side-tables.md
        board,EUR,"1,250",,,,2024-12-02        | prices.csv, line 2: unitPrice is "1,250"; expected a plain number such as 150 or 99.50, without currency sign and separators between the digits; the row is not used; see schemas/side-tables.md
        board,EUR,1000000001,,,,2024-12-02     | prices.csv, line 2: unitPrice is 1000000001; expected at most 1000000000; the row is not used; see schemas/side-tables.md
        board,EUR,39,1000000000.01,,,2024-12-02 | prices.csv, line 2: labour is 1000000000.01; expected at most 1000000000; the row is not used; see schemas/side-tables.md
        board,EUR,39                           | prices.csv, line 2: a row of 3 cells; expected as many cells as the header's 7; the row is not used; check separators and quotes on this line
        board,EUR,41,50,,,,2024-12-02          | prices.csv, line 2: a row of 8 cells; expected as many cells as the header's 7; the row is not used; a decimal comma? write "41.50", or separate the cells by semicolons
        board,EUR,41 EUR,,,,2024-12-02         | prices.csv, line 2: unitPrice is "41 EUR"; expected a plain number such as 150 or 99.50, without currency sign and separators between the digits; the row is not used; see schemas/side-tables.md
        board,EUR,39,,,,2.12.2024              | prices.csv, line 2: priceDate is "2.12.2024"; expected a date such as 2025-01-06; the date is taken as unknown; correct it
        """)
    void aRowAtFaultIsToldAlone(String row, String sentence) throws IOException {
        SideTable<Price> outcome = SideTables.prices(file("prices.csv", PRICES + row + "\nmachine,EUR,1000000000,1000000000,0,,2024-12-02\n"));
        assertThat(outcome.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(sentence);
        assertThat(outcome.rows()).isEqualTo(2);
        assertThat(outcome.values()).extracting(Price::item).endsWith("machine").hasSize(sentence.contains("priceDate") ? 2 : 1);
    }

    @Test
    void anAttachmentHasThreeWordsAndAWarrantyFifteenYears() throws IOException {
        assertThat(SideTables.inventory(file("inventory.csv", INVENTORY + "LT-1,,,,,1.5,\n")).problems()).extracting(problem -> ProblemWords.of(problem).sentence())
            .containsExactly("inventory.csv, line 2: memoryBytes is \"1.5\"; expected a whole number of bytes, such as 8589934592, or the column memoryGibibytes in its place; "
                + "the row is not used; see schemas/side-tables.md");
        SideTable<InventoryEntry> gibibytes = SideTables.inventory(file("inventory.csv", "machineId,memoryGibibytes,memoryBytes\nLT-1,8,\nLT-2,1.5,\nLT-3,8,8589934592\n"));
        assertThat(gibibytes.values()).extracting(InventoryEntry::memoryBytes).containsExactly(8_589_934_592L, 1_610_612_736L);
        assertThat(gibibytes.problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly("both memoryBytes and memoryGibibytes");
        assertThat(SideTables.inventory(file("inventory.csv", INVENTORY + "LT-1,,,,,,glued\n")).problems()).extracting(problem -> ProblemWords.of(problem).sentence())
            .containsExactly("inventory.csv, line 2: attachment is \"glued\"; expected soldered, socketed or unknown; the row is not used; see schemas/side-tables.md");
        assertThat(SideTables.ratings(file("ratings.csv", RATINGS + "Kestrel K2,500,300,15,x,\nMerlin M1,500,300,36,x,\n")).problems()).extracting(problem -> ProblemWords.of(problem).sentence())
            .containsExactly("ratings.csv, line 3: warrantyYears is 36; expected at most 15; the row is not used; see schemas/side-tables.md");
    }

    /** Names are folded, 500 and 500.0 are one capacity; one item may have a price in each of two currencies. */
    @Test
    void ofTwoRowsForOneThingTheFirstIsUsed() throws IOException {
        SideTable<Rating> ratings = SideTables.ratings(file("ratings.csv", RATINGS + "Kestrel K2,500,300,,x,\nKESTREL  k2,500.0,150,,x,\nKestrel K2,1000,600,,x,\n"));
        assertThat(ratings.values()).extracting(rating -> rating.ratedTerabytesWritten().toString()).containsExactly("300", "600");
        assertThat(ratings.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "ratings.csv, line 3: a second row for KESTREL K2 at 500 GB; expected one row each; the first row is used; delete one of them");
        assertThat(SideTables.inventory(file("inventory.csv", INVENTORY + "LT-1,North,,,,,\nlt-1,South,,,,,\n"))).satisfies(outcome -> {
            assertThat(outcome.values()).extracting(InventoryEntry::site).containsExactly("North");
            assertThat(outcome.problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly("a second row for LT-1");
        });
        assertThat(SideTables.prices(file("prices.csv", PRICES + "board,EUR,1,,,,\nBoard,eur,2,,,,\nboard,USD,3,,,,\n"))).satisfies(outcome -> {
            assertThat(outcome.values()).hasSize(2);
            assertThat(outcome.problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly("a second row for BOARD in EUR");
        });
    }

    /** In a list with decimal commas 1.410 is a thousand times what it is elsewhere. */
    @Test
    void aDotBeforeThreeDigitsIsNotGuessedAt() throws IOException {
        SideTable<Price> prices = SideTables.prices(file("prices.csv", "item;currency;unitPrice;priceDate\nboard;EUR;1.410;2025-01-06\ndrive 256 GB;EUR;0.500;2025-01-06\n"));
        assertThat(prices.values()).extracting(Price::item).containsExactly("drive 256 GB");
        assertThat(prices.problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly("unitPrice is \"1.410\", whose dot may part thousands");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        item,currency,unitPrice,labor       | prices.csv, whole file: a column "labor"; expected the columns item, currency, unitPrice, labour, disposalFee, supplier, priceDate, \
        exchangeRate, packSize, breakQuantity, breakPrice, stock, account, capexOrOpex; \
        the column is not used; the nearest is "labour"; correct its heading, or ignore this if it is your own
        item,currency,unitPrice,remark      | prices.csv, whole file: a column "remark"; expected the columns item, currency, unitPrice, labour, disposalFee, supplier, priceDate, \
        exchangeRate, packSize, breakQuantity, breakPrice, stock, account, capexOrOpex; \
        the column is not used; correct its heading, or ignore this if it is your own
        """)
    void aColumnThatTheTableDoesNotHaveIsTold(String header, String sentence) throws IOException {
        SideTable<Price> prices = SideTables.prices(file("prices.csv", header + "\nboard,EUR,410,65\n"));
        assertThat(prices.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(sentence);
        assertThat(prices.values()).extracting(Price::labour).containsExactly((BigDecimal) null);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        atachment | the nearest is "attachment"
        memory    | the nearest is "memoryBytes"
        warranty  | the nearest is "warrantyEndsOn"
        """)
    void aMisspeltHeadingOfTheInventoryIsNamedWithTheNearest(String heading, String hint) throws IOException {
        assertThat(SideTables.inventory(file("inventory.csv", "machineId," + heading + "\nLT-1,8\n")).problems()).singleElement()
            .satisfies(problem -> assertThat(ProblemWords.of(problem).sentence()).contains("a column \"" + heading + "\"").contains(hint));
    }

    @Test
    void aTableWithoutItsColumnsIsRefusedWhole() throws IOException {
        ReportFile wrong = file("prices.csv", "item,unitPrice\nboard,410\n");
        assertThatThrownBy(() -> SideTables.prices(wrong)).isInstanceOf(InputMissingException.class)
            .hasMessage("prices.csv: a side table needs the columns item, currency, unitPrice; this one lacks currency and has item, unitPrice: correct its headings as schemas/side-tables.md names them");
        ReportFile empty = file("inventory.csv", "");
        assertThatThrownBy(() -> SideTables.inventory(empty)).isInstanceOf(InputMissingException.class)
            .hasMessage("inventory.csv: a side table needs the columns machineId; this one lacks machineId and has no heading: correct its headings as schemas/side-tables.md names them");
    }

    @Test
    void aColumnTwiceRefusesTheRowsInWhichItDiffers() throws IOException {
        SideTable<Rating> ratings = SideTables.ratings(file("ratings.csv", RATINGS.replace("source,", "source,source,") + "a,256,150,,b,c,\nd,256,150,,b,b,\n"));
        assertThat(ratings.values()).extracting(Rating::driveModel).containsExactly("d");
        assertThat(ratings.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.kind().id()).isEqualTo("side-table-row-invalid");
            assertThat(ProblemWords.of(problem).sentence()).startsWith("ratings.csv, line 2: the column \"source\" stands twice, and its cells differ here; ");
        });
    }

    /** What a table in other words has is told, and what each of its headings is near to. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        Item;Currency;Price;labour        | lacks item, currency, unitPrice and has Item, Currency, Price, labour; "Item" may be item, "Currency" may be currency, "Price" may be unitPrice:
        Artikel;W\u00e4hrung;Preis          | lacks item, currency, unitPrice and has Artikel, W\u00e4hrung, Preis:
        item;curency;unit price;unitprice | lacks currency, unitPrice and has item, curency, unit price, unitprice; "curency" may be currency, "unitprice" may be unitPrice:
        """)
    void ofATableInOtherWordsTheNearestHeadingsAreTold(String header, String told) throws IOException {
        ReportFile wrong = file("prices.csv", header + "\nboard;EUR;410;1\n");
        assertThatThrownBy(() -> SideTables.prices(wrong)).isInstanceOf(InputMissingException.class)
            .hasMessage("prices.csv: a side table needs the columns item, currency, unitPrice; this one " + told + " correct its headings as schemas/side-tables.md names them");
    }

    @Test
    void anOpenQuoteEndsTheTable() throws IOException {
        SideTable<Price> outcome = SideTables.prices(file("prices.csv", PRICES + "board,EUR,1,,,,2024-12-02\nmachine,EUR,2,,,\"Invented,2024-12-02\n"));
        assertThat(outcome.values()).extracting(Price::item).containsExactly("board");
        assertThat(outcome.problems()).singleElement().extracting(problem -> ProblemWords.of(problem).found()).asString().startsWith("broken CSV: ");
    }

    /** A machine or site under another name would be one more; in a column of one's own, which is not used, it harms nothing. */
    @Test
    void aRowWithBytesThatAreNoUtf8IsRefused() throws IOException {
        Path latin = Files.write(folder.resolve("latin.csv"), ("machineId,site,costCentre,owner\nLT-1,K\u00f6ln,S\u00fcd,x\nLT-2,Ulm,,M\u00fcller\n").getBytes(StandardCharsets.ISO_8859_1));
        SideTable<InventoryEntry> inventory = SideTables.inventory(new ReportFile(latin.toString(), "latin.csv"));
        assertThat(inventory.values()).extracting(InventoryEntry::machineId).containsExactly("LT-2");
        assertThat(inventory.rows()).isEqualTo(2);
        assertThat(inventory.problems()).filteredOn(problem -> problem.kind() == ProblemKind.SIDE_TABLE_ROW_INVALID).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "latin.csv, line 2: bytes that are no UTF-8 in site, costCentre; expected text in UTF-8; the row is not used; it looks like windows-1252: say \"encoding\": \"windows-1252\" in a mapping, or export as UTF-8");
    }

    /** An end of warranty in 2205 would ask the maker about a machine of 2022. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(nullValues = "-", value = {"2010-12-31, -", "2011-01-01, 2011-01-01", "2041-01-01, 2041-01-01", "2041-01-02, -", "2205-01-01, -", "0025-03-01, -"})
    void anEndOfWarrantyFarAheadIsUnknown(String date, LocalDate taken) throws IOException {
        SideTable<InventoryEntry> inventory = SideTables.inventory(file("inventory.csv", "machineId,warrantyEndsOn,refreshOn\nLT-1," + date + "," + date + "\n"), LocalDate.of(2026, 1, 1),
            FieldMapping.none());
        assertThat(inventory.values()).extracting(InventoryEntry::warrantyEndsOn, InventoryEntry::refreshOn).containsExactly(tuple(taken, taken));
        assertThat(inventory.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).isEqualTo(taken != null ? List.of()
            : List.of("warrantyEndsOn", "refreshOn").stream().map(column -> "inventory.csv, line 2: " + column + " is \"" + date
                + "\"; expected a date from 2011-01-01 to 2041-01-01; the date is taken as unknown; correct it").toList());
    }

    @Test
    void aPriceForManyThatIsDearerThanForOneIsRefused() throws IOException {
        SideTable<Price> prices = SideTables.prices(file("prices.csv", "item,currency,unitPrice,breakQuantity,breakPrice\ndrive,EUR,39,10,39\nboard,EUR,410,10,4100\n"));
        assertThat(prices.values()).extracting(Price::item).containsExactly("drive");
        assertThat(prices.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "prices.csv, line 3: breakPrice is \"4100\", above unitPrice; expected a price for many that is not above that for one; the row is not used; check both prices");
    }

    /** The first specification of such drives is of 2011; nothing goes into service after the as-of date. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        1900-01-01 |            | inServiceOn is "1900-01-01" | a date from 2011-01-01 to the as-of date, 2026-01-01
        2010-12-31 |            | inServiceOn is "2010-12-31" | a date from 2011-01-01 to the as-of date, 2026-01-01
        2011-01-01 | 2011-01-01 |                             |
        2026-01-01 | 2026-01-01 |                             |
        2026-01-02 |            | inServiceOn is "2026-01-02" | a date from 2011-01-01 to the as-of date, 2026-01-01
        2077-01-01 |            | inServiceOn is "2077-01-01" | a date from 2011-01-01 to the as-of date, 2026-01-01
        """)
    void aDateOfServiceThatCannotBeIsUnknown(String date, LocalDate taken, String found, String expected) throws IOException {
        SideTable<InventoryEntry> inventory = SideTables.inventory(file("inventory.csv", "machineId,inServiceOn\nLT-1," + date + "\n"), LocalDate.of(2026, 1, 1), FieldMapping.none());
        assertThat(inventory.values()).extracting(InventoryEntry::inServiceOn).containsExactly(taken);
        assertThat(inventory.problems()).extracting(problem -> problem.kind().id() + ": " + ProblemWords.of(problem).found() + "; " + ProblemWords.of(problem).expected())
            .isEqualTo(found == null ? List.of() : List.of("side-table-field-invalid: " + found + "; " + expected));
    }

    @Test
    void oneItemInTwoSpellingsIsOneItem() throws IOException {
        SideTable<Price> prices = SideTables.prices(file("prices.csv", PRICES + "drive 256 GB,EUR,39,,,,\nDrive 256GB,EUR,99,,,,\n"));
        assertThat(prices.values()).extracting(Price::unitPrice).containsExactly(new BigDecimal("39"));
        assertThat(prices.problems()).extracting(problem -> problem.kind().id() + ": " + ProblemWords.of(problem).found()).containsExactly(
            "side-table-row-repeated: a second row for DRIVE 256GB in EUR");
    }

    /** A slip of the unit would decide every standing of the model. */
    @ParameterizedTest(name = "{0} TB for {1} GB")
    @CsvSource(delimiter = '|', textBlock = """
        300    | 500 |
        2.5    | 500 |
        2.4    | 500 | ratedTerabytesWritten is "2.4", which is 4.8 writes of the capacity of 500 GB
        0.28   | 512 | ratedTerabytesWritten is "0.28", which is 0.5 writes of the capacity of 512 GB
        280000 | 512 | ratedTerabytesWritten is "280000", which is 546,875.0 writes of the capacity of 512 GB
        280    | 0.5 | ratedTerabytesWritten is "280", which is 560,000.0 writes of the capacity of 0.5 GB
        30000  | 500 |
        """)
    void aRatingThatNoDriveHasIsRefused(String terabytes, String gigabytes, String found) throws IOException {
        SideTable<Rating> ratings = SideTables.ratings(file("ratings.csv", RATINGS + "Kestrel K2," + gigabytes + "," + terabytes + ",5,data sheet,2024-01-01\n"));
        assertThat(ratings.problems()).extracting(problem -> ProblemWords.of(problem).found()).isEqualTo(found == null ? List.of() : List.of(found));
        assertThat(ratings.problems()).allSatisfy(problem -> assertThat(problem.kind()).isEqualTo(ProblemKind.SIDE_TABLE_ROW_INVALID));
    }
}
