package org.wearledger.assess;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.Fact;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/** Records that were refused, and reports dated in the future, that name their machine: it reports, but nothing that can be used. */
public final class Refusals {
    private Refusals() {
    }

    /** Folded machine id to a clause such as {@code 3 records of it were refused (field-missing)}, the rules in alphabetical order. */
    public static Map<String, String> byMachine(Collection<Problem> problems) {
        Map<String, String> clauses = new HashMap<>();
        byMachine(problems.stream().filter(problem -> problem.kind().effect() == Effect.RECORD_REFUSED), Problem::subject)
            .forEach((machine, own) -> clauses.put(machine, clause(own, "a record of it was refused", "records of it were refused")));
        byMachine(problems.stream().filter(problem -> problem.kind() == ProblemKind.COLLECTED_IN_FUTURE), problem -> problem.fact(Fact.MACHINE))
            .forEach((machine, own) -> clauses.merge(machine, clause(own, "a report of it is dated in the future", "reports of it are dated in the future"), (one, other) -> one + "; " + other));
        return clauses;
    }

    private static Map<String, List<Problem>> byMachine(Stream<Problem> problems, Function<Problem, String> named) {
        return problems.filter(problem -> named.apply(problem) != null && !named.apply(problem).isEmpty()).collect(Collectors.groupingBy(problem -> DriveId.fold(named.apply(problem))));
    }

    private static String clause(List<Problem> own, String one, String several) {
        return (Problem.count(own) == 1 ? one : Problem.count(own) + " " + several) + " ("
            + own.stream().map(problem -> problem.kind().id()).distinct().sorted().collect(Collectors.joining(", ")) + ")";
    }
}
