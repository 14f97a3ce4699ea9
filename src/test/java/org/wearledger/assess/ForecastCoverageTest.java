package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Test;

/**
 * Do the stated dates hold on fleets that follow rules of their own? 29 kinds of fleets; {@code -Dcalibration.seeds=12} draws more of each. The page
 * projections.md shows what is printed.
 */
class ForecastCoverageTest {
    private static final int SEEDS_OF_PAGE = 3;
    private static final int SEEDS = Integer.getInteger("calibration.seeds", SEEDS_OF_PAGE);

    /** What an earlier model made of the same fleets: how many percent of its 80 % ranges held, and its Brier score. It took hours for a calendar. */
    private static final String BEFORE = """
        the model's own rules, 8 readings | 91 | 0.0278
        lognormal rates, sd 1 | 93 | 0.0229
        changes of user, 8 readings | 89 | 0.0374
        changes of user, 17 readings | 85 | 0.0356
        season of 40 % | 92 | 0.0180
        shared shock .15 a quarter | 91 | 0.0206
        season, shock and changes of user | 81 | 0.0392
        75 drive models of 4 drives | 92 | 0.0262
        1 reading and in-service date | 99 | 0.0301
        1 reading and in-service date, drift .2 a quarter | 82 | 0.0430
        2 readings, steady | 95 | 0.0274
        2 readings, changes of user | 67 | 0.0335
        2 readings, drift .2 a quarter | 71 | 0.0341
        3 readings, steady | 96 | 0.0148
        3 readings, drift .2 a quarter | 68 | 0.0369
        4 readings, steady | 90 | 0.0254
        4 readings, drift .2 a quarter | 88 | 0.0367
        1 reading, hours only (5.5 a day) | 22 | 0.1464
        1 reading, hours only, drift .2 a quarter | 34 | 0.1371
        1 reading, hours only, light use | 13 | 0.0327
        1 reading, hours (2 a day), a date for one in five | 21 | 0.2501
        irregular dates, gaps, up to 6 months old | 93 | 0.0228
        season, shock, changes of user, idle months, gaps | 85 | 0.0411
        drift .2 a quarter, 12 readings | 85 | 0.0340
        no bytes, the controller's percentage alone | 94 | 0.0309
        controller twice as fast, steady | 88 | 0.0401
        write amplification wanders .15 a quarter | 65 | 0.0405
        write amplification rises 5 % a quarter | 54 | 0.0692
        24 offices of 8 drives | 91 | 0.0215
        """;

    private record Before(double within80, double brier) {
    }

    @Test
    void statedDatesHold() throws Exception {
        List<Coverage> all = Scenarios.ALL.stream().map(scenario -> Coverage.of(scenario, SEEDS)).toList();
        String table = Coverage.heading() + "\n" + String.join("\n", all.stream().map(Coverage::row).toList());
        System.getLogger("calibration").log(System.Logger.Level.INFO, "\n" + table);
        Map<String, Before> before = before();
        SoftAssertions softly = new SoftAssertions();
        for (Coverage row : all) {
            Before earlier = before.get(row.name());
            boolean hoursOnly = row.name().contains("hours only") && !row.name().contains("drift");
            double least = hoursOnly || row.name().contains("amplification") ? 0.72 : row.name().startsWith("2 readings, ") && !row.name().contains("steady") ? 0.76
                : row.name().contains("1 reading") ? 0.70 : Math.min(0.80, earlier.within80) - 0.03;
            softly.assertThat(row.within80()).as("%s: 80 %% ranges that hold", row.name()).isBetween(least, hoursOnly ? 0.92 : 1);
            softly.assertThat(row.brier()).as("%s: Brier score", row.name()).isLessThanOrEqualTo(1.03 * earlier.brier);
            if (row.name().equals("1 reading, hours only (5.5 a day)")) {
                softly.assertThat(row.stated()[2] / row.real()[2]).as("crossings within 4 quarters").isBetween(0.8, 1.25);
                softly.assertThat(row.stated()[3] / row.real()[3]).as("crossings within 8 quarters").isBetween(0.8, 1.25);
            }
        }
        softly.assertAll();
        if (SEEDS == SEEDS_OF_PAGE) {
            assertThat(Files.readString(Path.of("notebooks-free-docs/projections.md"), StandardCharsets.UTF_8)).as("the page's table").contains(table);
        }
    }

    private static Map<String, Before> before() {
        Map<String, Before> rows = new HashMap<>();
        BEFORE.lines().map(line -> line.trim().split(" \\| ")).forEach(cells -> rows.put(cells[0],
            new Before(Double.parseDouble(cells[1]) / 100, Double.parseDouble(cells[2]))));
        return rows;
    }
}
