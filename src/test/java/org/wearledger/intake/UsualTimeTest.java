package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.function.Supplier;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The quick way says what the general parsers of {@code java.time} say. */
class UsualTimeTest {
    private static <T> T orNull(Supplier<T> parsed) {
        try {
            return parsed.get();
        } catch (DateTimeException e) {
            return null;
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"2025-01-06T09:30:00Z", "2025-01-06T09:30:00+01:00", "2025-01-06T00:15:59-11:45", "1969-12-31T23:59:59Z", "0000-02-29T00:00:00Z",
        "2024-02-29T12:00:00Z", "2025-02-29T12:00:00Z", "2025-13-01T12:00:00Z", "2025-00-10T12:00:00Z", "2025-04-31T12:00:00Z", "2025-01-06T24:00:00Z",
        "2025-01-06T09:60:00Z", "2025-01-06T09:30:60Z", "2025-01-06 09:30:00Z", "2025-01-06t09:30:00z", "2025-01-06T09:30:00", "2025-01-06T09:30:00+18:00",
        "2025-01-06T09:30:00+18:01", "2025-01-06T09:30:00+17:60", "2025-01-06T09:30:00 01:00", "2025-01-06T09:30:00.25Z", "2025-01-06T09:30Z", "+12025-01-06T09:30:00Z",
        "2025/01/06T09:30:00Z", "20250106T093000Z", "\u0662025-01-06T09:30:00Z", "-025-01-06T09:30:00Z", "", "nonsense that has the length"})
    void asTheGeneralParserSays(String text) {
        assertThat(UsualTime.instant(text)).isEqualTo(orNull(() -> OffsetDateTime.parse(text).toInstant()));
    }

    @ParameterizedTest
    @ValueSource(strings = {"2025-01-06", "2024-02-29", "2025-02-29", "0000-01-01", "2025-1-06", "20250106", "2025-01-06Z", "06.01.2025", "2025/01/06", "-025-01-06",
        "2025-01-0\u0661", ""})
    void datesToo(String text) {
        assertThat(UsualTime.date(text)).isEqualTo(orNull(() -> LocalDate.parse(text)));
    }
}
