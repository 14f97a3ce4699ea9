package org.wearledger.assess;

import java.time.Duration;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.wearledger.assess.TrueDrive.Report;

/** What can go wrong with the reports of a fleet; each is planted into otherwise right ones. */
enum Slip {
    TB_UNDER_GB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten /= 1000)),
    TB_UNDER_GB_BEFORE_LAST(Scope.FLEET, (fleet, random) -> all(fleet, d -> before(d).bytesWritten /= 1000)),
    GB_UNDER_TB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten *= 1000)),
    BYTES_FOR_UNITS(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten *= 512_000)),
    SECTORS_FOR_UNITS(Scope.DRIVE, (fleet, random) -> one(fleet).last().bytesWritten *= 1000),
    GB_FOR_UNITS_ONCE(Scope.DRIVE, (fleet, random) -> one(fleet).last().bytesWritten *= 512_000 / 1e9),
    TIB_UNDER_TB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten /= 1.099511627776)),
    TB_UNDER_TIB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten *= 1.099511627776)),
    UNITS_UNDER_MB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten *= 1e6 / 512_000)),
    MB_FOR_UNITS(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten *= 512_000 / 1e6)),
    GIB_UNDER_GB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.last().bytesWritten /= 1.073741824)),
    DIGIT_MISSING_BETWEEN(Scope.DRIVE, (fleet, random) -> before(one(fleet)).bytesWritten /= 10),
    DIGIT_MISSING_LAST(Scope.DRIVE, (fleet, random) -> one(fleet).last().bytesWritten /= 10),
    DIGIT_ADDED_BETWEEN(Scope.DRIVE, (fleet, random) -> before(one(fleet)).bytesWritten *= 10),
    DIGIT_ADDED_LAST(Scope.DRIVE, (fleet, random) -> one(fleet).last().bytesWritten *= 10),
    LAST_A_LITTLE_LOWER(Scope.DRIVE, (fleet, random) -> after(one(fleet), 60, r -> r.bytesWritten -= 2_560_000)),
    LAST_LOWER_BY_A_FEW_PERCENT(Scope.DRIVE, (fleet, random) -> after(one(fleet), 86_400, r -> r.bytesWritten *= 0.9 + 0.09 * random.nextDouble())),
    ROUNDED_THEN_EXACT(Scope.DRIVE, (fleet, random) -> {
        Report exact = one(fleet).last();
        after(one(fleet), 3_600, r -> { });
        exact.bytesWritten = Math.ceil(exact.bytesWritten / 1e11) * 1e11;
    }),
    DATED_A_QUARTER_EARLY(Scope.DRIVE, (fleet, random) -> shift(one(fleet).last(), -89)),
    DATED_A_YEAR_LATE(Scope.DRIVE, (fleet, random) -> shift(one(fleet).last(), 365)),
    READ_AND_WRITTEN_EXCHANGED(Scope.FLEET, TrueDrive.Fields.ALL, (fleet, random) -> all(fleet, d -> {
        double written = d.last().bytesWritten;
        d.last().bytesWritten = d.last().bytesRead;
        d.last().bytesRead = written;
    })),
    CAPACITY_DOUBLED_LAST(Scope.DRIVE, (fleet, random) -> one(fleet).last().capacityBytes *= 2),
    CAPACITY_MB_AS_GB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.reports.forEach(r -> r.capacityBytes = r.capacityBytes / 1024 / 1024 * 1_000_000_000L))),
    CAPACITY_GB_AS_TB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.reports.forEach(r -> r.capacityBytes *= 1000))),
    CAPACITY_GB_AS_GIB(Scope.FLEET, (fleet, random) -> all(fleet, d -> d.reports.forEach(r -> r.capacityBytes = (long) (r.capacityBytes * 1.073741824)))),
    RESET_WITH_HOURS(Scope.RESET, TrueDrive.Fields.ALL, (fleet, random) -> reset(fleet)),
    RESET_WITHOUT_HOURS(Scope.RESET, (fleet, random) -> reset(fleet)),
    /** Drives whose totals lie far apart: of two that are alike nobody could tell. */
    TWO_DRIVES_EXCHANGED(Scope.PAIR, (fleet, random) -> {
        Report a = fleet.get(0).last();
        Report b = fleet.get(1).last();
        double written = a.bytesWritten;
        double used = a.used;
        a.bytesWritten = b.bytesWritten;
        a.used = b.used;
        b.bytesWritten = written;
        b.used = used;
        double hours = a.hours;
        a.hours = b.hours;
        b.hours = hours;
    }),
    STALE_COPY_LAST(Scope.DRIVE, (fleet, random) -> {
        Report first = one(fleet).reports.get(0);
        Report last = one(fleet).last();
        last.bytesWritten = first.bytesWritten;
        last.used = first.used;
        last.hours = first.hours;
        last.cycles = first.cycles;
        last.commands = first.commands;
    }),
    WRITES_SINCE_LAST_FOR_TOTALS(Scope.FLEET, (fleet, random) -> all(fleet, d -> {
        for (int i = d.reports.size() - 1; i > 0; i--) {
            d.reports.get(i).bytesWritten -= d.reports.get(i - 1).bytesWritten;
        }
    })),
    REMAINING_FOR_USED_LAST(Scope.FLEET, TrueDrive.Fields.WITH_USED, (fleet, random) -> all(fleet, d -> d.last().used = Math.max(0, 100 - Math.floor(d.last().used)))),
    FOUR_TB_WITHIN_A_SECOND(Scope.DRIVE, (fleet, random) -> after(one(fleet), 1, r -> r.bytesWritten += 4e12)),
    HOURS_IN_MINUTES_LAST(Scope.FLEET, TrueDrive.Fields.ALL, (fleet, random) -> all(fleet, d -> d.last().hours *= 60));

    /** Whose truth it changes: the last two change what the counters say, not what was written. */
    enum Scope { DRIVE, PAIR, FLEET, RESET }

    private interface Planting {
        void into(List<TrueDrive> fleet, SplittableRandom random);
    }

    final Scope scope;
    /** What the reports must hold for it to be possible; {@code null} for anything. */
    final TrueDrive.Fields fields;
    private final Planting planting;

    Slip(Scope scope, Planting planting) {
        this(scope, null, planting);
    }

    Slip(Scope scope, TrueDrive.Fields fields, Planting planting) {
        this.scope = scope;
        this.fields = fields;
        this.planting = planting;
    }

    void plant(List<TrueDrive> fleet, SplittableRandom random) {
        planting.into(fleet, random);
    }

    private static TrueDrive one(List<TrueDrive> fleet) {
        return fleet.get(0);
    }

    private static void all(List<TrueDrive> fleet, Consumer<TrueDrive> change) {
        fleet.forEach(change);
    }

    private static Report before(TrueDrive drive) {
        return drive.reports.get(drive.reports.size() - 2);
    }

    private static void shift(Report report, int days) {
        report.at = report.at.plus(Duration.ofDays(days));
    }

    /** One report more, so many seconds after the last and otherwise like it. */
    private static void after(TrueDrive drive, long seconds, Consumer<Report> change) {
        Report last = drive.last();
        Report more = new Report();
        more.at = last.at.plusSeconds(seconds);
        more.file = last.file;
        more.bytesWritten = last.bytesWritten;
        more.bytesRead = last.bytesRead;
        more.hours = last.hours;
        more.cycles = last.cycles;
        more.commands = last.commands;
        more.used = last.used;
        more.capacityBytes = last.capacityBytes;
        change.accept(more);
        drive.reports.add(more);
    }

    /** The drive's counters begin anew just after the last report but one. */
    private static void reset(List<TrueDrive> fleet) {
        TrueDrive drive = one(fleet);
        Report last = drive.last();
        Report before = before(drive);
        last.bytesWritten = last.bytesWritten - before.bytesWritten;
        last.bytesRead = last.bytesRead - before.bytesRead;
        last.hours = last.hours - before.hours;
        last.cycles = last.cycles - before.cycles;
        last.commands = last.commands - before.commands;
        last.used = last.used - before.used;
    }
}
