package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiscalCalendarTest {
    /** A fiscal year is named by the calendar year in which it ends. */
    @ParameterizedTest(name = "year from month {0}: {1} lies in {2}")
    @CsvSource({
        "1,  2025-01-01, 2025-Q1,   2025-01-01, 2025-03-31",
        "1,  2025-12-31, 2025-Q4,   2025-10-01, 2025-12-31",
        "4,  2025-01-06, FY2025-Q4, 2025-01-01, 2025-03-31",
        "4,  2025-03-31, FY2025-Q4, 2025-01-01, 2025-03-31",
        "4,  2025-04-01, FY2026-Q1, 2025-04-01, 2025-06-30",
        "10, 2024-12-31, FY2025-Q1, 2024-10-01, 2024-12-31",
        "2,  2024-02-29, FY2025-Q1, 2024-02-01, 2024-04-30",
        "2,  2025-01-31, FY2025-Q4, 2024-11-01, 2025-01-31",
        "12, 2024-12-01, FY2025-Q1, 2024-12-01, 2025-02-28",
        "12, 2023-12-01, FY2024-Q1, 2023-12-01, 2024-02-29"})
    void quarters(int startMonth, LocalDate day, String label, LocalDate from, LocalDate until) {
        FiscalCalendar.Quarter quarter = new FiscalCalendar(startMonth).of(day);
        assertThat(quarter.label()).isEqualTo(label);
        assertThat(quarter.from()).isEqualTo(from);
        assertThat(quarter.until()).isEqualTo(until);
        assertThat(quarter.contains(day)).isTrue();
    }

    @Test
    void quartersFollowEachOther() {
        assertThat(new FiscalCalendar(4).from(LocalDate.of(2025, 1, 6), 3)).extracting(FiscalCalendar.Quarter::label)
            .containsExactly("FY2025-Q4", "FY2026-Q1", "FY2026-Q2");
    }

    @ParameterizedTest(name = "month {0}")
    @CsvSource({"0", "13"})
    void aYearStartsInOneOfTwelveMonths(int startMonth) {
        assertThatThrownBy(() -> new FiscalCalendar(startMonth)).isInstanceOf(IllegalArgumentException.class)
            .hasMessage("a month lies from 1 to 12, not " + startMonth);
    }
}
