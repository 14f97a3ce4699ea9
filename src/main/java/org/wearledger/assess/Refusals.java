package org.wearledger.assess;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;

/** Records that were refused and yet name their machine: it reports, but nothing that can be used. */
public final class Refusals {
    private Refusals() {
    }

    /** Folded machine id to a clause such as {@code 3 records of it were refused (field-missing)}, the rules in alphabetical order. */
    public static Map<String, String> byMachine(Collection<Problem> problems) {
        Map<String, List<Problem>> refused = problems.stream().filter(problem -> problem.kind().effect() == Effect.RECORD_REFUSED && !problem.subject().isEmpty())
            .collect(Collectors.groupingBy(problem -> DriveId.fold(problem.subject())));
        Map<String, String> clauses = new HashMap<>();
        refused.forEach((machine, own) -> clauses.put(machine, (Problem.count(own) == 1 ? "a record of it was refused (" : Problem.count(own) + " records of it were refused (")
            + own.stream().map(problem -> problem.kind().id()).distinct().sorted().collect(Collectors.joining(", ")) + ")"));
        return clauses;
    }
}
