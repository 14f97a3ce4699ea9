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
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
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
            ? setAllAside(sorted, Problem.of(Finding.PLACEHOLDER, sorted.get(0).source(), id.toString()).with(Fact.NAMES, id.serial()), problems)
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
        DriveHistory history = kept == 0 ? null : new DriveHistory(id, chain.points(), HistoryChecks.ofWear(problems));
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
                problems.add(Problem.of(Finding.IN_FUTURE, reading.source(), id.toString()).with(Fact.AT, collectedAt).with(Fact.UNTIL, limits.now())
                    .with(Fact.MACHINE, reading.machine().id()));
            } else if (limits.isAfterAsOf(collectedAt)) {
                problems.add(Problem.of(Finding.AFTER_AS_OF, reading.source(), id.toString()).with(Fact.AT, collectedAt).with(Fact.UNTIL, limits.asOfEnd()));
            } else {
                inTime.add(reading);
            }
        }
        return inTime;
    }

    /** Comes before the duplicates, because two drives that share a serial may well report at the same moment. */
    private static List<Reading> notShared(DriveId id, List<Reading> sorted, List<Problem> problems) {
        Problem evidence = SharedSerials.evidence(id, sorted);
        return evidence == null ? sorted : setAllAside(sorted, evidence, problems);
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
        Problem problem = Problem.of(judged == null ? Finding.ALL_DISBELIEVED : Finding.LATEST_DISBELIEVED, latest.source(), id.toString())
            .with(Fact.RULE, disbelieved.get(latest.source()).id());
        problems.add(judged == null ? problem : problem.with(Fact.AT, judged.collectedAt()).with(Fact.PLACE, judged.source().inWords()));
    }

    private static List<Reading> setAllAside(List<Reading> readings, Problem problem, List<Problem> problems) {
        readings.forEach(reading -> problems.add(problem.at(reading.source(), problem.subject())));
        return List.of();
    }
}
