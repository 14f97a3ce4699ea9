package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.commons.text.StringEscapeUtils;
import org.junit.jupiter.api.Test;
import org.wearledger.model.Attachment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

class FleetPageTest {
    private final SweepResult result = Sweeps.small();
    private final String page = FleetPage.of(result);

    /** One definition for the console, the summary, the workbook and this page. Behind those rows stand the machines that need nothing. */
    @Test
    void theTableForItHoldsTheCellsOfTheSummary() {
        List<List<String>> shown = table(page, "own-machines");
        List<List<String>> expected = new Overview(result).table(99);
        assertThat(shown.subList(0, expected.size())).isEqualTo(expected);
        assertThat(shown.subList(expected.size(), shown.size())).containsExactly(List.of("LT-001", "North", "within rating", "", "", "wrote 30 of 150 TB rated", ""));
    }

    private static List<List<String>> table(String page, String id) {
        String table = page.substring(page.indexOf("<table id=\"" + id + "\""));
        return matches("(?s)<tr.*?</tr>", table.substring(0, table.indexOf("</table>"))).map(row -> matches("(?s)<t[hd][ >].*?</t[hd]>", row)
            .map(cell -> StringEscapeUtils.unescapeHtml4(cell.replaceAll("(?s)</summary>.*", "").replaceAll("<[^>]*>", ""))).toList()).toList();
    }

    private static Stream<String> matches(String pattern, String text) {
        return Pattern.compile(pattern).matcher(text).results().map(MatchResult::group);
    }

    @Test
    void eachMachineOpensWithWhatWasSeenAndItsStepsByDay() {
        assertThat(page).contains("<summary>check the backup; check the figures; order machine</summary><p>Seen: reason of LT-002.</p><ol><li>By 2025-03-31: check that the backup",
            "<p>Plover 14; asset tag =A1; drive Kestrel K2, 256 GB, serial KX-02; 102 % of its rating written; by its controller 0 % used; last report 2025-03-30.</p>");
    }

    /** The rest of the sweep: each figure beside its interval, and money only where there is a plan. */
    @Test
    void modelsAndMoneyStandInTablesOfTheirOwn() {
        assertThat(page).contains("<h2>Money by quarter</h2>", "<td class=\"number\">24.0 % (20.0 to 30.0)</td>", "<th scope=\"row\">2025-Q1</th>", "<h2>What was read</h2>");
        SweepResult ofCustomers = Sweeps.with(result.machines().stream().map(machine -> Sweeps.ofCustomer(machine, "Quay", "Plover 14")).toList());
        assertThat(FleetPage.of(ofCustomers)).contains("<h2>Owners to tell</h2>", "<h2>Models compared</h2>").doesNotContain("Money", "<h2>To do</h2>", "<h2>Trend</h2>");
        assertThat(table(FleetPage.of(ofCustomers), "customers-machines")).containsExactly(List.of("Machine", "Shop", "Laptop model", "Standing", "Why", "When"),
            List.of("LT-002", "Quay", "Plover 14", "past rating", "writes say 102 %, drive says 0 %", "Its figures are to be checked before a date is given."));
    }

    @Test
    void thePictureHasItsFiguresBesideIt() {
        assertThat(page).contains("<svg ", "role=\"img\"", "<th scope=\"row\">Dec 2024</th><td class=\"number\">2</td><td class=\"number\">60.0</td><td class=\"number\">92.0</td>"
            + "<td class=\"number\">0</td>", "<th scope=\"row\">Mar 2025</th>");
        assertThat(FleetPage.of(Sweeps.empty())).contains("No machine was seen.", "<h2>What was read</h2>").doesNotContain("<svg ", "<table");
    }

    /** As many rows as a browser opens at once; of a larger fleet those that need something, and the page says so. */
    @Test
    void aLargeFleetShowsWhatNeedsSomething() {
        Endurance rating = new Endurance(new BigDecimal("150"), false, null, "maker's sheet");
        List<MachineAssessment> machines = new ArrayList<>(List.of(Sweeps.machine("LT-0", Standing.PAST_RATING, Sweeps.drive("K", Standing.PAST_RATING, 160, 105, rating, null, new Projection.None("-")))));
        IntStream.range(1, FleetTable.MOST_MACHINES).mapToObj(i -> Sweeps.machine("LT-" + i, Standing.WITHIN_RATING, Sweeps.drive("K" + i, Standing.WITHIN_RATING, 10, 3, rating, null, new Projection.None("-"))))
            .forEach(machines::add);
        assertThat(table(FleetPage.of(Sweeps.with(machines)), "own-machines")).hasSize(1 + FleetTable.MOST_MACHINES);
        machines.add(machines.get(1));
        String large = FleetPage.of(Sweeps.with(machines));
        assertThat(large).contains("Only machines that need something are shown, 1 of 2001; machines.csv has all.");
        assertThat(table(large, "own-machines")).hasSize(2);
    }

    /** What a report calls itself stays text: in cells, in what the script reads, and in the script's own place. */
    @Test
    void namesAreNoMarkup() {
        String name = "\"><script>alert(1)</script><img src=x onerror=alert(1)>";
        MachineAssessment m = Sweeps.machine("LT-9", Standing.NO_VERDICT);
        Machine machine = new Machine(name, name, name, null, name, null, null, null, null, name, null, null);
        String hostile = FleetPage.of(Sweeps.with(List.of(new MachineAssessment(machine, Attachment.UNKNOWN, m.activeDrives(), m.standing(), name, null, false, null, null, true))));
        assertThat(matches("<script", hostile)).hasSize(1);
        assertThat(hostile).doesNotContain("<img", "\"><script").contains("default-src &#x27;none&#x27;");
        assertThat(table(hostile, "own-machines").get(1)).startsWith(name, name, name);
    }
}
