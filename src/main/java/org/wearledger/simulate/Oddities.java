package org.wearledger.simulate;

import static org.wearledger.model.ProblemKind.BROKEN_COMPRESSION;
import static org.wearledger.model.ProblemKind.BROKEN_JSON;
import static org.wearledger.model.ProblemKind.FILE_EMPTY;
import static org.wearledger.model.ProblemKind.FILE_FORMAT_UNKNOWN;
import static org.wearledger.model.ProblemKind.FILE_HAS_NO_READING;
import static org.wearledger.model.ProblemKind.FORMAT_DIFFERS_FROM_ENDING;
import static org.wearledger.model.ProblemKind.LOG_PAGE_INVALID;
import static org.wearledger.model.ProblemKind.LOG_PAGE_WITHOUT_DATA;
import static org.wearledger.model.ProblemKind.NUMBER_MANGLED;

import java.util.List;
import java.util.stream.Stream;
import org.wearledger.model.ProblemKind;

/** The catalogue behind the sample's README. */
final class Oddities {
    private static final String ALL_SWEEPS = "all sweeps";

    private Oddities() {
    }

    /** @param before folder of the last sweep but one, which holds the broken files */
    static List<Oddity> list(String before, String last) {
        return Stream.concat(ofMachines(before, last).stream(), ofFiles(before, last).stream()).toList();
    }

    private static List<Oddity> ofMachines(String before, String last) {
        String harbour = last + "/harbour.jsonl";
        String north = last + "/north.json";
        String south = last + "/south.csv";
        return List.of(
            odd(north, "LT-001, 8 GiB: 278 TB written on a drive rated for 150 TB; the controller says 20 % used",
                "past rating, by data written"),
            odd(south, "LT-002, 16 GiB: 5.5 TB and 1 % used after a year, on a drive rated for 300 TB", "within rating"),
            odd(harbour, "LT-003: 158 TB written, 105 % used; no ratings row for its model",
                "past rating, by percentage used; rating-assumed (0.6 TB a GB)"),
            odd(north, "LT-004: critical warning bit 3, media read-only", "urgent"),
            odd(south, "LT-005: media and data integrity errors rise from sweep to sweep, 20 at last",
                "not within rating: errors are rising"),
            odd(harbour, "LT-006: available spare has come down to its threshold of 10 %, no warning bit yet",
                "not within rating: spare at threshold"),
            odd(north, "LT-007: 146 TB of 150, 75 GB a day", "due: reaches its rating in about 53 days"),
            odd(south, "LT-008: 135 TB of 150, 60 GB a day", "watch: reaches its rating in about 250 days"),
            odd(harbour, "LT-009: 282 TB of 300, 90 GB a day", "watch: reaches its rating in about 200 days"),
            odd(before + "/office.jsonl", "LT-010: another drive than the sweep before", "drive-replaced"),
            odd(before + "/office.jsonl", "LT-011's drive now reports from LT-012; LT-011 has a new one",
                "drive-moved for LT-012's, drive-replaced"),
            odd(before + "/office.jsonl", "LT-013: every counter starts again near zero",
                "counter-went-back; the bytes of both epochs are added"),
            odd(last + "/lt-014.json, lt-014.csv, lt-014-page.json", "LT-014: one reading in three formats",
                "one reading kept, two set aside: duplicate-identical"),
            odd(last + "/lt-015.json, lt-015-again.json", "LT-015: two reports of one moment that differ in data units written",
                "duplicate-conflicting"),
            odd(ALL_SWEEPS, "LT-016: serial 000000000000", "serial-placeholder, readings set aside; no verdict"),
            odd(south + ", " + harbour, "LT-017 and LT-018 report the same drive on one day", "serial-shared, readings set aside; LT-017 has no verdict, LT-018 is judged by its drive before"),
            odd("inventory.csv", "LT-019: in the inventory, in no report", "never reported, no verdict"),
            odd("inventory.csv", "LT-020: reports up to " + before, "not reported this sweep"),
            odd(harbour, "LT-021: reports, but is missing in the inventory", "listed as not in the inventory"));
    }

    private static List<Oddity> ofFiles(String before, String last) {
        return List.of(
            odd(last + "/lt-022.json", "LT-022: a raw page of zeros, as a bridge returns it",
                "log-page-without-data, file refused; not reported this sweep", LOG_PAGE_WITHOUT_DATA, FILE_HAS_NO_READING),
            odd(ALL_SWEEPS, "LT-023: no percentage used", "assessed by data written alone"),
            odd(last + "/lt-024.csv", "LT-024: CSV in UTF-16LE with a byte order mark", "read as any other"),
            odd(last + "/lt-025.csv", "LT-025: JSON in a file that ends in .csv", "read; format-differs-from-ending",
                FORMAT_DIFFERS_FROM_ENDING),
            odd(before + "/lt-026.json", "truncated JSON", "broken-json, file refused", BROKEN_JSON, FILE_HAS_NO_READING),
            odd(before + "/lt-027.csv", "a counter in scientific notation, 1.58E+14", "number-mangled, record and file refused",
                NUMBER_MANGLED, FILE_HAS_NO_READING),
            odd(before + "/lt-028.csv", "column drive.serial is missing, there is one named Serial", "file refused",
                FILE_HAS_NO_READING),
            odd(before + "/lt-029.json", "a raw page of 511 bytes", "log-page-invalid, record and file refused",
                LOG_PAGE_INVALID, FILE_HAS_NO_READING),
            odd(before + "/lt-030.json.gz", "a gzip file cut in half", "broken-compression, file refused", BROKEN_COMPRESSION,
                FILE_HAS_NO_READING),
            odd(before + "/empty.json", "an empty file", "file-empty, file refused", FILE_EMPTY),
            odd(before + "/notes.json", "plain text", "file-format-unknown, file refused", FILE_FORMAT_UNKNOWN),
            odd(before + "/office.jsonl", "line 2, LT-031's report, is cut off", "broken-json for that line; the others are read",
                BROKEN_JSON));
    }

    private static Oddity odd(String file, String what, String expected, ProblemKind... readingProblems) {
        return new Oddity(file, what, expected, List.of(readingProblems));
    }
}
