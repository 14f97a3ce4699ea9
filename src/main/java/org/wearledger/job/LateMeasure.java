package org.wearledger.job;

import java.io.Serializable;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.HealthField;
import org.wearledger.model.Reading;

/**
 * A measure that a drive's latest reading has and earlier ones lack.
 *
 * @param machineId that of the latest reading, folded
 * @param field as the report form names it
 * @param lastIn by file, when the last reading of it was taken that lacks the measure
 */
record LateMeasure(DriveId drive, String machineId, String field, Map<String, Instant> lastIn) implements Serializable {
    /** Those by whose past a drive is judged: of the others the latest reading says all. */
    private static final List<HealthField> MEASURES = List.of(HealthField.DATA_UNITS_WRITTEN, HealthField.MEDIA_ERRORS, HealthField.PERCENTAGE_USED);

    static List<LateMeasure> of(DriveHistory history) {
        Reading latest = history.latest().reading();
        List<LateMeasure> late = new ArrayList<>();
        MEASURES.forEach(field -> {
            Map<String, Instant> lastIn = new TreeMap<>();
            if (latest.health().has(field)) {
                history.points().forEach(point -> {
                    if (!point.reading().health().has(field)) {
                        lastIn.put(point.reading().source().file(), point.reading().collectedAt());
                    }
                });
            }
            if (!lastIn.isEmpty()) {
                late.add(new LateMeasure(history.id(), DriveId.fold(latest.machine().id()), field.dotted(), lastIn));
            }
        });
        return late;
    }
}
