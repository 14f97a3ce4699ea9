package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.ByteArrayOutputStream;
import java.io.ObjectOutputStream;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SourcePlace;
import org.wearledger.report.ProblemWords;

class PlacementsTest {
    private static final DriveId OLD = DriveId.of("Kestrel K2", "OLD-1");
    private static final DriveId NEW = DriveId.of("Kestrel K2", "NEW-1");

    @Test
    void aReplacedDriveIsNoLongerActive() {
        Placements placements = Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-03-01"),
            stint(NEW, "PC-1", "2025-03-10", "2025-06-01")), Map.of(), Map.of());
        assertThat(placements.isActive(OLD, "PC-1")).isFalse();
        assertThat(placements.isActive(NEW, "PC-1")).isTrue();
        assertThat(placements.firstDriveOf(OLD)).isTrue();
        assertThat(placements.firstDriveOf(NEW)).isFalse();
        assertThat(placements.problems()).singleElement().satisfies(problem -> assertThat(ProblemWords.of(problem).found()).isEqualTo(
            "machine PC-1 last reported this drive at 2025-03-01T00:00:00Z; at 2025-06-01T00:00:00Z it reports "
                + "KESTREL K2 / NEW-1"));
    }

    @Test
    void twoDrivesReportedTogetherAreBothActiveAndFirst() {
        Placements placements = Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-05-18"),
            stint(NEW, "PC-1", "2025-01-01", "2025-06-01")), Map.of(), Map.of());
        assertThat(placements.isActive(OLD, "PC-1")).isTrue();
        assertThat(placements.firstDriveOf(OLD)).isTrue();
        assertThat(placements.firstDriveOf(NEW)).isTrue();
        assertThat(placements.problems()).isEmpty();
    }

    @Test
    void aMovedDriveIsActiveWhereItWentAndNotReplaced() {
        Placements placements = Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-03-01"),
            stint(OLD, "PC-2", "2025-03-05", "2025-06-01"), stint(NEW, "PC-1", "2025-03-05", "2025-06-01")), Map.of(), Map.of());
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
        assertThat(new TreeMap<>(Placements.of(all, Map.of(), Map.of()).lastDriveNowIn()).toString()).isEqualTo("{" + (nowIn == null ? "" : nowIn) + "}");
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
            out.writeObject(Placements.of(List.of(stint(OLD, "PC-1", "2025-01-01", "2025-03-01")), Map.of(), Map.of()));
        }
    }

    private static Stint stint(DriveId drive, String machine, String first, String last) {
        return new Stint(drive, machine, Instant.parse(first + "T00:00:00Z"), Instant.parse(last + "T00:00:00Z"),
            SourcePlace.wholeFile(last + ".json"), 0, null, null, Attachment.UNKNOWN);
    }

    /** DRIVE FIRST LAST HOURS-AT-FIRST HOURS-AT-LAST ATTACHMENT; days of 2025, with the hour. */
    private static Stint stint(String words) {
        String[] word = words.trim().split(" +");
        return new Stint(DriveId.of("Kestrel K2", word[0]), "PC-1", Instant.parse("2025-" + word[1] + ":00:00Z"), Instant.parse("2025-" + word[2] + ":00:00Z"),
            SourcePlace.wholeFile(word[0] + ".json"), 0, hours(word[3]), hours(word[4]), Attachment.valueOf(word[5]));
    }

    private static Long hours(String word) {
        return word.equals("-") ? null : (Long) Long.parseLong(word);
    }

    /** Which of the machine's drives are active, and where that changes, why. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        exchanged in a day                         | OLD 01-06T09 04-07T09 9000 9400 SOCKETED; NEW 04-07T15 04-07T15 2 2 SOCKETED          | -          | NEW
        attachment not told                        | OLD 01-06T09 04-07T09 9000 9400 UNKNOWN; NEW 04-09T15 04-09T15 5 5 UNKNOWN            | -          | NEW
        seen once, exchanged a week later          | OLD 04-07T09 04-07T09 9400 9400 SOCKETED; NEW 04-14T09 04-14T09 60 60 SOCKETED        | -          | NEW
        twice exchanged                            | OLD 04-07T09 04-07T09 9400 9400 SOCKETED; NEW 04-08T09 04-08T09 20 20 SOCKETED; NEW2 04-10T09 04-10T09 1 1 SOCKETED | - | NEW2
        a board exchanged with its soldered drive  | OLD 01-06T09 04-07T09 9000 9400 SOLDERED; NEW 04-09T09 04-09T09 3 3 SOLDERED          | -          | NEW
        a new drive beside a soldered one          | OLD 01-06T09 04-07T09 9000 9400 SOLDERED; NEW 04-09T09 04-09T09 3 3 SOCKETED          | -          | NEW OLD
        one collection, minutes apart              | OLD 01-06T09 04-07T09 9000 9400 SOCKETED; NEW 04-07T10 04-07T10 2 2 SOCKETED          | -          | NEW OLD
        both go on reporting                       | OLD 01-06T09 04-07T09 9000 9400 SOCKETED; NEW 04-06T09 04-08T09 2 20 SOCKETED         | -          | NEW OLD
        reported in turn                           | OLD 01-06T09 04-09T09 9000 9400 SOCKETED; NEW 04-07T09 04-10T09 2 20 SOCKETED         | -          | NEW OLD
        a third one comes where two were together  | OLD 01-06T09 04-07T09 9000 9400 SOCKETED; OLD2 01-06T09 04-07T09 800 900 SOCKETED; NEW 04-08T09 04-08T09 2 2 SOCKETED | - | NEW OLD OLD2
        another used drive                         | OLD 01-06T09 04-07T09 9000 9400 SOCKETED; NEW 04-09T09 04-09T09 3000 3000 SOCKETED    | -          | NEW OLD
        a new machine's other drive                | OLD 04-07T09 04-07T09 10 10 SOCKETED; NEW 04-09T09 04-09T09 40 40 SOCKETED            | -          | NEW OLD
        hours not told                             | OLD 01-06T09 04-07T09 - - SOCKETED; NEW 04-09T09 04-09T09 - - SOCKETED                | -          | NEW OLD
        hours not told, the inventory tells        | OLD 01-06T09 04-07T09 - - SOCKETED; NEW 04-09T09 04-09T09 - - SOCKETED                | 2025-04-08 | NEW
        told of the day of both reports            | OLD 01-06T09 04-07T09 - - SOCKETED; NEW 04-07T12 04-07T12 - - SOCKETED                | 2025-04-07 | NEW
        told of a day without times                | OLD 01-06T00 04-07T00 9000 9400 SOCKETED; NEW 04-07T00 04-07T00 2 2 SOCKETED          | 2025-04-07 | NEW
        told before the new one reports            | OLD 01-06T09 04-07T09 9000 9400 SOCKETED                                              | 2025-04-08 | -
        told of the day of its last report         | OLD 01-06T09 04-07T09 9000 9400 SOCKETED                                              | 2025-04-07 | OLD
        told of an earlier drive                   | OLD 01-06T09 04-07T09 9000 9400 SOCKETED                                              | 2025-01-04 | OLD
        told of one of two                         | OLD 01-06T09 04-07T09 9000 9400 SOCKETED; OLD2 01-06T09 04-07T09 800 900 SOCKETED     | 2025-04-08 | OLD OLD2
        told of one of two, the other reports      | OLD 01-06T09 04-07T09 9000 9400 SOCKETED; OLD2 01-06T09 04-09T09 800 900 SOCKETED     | 2025-04-08 | OLD2
        """)
    void aNewDriveOrAWordEndsTheOldOnesStay(String what, String stints, LocalDate replacedOn, String active) {
        List<Stint> all = new ArrayList<>(Stream.of(stints.split(";")).map(PlacementsTest::stint).toList());
        for (int order = 0; order < 2; order++) {
            Placements placements = Placements.of(all, replacedOn == null ? Map.of() : Map.of("PC-1", replacedOn), Map.of());
            assertThat(all.stream().map(Stint::drive).filter(drive -> placements.isActive(drive, "PC-1")).map(DriveId::serial).sorted())
                .containsExactly(active == null ? new String[0] : active.split(" "));
            assertThat(placements.problems()).as("each that left").hasSize(all.size() - (active == null ? 0 : active.split(" ").length));
            Collections.reverse(all);
        }
    }

    @Test
    void itIsSaidWhatShowsThatADriveLeft() {
        List<Stint> both = List.of(stint("OLD 01-06T09 04-07T09 9000 9400 SOCKETED"), stint("NEW 04-07T15 04-07T15 2 2 SOCKETED"));
        assertThat(Placements.of(both, Map.of(), Map.of()).problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly(
            "OLD.json, whole file: machine PC-1 last reported this drive at 2025-04-07T09:00:00Z; at 2025-04-07T15:00:00Z it reports KESTREL K2 / NEW, a newer drive "
                + "(power-on hours: 2); expected a later report of every drive that the machine still has; nothing to do if the drive was replaced; it no longer counts for this machine");
        assertThat(Placements.of(both.subList(0, 1), Map.of("PC-1", LocalDate.of(2025, 4, 8)), Map.of()).problems()).extracting(problem -> ProblemWords.of(problem).found()).containsExactly(
            "machine PC-1 last reported this drive at 2025-04-07T09:00:00Z; the inventory says that the machine's drive was replaced on 2025-04-08");
    }
}
