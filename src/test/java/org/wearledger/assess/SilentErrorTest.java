package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.wearledger.history.ColumnChanges;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.FleetSteps;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Placements;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

/**
 * Fleets whose writes are known, each with one slip planted into its reports. Whatever comes out wrong must be in doubt, or the
 * slip named; what is right must not be doubted. {@code -Dfleets=N} draws another number of them.
 */
class SilentErrorTest {
    private static final int FLEETS = Integer.getInteger("fleets", 620);
    private static final Limits LIMITS = new Limits(Instant.parse("2025-03-01T00:00:00Z"), null);
    private static final LocalDate AS_OF = LocalDate.of(2025, 1, 10);
    private static final SweepSettings SETTINGS = SweepSettings.withDefaults().with(ProjectionMethod.STRAIGHT_LINE);
    private static final double SAME_TOTAL = 0.005;

    /** What came out for one drive. */
    private record Result(Double bytesWritten, Standing standing, boolean doubted, boolean named) {
        boolean isTold() {
            return doubted || named;
        }
    }

    /** Counts of one kind of slip. */
    private static final class Row {
        int fleets;
        int wrong;
        int silent;
        int changed;
        int told;
        int untouched;
        int untouchedDoubted;
        String example = "";
    }

    @Test
    void nothingIsWrongInSilence() {
        Map<Slip, Row> rows = new EnumMap<>(Slip.class);
        for (int seed = 0; seed < FLEETS; seed++) {
            Slip slip = Slip.values()[seed % Slip.values().length];
            sweep(slip, seed, rows.computeIfAbsent(slip, s -> new Row()));
        }
        System.out.println("| slip | fleets | drives it changed | wrong | in doubt or named | wrong in silence | others in doubt |");
        System.out.println("|---|---|---|---|---|---|---|");
        rows.forEach((slip, row) -> System.out.printf("| %s | %d | %d | %d | %d | %d | %d of %d |%s%n", slip.name().toLowerCase().replace('_', ' '), row.fleets, row.changed,
            row.wrong, row.told, row.silent, row.untouchedDoubted, row.untouched, row.example));
        int untouched = rows.values().stream().mapToInt(row -> row.untouched).sum();
        int doubted = rows.values().stream().mapToInt(row -> row.untouchedDoubted).sum();
        System.out.printf("drives without a slip: %d, of which in doubt %d (%.2f %%)%n", untouched, doubted, 100.0 * doubted / untouched);
        rows.forEach((slip, row) -> assertThat(row.silent).as("wrong in silence: %s%s", slip, row.example).isZero());
        assertThat(rows.get(Slip.RESET_WITH_HOURS).wrong).as("a reset that the hours prove is bridged").isZero();
        assertThat(rows.get(Slip.RESET_WITH_HOURS).told).as("and is not in doubt").isZero();
        assertThat(doubted).isLessThanOrEqualTo(untouched / 100);
    }

    private static void sweep(Slip slip, int seed, Row row) {
        List<TrueDrive> clean = fleet(slip, seed);
        List<TrueDrive> slipped = fleet(slip, seed);
        slip.plant(slipped, new SplittableRandom(seed));
        int changed = switch (slip.scope) {
            case FLEET -> clean.size();
            case PAIR -> 2;
            case DRIVE, RESET -> 1;
        };
        List<HistoryOutcome> outcomes = judged(slipped);
        Set<String> alike = new HashSet<>();
        Placements.of(outcomes.stream().flatMap(outcome -> outcome.stints().stream()).toList(), Map.of(), Map.of()).problems().stream().map(Problem::subject).forEach(alike::add);
        List<Result> got = outcomes.stream().map(outcome -> result(outcome, alike)).toList();
        boolean pairNamed = slip.scope == Slip.Scope.PAIR && (got.get(0).isTold() || got.get(1).isTold());
        row.fleets++;
        row.changed += changed;
        for (int i = 0; i < changed; i++) {
            Result right = result(judged(List.of(clean.get(i))).get(0), Set.of());
            boolean told = got.get(i).isTold() || pairNamed;
            boolean wrong = isWrong(right, got.get(i));
            row.told += told ? 1 : 0;
            row.wrong += wrong ? 1 : 0;
            if (wrong && !told) {
                row.silent++;
                row.example = row.example.isEmpty() ? " e.g. seed " + seed + " drive " + i + ": " + right + ", came out as " + got.get(i) : row.example;
            }
        }
        row.untouched += clean.size() - changed;
        row.untouchedDoubted += got.subList(changed, got.size()).stream().filter(Result::doubted).count();
    }

    private static boolean isWrong(Result right, Result got) {
        return got.bytesWritten == null || Math.abs(got.bytesWritten - right.bytesWritten) > SAME_TOTAL * right.bytesWritten || got.standing != right.standing;
    }

    private static List<TrueDrive> fleet(Slip slip, int seed) {
        SplittableRandom random = new SplittableRandom(1_000_003L * seed + 17);
        TrueDrive.Fields fields = slip.fields != null ? slip.fields : TrueDrive.Fields.values()[random.nextInt(3)];
        int drives = 12 + random.nextInt(17);
        int quarters = 4 + random.nextInt(5);
        List<TrueDrive> fleet = new ArrayList<>();
        for (int i = 0; i < drives; i++) {
            fleet.add(TrueDrive.drawn(i, quarters, fields, random));
        }
        if (slip.scope == Slip.Scope.PAIR) {
            double first = fleet.get(0).last().bytesWritten;
            fleet.subList(1, drives).sort(Comparator.comparingDouble(drive -> -Math.abs(Math.log(drive.last().bytesWritten / first))));
        }
        return fleet;
    }

    private static List<HistoryOutcome> judged(List<TrueDrive> fleet) {
        FleetSteps steps = new FleetSteps();
        List<HistoryOutcome> outcomes = fleet.stream().map(drive -> DriveHistories.build(drive.readings().get(0).drive().id(), drive.readings(), LIMITS)).toList();
        outcomes.forEach(steps::add);
        ColumnChanges changes = ColumnChanges.of(steps);
        return outcomes.stream().map(changes::judged).toList();
    }

    private static Result result(HistoryOutcome outcome, Set<String> alike) {
        boolean doubted = outcome.problems().stream().anyMatch(problem -> problem.kind().doubtsWear());
        boolean named = outcome.problems().stream().anyMatch(problem -> names(problem) || alike.contains(problem.subject()));
        DriveAssessment drive = outcome.history() == null ? null : new DriveAssessor(outcome.history(), Ratings.of(List.of()), false, null).assess(null, AS_OF, SETTINGS);
        return new Result(drive == null || drive.wear().bytesWritten() == null ? null : drive.wear().bytesWritten().doubleValue(), drive == null ? Standing.NO_VERDICT : drive.standing(), doubted, named);
    }

    private static boolean names(Problem problem) {
        return problem.kind().effect() == Effect.READING_SET_ASIDE || problem.kind() == ProblemKind.CLOCK_DOUBTFUL || problem.kind() == ProblemKind.POWER_ON_HOURS_IMPLAUSIBLE;
    }
}
