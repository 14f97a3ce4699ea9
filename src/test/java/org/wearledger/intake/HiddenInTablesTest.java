package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.model.InventoryEntry;
import org.wearledger.report.ProblemWords;

class HiddenInTablesTest {
    @TempDir
    private Path folder;

    @Test
    void aHiddenCharacterMakesNoSecondMachine() throws IOException {
        Path file = Files.writeString(folder.resolve("inventory.csv"), "machineId,site,costCentre\nLT-1\u200b,Nor\u202eth,\u200b\nLT-1,South,\n");
        SideTable<InventoryEntry> inventory = SideTables.inventory(new ReportFile(file.toString(), "inventory.csv"));
        assertThat(inventory.values()).containsExactly(new InventoryEntry("LT-1", "North", null, null, null, null, null));
        assertThat(inventory.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "inventory.csv, line 2: machineId holds U+200B; expected characters that can be seen; read as \"LT-1\"; take them out of the table",
            "inventory.csv, line 2: site holds U+202E; expected characters that can be seen; read as \"North\"; take them out of the table",
            "inventory.csv, line 2: costCentre holds U+200B; expected characters that can be seen; read as \"\"; take them out of the table",
            "inventory.csv, line 3: a second row for LT-1; expected one row each; the first row is used; delete one of them");
    }

    @Test
    void aPatternThatIsNoneIsTold() {
        assertThatThrownBy(() -> FoundFiles.find(List.of(folder + "/a[b*"))).isInstanceOf(InputMissingException.class)
            .hasMessage("no such file, and no pattern either: " + folder + "/a[b* (Missing '])");
    }
}
