package org.wearledger.job;

import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.intake.FieldMapping;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.Health;
import org.wearledger.model.ProblemKind;
import org.wearledger.stats.Quartiles;

/** One drive's figures as a check gathers them: a few numbers, since a fleet may have millions. */
record FleetFigures(Double terabytesWritten, Integer percentageUsed, Double powerOnHours, boolean checkable, List<ProblemKind> doubts) {
    private static final double BYTES_PER_TERABYTE = 1e12;

    /** {@code null} for a drive that no reading was kept of, for another reason than its bytes written. */
    static FleetFigures of(HistoryOutcome outcome) {
        boolean kept = outcome.history() != null;
        List<ProblemKind> doubts = outcome.problems().stream().map(problem -> problem.kind())
            .filter(kind -> kept ? kind.doubtsWear() : kind.disbelievesWritten()).distinct().toList();
        if (!kept) {
            return doubts.isEmpty() ? null : new FleetFigures(null, null, null, true, doubts);
        }
        Health health = outcome.history().latest().reading().health();
        return new FleetFigures(health.bytesWritten() == null ? null : health.bytesWritten().doubleValue() / BYTES_PER_TERABYTE, health.percentageUsed(),
            health.powerOnHours() == null ? null : health.powerOnHours().doubleValue(), health.percentageUsed() != null || health.hostWriteCommands() != null, doubts);
    }

    static FleetGlance glance(Collection<FleetFigures> drives, FieldMapping mapping) {
        List<FleetFigures> written = drives.stream().filter(drive -> drive.terabytesWritten != null).toList();
        return new FleetGlance(drives.size(), drives.stream().filter(drive -> !drive.doubts.isEmpty()).count(), written.size(),
            written.stream().filter(drive -> !drive.checkable).count(), questioned(drives, mapping), median(drives, FleetFigures::terabytesWritten),
            median(drives, FleetFigures::percentageUsed), median(drives, FleetFigures::powerOnHours));
    }

    /** Of the rule that most drives are doubted by, the first by name on a tie. */
    private static String questioned(Collection<FleetFigures> drives, FieldMapping mapping) {
        Map<ProblemKind, Long> counts = drives.stream().flatMap(drive -> drive.doubts.stream())
            .collect(Collectors.groupingBy(Function.identity(), () -> new EnumMap<>(ProblemKind.class), Collectors.counting()));
        return counts.entrySet().stream().max(Map.Entry.<ProblemKind, Long>comparingByValue().thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
            .map(most -> {
                String mapped = mapping.inWords(most.getKey().questioned());
                return mapped.isEmpty() ? String.join(", ", most.getKey().questioned()) : mapped;
            }).orElse("");
    }

    private static Double median(Collection<FleetFigures> drives, Function<FleetFigures, ? extends Number> figure) {
        double[] values = drives.stream().map(figure).filter(Objects::nonNull).mapToDouble(Number::doubleValue).toArray();
        return values.length == 0 ? null : (Double) Quartiles.of(values).median();
    }
}
