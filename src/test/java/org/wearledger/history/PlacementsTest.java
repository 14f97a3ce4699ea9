package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.ByteArrayOutputStream;
import java.io.ObjectOutputStream;
import java.time.Instant;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SourcePlace;

class PlacementsTest {
    private static final DriveId OLD = DriveId.of("Kestrel K2", "OLD-1");
    private static final DriveId NEW = DriveId.of("Kestrel K2", "NEW-1");

    @Test
    void aReplacedDriveIsNoLongerActive() {
        Placements placements = Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-03-01"),
            stint(NEW, "PC-1", "2025-03-10", "2025-06-01")));
        assertThat(placements.isActive(OLD, "PC-1")).isFalse();
        assertThat(placements.isActive(NEW, "PC-1")).isTrue();
        assertThat(placements.firstDriveOf(OLD)).isTrue();
        assertThat(placements.firstDriveOf(NEW)).isFalse();
        assertThat(placements.problems()).singleElement().satisfies(problem -> assertThat(problem.found()).isEqualTo(
            "machine PC-1 last reported this drive at 2025-03-01T00:00:00Z; at 2025-06-01T00:00:00Z it reports "
                + "KESTREL K2 / NEW-1"));
    }

    @Test
    void twoDrivesReportedTogetherAreBothActiveAndFirst() {
        Placements placements = Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-05-18"),
            stint(NEW, "PC-1", "2025-01-01", "2025-06-01")));
        assertThat(placements.isActive(OLD, "PC-1")).isTrue();
        assertThat(placements.firstDriveOf(OLD)).isTrue();
        assertThat(placements.firstDriveOf(NEW)).isTrue();
        assertThat(placements.problems()).isEmpty();
    }

    @Test
    void aMovedDriveIsActiveWhereItWentAndNotReplaced() {
        Placements placements = Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-03-01"),
            stint(OLD, "PC-2", "2025-03-05", "2025-06-01"), stint(NEW, "PC-1", "2025-03-05", "2025-06-01")));
        assertThat(placements.isActive(OLD, "PC-1")).isFalse();
        assertThat(placements.isActive(OLD, "PC-2")).isTrue();
        assertThat(placements.firstDriveOf(OLD)).isTrue();
        assertThat(placements.problems()).isEmpty();
    }

    /** A drive that was lent and came back, and one that another replaced where it went, are in no other machine. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        the machine was renamed, or its drive moved | OLD PC-1 01-01 03-01; OLD PC-2 03-05 06-01                                               | PC-1=PC-2
        and moved again                             | OLD PC-1 01-01 03-01; OLD PC-2 03-05 03-06; OLD PC-3 03-07 06-01                         | PC-1=PC-3, PC-2=PC-3
        it has a new drive                          | OLD PC-1 01-01 03-01; OLD PC-2 03-05 06-01; NEW PC-1 03-05 06-01                         | -
        the drive came back                         | OLD PC-1 01-01 03-01; OLD PC-2 03-05 03-06; OLD PC-1 03-07 06-01                         | PC-2=PC-1
        replaced where it went                      | OLD PC-1 01-01 03-01; OLD PC-2 03-05 03-06; NEW PC-2 05-01 06-01                         | -
        """)
    void whereTheLastDriveOfAMachineIsNow(String what, String stints, String nowIn) {
        List<Stint> all = Stream.of(stints.split("; ")).map(words -> words.split(" "))
            .map(word -> stint(word[0].equals("OLD") ? OLD : NEW, word[1], "2025-" + word[2], "2025-" + word[3])).toList();
        assertThat(new TreeMap<>(Placements.of(all).lastDriveNowIn()).toString()).isEqualTo("{" + (nowIn == null ? "" : nowIn) + "}");
    }

    @Test
    void stintsAreConsecutiveRuns() {
        List<HistoryPoint> points = Stream.of(Sample.at("2025-01-01"), Sample.at("2025-01-02").machine(" pc-1"),
                Sample.at("2025-01-03").machine("PC-2"), Sample.at("2025-01-04"))
            .map(sample -> new HistoryPoint(sample.reading(), 0, null)).toList();
        assertThat(Placements.stintsOf(new DriveHistory(Sample.ID, points)))
            .extracting(Stint::machineId, stint -> stint.last().toString())
            .containsExactly(tuple("PC-1", "2025-01-02T12:00:00Z"),
                tuple("PC-2", "2025-01-03T12:00:00Z"),
                tuple("PC-1", "2025-01-04T12:00:00Z"));
    }

    @Test
    void placementsTravel() throws Exception {
        try (ObjectOutputStream out = new ObjectOutputStream(new ByteArrayOutputStream())) {
            out.writeObject(Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-03-01"))));
        }
    }

    private static Stint stint(DriveId drive, String machine, String first, String last) {
        return new Stint(drive, machine, Instant.parse(first + "T00:00:00Z"), Instant.parse(last + "T00:00:00Z"),
            SourcePlace.wholeFile(last + ".json"), 0);
    }
}
