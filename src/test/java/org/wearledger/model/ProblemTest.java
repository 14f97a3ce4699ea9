package org.wearledger.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Problems are counted, and listed up to {@link Problem#MOST_LISTED} for each rule and file. */
class ProblemTest {
    private static List<Problem> problems(ProblemKind kind, String file, long from, long to) {
        return LongStream.rangeClosed(from, to).mapToObj(line -> new Problem(kind, SourcePlace.line(file, line), "", "found", "expected", "remedy")).toList();
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
        List<Problem> out = Problem.listed(all);
        assertThat(out.stream().filter(problem -> !problem.standsForMore())).isEqualTo(all.subList(0, listed));
        assertThat(out.stream().filter(Problem::standsForMore).map(Problem::sentence)).isEqualTo(more == null ? List.of() : List.of(more));
        assertThat(Problem.count(out)).isEqualTo(found);
        assertThat(Problem.count(out, Effect.RECORD_REFUSED)).isEqualTo(found);
    }

    @Test
    void eachRuleAndFileHasALimitOfItsOwn() {
        List<Problem> all = Stream.of(problems(ProblemKind.BROKEN_JSON, "a", 1, 1_200), problems(ProblemKind.BROKEN_JSON, "b", 1, 1_000),
            problems(ProblemKind.BROKEN_CSV, "b", 1, 1_003), problems(ProblemKind.BROKEN_CSV, "c", 1, 2)).flatMap(List::stream).toList();
        assertThat(Problem.listed(all).stream().filter(Problem::standsForMore).map(problem -> problem.source().file() + " " + problem.kind() + " " + problem.count()))
            .containsExactly("a " + ProblemKind.BROKEN_JSON + " 200", "b " + ProblemKind.BROKEN_CSV + " 3");
    }

    /** A task lists its own part, and what the tasks list is listed once more: as if one had seen all. */
    @ParameterizedTest
    @CsvSource({"1", "2", "7", "64"})
    void listsAreTheSameForAnyOrderAndAnyNumberOfParts(int parts) {
        List<Problem> all = new ArrayList<>(problems(ProblemKind.BROKEN_JSON, "a", 1, 2_900));
        all.addAll(problems(ProblemKind.BROKEN_CSV, "a", 1, 1_500));
        all.addAll(problems(ProblemKind.BROKEN_CSV, "b", 1, 40));
        List<Problem> expected = Problem.listed(all);
        Collections.shuffle(all, new Random(parts));
        List<Problem> handedOn = LongStream.range(0, parts).boxed()
            .flatMap(part -> Problem.listed(LongStream.range(0, all.size()).filter(i -> i % parts == part).mapToObj(i -> all.get((int) i)).toList()).stream())
            .collect(Collectors.toCollection(ArrayList::new));
        Collections.shuffle(handedOn, new Random(parts + 1L));
        assertThat(Problem.listed(handedOn)).isEqualTo(expected);
        assertThat(Problem.count(handedOn)).isEqualTo(4_440);
    }
}
