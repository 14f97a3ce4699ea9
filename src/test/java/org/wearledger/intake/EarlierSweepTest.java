package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSnapshot;

/** The columns of an earlier sweep's tables that this one compares with; there are more. */
class EarlierSweepTest {
    private static final String MACHINES = "machineId,site,driveSerial,machineStanding,gigabytesPerDay,memoryGibibytes,lastSeenOn,reportedThisSweep\n";
    private static final String REPLACEMENTS = "machineId,item,needOn,orderByOn,orderNow,currency,amount,driveSerial\n";

    @TempDir
    Path folder;

    private List<MachineSnapshot> read(String machines, String replacements) throws IOException {
        Files.writeString(folder.resolve("machines.csv"), machines);
        if (replacements != null) {
            Files.writeString(folder.resolve("replacements.csv"), replacements);
        }
        return EarlierSweep.read(folder).machines();
    }

    /** One row a drive, of which a machine has the most written one's rate; an apostrophe before a formula sign is the table's own. */
    @Test
    void aMachineHasAllItsDrivesAndLines() throws IOException {
        assertThat(read(MACHINES + "LT-1,North,kx2,past rating,12.5,8.0,2024-10-07,yes\nLT-1,North,KX1,past rating,40.0,8.0,2024-10-07,yes\n"
            + "LT-2,,,no verdict,,,,no\nLT-3,'=South;'@2,'-KX3,within rating,1.0,16.0,2024-10-07,yes\n",
            REPLACEMENTS + "LT-1,drive 256 GB,2025-01-06,2024-10-07,check the figures first,EUR,87.50,'=kx1\nLT-1,board,2025-05-01,,,NO PRICE,0.00,KX2\n")).containsExactly(
                new MachineSnapshot("LT-1", "North", List.of("KX1", "KX2"), Standing.PAST_RATING, 40.0, 8.0, LocalDate.of(2024, 10, 7), true, List.of(
                    new MachineSnapshot.Planned("=KX1", "drive 256 GB", LocalDate.of(2025, 1, 6), LocalDate.of(2024, 10, 7), true, new BigDecimal("87.50")),
                    new MachineSnapshot.Planned("KX2", "board", LocalDate.of(2025, 5, 1), null, false, null))),
                new MachineSnapshot("LT-2", null, List.of(), Standing.NO_VERDICT, null, null, null, false, List.of()),
                new MachineSnapshot("LT-3", "=South;@2", List.of("-KX3"), Standing.WITHIN_RATING, 1.0, 16.0, LocalDate.of(2024, 10, 7), true, List.of()));
    }

    /** As {@code --csv semicolon} writes them, and as a spreadsheet of such a place saves the others. */
    @Test
    void semicolonsAndDecimalCommasAreReadToo() throws IOException {
        String machines = "LT-1,\"North, 2\",KX1,past rating,12.5,8.0,2024-10-07,yes\n";
        String line = "LT-1,drive 256 GB,2025-01-06,2024-10-07,,EUR,87.50,KX1\n";
        assertThat(read("\uFEFF" + MACHINES.replace(',', ';') + "LT-1;North, 2;KX1;past rating;12,5;8,0;2024-10-07;yes\n",
            REPLACEMENTS.replace(',', ';') + "LT-1;drive 256 GB;2025-01-06;2024-10-07;;EUR;87,50;KX1\n")).isEqualTo(read(MACHINES + machines, REPLACEMENTS + line));
        assertThatThrownBy(() -> read(MACHINES + machines.replace("12.5", "\"12,5\""), REPLACEMENTS + line)).as("commas in a table of commas")
            .isInstanceOf(InputMissingException.class);
    }

    @Test
    void aSweepWithoutABudgetHasNoPlanRatherThanAnEmptyOne() throws IOException {
        assertThat(read(MACHINES + "LT-1,,,watch,,,,yes\n", null)).singleElement().extracting(MachineSnapshot::planned).isNull();
    }

    /** All machines are new to it. */
    @Test
    void aSweepOfNoMachineLeavesItsHeadings() throws IOException {
        assertThat(read(MACHINES, REPLACEMENTS)).isEmpty();
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
                                                          | machines.csv is empty
        site,driveSerial                                  | machines.csv has no column machineId
        machineId,site                                    | machines.csv has no column machineStanding
        """)
    void aTableThatIsNoWholeOneIsRefused(String machines, String why) {
        assertThatThrownBy(() -> read(machines == null ? "" : machines + "\n", null)).isInstanceOf(InputMissingException.class)
            .hasMessage("the earlier sweep in " + folder + " cannot be read: " + why);
    }

    /** One machine may have many drives, and two models may use one serial. */
    @Test
    void aDriveThatStandsTwiceIsNotCountedTwice() throws IOException {
        String rows = "LT-1,North,KX1,watch,,,,yes\nLT-1,North,KX2,watch,,,,yes\n";
        assertThatThrownBy(() -> read(MACHINES + rows + rows, null)).isInstanceOf(InputMissingException.class)
            .hasMessage("the earlier sweep in " + folder + " cannot be read: machines.csv has the drive of row 1 again in row 3");
        assertThat(read(MACHINES.replace("driveSerial", "driveModel,driveSerial") + "LT-1,North,Kestrel K2,KX1,watch,,,,yes\nLT-1,North,Merlin M1,KX1,watch,,,,yes\n", null))
            .singleElement().extracting(MachineSnapshot::driveSerials).isEqualTo(List.of("KX1", "KX1"));
    }

    @Test
    void whatWasAskedForAndWhatThingsCostAreReadWhereTheyAreThere() throws IOException {
        Files.writeString(folder.resolve("budget.csv"), "period,from,until,toAskFor\n2025-Q1,2025-01-06,2025-03-31,100.50\n");
        Files.writeString(folder.resolve("items.csv"), "item,currency,costOfOne\nboard,EUR,533.50\ndrive 1 TB,NO PRICE,\n");
        read(MACHINES + "LT-1,,,watch,,,,yes\n", null);
        assertThat(EarlierSweep.read(folder).asks()).as("no columns of its parts")
            .containsExactly(new SweepSnapshot.Ask("2025-Q1", LocalDate.of(2025, 3, 31), new BigDecimal("100.50"), null, null, null));
        assertThat(EarlierSweep.read(folder).costs()).containsExactly(new SweepSnapshot.Cost("board", new BigDecimal("533.50")), new SweepSnapshot.Cost("drive 1 TB", null));
        Files.writeString(folder.resolve("budget.csv"), "period,from,until,plan,contingencyForWear,contingencyForPrices,allowance,toAskFor\n"
            + "2025-Q1,2025-01-06,2025-03-31,90.00,1.50,2.50,6.50,100.50\n");
        assertThat(EarlierSweep.read(folder).asks()).extracting(SweepSnapshot.Ask::parts).containsExactly(
            new SweepSnapshot.Parts(new BigDecimal("90.00"), new BigDecimal("1.50"), new BigDecimal("2.50"), new BigDecimal("6.50")));
        Files.writeString(folder.resolve("budget.csv"), "period,from,until,plan,contingencyForWear,contingencyForPrices,allowance,toAskFor\n2025-Q1,2025-01-06,2025-03-31,90.00,,,6.50,96.50\n");
        assertThat(EarlierSweep.read(folder).asks()).as("a price was missing").extracting(SweepSnapshot.Ask::parts)
            .containsExactly(new SweepSnapshot.Parts(new BigDecimal("90.00"), null, null, new BigDecimal("6.50")));
    }

    @Test
    void aFolderWithoutASweepIsSaidToBeNone() {
        assertThatThrownBy(() -> EarlierSweep.read(folder)).isInstanceOf(InputMissingException.class)
            .hasMessage("no earlier sweep in " + folder + ": it has no machines.csv");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        LT-1,,,well,,,,yes             | LT-1,drive,2025-01-06,2025-01-06,,EUR,87.50,KX1  | "well" is no standing
        ,,,watch,,,,yes                | LT-1,drive,2025-01-06,2025-01-06,,EUR,87.50,KX1  | row 1 has no machineId
        LT-1,,,watch,,,,yes            | LT-1,drive,,2025-01-06,,EUR,87.50,KX1            | row 1 has no needOn
        LT-1,,,watch,,,,yes            | LT-1,,2025-01-06,2025-01-06,,EUR,87.50,KX1       | row 1 has no item
        LT-1,,,watch,,,,yes            | LT-1,drive,2025-01-06,2025-01-06,,EUR,87.50,     | row 1 has no driveSerial
        LT-1,,,watch,,,,yes            | LT-1,drive,6/1/2025,2025-01-06,,EUR,87.50,KX1    | Text '6/1/2025' could not be parsed at index 0
        LT-1,,,watch,much,,,yes        | LT-1,drive,2025-01-06,2025-01-06,,EUR,87.50,KX1  | row 1 has "much" as gigabytesPerDay, which is no number
        """)
    void tablesThatWereChangedByHandAreNotGuessedAt(String machine, String replacement, String why) {
        assertThatThrownBy(() -> read(MACHINES + machine + "\n", REPLACEMENTS + replacement + "\n")).isInstanceOf(InputMissingException.class)
            .hasMessage("the earlier sweep in " + folder + " cannot be read: " + why);
    }

    @Test
    void aTableWithAnOpenQuoteCannotBeRead() {
        assertThatThrownBy(() -> read(MACHINES, "\"machineId,needOn,amount\n")).isInstanceOf(InputMissingException.class)
            .hasMessage("the earlier sweep in " + folder + " cannot be read: (startline 1) EOF reached before encapsulated token finished");
    }
}
