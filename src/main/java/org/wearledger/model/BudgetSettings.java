package org.wearledger.model;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * What a user may set of the budget.
 *
 * @param quarters fiscal quarters planned, the one of the as-of date first
 * @param fiscalYearStartMonth 1 to 12
 * @param installSlotDays from delivery to the day of installation
 * @param plannedProbability a socketed drive is planned for the day by which it crosses with this probability
 * @param plannedProbabilitySoldered the same for a soldered one: lower, hence earlier, because it takes the machine with it
 * @param failuresPerMachineYear random failures to allow for, which no wear figure foretells
 * @param failuresFrom where that rate comes from
 * @param costOfShort extra cost of each replacement that is not in stock when needed; {@code null} when not given
 * @param costOfSpare cost of each one bought too early; {@code null} when not given
 * @param unplanned what an unplanned replacement costs beyond a planned one
 * @param money assumptions about money
 */
public record BudgetSettings(int quarters, int fiscalYearStartMonth, int installSlotDays, double plannedProbability,
                             double plannedProbabilitySoldered, double failuresPerMachineYear, RateSource failuresFrom, BigDecimal costOfShort,
                             BigDecimal costOfSpare, Unplanned unplanned, MoneySettings money) implements Serializable {
    /**
     * Studies of large fleets saw from 0.3 % to 3.8 % of drives a year fail, by model, about 1 % in the middle (Han et al.,
     * FAST 2021; Lu et al., ATC 2022; figures at second hand).
     */
    public static final double DEFAULT_FAILURES_PER_MACHINE_YEAR = 0.01;
    private static final int QUARTERS_PER_YEAR = 4;
    private static final double LEAST_RATE = 0.001;

    /** Where the rate of random failures comes from. */
    public enum RateSource {
        /** Nobody said: {@link #DEFAULT_FAILURES_PER_MACHINE_YEAR}. */
        ASSUMED,
        /** The user set it. */
        GIVEN,
        /** The owner's own repairs and reports tell it. */
        LEARNED
    }

    /** With a rate of failures that is assumed. */
    public BudgetSettings(int quarters, int fiscalYearStartMonth, int installSlotDays, double plannedProbability, double plannedProbabilitySoldered,
                          double failuresPerMachineYear, BigDecimal costOfShort, BigDecimal costOfSpare, Unplanned unplanned) {
        this(quarters, fiscalYearStartMonth, installSlotDays, plannedProbability, plannedProbabilitySoldered, failuresPerMachineYear, RateSource.ASSUMED, costOfShort,
            costOfSpare, unplanned, MoneySettings.withDefaults());
    }

    /** The same with this rate of failures, to four decimals as the workbook has it. */
    public BudgetSettings withFailures(double perMachineYear, RateSource source) {
        return new BudgetSettings(quarters, fiscalYearStartMonth, installSlotDays, plannedProbability, plannedProbabilitySoldered,
            BigDecimal.valueOf(perMachineYear).setScale(4, RoundingMode.HALF_UP).doubleValue(), source, costOfShort, costOfSpare, unplanned, money);
    }

    /** How often a drive of this standing is taken to fail while it is put off. */
    public double failuresPerYearOf(Standing standing) {
        return standing == Standing.URGENT ? money.urgentFailuresPerYear() : failuresPerMachineYear;
    }

    /** For so many quarters it is at risk: then it has failed for certain, at that rate; 4,000 at most. */
    public double quartersAtRisk(Standing standing) {
        return QUARTERS_PER_YEAR / Math.max(failuresPerYearOf(standing), LEAST_RATE);
    }

    /** The same with other assumptions about money. */
    public BudgetSettings with(MoneySettings other) {
        return new BudgetSettings(quarters, fiscalYearStartMonth, installSlotDays, plannedProbability, plannedProbabilitySoldered, failuresPerMachineYear, failuresFrom,
            costOfShort, costOfSpare, unplanned, other);
    }

    /**
     * Cost of a drive that fails before it is replaced, beyond that of the replacement.
     *
     * @param downtimeHours a user is without the machine
     * @param costPerHour of that; {@code null} when not given, as are the others
     * @param rushFee for a purchase at once
     * @param recoveryCost of data that were not backed up
     */
    public record Unplanned(BigDecimal downtimeHours, BigDecimal costPerHour, BigDecimal rushFee, BigDecimal recoveryCost)
        implements Serializable {
        /** Nothing given: the cost of waiting stays empty. */
        public static Unplanned unknown() {
            return new Unplanned(null, null, null, null);
        }

        /** Whether any part of it can be worked out; hours without a cost per hour, or the reverse, cannot. */
        public boolean isGiven() {
            return downtimeHours != null && costPerHour != null || rushFee != null || recoveryCost != null;
        }

        /** What is given, added up: hours x cost per hour + rush + recovery. */
        public BigDecimal extra() {
            BigDecimal downtime = downtimeHours == null || costPerHour == null ? BigDecimal.ZERO : downtimeHours.multiply(costPerHour);
            return downtime.add(orZero(rushFee)).add(orZero(recoveryCost)).setScale(2, RoundingMode.HALF_UP);
        }

        private static BigDecimal orZero(BigDecimal value) {
            return value == null ? BigDecimal.ZERO : value;
        }
    }

    /**
     * Eight calendar quarters, 14 days to install, planned at 50 % (soldered 25 %), random failures at 1 % a machine
     * and year.
     */
    public static BudgetSettings withDefaults() {
        return new BudgetSettings(8, 1, 14, 0.5, 0.25, DEFAULT_FAILURES_PER_MACHINE_YEAR, null, null, Unplanned.unknown());
    }
}
