package org.wearledger.history;

import java.io.Serializable;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * Folders whose dates have day and month exchanged: no day lies beyond the 12th, what drives have written falls as time goes on, or times
 * lie ahead, and no longer once the two are exchanged. Counts that can be added up over drives in any order.
 */
public final class ExchangedDates implements Serializable {
    private static final int MOST_MONTHS = 12;
    private static final long FEWEST = 3;
    private static final double LEAST_SHARE = 0.1;
    private static final double MOST_LEFT = 0.1;

    /** Of the drives of one folder. */
    private static final class Drives implements Serializable {
        private String firstFile;
        private long all;
        private long falling;
        private long fallingIfExchanged;
        private boolean laterDay;

        void add(Drives other) {
            firstFile = firstFile == null || other.firstFile.compareTo(firstFile) < 0 ? other.firstFile : firstFile;
            all += other.all;
            falling += other.falling;
            fallingIfExchanged += other.fallingIfExchanged;
            laterDay |= other.laterDay;
        }

        boolean isExchanged() {
            return !laterDay && falling >= FEWEST && falling >= LEAST_SHARE * all && fallingIfExchanged <= MOST_LEFT * falling;
        }

        Problem problem() {
            return Problem.of(Finding.DATES_EXCHANGED, SourcePlace.wholeFile(firstFile), "").with(Fact.COUNT, falling).with(Fact.OF, all).with(Fact.MOST, fallingIfExchanged);
        }
    }

    private final TreeMap<String, Drives> folders = new TreeMap<>();

    /** Adds one drive's. */
    public void add(HistoryOutcome outcome) {
        List<Reading> readings = outcome.history() == null ? List.of() : FleetSteps.counted(outcome);
        List<Problem> ahead = outcome.problems().stream().filter(problem -> problem.kind() == ProblemKind.COLLECTED_IN_FUTURE).toList();
        if (readings.size() + ahead.size() < 2 && ahead.isEmpty()) {
            return;
        }
        Drives drive = new Drives();
        drive.all = 1;
        drive.firstFile = Stream.concat(readings.stream().map(Reading::source), ahead.stream().map(Problem::source)).map(SourcePlace::file).min(Comparator.naturalOrder()).orElseThrow();
        drive.laterDay = Stream.concat(readings.stream().map(Reading::collectedAt), ahead.stream().map(ExchangedDates::at)).anyMatch(at -> date(at).getDayOfMonth() > MOST_MONTHS);
        drive.falling = falls(readings) || !ahead.isEmpty() ? 1 : 0;
        if (!drive.laterDay) {
            List<Reading> exchanged = new ArrayList<>(readings);
            exchanged.sort(Comparator.comparing(reading -> exchanged(reading.collectedAt())));
            boolean stillAhead = ahead.stream().anyMatch(problem -> exchanged(at(problem)).isAfter(date(Instant.parse(problem.fact(Fact.UNTIL)))));
            drive.fallingIfExchanged = falls(exchanged) || stillAhead ? 1 : 0;
        }
        folders.computeIfAbsent(folder(drive.firstFile), folder -> new Drives()).add(drive);
    }

    private static Instant at(Problem problem) {
        return Instant.parse(problem.fact(Fact.AT));
    }

    /** Adds those of other drives. */
    public void add(ExchangedDates others) {
        others.folders.forEach((folder, drives) -> folders.computeIfAbsent(folder, none -> new Drives()).add(drives));
    }

    /** One for each folder where they are exchanged. */
    public Map<String, Problem> problems() {
        Map<String, Problem> problems = new TreeMap<>();
        folders.forEach((folder, drives) -> {
            if (drives.isExchanged()) {
                problems.put(folder, drives.problem());
            }
        });
        return problems;
    }

    /** With its last slash; empty for none. */
    public static String folder(String file) {
        return file.substring(0, file.lastIndexOf('/') + 1);
    }

    private static boolean falls(List<Reading> readings) {
        for (int i = 1; i < readings.size(); i++) {
            if (Counters.fell(readings.get(i - 1).health().dataUnitsWritten(), readings.get(i).health().dataUnitsWritten())) {
                return true;
            }
        }
        return false;
    }

    private static LocalDateTime date(Instant at) {
        return LocalDateTime.ofInstant(at, ZoneOffset.UTC);
    }

    private static LocalDateTime exchanged(Instant at) {
        LocalDateTime date = date(at);
        return LocalDateTime.of(date.getYear(), date.getDayOfMonth(), date.getMonthValue(), date.getHour(), date.getMinute(), date.getSecond());
    }
}
