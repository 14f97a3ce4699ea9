package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.wearledger.model.DriveId;
import org.wearledger.model.Failures;
import org.wearledger.model.Failures.Basis;
import org.wearledger.model.Failures.Cause;
import org.wearledger.model.Interval;
import org.wearledger.model.Rating;
import org.wearledger.model.Repair;
import org.wearledger.model.Repair.Reason;
import org.wearledger.model.SeenDrive;

class FailureRecordsTest {
    private static final LocalDate FROM = LocalDate.of(2022, 1, 1);
    private static final LocalDate UNTIL = LocalDate.of(2025, 1, 6);
    private static final double HOURS_PER_DAY = 6;
    private static final double DAYS_PER_YEAR = 365.25;

    private final List<SeenDrive> seen = new ArrayList<>();
    private final Map<Repair, DriveId> driveOf = new HashMap<>();

    private void drive(String model, LocalDate first, LocalDate last, double ageDays, Reason end, LocalDate on) {
        String serial = "S-" + seen.size();
        DriveId id = DriveId.of(model, serial);
        long days = java.time.temporal.ChronoUnit.DAYS.between(first, last);
        seen.add(new SeenDrive(id, first, last, Math.round(ageDays * HOURS_PER_DAY), Math.round((ageDays + days) * HOURS_PER_DAY)));
        if (end != null) {
            driveOf.put(new Repair("R-" + serial, "PC-" + serial, null, null, on, end, null, null), id);
        }
    }

    private Failures failures(List<Rating> ratings) {
        return new FailureRecords(FROM, UNTIL, driveOf, Map.of()).of(seen, 45, ratings, List.of(List.of(DriveId.of("Steady S1", "S-0"))));
    }

    private static Rating inField(String model, Long drives) {
        return new Rating(model, BigDecimal.valueOf(500), BigDecimal.valueOf(300), null, "data sheet", null, drives);
    }

    /** A drive fails at a constant rate, that of its model, and is seen by quarters from one of twelve on. */
    private static FailureRecordsTest fleet(Random random, double steadyRate, double frailRate) {
        FailureRecordsTest fleet = new FailureRecordsTest();
        for (int i = 0; i < 1_600; i++) {
            boolean steady = i < 1_000;
            LocalDate first = FROM.plusDays(random.nextInt(900));
            double age = 200 + random.nextInt(1_000);
            double life = -Math.log(random.nextDouble()) / (steady ? steadyRate : frailRate) * DAYS_PER_YEAR;
            double sold = random.nextDouble() < 0.2 ? random.nextInt(1_500) : 1e9;
            LocalDate end = first.plusDays((long) Math.min(40_000, Math.min(life, sold)));
            LocalDate last = end.isBefore(UNTIL) ? first.plusDays(java.time.temporal.ChronoUnit.DAYS.between(first, end) / 91 * 91) : UNTIL.minusDays(random.nextInt(40));
            fleet.drive(steady ? "Steady S1" : "Frail F1", first, last.isBefore(first) ? first : last, age, end.isAfter(UNTIL) ? null : sold < life ? Reason.SOLD : Reason.DEAD_DRIVE, end);
        }
        return fleet;
    }

    /** Of 40 intervals of 95 % one in a thousand sets holds fewer than 33, by R's {@code qbinom(1e-3, 40, .95)}. 3,000 such fleets drawn in NumPy gave 94 %. */
    @Test
    void ratesHoldTheTruth() {
        int rates = 0;
        for (int seed = 1; seed <= 20; seed++) {
            Failures failures = fleet(new Random(seed), 0.01, 0.05).failures(List.of());
            assertThat(failures.basis()).isEqualTo(Basis.FOLLOWED);
            Interval frail = failures.models().get(0).perYear95();
            Interval steady = failures.models().get(1).perYear95();
            rates += holds(frail, 0.05) + holds(steady, 0.01);
            assertThat(failures.perMachineYear()).isEqualTo(failures.models().get(1).perYear());
            System.out.printf(Locale.ROOT, "failures without wear, seed %2d: %d in %.0f drive years; true 1 %% a year, stated %.2f to %.2f; true 5 %%, stated %.2f to %.2f%n", seed,
                failures.failures(), failures.driveYears(), 100 * steady.low(), 100 * steady.high(), 100 * frail.low(), 100 * frail.high());
        }
        System.out.println("failures without wear: " + rates + " of 40 intervals hold the true rate");
        assertThat(rates).isGreaterThanOrEqualTo(33);
    }

    /**
     * At 3 % a year 1 - exp(-0.03 t) fail within t years; each age of each of 20 fleets is one case. Both ages of
     * a fleet rest on the same failures. 2,000 such fleets drawn in NumPy, with the product limit and the interval of R's {@code survfit(conf.type = "log-log")}, held 92 and 93 %;
     * one in a thousand sets of 20 fleets held fewer than 29 of 40.
     */
    @Test
    void agesHoldTheTruth() {
        int held = 0;
        int all = 0;
        for (int seed = 1; seed <= 20; seed++) {
            for (Failures.Incidence incidence : fleet(new Random(seed), 0.03, 0.03).failures(List.of()).incidences()) {
                if (incidence.cause() == Cause.DEAD_NOT_WORN && incidence.probability95() != null) {
                    held += holds(incidence.probability95(), 1 - Math.exp(-0.03 * (incidence.powerOnHours() - incidence.fromHours()) / HOURS_PER_DAY / DAYS_PER_YEAR));
                    all++;
                }
            }
        }
        System.out.printf(Locale.ROOT, "failures without wear: share by age within its 95 %% interval in %d of %d cases%n", held, all);
        assertThat(held).isGreaterThanOrEqualTo(29);
        assertThat(all).isEqualTo(40);
    }

    private static int holds(Interval interval, double truth) {
        return interval.low() <= truth && truth <= interval.high() ? 1 : 0;
    }

    /** 20 fail in 365.25 days each, 80 stay in use; one that came in dead on its first day is no part of it. */
    @Test
    void aRateIsFailuresOverDriveYears() {
        LocalDate first = LocalDate.of(2023, 1, 6);
        for (int i = 0; i < 100; i++) {
            drive("Steady S1", first, UNTIL, 300, i < 20 ? Reason.DEAD_DRIVE : null, LocalDate.of(2024, 1, 6));
        }
        drive("Steady S1", first, first, 300, Reason.DEAD_DRIVE, first);
        Failures failures = failures(List.of());
        assertThat(failures.failures()).isEqualTo(20);
        assertThat(failures.driveYears()).isCloseTo((20 * 365 + 80 * 731) / DAYS_PER_YEAR, within(1e-9));
        assertThat(failures.models()).singleElement().satisfies(model -> assertThat(model.perYear()).isCloseTo(20 * DAYS_PER_YEAR / (20 * 365 + 80 * 731), within(1e-9)));
    }

    @Test
    void fewFailuresTeachNothing() {
        for (int i = 0; i < 100; i++) {
            drive("Steady S1", FROM, UNTIL, 300, i < 19 ? Reason.DEAD_DRIVE : i < 60 ? Reason.SUPPLY_CIRCUIT : null, LocalDate.of(2024, 1, 6));
        }
        assertThat(failures(List.of()).basis()).isEqualTo(Basis.TOO_FEW);
        assertThat(failures(List.of()).isLearned()).isFalse();
    }

    /** Who comes in once tells nothing of those who do not; the number in the field does. */
    @Test
    void aShopNeedsTheNumberInTheField() {
        for (int i = 0; i < 60; i++) {
            drive("Steady S1", LocalDate.of(2023, 1, 6), LocalDate.of(2023, 1, 6), 300, i < 30 ? Reason.DEAD_DRIVE : null, LocalDate.of(2024, 1, 6));
        }
        assertThat(failures(List.of()).basis()).isEqualTo(Basis.NOT_FOLLOWED);
        Failures failures = failures(List.of(inField("steady s1", 1_000L), inField("Frail F1", null)));
        assertThat(failures.basis()).isEqualTo(Basis.IN_FIELD);
        assertThat(failures.models()).singleElement().satisfies(model -> assertThat(model.perYear()).isCloseTo(30 / (1_000 * 1_102 / DAYS_PER_YEAR), within(1e-9)));
    }
}
