package org.wearledger.budget;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.BudgetSettings;

/**
 * Quarters of a fiscal year that starts on the first of a month, 1 to 12.
 *
 * @param yearName as {@link org.wearledger.model.MoneySettings} has it; {@code null} names it by the year in which it ends
 */
record FiscalCalendar(int startMonth, String yearName) {
    private static final int MONTHS_PER_QUARTER = 3;
    private static final int MONTHS_PER_YEAR = 12;
    private static final int CENTURY = 100;

    FiscalCalendar {
        if (startMonth < 1 || startMonth > MONTHS_PER_YEAR) {
            throw new IllegalArgumentException("a month lies from 1 to 12, not " + startMonth);
        }
    }

    FiscalCalendar(int startMonth) {
        this(startMonth, null);
    }

    static FiscalCalendar of(BudgetSettings settings) {
        return new FiscalCalendar(settings.fiscalYearStartMonth(), settings.money().yearName());
    }

    /** @param year {@code 2025} for calendar years, {@code FY2025} for others; with the name the label {@code FY2025-Q1} */
    record Quarter(String year, String name, LocalDate from, LocalDate until) {
        String label() {
            return year + "-" + name;
        }

        boolean contains(LocalDate date) {
            return !date.isBefore(from) && !date.isAfter(until);
        }
    }

    Quarter of(LocalDate date) {
        int monthOfYear = Math.floorMod(date.getMonthValue() - startMonth, MONTHS_PER_YEAR);
        int number = monthOfYear / MONTHS_PER_QUARTER;
        LocalDate from = date.withDayOfMonth(1).minusMonths(monthOfYear % MONTHS_PER_QUARTER);
        LocalDate yearStart = from.minusMonths((long) number * MONTHS_PER_QUARTER);
        return new Quarter(name(yearStart.getYear(), yearStart.plusYears(1).minusDays(1).getYear()), "Q" + (number + 1), from, from.plusMonths(MONTHS_PER_QUARTER).minusDays(1));
    }

    private String name(int start, int end) {
        return yearName == null ? (startMonth == 1 ? "" : "FY") + end
            : yearName.replace("{start2}", twoDigits(start)).replace("{end2}", twoDigits(end)).replace("{start}", "" + start).replace("{end}", "" + end);
    }

    private static String twoDigits(int year) {
        return String.format("%02d", year % CENTURY);
    }

    /** The quarter of the date and those after it. */
    List<Quarter> from(LocalDate date, int quarters) {
        List<Quarter> all = new ArrayList<>();
        Quarter next = of(date);
        for (int i = 0; i < quarters; i++) {
            all.add(next);
            next = of(next.until().plusDays(1));
        }
        return all;
    }
}
