package org.wearledger.intake;

import java.io.Serializable;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.time.format.SignStyle;
import java.time.temporal.ChronoField;
import java.time.temporal.TemporalAccessor;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.wearledger.model.Fact;
import org.wearledger.model.Health;
import org.wearledger.model.Problem;

/** How a mapped export writes its dates or times: a pattern of {@link DateTimeFormatter}, or a count since 1970. */
final class DatePattern implements Serializable {
    private record Slip(Pattern pattern, String words) {
    }

    /** A part of a time that a pattern asks for in two digits. */
    private record TwoDigits(String letter, Pattern pattern) {
        static TwoDigits of(String letter) {
            return new TwoDigits(letter, Pattern.compile("(?<!" + letter + ")" + letter + letter + "(?!" + letter + ")"));
        }
    }

    private static final List<TwoDigits> TWO_DIGITS = List.of(TwoDigits.of("d"), TwoDigits.of("M"), TwoDigits.of("H"), TwoDigits.of("h"));

    /** Letters that the formatter takes and that mean something else than whoever writes them thinks. Minutes stand for the month only where no month does. */
    private static final List<Slip> SLIPS = List.of(
        new Slip(Pattern.compile("[DY]"), "D is a day of the year and Y a year of weeks: write dd for the day and yyyy for the year"),
        new Slip(Pattern.compile("^(?=.*d)[^ML]*m[^ML]*$|d[./-]m+[./-]y|y[./-]m+[./-]d|^m+[./-]d"), "mm are minutes: write MM for the month"),
        new Slip(Pattern.compile("[HhKk][:.h]?M"), "MM is the month: write mm for the minutes"),
        new Slip(Pattern.compile("m[:.]?S"), "SS are parts of a second: write ss for the seconds"),
        new Slip(Pattern.compile("^[^a]*[hK][^a]*$"), "hh is an hour of 1 to 12 and needs a for am or pm: write HH for an hour of 0 to 23"));
    /** Formats that are no patterns: the count since 1970, in UTC, that programs write. */
    private static final String SECONDS = "epochSeconds";
    private static final String MILLISECONDS = "epochMillis";
    private static final Pattern OUT_OF_RANGE = Pattern.compile("Invalid value for (Month|Day|Hour|Minute|Second)Of\\w+ \\(.*\\): (-?\\d+)");
    private static final Pattern NO_SUCH_DAY = Pattern.compile("Invalid date '(\\p{L}+) (\\d+)'");

    private static final long MILLISECONDS_OF_A_SECOND = 1_000;
    private static final int LAST_LIKELY_YEAR = 2100;

    /** Seconds up to the year 9999 and beyond. */
    private static final int MOST_DIGITS = 12;
    private static final FieldUnits.Whole COUNT = new FieldUnits.Whole(1, 1);

    private final String pattern;
    private transient DateTimeFormatter formatter;
    private transient FixedPlaces places;

    DatePattern(String pattern) {
        this.pattern = pattern;
    }

    /** Strict, so that there is no 31 February; a year is then {@code u}. Made once: that takes longer than to read a time. */
    private DateTimeFormatter formatter() {
        DateTimeFormatter made = formatter;
        if (made == null) {
            made = isSinceEpoch() ? sinceEpoch()
                : new DateTimeFormatterBuilder().parseCaseInsensitive().appendPattern(pattern.replace('y', 'u')).toFormatter(Locale.ENGLISH);
            made = made.withResolverStyle(ResolverStyle.STRICT);
            formatter = made;
        }
        return made;
    }

    String pattern() {
        return pattern;
    }

    boolean isSinceEpoch() {
        return pattern.equals(SECONDS) || pattern.equals(MILLISECONDS);
    }

    /** The moment of a whole count since 1970; {@code null} where it is none, or another format is asked for. */
    Instant counted(String text) {
        long count = isSinceEpoch() ? COUNT.converted(text) : -1;
        boolean seconds = pattern.equals(SECONDS);
        return count < 0 || text.length() > MOST_DIGITS + (seconds ? 0 : 3) ? null : seconds ? Instant.ofEpochSecond(count) : Instant.ofEpochMilli(count);
    }

    /** Seconds may have a fraction. */
    private DateTimeFormatter sinceEpoch() {
        DateTimeFormatterBuilder builder = new DateTimeFormatterBuilder();
        if (pattern.equals(SECONDS)) {
            builder.appendValue(ChronoField.INSTANT_SECONDS, 1, MOST_DIGITS, SignStyle.NOT_NEGATIVE).appendFraction(ChronoField.NANO_OF_SECOND, 0, 9, true);
        } else {
            builder.appendValue(ChronoField.INSTANT_SECONDS, 1, MOST_DIGITS, SignStyle.NOT_NEGATIVE).appendValue(ChronoField.MILLI_OF_SECOND, 3);
        }
        return builder.toFormatter(Locale.ROOT).withZone(ZoneOffset.UTC);
    }

    /** What is wrong with the pattern itself, {@code null} when nothing is known to be. */
    String slip() {
        if (isSinceEpoch()) {
            return null;
        }
        try {
            formatter();
        } catch (IllegalArgumentException e) {
            return e.getMessage();
        }
        String letters = pattern.replaceAll("'[^']*'", "");
        return SLIPS.stream().filter(slip -> slip.pattern.matcher(letters).find()).map(Slip::words).findFirst().orElse(null);
    }

    /**
     * A date, or that of a time; of a count since 1970 the day it was in the zone.
     *
     * @throws DateTimeException when the text does not fit
     */
    LocalDate date(String text, ZoneId zone) {
        TemporalAccessor time = time(text);
        return isSinceEpoch() ? OffsetDateTime.from(time).atZoneSameInstant(zone).toLocalDate() : LocalDate.from(time);
    }

    /**
     * A time with its offset, without, or a date.
     *
     * @throws DateTimeException when the text does not fit
     */
    TemporalAccessor time(String text) {
        FixedPlaces fixed = places;
        if (fixed == null) {
            fixed = FixedPlaces.of(pattern);
            places = fixed;
        }
        LocalDateTime usual = fixed.time(text);
        return usual != null ? usual : parsed(text);
    }

    private TemporalAccessor parsed(String text) {
        // What it is can be asked: to try one after another costs an exception for each time without an offset.
        return formatter().parse(text, parsed -> !parsed.isSupported(ChronoField.NANO_OF_DAY) ? LocalDate.from(parsed)
            : parsed.isSupported(ChronoField.OFFSET_SECONDS) ? OffsetDateTime.from(parsed)
            : isSinceEpoch() ? LocalDateTime.from(parsed).atOffset(ZoneOffset.UTC) : LocalDateTime.from(parsed));
    }

    /** The same pattern with day and month exchanged; for a count since 1970 the other one; {@code null} where there is none. */
    String exchanged() {
        if (isSinceEpoch()) {
            return pattern.equals(SECONDS) ? MILLISECONDS : SECONDS;
        }
        String exchanged = pattern.replace('d', '\0').replace('M', 'd').replace('\0', 'M');
        return pattern.indexOf('M') < 0 || pattern.indexOf('d') < 0 || pattern.indexOf('\'') >= 0 && !pattern.contains("'T'") ? null : exchanged;
    }

    /** The problem of a time that cannot be, with the other count since 1970 where the time can be by that. */
    Problem counted(Problem problem, String time) {
        if (!isSinceEpoch()) {
            return problem;
        }
        long seconds = OffsetDateTime.parse(time).toEpochSecond();
        Instant other = Instant.ofEpochSecond(pattern.equals(SECONDS) ? seconds / MILLISECONDS_OF_A_SECOND : seconds * MILLISECONDS_OF_A_SECOND);
        return !other.isBefore(Health.FIRST_SPECIFICATION) && other.atOffset(ZoneOffset.UTC).getYear() <= LAST_LIKELY_YEAR ? problem.with(Fact.ADVICE, "EXCHANGE").with(Fact.NAMES, exchanged()) : problem;
    }

    /** The problem with this pattern, why a text does not fit it where that is known, and the exchanged pattern where it fits that. */
    Problem misfit(Problem problem, String text) {
        Problem told = reason(problem.with(Fact.FORMAT, pattern), text);
        return exchanged() != null && fits(exchanged(), List.of(), text) ? told.with(Fact.ADVICE, "EXCHANGE").with(Fact.NAMES, exchanged()) : told;
    }

    private Problem reason(Problem told, String text) {
        try {
            time(text);
            return told;
        } catch (DateTimeException e) {
            Matcher range = OUT_OF_RANGE.matcher(e.getMessage());
            if (range.find()) {
                return told.with(Fact.DATE_PART, range.group(1).toLowerCase(Locale.ROOT) + " " + range.group(2));
            }
            Matcher day = NO_SUCH_DAY.matcher(e.getMessage());
            return day.find() ? told.with(Fact.DATE_PART, day.group(2) + " " + day.group(1).charAt(0) + day.group(1).substring(1).toLowerCase(Locale.ROOT))
                : told.with(Fact.ONE_DIGIT, ofOneDigit(text));
        }
    }

    /** The letters that ask for two digits where the text would fit if they did not. */
    private List<String> ofOneDigit(String text) {
        List<TwoDigits> asked = TWO_DIGITS.stream().filter(each -> each.pattern.matcher(pattern).find()).toList();
        return asked.isEmpty() || !fits(pattern, asked, text) ? List.of()
            : asked.stream().filter(each -> !fits(pattern, asked.stream().filter(other -> other != each).toList(), text)).map(TwoDigits::letter).toList();
    }

    private static boolean fits(String pattern, List<TwoDigits> loosened, String text) {
        String loose = pattern;
        for (TwoDigits each : loosened) {
            loose = each.pattern.matcher(loose).replaceAll(each.letter);
        }
        try {
            new DatePattern(loose).time(text);
            return true;
        } catch (DateTimeException e) {
            return false;
        }
    }
}
