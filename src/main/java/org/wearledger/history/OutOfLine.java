package org.wearledger.history;

import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/**
 * Single readings whose data units written stand out of line between their neighbours: a digit lost or added, a stale copy, a
 * wrong clock. The drive's other readings say so, so its total stays right without them.
 */
final class OutOfLine {
    private final DriveId id;
    private final List<Problem> problems;
    private final List<Reading> counted;
    private final List<Reading> kept;
    /** Of the present run, in time order. */
    private final List<Reading> run = new ArrayList<>();
    private CounterRun counters = new CounterRun();

    private OutOfLine(DriveId id, List<Reading> sorted, List<Problem> problems) {
        this.id = id;
        this.problems = problems;
        counted = sorted.stream().filter(reading -> units(reading) != null).toList();
        kept = new ArrayList<>(sorted);
    }

    /** @param sorted readings in time order */
    static List<Reading> setAside(DriveId id, List<Reading> sorted, List<Problem> problems) {
        return falls(sorted) ? new OutOfLine(id, sorted, problems).rest() : sorted;
    }

    /** Nearly no drive has a fall. */
    private static boolean falls(List<Reading> sorted) {
        Long before = null;
        for (Reading reading : sorted) {
            if (Counters.fell(before, units(reading))) {
                return true;
            }
            before = units(reading) == null ? before : units(reading);
        }
        return false;
    }

    private List<Reading> rest() {
        for (int i = 0; i < counted.size(); i++) {
            Reading reading = counted.get(i);
            boolean fell = counters.fell(units(reading));
            CounterRun.Restart restart = fell ? counters.restart(reading) : CounterRun.Restart.NONE;
            if (!fell || restart != CounterRun.Restart.PROVEN && isTooHigh(reading)) {
                add(reading);
                continue;
            }
            // Also where the hours speak for a reset: those of a young drive's first report do.
            Reading copied = copied(reading);
            if (copied != null) {
                setAside(reading, problem(Finding.FIGURE_COPIED, reading).with(Fact.PLACE, copied.source().inWords()).with(Fact.MOST, counters.units().value()));
                continue;
            }
            int back = restart == CounterRun.Restart.PROVEN ? -1 : firstAtLeast(counters.units().value(), i);
            if (back > 0 && (counters.companionsGoOn(reading) || !counters.restartFits(reading, counted.get(back - 1), counted.get(back)))) {
                Reading before = largest();
                counted.subList(i, back).forEach(low -> setAside(low, before, counted.get(back)));
                i = back - 1;
                continue;
            }
            if (restart != CounterRun.Restart.NONE) {
                run.clear();
                counters = new CounterRun();
            }
            add(reading);
        }
        return kept;
    }

    private void add(Reading reading) {
        run.add(reading);
        counters.add(reading);
    }

    /** The one reading above this one is set aside when the rest goes on without it, and it outran the drive's own pace. */
    private boolean isTooHigh(Reading reading) {
        Reading high = largest();
        List<Reading> others = run.stream().filter(one -> one != high).toList();
        CounterRun without = countersOf(others);
        if (others.isEmpty() || without.fell(units(reading)) || !without.outrunsOwnPace(high) || without.outrunsOwnPace(reading)) {
            return false;
        }
        setAside(high, others.get(others.size() - 1), reading);
        run.remove(high);
        counters = without;
        return true;
    }

    /** An earlier reading with the very same figure: no drive that was reset comes to that again. */
    private Reading copied(Reading reading) {
        return run.stream().filter(earlier -> units(earlier).equals(units(reading))).findFirst().orElse(null);
    }

    private int firstAtLeast(long units, int after) {
        for (int i = after + 1; i < counted.size(); i++) {
            if (units(counted.get(i)) >= units) {
                return i;
            }
        }
        return -1;
    }

    private Reading largest() {
        return run.stream().max((a, b) -> Long.compare(units(a), units(b))).orElseThrow();
    }

    private static CounterRun countersOf(List<Reading> run) {
        CounterRun counters = new CounterRun();
        run.forEach(counters::add);
        return counters;
    }

    private void setAside(Reading reading, Reading before, Reading after) {
        setAside(reading, problem(Finding.OUT_OF_LINE, reading).with(Fact.BEFORE, units(before)).with(Fact.PLACE, before.source().inWords()).with(Fact.AFTER, units(after))
            .with(Fact.NEXT_PLACE, after.source().inWords()));
    }

    private Problem problem(Finding finding, Reading reading) {
        return Problem.of(finding, reading.source(), id.toString()).with(Fact.VALUE, units(reading));
    }

    private void setAside(Reading reading, Problem problem) {
        kept.remove(reading);
        problems.add(problem);
    }

    private static Long units(Reading reading) {
        return reading.health().dataUnitsWritten();
    }
}
