package org.wearledger.report;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Fact;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SweepResult;

/** Rows of the ratings table that may have been meant: a slip there makes every rating of a model an assumed one. */
final class NearRatingRows {
    private static final int MOST_NAMED = 3;

    private NearRatingRows() {
    }

    /** Example: {@code 18 of 29 drives go by an assumed rating; nearest rows of the ratings table: line 2 has Kestrel K-2, 256 GB (for KESTREL K2, taken as 153.6 TB)}. */
    static Optional<String> line(SweepResult result) {
        List<Problem> near = result.problems().stream().filter(problem -> problem.kind() == ProblemKind.RATING_ASSUMED && problem.fact(Fact.NEAR) != null).toList();
        if (near.isEmpty()) {
            return Optional.empty();
        }
        List<DriveAssessment> drives = result.machines().stream().flatMap(machine -> machine.activeDrives().stream()).toList();
        long assumed = drives.stream().filter(drive -> drive.wear().endurance() != null && drive.wear().endurance().assumed()).count();
        return Optional.of(assumed + " of " + Wording.count(drives.size(), "drive") + (assumed == 1 ? " goes" : " go") + " by an assumed rating; nearest rows of the ratings table: "
            + near.stream().limit(MOST_NAMED).map(problem -> new FactWords(problem).nearRows() + " (for " + problem.subject() + ")").collect(Collectors.joining("; "))
            + (near.size() > MOST_NAMED ? "; more in " + SweepWriter.PROBLEMS_CSV : ""));
    }
}
