package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

/** What stays true however the rules are refined. The drives have 500 GB. */
class HistoryRulesTest {
    private static HistoryOutcome build(Sample... samples) {
        return build(Arrays.stream(samples).map(Sample::reading).toList());
    }

    private static HistoryOutcome build(List<Reading> readings) {
        return DriveHistories.build(Sample.ID, readings, new Limits(Instant.parse("2025-01-02T00:00:00Z"), null));
    }

    private static Reading at(Reading r, String site) {
        return new Reading(r.source(), r.collectedAt(), new Machine(r.machine().id(), null, site, null, null, null, null, null), r.drive(), r.health());
    }

    @Test
    void readingsOfOneMomentThatNameTwoSitesContradictEachOther() {
        Reading one = at(Sample.at("2025-01-01").file("a.json").used(5).reading(), "North");
        Reading other = at(Sample.at("2025-01-01").file("b.json").used(5).reading(), "South");
        HistoryOutcome outcome = build(List.of(one, other));
        assertThat(outcome.kept()).isZero();
        assertThat(outcome.problems()).extracting(problem -> ProblemWords.of(problem).found()).containsOnly(
            "2 readings of this drive at 2025-01-01T12:00:00Z contradict each other: machine.site North and South");
        assertThat(build(List.of(one, at(other, null))).kept()).as("what one leaves out is no contradiction").isEqualTo(1);
    }

    /** 20 writes of the capacity a day are 10 TB; a bulk copy within hours has a whole day's allowance. */
    @ParameterizedTest(name = "{1} TB more at {0}: kept {2}")
    @CsvSource({"2024-12-01T14:00:00Z, 10, 2", "2024-12-01T14:00:00Z, 10.001, 1", "2024-12-02T12:00:00Z, 10, 2", "2024-12-03T12:00:00Z, 20, 2",
        "2024-12-03T12:00:00Z, 20.001, 1"})
    void moreThanADriveCanWriteIsAWrongUnit(String later, double terabytes, int kept) {
        assertThat(build(Sample.at("2024-12-01T12:00:00Z").terabytes(1), Sample.at(later).terabytes(1 + terabytes)).kept()).isEqualTo(kept);
    }

    @Test
    void withoutACapacityNothingIsTooMuch() {
        assertThat(build(Sample.at("2024-12-01").terabytes(1).hours(10).capacity(0L), Sample.at("2024-12-02").terabytes(900).hours(20).capacity(0L)).kept()).isEqualTo(2);
        assertThat(build(Sample.at("2024-12-01").terabytes(1).hours(10).capacity(null), Sample.at("2024-12-02").terabytes(900).hours(20).capacity(null)).kept()).isEqualTo(2);
    }

    /** A mean write of 512 bytes to 8 MiB can be; one outside is doubted once, whatever follows. */
    @ParameterizedTest(name = "{0} data units over {1} commands: doubted {2}")
    @CsvSource({"1, 1000, false", "1, 1001, true", "8192, 500, false", "8192, 499, true", "8192, 0, false"})
    void aMeanWriteThatCannotBeIsDoubted(long units, long commands, boolean doubted) {
        HistoryOutcome outcome = build(Sample.at("2024-12-01").units(units).writeCommands(commands), Sample.at("2025-01-01").units(units).writeCommands(commands));
        assertThat(outcome.problems()).extracting(Problem::kind).isEqualTo(doubted ? List.of(ProblemKind.UNITS_DOUBTFUL) : List.of());
        assertThat(outcome.kept()).as("doubted, not refused").isEqualTo(2);
    }

    @ParameterizedTest(name = "\"{0}\"")
    @CsvSource({"A A A A, true", "00000000, true", "A1, true", "A1B, false", "0123456789ABCDEF, true", "0123456789ABCDE, true", "012345678A, false", "NOT  AVAILABLE, true"})
    void serialsThatNameNoDrive(String serial, boolean placeholder) {
        assertThat(DriveId.isPlaceholder(DriveId.fold(serial))).isEqualTo(placeholder);
    }

    /** Of drives last seen at one moment the machine's own is the one first by name; problems stand in the order of their places. */
    @Test
    void replacedDrivesAreToldInOrder() {
        List<Stint> stints = List.of(stint("KX-3", "2024-02-01", "c.json"), stint("KX-1", "2024-03-01", "a.json"), stint("KX-5", "2025-01-01", "d.json"),
            stint("KX-4", "2025-01-01", "e.json"), stint("KX-2", "2024-01-01", "b.json"));
        for (List<Stint> order : List.of(stints, stints.stream().sorted(java.util.Comparator.comparing(Stint::drive)).toList())) {
            Placements placements = Placements.of(order, Map.of(), Map.of());
            assertThat(placements.problems()).extracting(p -> p.source().file()).containsExactly("a.json", "b.json", "c.json");
            assertThat(placements.problems()).extracting(problem -> ProblemWords.of(problem).found()).allSatisfy(found -> assertThat(found).endsWith("it reports " + Sample.MODEL.toUpperCase(java.util.Locale.ROOT)
                + " / KX-4"));
        }
    }

    private static Stint stint(String serial, String at, String file) {
        Reading reading = Sample.at(at).serial(serial).file(file).reading();
        DriveHistory history = DriveHistories.build(reading.drive().id(), List.of(reading), new Limits(Instant.parse("2025-01-02T00:00:00Z"), null)).history();
        return Placements.stintsOf(history).get(0);
    }
}
