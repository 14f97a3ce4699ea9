package org.wearledger.history;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** Builds one drive's history. The rules, in order: placeholder, too late, shared serial, duplicates, exchanged counters, order, unit, line, counters. */
public final class DriveHistories {
    private static final Comparator<Reading> ORDER =
        Comparator.comparing(Reading::collectedAt).thenComparing(Reading::source);

    private DriveHistories() {
    }

    /**
     * @param id the drive that every one of {@code readings} names
     * @param readings in any order
     */
    public static HistoryOutcome build(DriveId id, Collection<Reading> readings, Limits limits) {
        List<Reading> sorted = readings.stream().sorted(ORDER).toList();
        List<Problem> problems = new ArrayList<>();
        List<Reading> usable = DriveId.isPlaceholder(id.serial())
            ? setAllAside(sorted, id, ProblemKind.SERIAL_PLACEHOLDER,
                "serial number \"" + id.serial() + "\" is a placeholder", "a serial number that names one drive",
                "read the serial printed on the drive and report it", problems)
            : onePerMoment(id, notShared(id, inTime(id, sorted, limits, problems), problems), problems);
        List<Reading> disbelieved = new ArrayList<>(usable);
        usable = ExchangedCounters.setAside(id, usable, problems);
        usable = OutOfOrder.setAside(id, usable, problems);
        usable = UnitChanges.setAside(id, usable, problems);
        usable = OutOfLine.setAside(id, usable, problems);
        Set<Reading> believed = Collections.newSetFromMap(new IdentityHashMap<>());
        believed.addAll(usable);
        disbelieved.removeIf(believed::contains);
        Capacities.judge(id, usable, problems);
        CounterChain chain = new CounterChain(id, problems);
        usable.forEach(chain::add);
        int kept = chain.points().size();
        noteDisbelieved(id, sorted, kept == 0 ? null : chain.points().get(kept - 1).reading(), problems);
        DriveHistory history = kept == 0 ? null : new DriveHistory(id, chain.points(), Doubts.ofWear(problems));
        return new HistoryOutcome(history, history == null ? List.of() : Placements.stintsOf(history, seen(sorted, problems)), problems, kept, sorted.size() - kept, disbelieved);
    }

    /** Of the readings set aside those that say where the drive was. */
    private static List<Reading> seen(List<Reading> sorted, List<Problem> problems) {
        Set<SourcePlace> places = problems.stream().filter(problem -> problem.kind().leavesDriveSeen()).map(Problem::source).collect(Collectors.toSet());
        return places.isEmpty() ? List.of() : sorted.stream().filter(reading -> places.contains(reading.source())).toList();
    }

    private static List<Reading> inTime(DriveId id, List<Reading> sorted, Limits limits, List<Problem> problems) {
        List<Reading> inTime = new ArrayList<>();
        for (Reading reading : sorted) {
            Instant collectedAt = reading.collectedAt();
            if (limits.isInFuture(collectedAt)) {
                problems.add(new Problem(ProblemKind.COLLECTED_IN_FUTURE, reading.source(), id.toString(),
                    "collected at " + collectedAt,
                    "a time no later than 24 hours after this sweep, which runs at " + limits.now(),
                    "set the clock of machine " + reading.machine().id() + " and collect again"));
            } else if (limits.isAfterAsOf(collectedAt)) {
                problems.add(new Problem(ProblemKind.COLLECTED_AFTER_AS_OF, reading.source(), id.toString(),
                    "collected at " + collectedAt, "a time up to the as-of date's end, " + limits.asOfEnd(),
                    "choose a later as-of date to use it"));
            } else {
                inTime.add(reading);
            }
        }
        return inTime;
    }

    /** Comes before the duplicates, because two drives that share a serial may well report at the same moment. */
    private static List<Reading> notShared(DriveId id, List<Reading> sorted, List<Problem> problems) {
        String evidence = SharedSerials.evidence(sorted);
        return evidence == null ? sorted
            : setAllAside(sorted, id, ProblemKind.SERIAL_SHARED, evidence, "one drive to a serial number",
                "compare the serials printed on the drives; their histories are not joined", problems);
    }

    private static List<Reading> onePerMoment(DriveId id, List<Reading> sorted, List<Problem> problems) {
        Map<Instant, List<Reading>> byMoment = new TreeMap<>();
        for (Reading reading : sorted) {
            byMoment.computeIfAbsent(reading.collectedAt(), at -> new ArrayList<>()).add(reading);
        }
        List<Reading> single = new ArrayList<>();
        byMoment.values().forEach(sameMoment -> {
            Reading richest = Duplicates.richest(id, sameMoment, problems);
            if (richest != null) {
                single.add(richest);
            }
        });
        return single;
    }

    /**
     * Figures older than what arrived may be wrong, or what arrived; without any there is nothing to judge.
     *
     * @param judged {@code null} for none
     */
    private static void noteDisbelieved(DriveId id, List<Reading> sorted, Reading judged, List<Problem> problems) {
        Map<SourcePlace, ProblemKind> disbelieved = new HashMap<>();
        for (Problem problem : problems) {
            if (problem.kind().disbelievesWritten()) {
                disbelieved.put(problem.source(), problem.kind());
            }
        }
        Reading latest = null;
        for (Reading reading : sorted) {
            if ((judged == null || reading.collectedAt().isAfter(judged.collectedAt())) && disbelieved.containsKey(reading.source())) {
                latest = reading;
            }
        }
        if (latest == null) {
            return;
        }
        String rule = disbelieved.get(latest.source()).id();
        problems.add(judged == null
            ? new Problem(ProblemKind.NO_REPORT_BELIEVED, latest.source(), id.toString(), "no report of this drive could be believed (" + rule + "), so nothing is said of its wear",
                "reports that can be used", "settle what is wrong, most often the unit, before taking this drive for a sound one")
            : new Problem(ProblemKind.LATEST_REPORT_SET_ASIDE, latest.source(), id.toString(),
                "the latest report of this drive was set aside (" + rule + "), so its figures are those of " + judged.collectedAt() + " (" + judged.source().inWords() + ")",
                "a latest report that can be used", "settle which of the two is right, most often by the unit, before acting on this drive's wear"));
    }

    private static List<Reading> setAllAside(List<Reading> readings, DriveId id, ProblemKind kind, String found,
                                             String expected, String remedy, List<Problem> problems) {
        readings.forEach(reading ->
            problems.add(new Problem(kind, reading.source(), id.toString(), found, expected, remedy)));
        return List.of();
    }
}
