package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.function.DoubleBinaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.wearledger.model.DriveId;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

/** Forty drives with seven quarterly totals in TB, whose last quarter is exported in another way; nothing but bytes written is known. */
class ColumnChangesTest {
    private static final Limits LIMITS = new Limits(Instant.parse("2026-01-01T00:00:00Z"), null);
    private static final int DRIVES = 40;
    private static final int QUARTERS = 7;

    @Test
    void aFleetAsItIsHasNoChangedColumn() {
        assertThat(doubted(outcomes((total, before) -> total))).isEmpty();
    }

    @Test
    void tebibytesUnderTerabytesAreToldByTheirRatio() {
        List<HistoryOutcome> outcomes = outcomes((total, before) -> total / 1.099511627776);
        assertThat(doubted(outcomes)).hasSize(DRIVES);
        assertThat(ProblemWords.of(doubted(outcomes).get(0)).sentence()).matches("quarter-6.csv, line 1: bytes written fell for \\d+ of 40 drives in these reports, by a factor of about 0\\.9\\d"
            + ".*; expected totals in one unit in every report; check column and unit of bytes written in these reports and in those before; then sweep again");
    }

    @Test
    void terabytesUnderTebibytesRiseForAllAtOnce() {
        List<HistoryOutcome> outcomes = outcomes((total, before) -> total * 1.099511627776);
        assertThat(doubted(outcomes)).hasSize(DRIVES);
        assertThat(ProblemWords.of(doubted(outcomes).get(0)).found()).contains("bytes written jumped for ").contains(": as by TB in place of TiB");
    }

    @Test
    void dataUnitsUnderMegabytesNearlyDoubleForAllAtOnce() {
        List<HistoryOutcome> outcomes = outcomes((total, before) -> total * 1e6 / 512_000);
        assertThat(doubted(outcomes)).hasSize(DRIVES);
        assertThat(ProblemWords.of(doubted(outcomes).get(0)).found()).contains("bytes written jumped for ").contains(": as by data units in place of MB");
    }

    @Test
    void aThousandfoldFallIsAnotherUnitForEachDrive() {
        assertThat(outcomes((total, before) -> total / 1000)).allSatisfy(outcome -> assertThat(outcome.problems()).extracting(Problem::kind)
            .contains(ProblemKind.UNIT_CHANGED, ProblemKind.LATEST_REPORT_SET_ASIDE));
    }

    @Test
    void aQuartersWritesInPlaceOfTotalsNameTheColumn() {
        List<HistoryOutcome> outcomes = outcomes((total, before) -> total - before);
        assertThat(outcomes).allSatisfy(outcome -> assertThat(outcome.history().doubts()).isNotEmpty());
        assertThat(doubted(outcomes)).isNotEmpty();
    }

    @Test
    void theSharesThatDrivesAreCountedInDoNotMatter() {
        List<HistoryOutcome> outcomes = IntStream.range(0, DRIVES).mapToObj(drive -> history(drive, (total, before) -> total / 1.1)).toList();
        FleetSteps all = new FleetSteps();
        FleetSteps even = new FleetSteps();
        FleetSteps odd = new FleetSteps();
        for (int i = 0; i < outcomes.size(); i++) {
            all.add(outcomes.get(i));
            (i % 2 == 0 ? even : odd).add(outcomes.get(i));
        }
        odd.add(even);
        assertThat(odd.batches()).usingRecursiveComparison().isEqualTo(all.batches());
    }

    private static List<Problem> doubted(List<HistoryOutcome> outcomes) {
        return outcomes.stream().flatMap(outcome -> ColumnChanges.problems(outcome).stream()).toList();
    }

    private static List<HistoryOutcome> outcomes(DoubleBinaryOperator last) {
        List<HistoryOutcome> outcomes = IntStream.range(0, DRIVES).mapToObj(drive -> history(drive, last)).toList();
        FleetSteps steps = new FleetSteps();
        outcomes.forEach(steps::add);
        ColumnChanges changes = ColumnChanges.of(steps);
        return outcomes.stream().map(changes::judged).toList();
    }

    /** The last quarter is what {@code last} makes of its total and the one before. */
    private static HistoryOutcome history(int drive, DoubleBinaryOperator last) {
        SplittableRandom random = new SplittableRandom(drive);
        double perQuarter = Math.exp(random.nextGaussian());
        double total = perQuarter * (4 + 20 * random.nextDouble());
        Reading[] readings = new Reading[QUARTERS];
        for (int quarter = 0; quarter < QUARTERS; quarter++) {
            double before = total;
            total += perQuarter * (0.7 + 0.6 * random.nextDouble());
            String at = String.format(Locale.ROOT, "%d-%02d-05", 2024 + quarter / 4, 1 + quarter % 4 * 3);
            Reading reading = Sample.at(at).serial("CC-" + (1000 + drive)).file("quarter-" + quarter + ".csv").terabytes(quarter == QUARTERS - 1 ? last.applyAsDouble(total, before) : total).reading();
            readings[quarter] = new Reading(org.wearledger.model.SourcePlace.line(reading.source().file(), drive + 1), reading.collectedAt(), reading.machine(), reading.drive(), reading.health());
        }
        return DriveHistories.build(DriveId.of(Sample.MODEL, "CC-" + (1000 + drive)), List.of(readings), LIMITS);
    }
}
