package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.spark.sql.SparkSession;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.intake.Pseudonyms;

/** {@code --pseudonymise} on the sample and on files made to betray a name: no real name in any byte that goes out, every figure as before. */
class PseudonymsIT {
    private static final byte[] KEY = "a key for the test, of 34 bytes...".getBytes(StandardCharsets.UTF_8);
    private static final Pattern SERIAL = Pattern.compile("\\b[A-Z]{2}\\d{7}[0-9A-F]A?\\b");
    private static final String PLACEHOLDER = "000000000000";
    /** Files that quote what they hold, once they are at fault. */
    private static final Map<String, String> BETRAYING = Map.of(
        "LT-901.json", "{\"machine\": {\"id\": LT-902}}",
        "LT-903.txt.json", "LT-904 is no report",
        "LT-905.csv", "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed,LT-906\n"
            + "LT-907,2025-01-06T08:00:00Z,LT-908,LT-909,Kestrel K2,1,x\n1.0,LT-910,LT-911,LT-912,Kestrel K2,1,x\n"
            + "1.0,2025-01-06T08:00:00Z,LT-913\u200b,LT-914,Kestrel K2,LT-915,x\n1.0,2025-01-06T08:00:00Z,LT-916\u200b,LT-917,Kestrel K2,1,x\n",
        "LT-918.json", "{\"LT-919\": {\"a\": 1, \"a\": 2}}",
        "LT-920.jsonl", "{\"schemaVersion\":\"1.0\",\"collectedAt\":\"2025-01-06T08:00:00Z\",\"machine\":{\"assetTag\":\"LT-921\"},\"drive\":{\"serial\":\"LT-922\"},\"LT-923\":\"LT-924\"}\n",
        "LT-931.csv", "schemaVersion,collectedAt,machine.id,drive.serial,drive.model,health.percentageUsed\n"
            + "1.0,2025-01-06T08:00:00Z,LT-931,LT-933,Kestrel K2,1\n1.0,2025-03-24T08:00:00Z,LT-932,LT-933,Kestrel K2,1\n",
        "LT-925/LT-926.txt", "passed over",
        "inventory.csv", "machineId,site,inServiceOn\nLT-001,North,LT-927\nLT-928,South,2025-01-06\nlt-928,South,2025-01-06\n,LT-929,\n\"LT-930\n");

    @TempDir
    private static Path folder;
    private static Path key;
    private static Path betraying;
    private static Runs pseudonymised;
    private static Runs packed;

    @BeforeAll
    static void sweepUnderPseudonyms() throws IOException {
        key = Files.write(folder.resolve("key"), KEY);
        betraying = folder.resolve("more");
        for (Map.Entry<String, String> file : BETRAYING.entrySet()) {
            Path path = betraying.resolve(file.getKey());
            Files.createDirectories(path.getParent());
            Files.writeString(path, file.getValue());
        }
        packed = Runs.of("pack", "sample-reports", "--out", folder.resolve("named.pack"), "--pseudonymise", key);
        pseudonymised = Runs.of("sweep", "sample-reports", "--full", "--out", folder.resolve("pseudonymised"), "--pseudonymise", key);
    }

    /** What the plain sweep knows, and the numbered names of the files made here. */
    private static Set<String> realNames() throws IOException {
        Set<String> names = new TreeSet<>();
        for (CSVRecord row : table("plain", "machines.csv")) {
            List.of("machineId", "assetTag", "driveSerial").forEach(column -> names.add(row.get(column)));
        }
        for (CSVRecord row : table("plain", "problems.csv")) {
            if (row.get("file").contains("/")) {
                names.add(row.get("file").replaceFirst(".*/", ""));
            }
        }
        for (int i = 901; i <= 933; i++) {
            names.add("LT-" + i);
        }
        names.removeAll(Set.of("", PLACEHOLDER));
        return names;
    }

    private static Path place(String sweep) {
        return sweep.equals("plain") ? SampleSweep.once().folder() : folder.resolve(sweep);
    }

    private static List<CSVRecord> table(String sweep, String name) throws IOException {
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get()
            .parse(Files.newBufferedReader(place(sweep).resolve(name)))) {
            return parser.getRecords();
        }
    }

    private static List<String> betrayed(Map<String, String> texts) throws IOException {
        List<String> betrayed = new ArrayList<>();
        Set<String> names = realNames();
        texts.forEach((where, text) -> {
            String upper = text.toUpperCase(Locale.ROOT);
            names.stream().filter(name -> upper.contains(name.toUpperCase(Locale.ROOT))).forEach(name -> betrayed.add(name + " in " + where));
        });
        return betrayed;
    }

    private static List<String> betrayed(Runs run) throws IOException {
        return betrayed(Map.of("standard output", run.out(), "standard error", run.err()));
    }

    @Test
    void noNameGoesOut() throws IOException {
        // The plain sweep holds them all: the search finds what there is to find.
        assertThat(betrayed(OutputTexts.below(place("plain")))).hasSizeGreaterThan(200).contains("LT-001 in " + place("plain").resolve("machines.csv"));
        assertThat(OutputTexts.below(folder.resolve("pseudonymised"))).hasSizeGreaterThan(20);
        assertThat(betrayed(OutputTexts.below(folder.resolve("pseudonymised")))).isEmpty();
        assertThat(betrayed(pseudonymised)).isEmpty();
    }

    @Test
    void everyFigureIsThatOfThePlainSweep() throws IOException {
        assertThat(pseudonymised.exitCode()).isEqualTo(SampleSweep.once().run().exitCode());
        Pseudonyms names = Pseudonyms.of(KEY);
        for (String name : List.of("machines.csv", "models.csv", "budget.csv", "totals.csv", "items.csv", "replacements.csv", "warranty.csv", "coverage.csv", "work-list.csv")) {
            assertThat(rows("pseudonymised", name, Pseudonyms.none())).as(name).isNotEmpty().isEqualTo(rows("plain", name, names));
        }
        assertThat(problems("pseudonymised", Pseudonyms.none())).isNotEmpty().isEqualTo(problems("plain", names));
    }

    /** In an order that the names do not decide. */
    private static List<String> rows(String sweep, String name, Pseudonyms names) throws IOException {
        return table(sweep, name).stream().map(row -> row.stream().map(cell -> renamed(cell, names)).collect(Collectors.joining(","))).sorted().toList();
    }

    private static List<String> problems(String sweep, Pseudonyms names) throws IOException {
        return table(sweep, "problems.csv").stream().map(row -> String.join(",", row.get("rule"), row.get("effect"), row.get("place"),
            row.get("file").contains("/20") ? names.file(row.get("file")) : row.get("file").replaceFirst("sample-reports/", ""))).sorted().toList();
    }

    private static String renamed(String cell, Pseudonyms names) {
        String renamed = cell.matches("LT-\\d{3}") ? names.machine(cell) : cell.replaceAll("^(A-\\d{5}|ASSET-[0-9A-F]{24})$", "asset tag");
        return SERIAL.matcher(renamed).replaceAll(serial -> names.serial(serial.group()));
    }

    @Test
    void noNameGoesOutOfFilesThatAreAtFault() throws IOException {
        Runs check = Runs.of("check", betraying, "--pseudonymise", key);
        assertThat(check.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(betrayed(check)).isEmpty();
        assertThat(check.out()).contains("field-invalid", "field-unknown", "broken-json", "file-format-unknown", "hidden-characters", "side-table-row-repeated");
        Runs json = Runs.of("check", betraying, "--format", "json", "--pseudonymise", key);
        assertThat(betrayed(json)).isEmpty();
        Runs sweep = Runs.of("sweep", betraying, "sample-reports/2025-q1", "--full", "--out", folder.resolve("at-fault"), "--pseudonymise", key);
        assertThat(sweep.exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        assertThat(betrayed(sweep)).isEmpty();
        assertThat(betrayed(OutputTexts.below(folder.resolve("at-fault")))).isEmpty();
        assertThat(sweep.out().replaceAll("\\s+", " ")).contains("FILE-", "the drive it reported is now in " + Pseudonyms.of(KEY).machine("LT-932"));
    }

    @Test
    void aMachineIsAskedForByEitherName() throws IOException {
        String pseudonym = Pseudonyms.of(KEY).machine("lt-008");
        Path real = folder.resolve("real.html");
        Path named = folder.resolve("named.html");
        Runs byRealName = Runs.of("explain", "--machine", "lt-008", "sample-reports", "--pseudonymise", key, "--out", real);
        assertThat(byRealName.exitCode()).as(byRealName.err()).isEqualTo(ExitCode.DONE);
        assertThat(byRealName.out()).startsWith(pseudonym + ": watch;");
        assertThat(betrayed(byRealName)).isEmpty();
        Runs.of("explain", "--machine", pseudonym.toLowerCase(Locale.ROOT), "sample-reports", "--pseudonymise", key, "--out", named);
        assertThat(named).hasSameBinaryContentAs(real);
        assertThat(betrayed(OutputTexts.below(real))).isEmpty();

        Runs unknown = Runs.of("explain", "--machine", "LT-901", "sample-reports", "--pseudonymise", key, "--out", folder.resolve("none.html"));
        assertThat(unknown.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(unknown.err()).contains("no machine " + Pseudonyms.of(KEY).machine("LT-901") + " in these reports");
        assertThat(betrayed(unknown)).isEmpty();
    }

    /** The earlier sweep may have been written under its real names, or under pseudonyms of the same key. */
    @Test
    void whatChangedIsTheSameUnderPseudonyms() throws IOException {
        for (String earlier : List.of("plain", "pseudonymised")) {
            Runs run = Runs.of("sweep", "sample-reports", "--out", folder.resolve("since-" + earlier), "--previous", place(earlier), "--pseudonymise", key);
            assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
            assertThat(table("since-" + earlier, "changes.csv")).as("since the sweep " + earlier).isEmpty();
        }
        assertThat(betrayed(OutputTexts.below(folder.resolve("since-plain")))).isEmpty();
    }

    @Test
    void aBacktestToo() throws IOException {
        Runs run = Runs.of("backtest", "sample-reports", "--out", folder.resolve("backtest"), "--pseudonymise", key);
        assertThat(betrayed(run)).isEmpty();
        assertThat(betrayed(OutputTexts.below(folder.resolve("backtest")))).isEmpty();
    }

    /** A pack holds names: they are replaced when it is read, or when it is written. */
    @Test
    void aPackToo() throws IOException {
        Runs.of("pack", "sample-reports", "--out", folder.resolve("plain.pack"));
        assertThat(betrayed(packed)).isEmpty();
        assertThat(betrayed(OutputTexts.below(folder.resolve("named.pack")))).isEmpty();
        Runs.of("sweep", folder.resolve("plain.pack"), "--out", folder.resolve("of-plain"), "--pseudonymise", key);
        // The inventory names machines and is in no such pack.
        Runs.of("sweep", folder.resolve("named.pack"), "--inventory", "sample-reports/inventory.csv", "--out", folder.resolve("of-named"), "--pseudonymise", key);
        assertThat(betrayed(OutputTexts.below(folder.resolve("of-plain")))).isEmpty();
        assertThat(betrayed(OutputTexts.below(folder.resolve("of-named")))).isEmpty();
        assertThat(folder.resolve("of-named/machines.csv")).hasSameTextualContentAs(folder.resolve("of-plain/machines.csv"));
    }

    /** In the order of the files, the first row would be of the first name. */
    @Test
    void theOrderOfAPackSaysNothingOfTheNames() throws IOException {
        try (SparkSession spark = SparkSession.builder().master("local[1]").config("spark.ui.enabled", "false").config("spark.driver.host", "127.0.0.1").getOrCreate()) {
            List<String> machines = spark.read().parquet(folder.resolve("named.pack/readings").toString()).select("machineId", "driveSerial").collectAsList().stream()
                .map(row -> row.getString(0) + " " + row.getString(1)).toList();
            assertThat(machines).hasSizeGreaterThan(50).isSorted();
        }
    }

    @Test
    void aKeyThatIsMissingOrShortIsRefused() throws IOException {
        Path shorter = Files.writeString(folder.resolve("short"), "15 bytes: guess");
        Runs run = Runs.of("check", "sample-reports", "--pseudonymise", shorter);
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).contains("--pseudonymise", "the key in " + shorter + " has 15 bytes; at least 16 are needed, or it can be guessed");
        Path endless = Path.of("/dev/zero");
        if (Files.exists(endless)) {
            Runs endlessly = Runs.of("check", "sample-reports", "--pseudonymise", endless);
            assertThat(endlessly.exitCode()).isEqualTo(ExitCode.USAGE);
            assertThat(endlessly.err()).startsWith("wearledger: --pseudonymise: /dev/zero has more than 1048576 bytes and is no key file; to make one: (set -C; umask 077; head -c 32 /dev/urandom > FILE)\n");
        }
        Runs none = Runs.of("check", "sample-reports", "--pseudonymise", folder.resolve("none"));
        assertThat(none.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(none.err()).contains("no key can be read from " + folder.resolve("none") + "; to make one: (set -C; umask 077; head -c 32 /dev/urandom > ");
        // A key that may not be read is no reason to make another in its place.
        assertThat(Runs.of("check", "sample-reports", "--pseudonymise", folder).err()).contains("no key can be read from " + folder + ", which is there: is it a file, and may you read it?")
            .doesNotContain("/dev/urandom");
    }
}
