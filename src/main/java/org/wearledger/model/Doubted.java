package org.wearledger.model;

import java.io.Serializable;
import java.util.Collection;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The drives whose figures are to be checked before money is spent on them.
 *
 * @param drives of which a rule doubts bytes written or percentage used, as problems name them
 */
public record Doubted(Set<String> drives) implements Serializable {
    public Doubted {
        drives = Set.copyOf(drives);
    }

    /** By the rules that doubt wear; see {@link ProblemKind#doubtsWear}. */
    public static Doubted of(Collection<Problem> problems) {
        return new Doubted(problems.stream().filter(problem -> problem.kind().doubtsWear()).map(Problem::subject).collect(Collectors.toSet()));
    }

    /** Whether its figures are in doubt. */
    public boolean has(DriveId drive) {
        return drives.contains(drive.toString());
    }

    /** What to do before anything is ordered for the drive; {@code null} for nothing, as for a drive that itself says it fails. */
    public String checkFirst(DriveAssessment drive) {
        return drive.standing() == Standing.URGENT ? null
            : has(drive.id()) ? "check the figures (unit, mapping) first"
            : drive.measuresDisagree() ? "check the ratings row and the unit of percentage used first" : null;
    }
}
