package org.wearledger.job;

import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.history.ExchangedDates;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.intake.QuestionedFields;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.Health;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.stats.Quartiles;

/**
 * One drive's figures as a check gathers them: a few numbers, since a fleet may have millions.
 *
 * @param doubts problems that put them in doubt; in place of what follows from another rule, the one that set the report aside
 * @param disbelieved files of all its readings that could not be believed
 */
record FleetFigures(Double terabytesWritten, Integer percentageUsed, Double powerOnHours, boolean checkable, List<Problem> doubts, Set<String> disbelieved) {
    private static final double BYTES_PER_TERABYTE = 1e12;

    /** {@code null} for a drive that no reading was kept of for another reason than that none could be believed. */
    static FleetFigures of(HistoryOutcome outcome) {
        List<Problem> doubts = outcome.problems().stream().filter(problem -> problem.kind().doubtsWear()).map(doubt -> cause(doubt, outcome.problems())).toList();
        Set<String> disbelieved = outcome.problems().stream().filter(problem -> problem.kind().disbelievesWritten()).map(problem -> problem.source().file()).collect(Collectors.toSet());
        if (outcome.history() == null) {
            return doubts.isEmpty() ? null : new FleetFigures(null, null, null, false, doubts, disbelieved);
        }
        Health health = outcome.history().latest().reading().health();
        return new FleetFigures(health.bytesWritten() == null ? null : health.bytesWritten().doubleValue() / BYTES_PER_TERABYTE, health.percentageUsed(),
            health.powerOnHours() == null ? null : (Double) (double) health.powerOnHours(), health.percentageUsed() != null || health.hostWriteCommands() != null, doubts, disbelieved);
    }

    /** With what the dates of its folder explain in place of what followed from them. */
    FleetFigures explainedBy(Map<String, Problem> dates) {
        List<Problem> explained = doubts.stream().map(doubt -> doubt.kind().followsFromOrder() ? dates.getOrDefault(ExchangedDates.folder(doubt.source().file()), doubt) : doubt).distinct().toList();
        return new FleetFigures(terabytesWritten, percentageUsed, powerOnHours, checkable, explained, disbelieved);
    }

    private static Problem cause(Problem doubt, List<Problem> problems) {
        return !doubt.kind().isForAnother() ? doubt
            : problems.stream().filter(problem -> problem.kind().disbelievesWritten() && problem.source().equals(doubt.source())).findFirst().orElse(doubt);
    }

    /** @param files that were read, those in packs too */
    static FleetGlance glance(Collection<FleetFigures> drives, QuestionedFields fields, long files) {
        long unchecked = drives.stream().filter(drive -> drive.terabytesWritten != null && !drive.checkable).count();
        return new FleetGlance(drives.size(), drives.stream().filter(drive -> !drive.doubts.isEmpty()).count(), unchecked, doubts(drives, fields, files),
            middle(drives, FleetFigures::terabytesWritten), middle(drives, FleetFigures::percentageUsed), middle(drives, FleetFigures::powerOnHours));
    }

    /** The rule that doubts most drives first; on a tie the one that {@link ProblemKind} names first. */
    private static List<FleetGlance.Doubt> doubts(Collection<FleetFigures> drives, QuestionedFields fields, long files) {
        Map<ProblemKind, List<Problem>> byRule = drives.stream().flatMap(drive -> drive.doubts.stream())
            .collect(Collectors.groupingBy(Problem::kind, () -> new EnumMap<>(ProblemKind.class), Collectors.toList()));
        return byRule.entrySet().stream().map(rule -> new FleetGlance.Doubt(rule.getKey(), rule.getValue().size(), fields.of(rule.getKey(), rule.getValue()),
                onlyFile(rule.getKey(), drives, files)))
            .sorted(Comparator.comparingLong(FleetGlance.Doubt::drives).reversed()).toList();
    }

    /** The file that all its doubts lie in; empty for none. A rule that sets nothing aside tells a drive once, at its first reading: then nobody knows. */
    private static String onlyFile(ProblemKind rule, Collection<FleetFigures> drives, long files) {
        List<FleetFigures> doubted = drives.stream().filter(drive -> drive.doubts.stream().anyMatch(doubt -> doubt.kind() == rule)).toList();
        List<String> named = doubted.stream().flatMap(drive -> drive.disbelieved.stream()).distinct().toList();
        return rule.disbelievesWritten() && doubted.size() > 1 && files > 1 && named.size() == 1 ? named.get(0) : "";
    }

    private static FleetGlance.Middle middle(Collection<FleetFigures> drives, Function<FleetFigures, ? extends Number> figure) {
        double[] values = drives.stream().map(figure).filter(Objects::nonNull).mapToDouble(Number::doubleValue).toArray();
        return new FleetGlance.Middle(values.length, values.length == 0 ? null : (Double) Quartiles.of(values).median());
    }
}
