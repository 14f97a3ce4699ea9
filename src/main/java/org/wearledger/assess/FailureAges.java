package org.wearledger.assess;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import org.wearledger.assess.FailureRecords.Observed;
import org.wearledger.model.Failures;
import org.wearledger.model.Failures.Cause;
import org.wearledger.model.Failures.Incidence;
import org.wearledger.model.Interval;
import org.wearledger.model.SeenDrive;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.CumulativeIncidence;
import org.wearledger.stats.CumulativeIncidence.Subject;

/**
 * The share of drives that failed, by cause and by age. The age is power-on time: nearly every report has it, while the day on which a drive went into
 * service is seldom known. Between reports hours are taken at the drive's own pace, that of the fleet where it has none.
 */
final class FailureAges {
    private static final double CONFIDENCE = 0.95;
    /** Of fewer the normal form says too little: of none that the share is 0 for certain. */
    private static final int LEAST_FOR_INTERVAL = 5;
    private static final double[] AGES = {1_000, 2_000, 5_000, 10_000, 15_000, 20_000, 30_000, 40_000, 50_000};

    private FailureAges() {
    }

    /** By cause, then by age, as far as drives failed; empty for fewer than {@value Failures#LEAST} failures. */
    static List<Incidence> incidences(Collection<Observed> observed) {
        double pace = observed.stream().mapToDouble(drive -> pace(drive.drive())).filter(own -> own > 0).sorted().average().orElse(0);
        List<Subject> subjects = observed.stream().filter(drive -> drive.drive().firstHours() != null && drive.drive().lastHours() != null).map(drive -> subject(drive, pace))
            .filter(subject -> subject != null).toList();
        double start = start(subjects);
        List<Subject> counted = subjects.stream().filter(subject -> subject.exit() > start)
            .map(subject -> new Subject(Math.max(start, subject.entry()), subject.exit(), subject.cause())).toList();
        CumulativeIncidence incidence = CumulativeIncidence.of(counted, Cause.values().length);
        if (incidence.ends(0) < Failures.LEAST) {
            return List.of();
        }
        double last = incidence.ages()[incidence.ages().length - 1];
        List<Incidence> incidences = new ArrayList<>();
        for (Cause cause : Cause.values()) {
            int number = cause.ordinal() + 1;
            Arrays.stream(AGES).filter(age -> age > start && age <= last).forEach(age -> {
                CumulativeIncidence.Estimate estimate = incidence.incidence(number, age);
                Bounds bounds = estimate.bounds(CONFIDENCE);
                int failures = (int) counted.stream().filter(subject -> subject.cause() == number && subject.exit() <= age).count();
                incidences.add(new Incidence(cause, start, age, failures, estimate.probability(),
                    failures < LEAST_FOR_INTERVAL ? null : new Interval(bounds.low(), bounds.high())));
            });
        }
        return incidences;
    }

    /** Hours a day; 0 when it tells none. */
    private static double pace(SeenDrive drive) {
        long days = ChronoUnit.DAYS.between(drive.first(), drive.last());
        return drive.firstHours() == null || drive.lastHours() == null || days <= 0 ? 0 : Math.max(0, (double) (drive.lastHours() - drive.firstHours()) / days);
    }

    private static Subject subject(Observed observed, double paceOfAll) {
        SeenDrive drive = observed.drive();
        double pace = pace(drive) > 0 ? pace(drive) : paceOfAll;
        double entry = drive.firstHours() + pace * ChronoUnit.DAYS.between(drive.first(), observed.entry());
        double exit = Math.max(drive.firstHours(), drive.lastHours()) + pace * ChronoUnit.DAYS.between(drive.last(), observed.exit());
        return entry < exit ? new Subject(entry, exit, observed.cause() == null ? 0 : observed.cause().ordinal() + 1) : null;
    }

    /** The age from which as many drives are under observation as failures are asked for: before it a few would decide the curve. */
    private static double start(List<Subject> subjects) {
        double[] entries = subjects.stream().mapToDouble(Subject::entry).sorted().toArray();
        double[] exits = subjects.stream().mapToDouble(Subject::exit).sorted().toArray();
        int left = 0;
        for (int entered = 1; entered <= entries.length; entered++) {
            while (exits[left] < entries[entered - 1]) {
                left++;
            }
            if (entered - left >= Failures.LEAST) {
                return Math.max(0, entries[entered - 1]);
            }
        }
        return Double.POSITIVE_INFINITY;
    }
}
