package org.wearledger.history;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
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
        List<Reading> kept = new ArrayList<>();
        for (Reading reading : sorted) {
            boolean reported = reading.health().dataUnitsRead() != null && reading.health().dataUnitsWritten() != null;
            if (reported && commandsContradict(reading.health())) {
                problems.add(byCommands(id, reading));
                continue;
            }
            kept.add(reading);
            if (reported) {
                counted.add(reading);
            }
        }
        List<Boolean> exchanged = exchanged(counted);
        if (exchanged.contains(true)) {
            boolean usual = MostAgree.of(exchanged);
            IntStream.range(0, counted.size()).filter(i -> exchanged.get(i) != usual).forEach(i -> {
                kept.remove(counted.get(i));
                problems.add(crossing(id, counted.get(i), counted.get(i > 0 ? i - 1 : exchanged.indexOf(usual))));
            });
        }
        return kept;
    }

    /** Whether each is exchanged against the first. */
    private static List<Boolean> exchanged(List<Reading> counted) {
        List<Boolean> exchanged = new ArrayList<>();
        for (int i = 0; i < counted.size(); i++) {
            boolean crossed = i > 0 && cross(counted.get(i - 1).health(), counted.get(i).health());
            exchanged.add(i > 0 && exchanged.get(i - 1) ^ crossed);
        }
        return exchanged;
    }

    private static Problem byCommands(DriveId id, Reading reading) {
        Health h = reading.health();
        return Problem.of(Finding.MEANS_EXCHANGED, reading.source(), id.toString())
            .with(Fact.READ, MeanCommand.bytes(h, HealthField.DATA_UNITS_READ, HealthField.HOST_READ_COMMANDS))
            .with(Fact.WRITTEN, MeanCommand.bytes(h, HealthField.DATA_UNITS_WRITTEN, HealthField.HOST_WRITE_COMMANDS))
            .with(Fact.READ_BEFORE, MeanCommand.bytes(h, HealthField.DATA_UNITS_WRITTEN, HealthField.HOST_READ_COMMANDS))
            .with(Fact.WRITTEN_BEFORE, MeanCommand.bytes(h, HealthField.DATA_UNITS_READ, HealthField.HOST_WRITE_COMMANDS));
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

    private static Problem crossing(DriveId id, Reading wrong, Reading other) {
        return Problem.of(Finding.COUNTERS_EXCHANGED, wrong.source(), id.toString()).with(Fact.READ, wrong.health().dataUnitsRead())
            .with(Fact.WRITTEN, wrong.health().dataUnitsWritten()).with(Fact.AT, other.collectedAt()).with(Fact.READ_BEFORE, other.health().dataUnitsRead())
            .with(Fact.WRITTEN_BEFORE, other.health().dataUnitsWritten());
    }
}
