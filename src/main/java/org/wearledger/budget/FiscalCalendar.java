package org.wearledger.budget;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/** Quarters of a fiscal year that starts on the first of a month, 1 to 12. It is named by the year in which it ends. */
record FiscalCalendar(int startMonth) {
    private static final int MONTHS_PER_QUARTER = 3;
    private static final int MONTHS_PER_YEAR = 12;

    FiscalCalendar {
        if (startMonth < 1 || startMonth > MONTHS_PER_YEAR) {
            throw new IllegalArgumentException("a month lies from 1 to 12, not " + startMonth);
        }
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
        int year = yearStart.plusYears(1).minusDays(1).getYear();
        return new Quarter((startMonth == 1 ? "" : "FY") + year, "Q" + (number + 1), from, from.plusMonths(MONTHS_PER_QUARTER).minusDays(1));
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
