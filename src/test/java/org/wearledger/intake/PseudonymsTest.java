package org.wearledger.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;

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

    /** What intake quotes, and what is left of it. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        BROKEN_JSON           | broken JSON at line 1, column 8: Unrecognized token 'KX1'             | broken JSON at line 1, column 8
        BROKEN_JSON           | the field KX1 stands twice                                            | what stood there is withheld; check without --pseudonymise tells it
        BROKEN_CSV            | a row of 7 cells                                                      | a row of 7 cells
        BROKEN_COMPRESSION    | reading stopped here, how many records are unread cannot be told: java.io.IOException: KX1                          | reading stopped here, how many records are unread cannot be told
        FILE_UNREADABLE       | the file cannot be read: java.nio.file.NoSuchFileException: /r/KX1    | the file cannot be read
        FIELD_INVALID         | health.percentageUsed is "KX1 "or" KX1"                               | health.percentageUsed is (withheld)
        NUMBER_MANGLED        | health.percentageUsed is "5,5", a number with a decimal comma         | health.percentageUsed is (withheld), a number with a decimal comma
        FIELD_UNKNOWN         | unknown field KX1 in 3 records                                      | what stood there is withheld; check without --pseudonymise tells it
        FILE_HAS_NO_READING   | a CSV header without drive.serial; it has KX1                         | a CSV header without drive.serial
        FILE_FORMAT_UNKNOWN   | text that begins "KX1"                                                | what stood there is withheld; check without --pseudonymise tells it
        FILE_HAS_NO_READING   | none of its 3 records gave a reading                                  | none of its 3 records gave a reading
        FILE_HAS_NO_READING   | its only record gave no reading                                       | its only record gave no reading
        FIELD_MISSING         | no collectedAt (from "KX1"), drive.serial (from "KX1"): nothing stands there | no collectedAt (from (withheld)): nothing stands there
        PERCENTAGE_REMAINING_BELOW_ZERO | health.percentageUsed (from "KX1") is "-4", below zero      | health.percentageUsed (from a withheld heading) is (withheld), below zero
        LOCAL_TIME_TWICE      | collectedAt (from "KX1") is "KX1", a time that came twice in Europe/Berlin | collectedAt (from a withheld heading) is (withheld), a time that came twice in Europe/Berlin
        FIELD_INVALID         | health.percentageUsed (from "K"X1") is "KX1") is "KX1", out of range   | health.percentageUsed (from a withheld heading) is (withheld), out of range
        FIELD_INVALID         | health.percentageUsed is "KX1 (from "KX1") is "KX1"                    | health.percentageUsed is (withheld)
        UNITS_DOUBTFUL        | health.percentageUsed (from "KX1") is "0.52", at most one percent, or a share | health.percentageUsed (from a withheld heading) is (withheld), at most one percent, or a share
        UNITS_DOUBTFUL        | the mean write of KX1                                                 | what stood there is withheld; check without --pseudonymise tells it
        SCHEMA_VERSION_UNKNOWN| schemaVersion KX1                                                     | what stood there is withheld; check without --pseudonymise tells it
        OPTIONAL_FIELD_INVALID| bytes that are no UTF-8 in KX1                                        | what stood there is withheld; check without --pseudonymise tells it
        OPTIONAL_FIELD_INVALID| available spare of 0 % with a threshold of 0 % and no warning of it   | available spare of 0 % with a threshold of 0 % and no warning of it
        OPTIONAL_FIELD_INVALID| machine.inServiceOn is "KX1"                                          | machine.inServiceOn is (withheld)
        SIDE_TABLE_FIELD_INVALID| memoryBytes is "KX1"                                                | memoryBytes is (withheld)
        SIDE_TABLE_ROW_INVALID| bytes that are no UTF-8 in machineId, site                            | bytes that are no UTF-8 in machineId, site
        FILE_READ_IN_PART     | about 2 records unread                                                | about 2 records unread
        BROKEN_CSV            | broken CSV: a quotation mark opens here that nothing closes; about 2 records unread, reading goes on in line 6 | broken CSV: a quotation mark opens here that nothing closes; about 2 records unread, reading goes on in line 6
        BROKEN_CSV            | broken CSV: a quotation mark opens here; line 9 closes it in the midst of text | broken CSV: a quotation mark opens here; line 9 closes it in the midst of text
        BROKEN_JSON           | broken JSON at line 1, column 544: 'KX1' is no value; reading stopped here, about 2 records unread | broken JSON at line 1, column 544
        SIDE_TABLE_ROW_INVALID| no machineId                                                          | no machineId
        SIDE_TABLE_ROW_INVALID| no machineId KX1                                                      | what stood there is withheld; check without --pseudonymise tells it
        SIDE_TABLE_ROW_REPEATED| a second row for KX1                                                 | what stood there is withheld; check without --pseudonymise tells it
        """)
    void quotedTextIsWithheld(ProblemKind kind, String found, String left) {
        Problem problem = new Problem(kind, SourcePlace.line("KX1.csv", 3), "KX1", found, "expected", "read as \"KX1\"; take them out");
        assertThat(names.problems(List.of(problem))).containsExactly(new Problem(kind, SourcePlace.line(names.file("KX1.csv"), 3), names.machine("KX1"),
            left, "expected", "read as (withheld); take them out"));
    }

    @Test
    void aRecordWithoutAMachineIsToldUnderItsDrive() {
        Problem problem = new Problem(ProblemKind.FIELD_MISSING, SourcePlace.line("a.csv", 3), "KX-01", "no machine.id", "a value for each", "see");
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
