package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Properties;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** Sentences that a busy person reads once: short, and in words that people say. */
class ReadingEaseTest {
    private static final Path RESOURCES = Path.of("src", "main", "resources", "org", "wearledger", "report");
    private static final int MOST_WORDS = 35;
    private static final int MOST_WORDS_IN_THE_MIDDLE = 22;

    /** Each made somebody read a line twice. */
    private static final Pattern PUZZLES = Pattern.compile("\\b(?:is|are|be) told\\b|\\blikewise\\b|\\bas likely as not\\b|\\bwhat is asked of\\b|\\bthe named\\b|\\bnothing stands there\\b|\\bhealthy\\b",
        Pattern.CASE_INSENSITIVE);

    /** Words in it: a placeholder is one. */
    private record Sentence(String place, String text) {
        int words() {
            return text.split("\\s+").length;
        }
    }

    private static Stream<Sentence> sentences(String place, String text) {
        return Arrays.stream(text.replaceAll("\\{[^}]*}", "X").split("(?<=[.!?])\\s+")).filter(sentence -> !sentence.isBlank()).map(sentence -> new Sentence(place, sentence.strip()));
    }

    private static Stream<Sentence> messages(String file) {
        Properties properties = new Properties();
        try (var in = Files.newBufferedReader(RESOURCES.resolve(file))) {
            properties.load(in);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return properties.stringPropertyNames().stream().sorted().flatMap(key -> sentences(file + " " + key, properties.getProperty(key)));
    }

    private static Stream<Sentence> help() {
        List<CommandSpec> commands = new ArrayList<>();
        CommandLine all = new CommandLine(new Wearledger());
        commands.add(all.getCommandSpec());
        all.getSubcommands().values().forEach(command -> commands.add(command.getCommandSpec()));
        return commands.stream().flatMap(command -> Stream.concat(Arrays.stream(command.usageMessage().description()),
            Stream.concat(command.options().stream().flatMap(option -> Arrays.stream(option.description())), command.positionalParameters().stream().flatMap(each -> Arrays.stream(each.description()))))
            .flatMap(text -> sentences(command.qualifiedName() + " --help", text)));
    }

    static Stream<List<Sentence>> texts() {
        return Stream.of(messages("problems.properties").toList(), messages("method.properties").toList(), help().toList());
    }

    @ParameterizedTest
    @MethodSource("texts")
    void sentencesAreShort(List<Sentence> sentences) {
        assertThat(sentences).hasSizeGreaterThan(50).filteredOn(sentence -> sentence.words() > MOST_WORDS).isEmpty();
        assertThat(sentences.stream().mapToInt(Sentence::words).filter(words -> words > 3).sorted().skip(sentences.stream().filter(sentence -> sentence.words() > 3).count() / 2).findFirst().orElseThrow())
            .isLessThanOrEqualTo(MOST_WORDS_IN_THE_MIDDLE);
    }

    /** Of all that is printed, and of all that is read before: the program's own words, its comments and the pages. */
    @Test
    void noSentenceIsARiddle() throws IOException {
        List<String> found = new ArrayList<>();
        for (String top : List.of("src/main", "notebooks-free-docs", "schemas", "README.md", "sample-reports/README.md")) {
            try (Stream<Path> files = Files.walk(Path.of(top))) {
                for (Path file : files.filter(Files::isRegularFile).filter(each -> each.toString().matches(".*\\.(?:java|properties|md)")).sorted().toList()) {
                    List<String> lines = Files.readAllLines(file);
                    for (int i = 0; i < lines.size(); i++) {
                        if (PUZZLES.matcher(lines.get(i)).find()) {
                            found.add(file + ":" + (i + 1) + ": " + lines.get(i).strip());
                        }
                    }
                }
            }
        }
        assertThat(found).isEmpty();
    }
}
