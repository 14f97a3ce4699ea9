package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.Limits;
import org.wearledger.history.Sample;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Interval;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Rating;
import org.wearledger.model.Reading;
import org.wearledger.model.Repair;
import org.wearledger.model.RepairSummary.DeadDrives;
import org.wearledger.model.SweepSettings;

class DeadDriveWearTest {
    private static final LocalDate DAY = LocalDate.of(2025, 1, 10);
    private static final int RATED = 150;
    private static final Ratings RATINGS = Ratings.of(List.of(new Rating(Sample.MODEL, BigDecimal.valueOf(500), BigDecimal.valueOf(RATED), null, "data sheet", null)));

    private final List<Repair> repairs = new ArrayList<>();
    private final Map<Repair, DriveId> driveOf = new HashMap<>();
    private final Map<DriveId, DriveAssessment> assessments = new HashMap<>();

    private void died(LocalDate on, Sample... read) {
        String number = "" + repairs.size();
        Repair repair = new Repair(number, "PC-" + number, null, null, on, Repair.Reason.DEAD_DRIVE, null, null);
        repairs.add(repair);
        if (read.length > 0) {
            List<Reading> readings = java.util.Arrays.stream(read).map(sample -> sample.serial("S-10" + number).reading()).toList();
            DriveId id = readings.get(0).drive().id();
            driveOf.put(repair, id);
            assessments.put(id, new DriveAssessor(DriveHistories.build(id, readings, new Limits(Instant.parse("2026-01-01T00:00:00Z"), null)).history(), RATINGS, false, null)
                .assess(null, DAY, SweepSettings.withDefaults().with(ProjectionMethod.STRAIGHT_LINE)));
        }
    }

    private DeadDrives share() {
        return DeadDriveWear.of(repairs, driveOf, assessments);
    }

    /** R: {@code binom.test(2, 5)$conf.int} begins at 0.0527, {@code binom.test(4, 5)$conf.int} ends at 0.9949. */
    @Test
    void whatWasNotReadCountsBothWays() {
        died(DAY, Sample.at("2025-01-06").terabytes(160));
        died(DAY, Sample.at("2025-01-06").terabytes(20).used(100));
        died(DAY, Sample.at("2025-01-06").terabytes(20));
        died(DAY);
        died(DAY);
        repairs.add(new Repair("0", "pc-0", null, null, DAY, Repair.Reason.DEAD_DRIVE, "board", null));
        DeadDrives dead = share();
        assertThat(new int[] {dead.dead(), dead.read(), dead.worn()}).containsExactly(5, 3, 2);
        assertThat(String.format(Locale.ROOT, "%.4f %.4f", dead.share().low(), dead.share().high())).isEqualTo("0.0527 0.9949");
    }

    /** 140 TB, 0.2 TB a day, 60 days before it died: 152 of 150. */
    @Test
    void aDriveWritesOnAfterItsLastReport() {
        died(LocalDate.of(2025, 3, 7), Sample.at("2024-11-17").terabytes(130), Sample.at("2025-01-06").terabytes(140));
        assertThat(share().worn()).isEqualTo(1);
    }

    @Test
    void withoutDeadDrivesThereIsNoShare() {
        assertThat(share()).isEqualTo(new DeadDrives(0, 0, 0, null));
    }

    /** A fifth were worn when they died; those are read half as often as the others, and the last report is up to a year old. */
    @Test
    void theStatedIntervalHoldsTheTruth() {
        int held = 0;
        for (int seed = 1; seed <= 20; seed++) {
            DeadDriveWearTest chain = new DeadDriveWearTest();
            double truth = chain.draw(new Random(seed), 300);
            Interval stated = chain.share().share();
            held += stated.low() <= truth && truth <= stated.high() ? 1 : 0;
            System.out.printf(Locale.ROOT, "dead drives that were worn, seed %2d: true %4.1f %%, stated %4.1f to %4.1f %%, read %d of %d%n", seed, 100 * truth, 100 * stated.low(),
                100 * stated.high(), chain.share().read(), chain.share().dead());
        }
        assertThat(held).isGreaterThanOrEqualTo(18);
    }

    /** The true share of those drawn. */
    private double draw(Random random, int drives) {
        int worn = 0;
        for (int i = 0; i < drives; i++) {
            double rate = 0.05 * Math.exp(0.8 * random.nextGaussian());
            boolean isWorn = random.nextDouble() < 0.2;
            double atDeath = RATED * (isWorn ? 1 + 0.3 * random.nextDouble() : random.nextDouble());
            worn += isWorn ? 1 : 0;
            LocalDate on = DAY.minusDays(random.nextInt(700));
            if (random.nextDouble() < (isWorn ? 0.4 : 0.8)) {
                long before = random.nextInt(365);
                double writtenSince = Math.min(rate * before * (0.5 + random.nextDouble()), 0.9 * atDeath);
                String read = on.minusDays(before).atStartOfDay().toInstant(ZoneOffset.UTC).toString();
                died(on, Sample.at(read).terabytes(atDeath - writtenSince).hours(Math.round((atDeath - writtenSince) / rate * 6)));
            } else {
                died(on);
            }
        }
        return (double) worn / drives;
    }
}
