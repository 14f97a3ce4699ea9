package org.wearledger.assess;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** A drive whose writes are known, and what its reports say each quarter: mutable, so that a slip can be planted. */
final class TrueDrive {
    /** What reports hold: all counters; what a plain mapping gives; bytes written alone. */
    enum Fields { ALL, WITH_USED, BYTES_ONLY }

    private static final int[] CAPACITIES = {256, 512, 1000};
    private static final long FIRST = Instant.parse("2023-01-05T09:00:00Z").getEpochSecond();
    private static final double DAYS_PER_QUARTER = 91.3125;
    private static final double BYTES_PER_UNIT = 512_000;

    /** One report; {@code null} for what it leaves out. */
    static final class Report {
        Instant at;
        String file;
        double bytesWritten;
        double bytesRead;
        double hours;
        double cycles;
        double commands;
        double used;
        long capacityBytes;
    }

    final int number;
    final Fields fields;
    final List<Report> reports = new ArrayList<>();
    double ratedBytes;

    private TrueDrive(int number, Fields fields) {
        this.number = number;
        this.fields = fields;
    }

    /** Writes at a rate of its own (log-normal), each quarter by a gamma step; now and then the user changes, or it lies on the shelf. */
    static TrueDrive drawn(int number, int quarters, Fields fields, SplittableRandom random) {
        TrueDrive drive = new TrueDrive(number, fields);
        int gigabytes = CAPACITIES[random.nextInt(CAPACITIES.length)];
        drive.ratedBytes = gigabytes * 0.6e12;
        double age = 0.3 + 6 * random.nextDouble();
        double bytesPerDay = 0.03 * gigabytes * 1e9 * Math.exp(random.nextGaussian());
        double hoursPerDay = 3 + 6 * random.nextDouble();
        double meanCommand = 16e3 + 40e3 * random.nextDouble();
        double endurance = drive.ratedBytes * (0.7 + 2 * random.nextDouble());
        Report now = new Report();
        now.bytesWritten = bytesPerDay * age * 365;
        now.bytesRead = now.bytesWritten * (0.6 + 1.2 * random.nextDouble());
        now.hours = hoursPerDay * age * 365;
        now.cycles = age * 500;
        for (int quarter = 0; quarter < quarters; quarter++) {
            double days = DAYS_PER_QUARTER;
            if (quarter > 0) {
                bytesPerDay *= random.nextDouble() < 0.03 ? random.nextBoolean() ? 3 : 1 / 3.0 : 1;
                boolean shelf = random.nextDouble() < 0.02;
                double step = shelf ? 0 : bytesPerDay * days * gamma(random, 8);
                now.bytesWritten += step;
                now.bytesRead += step * 1.1;
                now.hours += shelf ? 0 : hoursPerDay * days;
                now.cycles += shelf ? 0 : 1.4 * days;
            }
            if (quarter > 0 && quarter < quarters - 1 && random.nextDouble() < 0.04) {
                continue;
            }
            Report report = new Report();
            report.at = Instant.ofEpochSecond(FIRST + (long) (quarter * DAYS_PER_QUARTER * 86_400)).plus(number % 50, ChronoUnit.HOURS);
            report.file = "quarter-" + quarter + ".csv";
            report.bytesWritten = now.bytesWritten;
            report.bytesRead = now.bytesRead;
            report.hours = now.hours;
            report.cycles = now.cycles;
            report.commands = now.bytesWritten / meanCommand;
            report.used = 100 * now.bytesWritten / endurance;
            report.capacityBytes = gigabytes * 1_000_000_000L;
            drive.reports.add(report);
        }
        return drive;
    }

    /** Mean 1, of a whole shape: a sum of exponentials. */
    private static double gamma(SplittableRandom random, int shape) {
        double sum = 0;
        for (int i = 0; i < shape; i++) {
            sum -= Math.log(1 - random.nextDouble());
        }
        return sum / shape;
    }

    Report last() {
        return reports.get(reports.size() - 1);
    }

    List<Reading> readings() {
        return reports.stream().map(this::reading).toList();
    }

    private Reading reading(Report r) {
        boolean all = fields == Fields.ALL;
        Health.Builder health = Health.builder().set(HealthField.PERCENTAGE_USED, fields == Fields.BYTES_ONLY ? null : (Integer) (int) Math.min(255, r.used))
            .set(HealthField.DATA_UNITS_WRITTEN, units(r.bytesWritten));
        if (all) {
            health.set(HealthField.CRITICAL_WARNING, 0).set(HealthField.DATA_UNITS_READ, units(r.bytesRead))
                .set(HealthField.HOST_READ_COMMANDS, (long) (r.bytesRead / 30e3)).set(HealthField.HOST_WRITE_COMMANDS, (long) r.commands)
                .set(HealthField.POWER_CYCLES, (long) r.cycles).set(HealthField.POWER_ON_HOURS, (long) r.hours).set(HealthField.MEDIA_ERRORS, 0);
        }
        return new Reading(SourcePlace.line(r.file, number + 2), r.at, new Machine("PC-" + number, null, null, null, null, null, null, null),
            new Drive("SD" + (100_000 + number), "Tarn T1", null, r.capacityBytes, Attachment.UNKNOWN), health.build());
    }

    static long units(double bytes) {
        return (long) Math.ceil(bytes / BYTES_PER_UNIT);
    }
}
