package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;

/** Help, version, completion, the settings file, and what is said of a slip. */
class CommandLineTest {
    @TempDir
    private Path folder;

    static Stream<String> commands() {
        return Main.commandLine().getSubcommands().keySet().stream();
    }

    @ParameterizedTest
    @MethodSource("commands")
    void helpHasExitCodesAndTwoExamples(String command) {
        Runs help = Runs.of(command, "--help");
        assertThat(help.exitCode()).isEqualTo(ExitCode.DONE);
        assertThat(help.out()).startsWith("Usage: wearledger " + command).contains("--settings=FILE", "Exit codes:\n", "\n  0   ", "\n  1   ", "\n  2   ");
        String examples = help.out().replaceFirst("(?s).*\nExamples?[^\n]*:\n", "");
        assertThat(examples.lines()).hasSize(2).allMatch(line -> line.contains("wearledger ")).anyMatch(line -> line.contains("wearledger " + command));
        assertThat(Runs.of(command, "--version").out()).matches("wearledger .+\n");
    }

    @Test
    void optionsStandUnderWhatTheyAreFor() {
        String help = Runs.of("sweep", "--help").out();
        assertThat(help.lines().filter(line -> line.matches("[A-Z].*:|      --(due-probability|mapping|rush-fee|partitions)=.*"))
            .map(line -> line.strip().replaceFirst("=.*", ""))).containsExactly("What is read:", "--mapping", "How machines are judged:",
                "--due-probability", "Money and plan:", "--rush-fee", "How it runs:", "--partitions", "Exit codes:", "Examples:");
    }

    /** No ending such as .json is broken over a line's end, and no value is called as a field of the code. */
    @ParameterizedTest
    @MethodSource("commands")
    void helpIsInWholeWords(String command) {
        assertThat(Runs.of(command, "--help").out().lines()).noneMatch(line -> line.matches(".* \\.$|.*=<\\w+>.*"));
    }

    /** An example that no longer parses is worse than none. */
    @ParameterizedTest
    @MethodSource("commands")
    void examplesAreOfOptionsThatThereAre(String command) throws IOException {
        String key = Files.writeString(folder.resolve("key"), "0123456789abcdef").toString();
        Runs.of(command, "--help").out().lines().filter(line -> line.startsWith("  wearledger ")).forEach(line -> {
            String words = line.strip().replaceFirst("wearledger ", "").replaceFirst(" > .*", "").replace("--pseudonymise key", "--pseudonymise " + key);
            CommandLine parsed = Main.commandLine();
            parsed.parseArgs(words.split(" "));
        });
    }

    @Test
    void completionIsASoundScript() throws IOException, InterruptedException {
        Path script = Files.writeString(folder.resolve("wearledger.bash"), Runs.of("completion").out());
        assertThat(said("bash", "-n", script.toString())).isEmpty();
        // What a user gets who types this much and presses the tabulator.
        assertThat(said("bash", "-c", "source " + script + "; COMP_WORDS=(wearledger swe); COMP_CWORD=1; COMP_LINE='wearledger swe'; COMP_POINT=14; "
            + "_complete_wearledger 2> /dev/null; echo ${COMPREPLY[@]}")).isEqualTo("sweep\n");
        assertThat(said("bash", "-c", "source " + script + "; COMP_WORDS=(wearledger check --form); COMP_CWORD=2; COMP_LINE='wearledger check --form'; COMP_POINT=23; "
            + "_complete_wearledger 2> /dev/null; echo ${COMPREPLY[@]}")).isEqualTo("--format\n");
    }

    private String said(String... command) throws IOException, InterruptedException {
        Path said = folder.resolve("said");
        Process process = new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(said.toFile()).start();
        assertThat(process.waitFor(1, TimeUnit.MINUTES)).isTrue();
        return Files.readString(said);
    }

    private Path settings(String... lines) throws IOException {
        return Files.writeString(folder.resolve("fleet.properties"), String.join("\n", lines));
    }

    @Test
    void settingsStandInForOptionsAndTheCommandLineWins() throws IOException {
        // An option of sweep, which check does not have, is for sweep.
        Path settings = settings("# each quarter", "format = json", "lead-time-days = 45");
        assertThat(Runs.of("check", "sample-reports/2025-q1/north.json", "--settings", settings).out()).startsWith("{");
        assertThat(Runs.of("--settings=" + settings, "check", "sample-reports/2025-q1/north.json").out()).startsWith("{");
        assertThat(Runs.of("check", "sample-reports/2025-q1/north.json", "--settings", settings, "--format", "text").out()).contains("\nfiles: 1 found");
    }

    /** Some editors begin UTF-8 with it. */
    @Test
    void settingsMayBeginWithAByteOrderMark() throws IOException {
        assertThat(Runs.of("check", "sample-reports/2025-q1/north.json", "--settings", settings("\uFEFFformat = json")).out()).startsWith("{");
    }

    @Test
    void aSettingThatStandsTwiceIsNotGuessedAt() throws IOException {
        Path settings = settings("recent-days = 45", "lead-time-days = 45", "recent-days = 90", "lead-time-days = 45");
        Runs run = Runs.of("sweep", "sample-reports", "--settings", settings);
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).startsWith("wearledger: --settings " + settings + " sets lead-time-days, recent-days more than once; leave one line of each\n");
    }

    /** A row that cannot be used is a refusal, whatever file it stands in. */
    @Test
    void anInventoryInAnotherEncodingShowsInTheExitCode() {
        assertThat(Runs.of("check", "src/test/resources/bad-input/side-tables-windows-1252/in").exitCode()).isEqualTo(ExitCode.DONE_WITH_REFUSALS);
    }

    @Test
    void aSettingIsCheckedLikeAnOption() throws IOException {
        Runs run = Runs.of("sweep", "sample-reports", "--settings", settings("out = " + folder.resolve("out"), "fiscal-year-start = 13"));
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).startsWith("wearledger: --fiscal-year-start lies from 1 to 12, the month, not 13\n");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        lead-time-day = 45     | sets "lead-time-day", which no command that reads reports has; did you mean lead-time-days?
        --recent-days = 45     | sets "--recent-days", which no command that reads reports has; did you mean recent-days?
        fiscal-year = 4        | sets "fiscal-year", which no command that reads reports has; did you mean fiscal-year-start?
        colour = red           | sets "colour", which no command that reads reports has; a setting is an option's long name without its dashes
        model-spread = 4       | sets "model-spread", which no command that reads reports has; a setting is an option's long name without its dashes
        settings = other       | sets "settings", which no command that reads reports has; a setting is an option's long name without its dashes
        out = \\u12             | is no properties file in UTF-8, with lines such as lead-time-days=45
        """)
    void aSettingThatThereIsNotIsTold(String line, String sentence) throws IOException {
        Path settings = settings(line);
        Runs run = Runs.of("sweep", "sample-reports", "--settings", settings);
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).startsWith("wearledger: --settings " + settings + " " + sentence + "\n");
    }

    @Test
    void allSettingsThatThereAreNotAreToldAtOnce() throws IOException {
        Path settings = settings("lead-time-day = 45", "colour = red");
        assertThat(Runs.of("sweep", "sample-reports", "--settings", settings).err()).isEqualTo("wearledger: --settings " + settings
            + " sets \"colour\", which no command that reads reports has; a setting is an option's long name without its dashes; and"
            + " \"lead-time-day\", which no command that reads reports has; did you mean lead-time-days?\nAll options: wearledger COMMAND --help\n");
    }

    @Test
    void aSettingsFileThatIsNotThere() {
        assertThat(Runs.of("sweep", "sample-reports", "--settings", folder.resolve("none")).err())
            .startsWith("wearledger: --settings " + folder.resolve("none") + ": no such file can be read\n");
        assertThat(Runs.of("sweep", "--settings").err()).startsWith("wearledger: Missing required parameter for option '--settings'");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        sweep x --ouT y                        | wearledger: unknown option --ouT; did you mean --out?              | --help
        sweep x --output y                     | wearledger: unknown option --output; did you mean --out?           | --help
        swep x                                 | Unmatched argument                                                 | sweep
        sweep x --out y --fail-on late         | expected one of urgent, past-rating, due, watch, not late          | --fail-on
        sweep x --out y --workbook-rows 0      | expected a number of rows from 1, or all, not 0                      | --workbook-rows
        sweep x --out y --workbook-rows some   | expected a number of rows from 1, or all, not some                   | --workbook-rows
        sweep x --out y --budget-quarters 30   | --budget-quarters lies from 1 to 20, not 30                        | --help
        sweep x --out y --lead-time-days soon  | Invalid value for option '--lead-time-days': 'soon' is not a whole number, such as 4 | --help
        sweep x --out y --partitions 0         | --partitions takes 1 or more, not 0                                | --help
        sweep x --out y --master nonsense       | --master takes local[*], local[4], spark://host:7077, yarn or k8s://https://host:6443, not nonsense | --help
        sweep x --out y --master local[0]       | --master takes local[*], local[4], spark://host:7077, yarn or k8s://https://host:6443, not local[0] | --help
        sweep x --out y --master spark:host:7077 | --master takes local[*], local[4], spark://host:7077, yarn or k8s://https://host:6443, not spark:host:7077 | --help
        check x --format xml                   | expected one of [text, json] (case-sensitive) but was 'xml'        | --format
        """)
    void aSlipIsToldWithWhatIsAllowed(String words, String sentence, String near) {
        Runs run = Runs.of((Object[]) words.split(" "));
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).contains(sentence, near);
    }

    @Test
    void withoutACommandTheCommandsAreListed() {
        Runs run = Runs.of();
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.out()).isEmpty();
        assertThat(run.err()).startsWith("Usage: wearledger ").contains("\nCommands:\n  sweep ", "\n  check ");
    }

    /** What the program itself got wrong keeps its trace, but under pseudonyms not its messages. */
    @Test
    void aTraceUnderPseudonymsQuotesNothing() throws IOException {
        Path key = Files.writeString(folder.resolve("key"), "0123456789abcdef");
        java.io.StringWriter err = new java.io.StringWriter();
        CommandLine root = Main.commandLine();
        CommandLine.ParseResult parsed = root.parseArgs("check", "x", "--pseudonymise", key.toString());
        CommandLine command = root.getSubcommands().get("check").setErr(new java.io.PrintWriter(err));
        int exitCode = new UserErrors().handleExecutionException(new IllegalStateException("LT-001", new IOException("LT-002")), command, parsed);
        assertThat(exitCode).isEqualTo(ExitCode.FAILED);
        assertThat(err.toString()).startsWith("java.lang.IllegalStateException (its message is withheld)\n\tat ")
            .contains("Caused by: java.io.IOException (its message is withheld)").doesNotContain("LT-00");
    }

    /** Outputs in the swept folder would be the next sweep's reports, by whatever way they get there. */
    @ParameterizedTest
    @CsvSource({"reports, reports/out", "reports, link/out", "link, reports/a/b/out", "link, link/out", "reports, inner/../out", "reports, reports/away/out"})
    void anOutputInsideTheReportsIsRefused(String reports, String out) throws IOException {
        Files.createDirectories(folder.resolve("reports/a"));
        Files.createSymbolicLink(folder.resolve("link"), folder.resolve("reports"));
        Files.createSymbolicLink(folder.resolve("inner"), folder.resolve("reports/a"));
        Files.createSymbolicLink(folder.resolve("reports/away"), Files.createDirectory(folder.resolve("elsewhere")));
        Runs run = Runs.of("sweep", folder + "/" + reports, "--out", folder + "/" + out);
        assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
        assertThat(run.err()).startsWith("wearledger: --out " + folder + "/" + out + " lies inside " + folder + "/" + reports
            + ": the next sweep would read it as reports; choose a folder outside\n");
    }
}
