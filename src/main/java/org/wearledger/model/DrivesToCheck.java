package org.wearledger.model;

import java.io.Serializable;
import java.util.Collection;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * The drives whose figures are to be checked before money is spent on them, as problems name them.
 *
 * @param contradicted of which a rule doubts bytes written or percentage used
 * @param outdated whose latest report could not be believed and was set aside
 */
public record DrivesToCheck(Set<String> contradicted, Set<String> outdated) implements Serializable {
    public DrivesToCheck {
        contradicted = Set.copyOf(contradicted);
        outdated = Set.copyOf(outdated);
    }

    /** By the rules that doubt wear; see {@link ProblemKind#doubtsWear}. */
    public static DrivesToCheck of(Collection<Problem> problems) {
        return new DrivesToCheck(subjects(problems, kind -> !kind.isForAnother()), subjects(problems, kind -> kind == ProblemKind.LATEST_REPORT_SET_ASIDE));
    }

    private static Set<String> subjects(Collection<Problem> problems, Predicate<ProblemKind> among) {
        return problems.stream().filter(problem -> problem.kind().doubtsWear() && among.test(problem.kind())).map(Problem::subject).collect(Collectors.toSet());
    }

    /** Whether its standing may be wrong for what is doubtful. */
    public boolean contains(DriveAssessment drive) {
        return isContradicted(drive) || isOutdated(drive);
    }

    /** Whether its own figures speak against each other. */
    public boolean isContradicted(DriveAssessment drive) {
        return contradicted.contains(drive.id().toString());
    }

    /** Not of a drive that is past its rating whatever the later report says. */
    public boolean isOutdated(DriveAssessment drive) {
        return outdated.contains(drive.id().toString()) && !drive.isPastRatingForGood();
    }

    /** What to check before anything is ordered for the drive; {@code null} for nothing, as for a drive that itself says it fails. */
    public String whatToCheck(DriveAssessment drive) {
        return drive.standing() == Standing.URGENT ? null
            : isContradicted(drive) ? "the figures (unit, mapping)"
            : isOutdated(drive) ? "the report that was set aside"
            : !drive.measuresDisagree() ? null
            : (drive.wear().endurance().assumed() ? "the maker's rating (the ratings lack it, so it is assumed)" : "the ratings row") + " and the unit of percentage used";
    }

    /** Example: {@code check the figures (unit, mapping) first}; {@code null} for nothing. */
    public String checkFirst(DriveAssessment drive) {
        String what = whatToCheck(drive);
        return what == null ? null : "check " + what + " first";
    }
}
