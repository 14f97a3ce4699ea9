package org.wearledger.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;
import org.wearledger.report.ProblemWords;

class PseudonymsTest {
    private final Pseudonyms names = Pseudonyms.of("0123456789abcdef".getBytes(UTF_8));

    /** Worked out with {@code printf 'MACHINE\0LT-001' | openssl dgst -sha256 -hmac 0123456789abcdef} (OpenSSL 3), cut to 24 digits. */
    @ParameterizedTest
    @CsvSource({"LT-001, MACHINE-269544280CB22D673D8EF4CB", "' lt-001 ', MACHINE-269544280CB22D673D8EF4CB"})
    void machines(String id, String pseudonym) {
        assertThat(names.machine(id)).isEqualTo(pseudonym);
    }

    /** The same, of {@code SERIAL\0...}. */
    @ParameterizedTest
    @CsvSource({"KX-01, SERIAL-96D7220C89F35525A3E45741", "kx-01, SERIAL-96D7220C89F35525A3E45741", "00KX-01, 00SERIAL-96D7220C89F35525A3E45741", "NONE, NONE", "0000, 0000", "n/a, n/a", "12345678, 12345678"})
    void serials(String serial, String pseudonym) {
        assertThat(names.serial(serial)).isEqualTo(pseudonym);
    }

    /** The same, of {@code USER\0...} and {@code ASSET\0...}; site and model stay. */
    @Test
    void whoHasAMachineIsReplacedAsItsTagIs() {
        InventoryEntry entry = names.of(new InventoryEntry("LT-001", "North", null, null, null, null, null, null, null, null, "A-7", "Torvane 15", "Frau Weiss", null, null));
        assertThat(entry).isEqualTo(new InventoryEntry("MACHINE-269544280CB22D673D8EF4CB", "North", null, null, null, null, null, null, null, null, "ASSET-7D16F110698F29DC33B85902", "Torvane 15",
            "USER-7735A249DA096F0BB8C18E8E", null, null));
        assertThat(names.of(entry)).isEqualTo(entry);
    }

    @ParameterizedTest
    @CsvSource({"2025-q1/LT-001.json, .json", "LT-001.CSV.gz, .csv.gz", "LT-001, ''", "LT-001.LT-002, ''"})
    void ofAFileNameTheEndingStays(String file, String ending) {
        assertThat(names.file(file)).matches("FILE-[0-9A-F]{24}" + ending.replace(".", "\\."));
        assertThat(names.file(names.file(file))).isEqualTo(names.file(file));
    }

    @Test
    void aPseudonymStaysAndAnotherKeyGivesAnother() {
        assertThat(names.machine(names.machine("LT-001"))).isEqualTo(names.machine("LT-001"));
        assertThat(names.serial(names.serial("00KX-01"))).isEqualTo(names.serial("00KX-01"));
        assertThat(Pseudonyms.of(HexFormat.of().parseHex("00112233445566778899aabbccddeeff")).machine("LT-001")).isNotEqualTo(names.machine("LT-001"));
        assertThat(Pseudonyms.none().machine("LT-001")).isEqualTo("LT-001");
    }

    /** Whatever a finding tells of the input, and whatever heading it names. */
    @ParameterizedTest
    @EnumSource(Finding.class)
    void whatIsQuotedIsWithheld(Finding finding) {
        Problem problem = new Problem(ProblemKind.FIELD_INVALID, SourcePlace.line("KX1.csv", 3), "KX1", finding, List.of(new MappedField("drive.serial", "KX1", "TB")), Map.of(), 1);
        for (Fact fact : Fact.values()) {
            problem = problem.with(fact, fact.isQuoted() ? "KX1" : "7");
        }
        Problem withheld = names.problems(List.of(problem)).get(0);
        assertThat(withheld.source()).isEqualTo(SourcePlace.line(names.file("KX1.csv"), 3));
        assertThat(withheld.subject()).isEqualTo(names.machine("KX1"));
        assertThat(withheld.toString() + ProblemWords.of(withheld)).doesNotContain("KX1");
    }

    @Test
    void theProgramsOwnWordsStay() {
        Problem problem = Problem.of(Finding.JSON_BROKEN, SourcePlace.line("a.json", 3), "").with(Fact.VALUE, 1).with(Fact.COLUMN, 544).with(Fact.TEXT, "'KX1' is no value").with(Fact.UNREAD, 2);
        assertThat(ProblemWords.of(names.problems(List.of(problem)).get(0)).found()).isEqualTo("broken JSON at line 1, column 544; reading stopped here, about 2 records unread");
    }

    @Test
    void aRecordWithoutAMachineIsToldUnderItsDrive() {
        Problem problem = Problem.of(Finding.REQUIRED_MISSING, SourcePlace.line("a.csv", 3), "KX-01").about("machine.id");
        assertThat(names.problems(List.of(problem)).get(0).subject()).isEqualTo(names.serial("KX-01"));
    }

    /** An earlier sweep under its real names, or under pseudonyms already. */
    @Test
    void anEarlierSweepsMachineDrivesAndPlannedLinesAreReplaced() {
        MachineSnapshot named = snapshot(names.machine("LT-1"), names.serial("00KX-01"), names.serial("KX-02"));
        assertThat(names.of(snapshot("LT-1", "00KX-01", "KX-02"))).isEqualTo(named);
        assertThat(names.of(named)).isEqualTo(named);
    }

    private static MachineSnapshot snapshot(String machine, String... serials) {
        LocalDate day = LocalDate.of(2025, 1, 6);
        return new MachineSnapshot(machine, "North", Stream.of(serials).sorted().toList(), Standing.WATCH, 12.5, 8.0, day, true,
            Stream.of(serials).map(serial -> new MachineSnapshot.Planned(serial, "drive", day, day, true, new BigDecimal("87.50"))).toList());
    }
}
