package org.wearledger.simulate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.Reading;
import org.wearledger.simulate.SeededStream.Purpose;

/** One machine of the fleet with the drives that have sat in it, the present one last. */
final class FleetMachine {
    private static final int FEWEST_DAYS_BEFORE = 30;
    private static final int MOST_DAYS_BEFORE = 1100;

    final Workstation workstation;
    private final FleetCourse course;
    private final List<FleetDrive> drives = new ArrayList<>(1);

    FleetMachine(FleetCourse course, int number) {
        this.course = course;
        SeededStream random = course.stream(Purpose.MACHINE, number);
        int memoryGibibytes = random.nextBoolean() ? 8 : 16;
        int daysBefore = FEWEST_DAYS_BEFORE + random.nextInt(MOST_DAYS_BEFORE - FEWEST_DAYS_BEFORE);
        workstation = new Workstation(number, memoryGibibytes, course.sweepDates.get(0).minusDays(daysBefore));
        FleetDrive first = new FleetDrive(course, number, 0, memoryGibibytes, -1);
        first.advanceBeforeFirstSweep(daysBefore);
        drives.add(first);
    }

    List<FleetDrive> drives() {
        return drives;
    }

    private FleetDrive present() {
        return drives.get(drives.size() - 1);
    }

    /** Through the quarter that ends with this sweep; swaps and resets come first, so that reports miss no writes. */
    void advance(int sweep) {
        FleetSettings settings = course.settings;
        int number = workstation.number;
        if (course.stream(Purpose.SWAP, number, sweep).happens(settings.value(FleetSetting.SWAPS))) {
            drives.add(new FleetDrive(course, number, drives.size(), workstation.memoryGibibytes, sweep - 1));
        } else if (course.stream(Purpose.RESET, number, sweep).happens(settings.value(FleetSetting.RESETS))) {
            present().resetCounters();
        }
        present().advance(sweep);
    }

    boolean reports(int sweep) {
        return !course.stream(Purpose.MISSING, workstation.number, sweep).happens(course.settings.value(FleetSetting.MISSING));
    }

    Reading reading(int sweep) {
        LocalDate date = course.sweepDates.get(sweep);
        SeededStream random = course.stream(Purpose.READING, workstation.number, sweep);
        return workstation.reading(random, date, present().drive(workstation.attachment()), () -> present().health(303 + random.nextInt(15)));
    }
}
