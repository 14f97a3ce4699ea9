package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.CheckResult;
import org.wearledger.model.SweepSettings;
import org.wearledger.report.ProblemWords;

/** When a heading that standings are decided by is missing, and when only a drive does not report it. A few drives, three quarters. */
class MissingColumnsTest {
    private static final String Q0 = "2024-10-06";
    private static final String Q1 = "2025-01-06";
    private static final String Q2 = "2025-04-06";
    private static final List<String> QUARTERS = List.of(Q0, Q1, Q2);

    @TempDir
    Path folder;

    @BeforeEach
    void mapping() throws IOException {
        Files.writeString(folder.resolve("mapping.js"), """
            {"fields": {"machine.id": "PC", "collectedAt": "At", "drive.serial": "No.", "drive.model": "Disk", "health.powerOnHours": "Hours",
              "drive.capacityBytes": {"from": "Size", "unit": "GB"}, "health.dataUnitsWritten": {"from": "Écrits", "unit": "TB"}, "health.percentageUsed": "Wear"}}
            """);
    }

    private void export(String name, String day, String headings, int... drives) throws IOException {
        StringBuilder text = new StringBuilder("PC,At,No.,Disk,Hours,Size," + headings + "\n");
        int quarter = QUARTERS.indexOf(day);
        IntStream.of(drives).forEach(n -> text.append("PC-" + n + "," + day + "T09:30:00Z,KX-" + n + ",Kestrel K2," + (800 + 200 * quarter) + ",256," + (8 + 2 * quarter) + ",12\n"));
        Files.writeString(folder.resolve(name), text);
    }

    private List<String> missing() throws IOException {
        CheckResult result = Check.run(new SweepRequest(List.of(folder.toString()), Map.of(), folder.resolve("mapping.js").toString(), null, SweepSettings.withDefaults(),
            BudgetSettings.withDefaults(), null, null, Instant.parse("2025-05-01T00:00:00Z"), "test"));
        return result.problems().stream().filter(problem -> problem.kind().id().equals("column-missing")).map(problem -> ProblemWords.of(problem).sentence())
            .map(sentence -> sentence.replace(folder + "/", "")).toList();
    }

    /** Each quarter's export by its two headings and its drives; a slip in the mapping, a heading changed in the newest export, in earlier ones, in one. */
    @ParameterizedTest(name = "{0} / {1} / {2}")
    @CsvSource(delimiter = '|', textBlock = """
                         | Ecrits,Wear: 1 2 3  | Ecrits,Wear: 1 2 3  | q2.csv, whole file: the latest reports of 3 of 3 drives have no bytes written: health.dataUnitsWritten (from "Écrits") is missing or empty; the nearest is "Ecrits"; expected what standings are decided by, in the newest reports; those drives are judged by percentage used, and by bytes written only as earlier reports gave them; correct the mapping or the export, and sweep again before acting on this
                         | Écrits,Wear: 1 2 3  | Écrits,Reste: 1 2   | q2.csv, whole file: the latest reports of 2 of 3 drives have no percentage used: health.percentageUsed (from "Wear") is missing or empty; the mapping does not use "Reste"; expected what standings are decided by, in the newest reports; those drives are judged by bytes written, and by percentage used only as earlier reports gave it; correct the mapping or the export, and sweep again before acting on this
        Ecrits,Wear: 1 2 3 | Ecrits,Wear: 1 2    | Écrits,Wear: 1 2 3  | q0.csv, whole file: 2 of 3 files, the latest of 2025-01-06, have no bytes written: health.dataUnitsWritten (from "Écrits") is missing or empty; the nearest is "Ecrits"; expected what standings are decided by, in earlier reports as in the newest; older writes are unknown, so rates start later; move those files into a folder with a mapping.json of their own
                         | Écrits,Reste: 1 2   | Écrits,Wear: 1 2 3  | q1.csv, whole file: 1 of 2 files, of 2025-01-06, has no percentage used: health.percentageUsed (from "Wear") is missing or empty; the mapping does not use "Reste"; expected what standings are decided by, in earlier reports as in the newest; what was used up before is not known; move those files into a folder with a mapping.json of their own
        """)
    void aHeadingThatIsMissingIsToldWithWhatIsNearAndWhatIsJudgedByThen(String q0, String q1, String q2, String told) throws IOException {
        String[] exports = {q0, q1, q2};
        for (int i = 0; i < exports.length; i++) {
            if (exports[i] != null) {
                String[] parts = exports[i].split(": ");
                export("q" + i + ".csv", QUARTERS.get(i), parts[0], Stream.of(parts[1].split(" ")).mapToInt(Integer::parseInt).toArray());
            }
        }
        assertThat(missing()).containsExactly(told);
    }

    @Test
    void bothMeasuresMissingIsToldTwice() throws IOException {
        export("q2.csv", Q2, "Ecrits,Reste", 1, 2);
        assertThat(missing()).hasSize(2);
    }

    /** Of drive 3 and 4 the newest report is set aside for its bytes: their earlier file lacks the heading all the same. */
    @Test
    void earlierFilesOfDrivesWhoseNewestReportIsNotBelievedAreCountedToo() throws IOException {
        export("q1.csv", Q1, "Ecrits,Wear", 1, 2);
        export("q1-b.csv", Q1, "Ecrits,Wear", 3, 4);
        export("q2.csv", Q2, "Écrits,Wear", 1, 2);
        export("q2-b.csv", Q2, "Écrits,Wear", 3, 4);
        Files.writeString(folder.resolve("q2-b.csv"), Files.readString(folder.resolve("q2-b.csv")).replace("256,12", "256,120000"));
        assertThat(missing()).singleElement().asString().startsWith("q1.csv, whole file: 2 of 4 files, the latest of 2025-01-06, have no bytes written");
    }

    @Test
    void earlierReportsOfOneDriveOrOfDrivesSinceGoneAreNoNews() throws IOException {
        export("q1.csv", Q1, "Ecrits,Wear", 1, 4, 5);
        export("q2.csv", Q2, "Écrits,Wear", 1, 2);
        assertThat(missing()).isEmpty();
    }

    /** It would be told as the newest reports' own. */
    @Test
    void aColumnThatTheNewestReportsLackTooIsToldOnce() throws IOException {
        export("q1.csv", Q1, "Ecrits,Wear", 1, 2, 3, 4);
        export("q2.csv", Q2, "Écrits,Wear", 1, 2);
        export("q2-b.csv", Q2, "Ecrits,Wear", 3, 4);
        assertThat(missing()).singleElement().asString().contains("the latest reports of 2 of 4 drives have no bytes written");
    }

    /** The mapping reads nothing in it, so nobody expects it to. */
    @Test
    void anEarlierFileInTheReportFormThatDoesNotReportItIsNoNews() throws IOException {
        String head = "schemaVersion,machine.id,collectedAt,drive.serial,drive.model,health.percentageUsed\n";
        Files.writeString(folder.resolve("q1.csv"), head + "1.0,PC-1," + Q1 + "T09:30:00Z,KX-1,Kestrel K2,12\n1.0,PC-2," + Q1 + "T09:30:00Z,KX-2,Kestrel K2,12\n");
        export("q2.csv", Q2, "Écrits,Wear", 1, 2);
        assertThat(missing()).isEmpty();
    }

    /** One controller of three came to report it, as after an update of its firmware. */
    @Test
    void drivesThatCameToReportItLaterInFilesOfOneReportEachAreNoNews() throws IOException {
        for (int drive = 1; drive <= 5; drive++) {
            export("pc-" + drive + "-q1.csv", Q1, drive <= 2 ? "Ecrits,Wear" : "Écrits,Wear", drive);
            export("pc-" + drive + "-q2.csv", Q2, "Écrits,Wear", drive);
        }
        assertThat(missing()).isEmpty();
    }

    @Test
    void earlierFilesOfOneReportEachThatMostlyLackItAreTold() throws IOException {
        for (int drive = 1; drive <= 3; drive++) {
            export("pc-" + drive + "-q1.csv", Q1, "Ecrits,Wear", drive);
            export("pc-" + drive + "-q2.csv", Q2, "Écrits,Wear", drive);
        }
        assertThat(missing()).singleElement().asString().contains("3 of 6 files, the latest of 2025-01-06, have no bytes written");
    }

    /** In files of one report each, a drive that does not report a measure has a file without it. */
    @Test
    void aDriveThatDoesNotReportAMeasureIsNoMissingColumn() throws IOException {
        export("pc-1.csv", Q2, "Écrits,Wear", 1);
        export("pc-2.csv", Q2, "Écrits,Other", 2);
        assertThat(missing()).isEmpty();
    }

    @Test
    void filesOfOneReportEachThatAllLackItAreAMissingColumn() throws IOException {
        export("pc-1-q1.csv", Q1, "Écrits,Wear", 1);
        export("pc-1.csv", Q2, "Écrits,Other", 1);
        export("pc-2.csv", Q2, "Écrits,Other", 2);
        assertThat(missing()).hasSize(1);
    }

    @Test
    void aFileInTheReportFormUnderTheMappingLacksNothing() throws IOException {
        export("q2.csv", Q2, "health.dataUnitsWritten,health.percentageUsed", 1, 2, 3);
        assertThat(missing()).isEmpty();
    }
}
