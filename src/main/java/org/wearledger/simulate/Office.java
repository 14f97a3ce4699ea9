package org.wearledger.simulate;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.random.RandomGenerator;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Reading;

/**
 * The machines and what each sweep reads from them. The first machines have a part to play, named by the constants; the
 * others differ by memory, drive model and a gamma-distributed write rate.
 */
final class Office {
    static final int FAR_PAST_RATING = 1;
    static final int LIGHT_USE = 2;
    static final int PAST_BY_PERCENTAGE = 3;
    static final int READ_ONLY = 4;
    static final int ERRORS_RISING = 5;
    static final int SPARE_AT_THRESHOLD = 6;
    static final int WITHIN_A_QUARTER = 7;
    static final int WITHIN_A_YEAR = 8;
    static final int WITHIN_A_YEAR_TOO = 9;
    static final int SWAPPED = 10;
    static final int MOVED_FROM = 11;
    static final int MOVED_TO = 12;
    static final int COUNTERS_RESET = 13;
    static final int PLACEHOLDER_SERIAL = 16;
    static final int SERIAL_OWNER = 17;
    static final int SERIAL_BORROWER = 18;
    static final int NEVER_REPORTED = 19;
    static final int STOPPED_REPORTING = 20;
    static final int WITHOUT_PERCENTAGE = 23;
    private static final int LAST_WITH_A_PART = 31;

    private static final double RATE_SHAPE = 2.5;
    private static final int MEDIA_READ_ONLY_BIT = 1 << 3;

    /** Where a drive with a part stands at the last sweep, and how fast it got there. */
    private record Course(DriveModel model, int memoryGibibytes, double terabytesAtEnd, double gigabytesPerDay,
                          long daysInService) {
    }

    private static final Map<Integer, Course> COURSES = Map.of(
        FAR_PAST_RATING, new Course(DriveModel.ONDREL, 8, 278.0, 190, 1463),
        LIGHT_USE, new Course(DriveModel.TESSALY, 16, 5.5, 15, 364),
        PAST_BY_PERCENTAGE, new Course(DriveModel.MORVANE, 8, 158, 92, 1700),
        WITHIN_A_QUARTER, new Course(DriveModel.VELKAN, 8, 146, 75, 1900),
        WITHIN_A_YEAR, new Course(DriveModel.VELKAN, 8, 135, 60, 2100),
        WITHIN_A_YEAR_TOO, new Course(DriveModel.TESSALY, 8, 282, 90, 3000));

    private final RandomGenerator random;
    private final List<LocalDate> sweepDates;
    private final List<Workstation> workstations = new ArrayList<>();

    Office(RandomGenerator random, int machines, List<LocalDate> sweepDates) {
        this.random = random;
        this.sweepDates = sweepDates;
        for (int number = 1; number <= machines; number++) {
            workstations.add(workstation(number));
        }
        at(WITHOUT_PERCENTAGE).drive.hidePercentageUsed();
        at(PLACEHOLDER_SERIAL).drive.setSerial("000000000000");
    }

    static int leastMachines() {
        return LAST_WITH_A_PART;
    }

    List<Workstation> workstations() {
        return workstations;
    }

    private Workstation at(int number) {
        return workstations.get(number - 1);
    }

    private Workstation workstation(int number) {
        LocalDate first = sweepDates.get(0);
        LocalDate last = sweepDates.get(sweepDates.size() - 1);
        Course course = COURSES.get(number);
        if (course != null) {
            LocalDate inServiceOn = last.minusDays(course.daysInService());
            Workstation workstation = new Workstation(number, course.memoryGibibytes(), inServiceOn);
            workstation.drive = drive(course.model(), number, 0, workstation.attachment(), course.gigabytesPerDay())
                .steadyFrom(Math.max(0.01, course.terabytesAtEnd()
                    - course.gigabytesPerDay() * ChronoUnit.DAYS.between(first, last) / 1000));
            workstation.drive.powerOn(Math.max(0, ChronoUnit.DAYS.between(inServiceOn, first)));
            return workstation;
        }
        int memoryGibibytes = number % 2 == 0 ? 16 : 8;
        if (number % 10 == 0) {
            memoryGibibytes = 32;
        }
        int daysBefore = 100 + random.nextInt(1200);
        Workstation workstation = new Workstation(number, memoryGibibytes, first.minusDays(daysBefore));
        // Another step than that of memory sizes and sites, so that all of them mix.
        DriveModel model = DriveModel.ALL.get(number * 7 / 3 % DriveModel.ALL.size());
        workstation.drive = drive(model, number, 0, workstation.attachment(), drawnRate(memoryGibibytes));
        workstation.drive.advance(daysBefore);
        return workstation;
    }

    private SimulatedDrive drive(DriveModel model, int number, int replacement, Attachment attachment, double gigabytesPerDay) {
        String serial = model.name().substring(0, 2).toUpperCase(Locale.ROOT) + (7_300_000 + number * 1_009)
            + (char) ('A' + replacement);
        return new SimulatedDrive(random, model, serial, attachment, gigabytesPerDay);
    }

    /** Small memory swaps: two and a half times the writes of 16 GiB on average, as drawn about three times. */
    private double drawnRate(int memoryGibibytes) {
        double mean = switch (memoryGibibytes) {
            case 8 -> 32;
            case 16 -> 13;
            default -> 11;
        };
        return new GammaDistribution(random, RATE_SHAPE, mean / RATE_SHAPE).sample();
    }

    /** The readings of one sweep by machine number; to be called for each sweep once, in order. */
    Map<Integer, Reading> sweep(int sweep) {
        LocalDate date = sweepDates.get(sweep);
        happen(sweep);
        Map<Integer, Reading> readings = new TreeMap<>();
        for (Workstation workstation : workstations) {
            if (sweep > 0) {
                LocalDate from = sweepDates.get(sweep - 1);
                LocalDate inUseFrom = workstation.inServiceOn.isAfter(from) ? workstation.inServiceOn : from;
                workstation.drive.advance(Math.max(0, ChronoUnit.DAYS.between(inUseFrom, date)));
            }
            Reading reading = reading(workstation, date);
            if (reports(workstation, sweep)) {
                readings.put(workstation.number, reading);
            }
        }
        if (isLast(sweep)) {
            lendSerial(readings);
        }
        return readings;
    }

    private boolean isLast(int sweep) {
        return sweep == sweepDates.size() - 1;
    }

    private boolean reports(Workstation workstation, int sweep) {
        return switch (workstation.number) {
            case NEVER_REPORTED -> false;
            case STOPPED_REPORTING -> !isLast(sweep);
            default -> !workstation.inServiceOn.isAfter(sweepDates.get(sweep));
        };
    }

    private void happen(int sweep) {
        int fromLast = sweepDates.size() - 1 - sweep;
        int spareAboveThreshold = Math.min(90, 6 * fromLast);
        at(SPARE_AT_THRESHOLD).drive.setAvailableSparePercent(DriveHabits.SPARE_THRESHOLD_PERCENT + spareAboveThreshold);
        at(ERRORS_RISING).drive.setMediaErrors(fromLast >= 4 ? 0 : (4 - fromLast) * (5 - fromLast));
        if (fromLast == 0) {
            at(READ_ONLY).drive.setCriticalWarning(MEDIA_READ_ONLY_BIT);
        }
        if (fromLast == 1) {
            at(SWAPPED).drive = drive(DriveModel.BRIGHTFEN, SWAPPED, 1, at(SWAPPED).attachment(), 14);
            at(COUNTERS_RESET).drive.resetCounters();
            at(MOVED_TO).drive = at(MOVED_FROM).drive;
            at(MOVED_FROM).drive = drive(DriveModel.BRIGHTFEN, MOVED_FROM, 1, at(MOVED_FROM).attachment(), 14);
        }
    }

    private Reading reading(Workstation workstation, LocalDate date) {
        return workstation.reading(random, date, workstation.drive.drive(), workstation.drive::health);
    }

    private static void lendSerial(Map<Integer, Reading> readings) {
        Drive lent = readings.get(SERIAL_OWNER).drive();
        readings.computeIfPresent(SERIAL_BORROWER, (number, r) ->
            new Reading(r.source(), r.collectedAt(), r.machine(), lent, r.health()));
    }
}
