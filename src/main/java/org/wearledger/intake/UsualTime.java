package org.wearledger.intake;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;

/** Dates and times of RFC 3339. Those of the usual form, {@code 2025-01-06T09:30:00Z} or with an offset, take no general parser: millions are read. */
final class UsualTime {
    private static final int DATE = 10;
    private static final int UTC = 20;
    private static final int WITH_OFFSET = 25;
    private static final int LARGEST_OFFSET_HOURS = 17;

    private UsualTime() {
    }

    /** {@code null} when it is none. */
    static LocalDate date(String text) {
        try {
            return text.length() == DATE && isDate(text) ? LocalDate.of(number(text, 0, 4), number(text, 5, 2), number(text, 8, 2)) : LocalDate.parse(text);
        } catch (DateTimeException e) {
            return null;
        }
    }

    /** {@code null} when it is none, or has no offset. */
    static Instant instant(String text) {
        try {
            long seconds = usual(text);
            return seconds != Long.MIN_VALUE ? Instant.ofEpochSecond(seconds) : OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeException e) {
            return null;
        }
    }

    /** Seconds since 1970; the least {@code long} for another form. */
    private static long usual(String text) {
        boolean utc = text.length() == UTC && text.charAt(UTC - 1) == 'Z';
        if (!utc && text.length() != WITH_OFFSET || !isDate(text) || text.charAt(10) != 'T' || text.charAt(13) != ':' || text.charAt(16) != ':') {
            return Long.MIN_VALUE;
        }
        int hours = number(text, 11, 2);
        int minutes = number(text, 14, 2);
        int seconds = number(text, 17, 2);
        int day = number(text, 8, 2);
        int offset = utc ? 0 : offset(text);
        if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59 || seconds < 0 || seconds > 59 || offset == Integer.MIN_VALUE) {
            return Long.MIN_VALUE;
        }
        return LocalDate.of(number(text, 0, 4), number(text, 5, 2), day).toEpochDay() * 86_400 + hours * 3_600L + minutes * 60L + seconds - offset;
    }

    private static int offset(String text) {
        int hours = number(text, 20, 2);
        int minutes = number(text, 23, 2);
        boolean east = text.charAt(19) == '+';
        return !east && text.charAt(19) != '-' || text.charAt(22) != ':' || hours < 0 || hours > LARGEST_OFFSET_HOURS || minutes < 0 || minutes > 59
            ? Integer.MIN_VALUE : (east ? 1 : -1) * (hours * 3_600 + minutes * 60);
    }

    /** Digits and hyphens at the beginning. */
    private static boolean isDate(String text) {
        return text.charAt(4) == '-' && text.charAt(7) == '-' && number(text, 0, 4) >= 0 && number(text, 5, 2) >= 0 && number(text, 8, 2) >= 0;
    }

    /** Below zero when it is no number of so many digits. */
    private static int number(String text, int from, int digits) {
        int number = 0;
        for (int i = from; i < from + digits; i++) {
            int digit = text.charAt(i) - '0';
            if (digit < 0 || digit > 9) {
                return -1;
            }
            number = 10 * number + digit;
        }
        return number;
    }
}
