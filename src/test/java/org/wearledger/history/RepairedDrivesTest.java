package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Repair;
import org.wearledger.model.SourcePlace;
import org.wearledger.report.ProblemWords;

class RepairedDrivesTest {
    private static final LocalDate DAY = LocalDate.of(2025, 3, 10);

    /** Of stints "DRIVE MACHINE FIRST LAST HOURS", parted by semicolons, in days of March 2025. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', nullValues = "-", value = {
        "the drive last reported               | -     | dead drive     | A PC-1 1 5 900                 | A | A | false",
        "the one before the new one            | -     | dead drive     | A PC-1 1 5 900; B PC-1 11 20 1 | A | A | false",
        "the new one, read on the day itself   | -     | dead drive     | B PC-1 10 20 3                 | - | - | false",
        "read on the day, and old              | -     | worn           | A PC-1 10 10 900               | A | A | false",
        "one that lives on was another's death | -     | dead drive     | A PC-1 1 20 900                | - | - | false",
        "a board's fault leaves the drive      | -     | supply circuit | A PC-1 1 20 900                | A | - | false",
        "the serial goes first                 | b     | dead drive     | A PC-1 1 5 900; B PC-1 1 5 900 | B | B | false",
        "a serial that nobody reported         | C     | dead drive     | A PC-1 1 5 900                 | - | - | false",
        "seen again, so not ended              | A     | dead drive     | A PC-1 1 20 900                | A | - | false",
        "first read later                      | -     | other fault    | A PC-1 11 20 900               | - | - | false",
        "sold: drive and machine leave         | -     | sold           | A PC-1 1 5 900                 | A | A | true",
        "sold, and back since                  | -     | withdrawn      | A PC-1 1 20 900                | - | - | false",
        "never read                            | -     | sold           | A PC-2 1 5 900                 | - | - | true"})
    void aRepairFindsItsDrive(String name, String serial, String reason, String stints, String drive, String ended, boolean machineLeft) {
        Repair repair = new Repair("R-1", "pc-1", serial, null, DAY, Repair.Reason.of(reason).orElseThrow(), null, null);
        RepairedDrives repaired = RepairedDrives.of(List.of(repair), Arrays.stream(stints.split(";")).map(words -> stint(words.strip().split(" "))).toList());
        assertThat(repaired.drives()).isEqualTo(drive == null ? Map.of() : Map.of(repair, id(drive)));
        assertThat(repaired.ended()).isEqualTo(ended == null ? Map.of() : Map.of(id(ended), repair));
        assertThat(repaired.machinesLeft().contains("PC-1")).isEqualTo(machineLeft);
    }

    private static DriveId id(String serial) {
        return DriveId.of("Kestrel K2", serial);
    }

    private static Stint stint(String... words) {
        return new Stint(id(words[0]), words[1], day(words[2]), day(words[3]), SourcePlace.wholeFile("a.json"), 0, Long.parseLong(words[4]), null, Attachment.UNKNOWN);
    }

    private static Instant day(String of) {
        return Instant.parse(String.format("2025-03-%02dT09:00:00Z", Integer.parseInt(of)));
    }

    @Test
    void anEndedDriveIsNoLongerActiveAndItIsSaidWhy() {
        Repair repair = new Repair("R-1", "PC-1", null, null, DAY, Repair.Reason.DEAD_DRIVE, null, null);
        List<Stint> stints = List.of(stint("A", "PC-1", "1", "5", "900"));
        assertThat(Placements.of(stints, Map.of(), Map.of()).isActive(id("A"), "PC-1")).isTrue();
        Placements placements = Placements.of(stints, Map.of(), RepairedDrives.of(List.of(repair), stints).ended());
        assertThat(placements.isActive(id("A"), "PC-1")).isFalse();
        assertThat(placements.problems()).extracting(problem -> ProblemWords.of(problem).sentence()).containsExactly("a.json, whole file: machine PC-1 last reported this drive at "
            + "2025-03-05T09:00:00Z; the table of repairs has it on 2025-03-10: dead drive; expected no later report of it; nothing to do; it no longer counts for this machine");
    }
}
