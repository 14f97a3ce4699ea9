package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScreenTest {
    private static final List<String> HEADINGS = List.of("Machine", "Site", "Standing", "By", "Cost", "Why", "Do");

    private static List<List<String>> rows(int machines, String name) {
        List<List<String>> rows = new ArrayList<>(List.of(HEADINGS));
        IntStream.range(0, machines).forEach(i -> rows.add(List.of(name + i, "Harbour", "past rating", "2025-01-18", "1,533.50", "writes say 185 %, drive says 20 %",
            "check the backup; check the figures; ask the maker, else order drive 1000 GB")));
        return rows;
    }

    @ParameterizedTest
    @CsvSource({"80, 15", "100, 15", "120, 15", "200, 15", "80, 1"})
    void theTableKeepsToTheWidthOfTheTerminal(int columns, int machines) {
        List<String> lines = Screen.table(rows(machines, "LT-00"), columns);
        assertThat(lines).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(columns));
        assertThat(lines).filteredOn(line -> line.startsWith("LT-00")).hasSize(machines);
        assertThat(String.join(" ", lines).replaceAll("\\s+", " ")).contains("writes say 185 %, drive says 20 %", "check the figures; ask the maker, else order drive 1000 GB");
    }

    /** Its row may go out of line; no letter is lost. */
    @Test
    void aLongNameKeepsItsLetters() {
        String name = "a-very-long-name-of-a-machine-in-the-harbour-office-";
        assertThat(Screen.table(rows(2, name), 120)).anyMatch(line -> line.startsWith(name + "0 Harbour"));
    }
}
