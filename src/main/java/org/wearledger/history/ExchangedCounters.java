package org.wearledger.history;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/** Reports that give reads as writes and writes as reads. The wear rests on writes, so such a reading is set aside. */
final class ExchangedCounters {
    private ExchangedCounters() {
    }

    /** @param sorted readings in time order */
    static List<Reading> setAside(DriveId id, List<Reading> sorted, List<Problem> problems) {
        List<Reading> counted = new ArrayList<>();
        List<Boolean> exchanged = new ArrayList<>();
        List<Reading> kept = new ArrayList<>();
        for (Reading reading : sorted) {
            if (reading.health().dataUnitsRead() == null || reading.health().dataUnitsWritten() == null) {
                kept.add(reading);
            } else if (commandsContradict(reading.health())) {
                Health h = reading.health();
                problems.add(Problem.of(Finding.MEANS_EXCHANGED, reading.source(), id.toString()).with(Fact.READ, mean(h, HealthField.DATA_UNITS_READ, HealthField.HOST_READ_COMMANDS))
                    .with(Fact.WRITTEN, mean(h, HealthField.DATA_UNITS_WRITTEN, HealthField.HOST_WRITE_COMMANDS))
                    .with(Fact.READ_BEFORE, mean(h, HealthField.DATA_UNITS_WRITTEN, HealthField.HOST_READ_COMMANDS))
                    .with(Fact.WRITTEN_BEFORE, mean(h, HealthField.DATA_UNITS_READ, HealthField.HOST_WRITE_COMMANDS)));
            } else {
                kept.add(reading);
                boolean crossed = !counted.isEmpty() && cross(counted.get(counted.size() - 1).health(), reading.health());
                exchanged.add(!counted.isEmpty() && (exchanged.get(counted.size() - 1) ^ crossed));
                counted.add(reading);
            }
        }
        if (exchanged.contains(true)) {
            boolean usual = MostAgree.of(exchanged);
            for (int i = 0; i < counted.size(); i++) {
                if (exchanged.get(i) != usual) {
                    kept.remove(counted.get(i));
                    problems.add(crossing(id, counted.get(i), counted.get(i > 0 ? i - 1 : exchanged.indexOf(usual))));
                }
            }
        }
        return kept;
    }

    /** As they stand one of the two falls; exchanged, both go on. A reset lets both fall. */
    private static boolean cross(Health before, Health after) {
        boolean falls = Counters.fell(before.dataUnitsRead(), after.dataUnitsRead()) || Counters.fell(before.dataUnitsWritten(), after.dataUnitsWritten());
        return falls && Counters.wentOn(before.dataUnitsWritten(), after.dataUnitsRead()) && Counters.wentOn(before.dataUnitsRead(), after.dataUnitsWritten());
    }

    private static boolean commandsContradict(Health h) {
        return MeanCommand.isImpossible(h.dataUnitsRead(), h.hostReadCommands()) && MeanCommand.isImpossible(h.dataUnitsWritten(), h.hostWriteCommands())
            && MeanCommand.isPossible(h.dataUnitsWritten(), h.hostReadCommands()) && MeanCommand.isPossible(h.dataUnitsRead(), h.hostWriteCommands());
    }

    private static BigDecimal mean(Health health, HealthField dataUnits, HealthField commands) {
        return MeanCommand.bytes(health, dataUnits, commands);
    }

    private static Problem crossing(DriveId id, Reading wrong, Reading other) {
        return Problem.of(Finding.COUNTERS_EXCHANGED, wrong.source(), id.toString()).with(Fact.READ, wrong.health().dataUnitsRead())
            .with(Fact.WRITTEN, wrong.health().dataUnitsWritten()).with(Fact.AT, other.collectedAt()).with(Fact.READ_BEFORE, other.health().dataUnitsRead())
            .with(Fact.WRITTEN_BEFORE, other.health().dataUnitsWritten());
    }
}
