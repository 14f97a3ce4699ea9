package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Effect;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** Problems are counted, and listed up to {@link Problem#MOST_LISTED} for each rule and file. */
class ProblemWordsTest {
    private static List<Problem> problems(ProblemKind kind, String file, long from, long to) {
        return LongStream.rangeClosed(from, to).mapToObj(line -> Problem.of(Finding.UNKNOWN_FIELD, SourcePlace.line(file, line), "").under(kind)).toList();
    }

    /** The file says each finding and rule, asks for nothing that is not there, and holds no phrase that nobody asks for. */
    @Test
    void theFileOfWordsIsWhole() {
        Set<String> own = new TreeSet<>(List.of("subject", "by-life", "is-it-remaining", "field", "mapped", "from-heading", "not-reported", "json-heading"));
        Set<String> asked = new TreeSet<>();
        Stream.of(Finding.values()).forEach(finding -> Stream.of(".found", ".expected", ".remedy").forEach(part -> asked.add(finding.name() + part)));
        Stream.of(ProblemKind.values()).forEach(kind -> asked.add("rule." + kind.id()));
        Set<String> families = new TreeSet<>();
        for (Object words : FactWords.WORDS.values()) {
            FactWords.NAMED.matcher((String) words).results().map(name -> name.group(1).split("[? ]", 2)).forEach(parts -> {
                if (Character.isUpperCase(parts[0].charAt(0))) {
                    assertThat(Fact.valueOf(parts[0])).isNotNull();
                } else if (parts[0].startsWith("field.")) {
                    families.add(parts[0]);
                } else {
                    asked.add(parts[0]);
                }
                if (parts.length > 1 && words.toString().contains(parts[0] + "?" + parts[1])) {
                    Stream.of(parts[1].split(":")).filter(phrase -> !phrase.isEmpty()).forEach(asked::add);
                } else if (parts.length > 1) {
                    families.add(parts[1]);
                }
            });
        }
        asked.removeAll(own);
        asked.addAll(List.of("unread", "unread-unknown", "taken-as-not-reported", "is-it-used", "is-it-what-remains"));
        assertThat(FactWords.WORDS.stringPropertyNames()).containsAll(asked);
        assertThat(FactWords.WORDS.stringPropertyNames()).allMatch(key -> asked.contains(key) || families.stream().anyMatch(family -> key.startsWith(family + ".")));
    }

    /** A pack may hold a finding without its facts, or with what is no number: the sentence lacks it, and nothing fails. */
    @Test
    void factsThatAreMissingOrNoNumbersFailNothing() {
        for (Finding finding : Finding.values()) {
            Problem bare = new Problem(ProblemKind.FIELD_INVALID, SourcePlace.line("a.csv", 2), "", finding, List.of(), Map.of(), 1);
            assertThat(ProblemWords.of(bare).found()).isNotEmpty();
            Problem odd = bare;
            for (Fact fact : Fact.values()) {
                odd = odd.with(fact, "no {COUNT} number");
            }
            assertThat(ProblemWords.of(odd.about("machine.id")).sentence()).startsWith("a.csv, line 2: ");
        }
        assertThat(ProblemWords.of(Problem.of(Finding.RISE_IMPLAUSIBLE, SourcePlace.line("a.csv", 2), "").with(Fact.BYTES, "many")).found())
            .isEqualTo("data units written rose from (withheld) to (withheld), many, since (withheld) ((withheld))");
    }

    private static List<Problem> listed(List<Problem> problems) {
        return ProblemWords.listed(problems).stream().map(ProblemWords::problem).toList();
    }

    @ParameterizedTest(name = "{0} found: {1} listed")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
           0 |     0 | -
           1 |     1 | -
         999 |   999 | -
        1000 |  1000 | -
        1001 |  1000 | a.csv, further places: and 1 more by this rule; expected as in the lines of this rule before; see those; they are listed up to 1000 for each rule and file
        3500 |  1000 | a.csv, further places: and 2500 more by this rule; expected as in the lines of this rule before; see those; they are listed up to 1000 for each rule and file
        """)
    void thoseBeyondTheLimitAreOneLineWithTheirNumber(int found, int listed, String more) {
        List<Problem> all = problems(ProblemKind.BROKEN_JSON, "a.csv", 1, found);
        List<Problem> out = listed(all);
        assertThat(out.stream().filter(problem -> !problem.standsForMore())).isEqualTo(all.subList(0, listed));
        assertThat(out.stream().filter(Problem::standsForMore).map(problem -> ProblemWords.of(problem).sentence())).isEqualTo(more == null ? List.of() : List.of(more));
        assertThat(Problem.count(out)).isEqualTo(found);
        assertThat(Problem.count(out, Effect.RECORD_REFUSED)).isEqualTo(found);
    }

    @Test
    void eachRuleAndFileHasALimitOfItsOwn() {
        List<Problem> all = Stream.of(problems(ProblemKind.BROKEN_JSON, "a", 1, 1_200), problems(ProblemKind.BROKEN_JSON, "b", 1, 1_000),
            problems(ProblemKind.BROKEN_CSV, "b", 1, 1_003), problems(ProblemKind.BROKEN_CSV, "c", 1, 2)).flatMap(List::stream).toList();
        assertThat(listed(all).stream().filter(Problem::standsForMore).map(problem -> problem.source().file() + " " + problem.kind() + " " + problem.count()))
            .containsExactly("a " + ProblemKind.BROKEN_JSON + " 200", "b " + ProblemKind.BROKEN_CSV + " 3");
    }

    /** A task lists its own part, and what the tasks list is listed once more: as if one had seen all. */
    @ParameterizedTest
    @CsvSource({"1", "2", "7", "64"})
    void listsAreTheSameForAnyOrderAndAnyNumberOfParts(int parts) {
        List<Problem> all = new ArrayList<>(problems(ProblemKind.BROKEN_JSON, "a", 1, 2_900));
        all.addAll(problems(ProblemKind.BROKEN_CSV, "a", 1, 1_500));
        all.addAll(problems(ProblemKind.BROKEN_CSV, "b", 1, 40));
        List<Problem> expected = listed(all);
        Collections.shuffle(all, new Random(parts));
        List<Problem> handedOn = LongStream.range(0, parts).boxed()
            .flatMap(part -> listed(LongStream.range(0, all.size()).filter(i -> i % parts == part).mapToObj(i -> all.get((int) i)).toList()).stream())
            .collect(Collectors.toCollection(ArrayList::new));
        Collections.shuffle(handedOn, new Random(parts + 1L));
        assertThat(listed(handedOn)).isEqualTo(expected);
        assertThat(Problem.count(handedOn)).isEqualTo(4_440);
    }
}
