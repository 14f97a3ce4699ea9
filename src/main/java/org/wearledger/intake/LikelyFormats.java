package org.wearledger.intake;

import java.time.DateTimeException;
import java.time.temporal.ChronoField;
import java.time.temporal.TemporalAccessor;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Formats in which exports write dates and times. */
final class LikelyFormats {
    private static final List<String> DATES = List.of("yyyy-MM-dd", "yyyy/MM/dd", "d.M.yyyy", "d/M/yyyy", "M/d/yyyy", "d-M-yyyy", "yyyyMMdd");
    private static final List<String> TIMES = List.of("H:mm:ss", "H:mm", "HHmm", "h:mm:ss a", "h:mm a", "H:mm:ssXXX");
    private static final List<String> BETWEEN = List.of(" ", "'T'", ", ");
    private static final List<String> OTHERS = List.of("epochSeconds", "epochMillis", "H:mm d.M.yyyy", "H:mm:ss d.M.yyyy");
    /** Earlier ones are read in a wrong format. */
    private static final int FIRST_YEAR = 2000;

    private LikelyFormats() {
    }

    /** Those that fit every value, with what the first is by it; of formats that read all values alike the first. */
    static Map<String, String> of(List<String> values) {
        Map<List<TemporalAccessor>, String> byMeaning = new LinkedHashMap<>();
        for (String date : DATES) {
            add(byMeaning, date, values);
            BETWEEN.forEach(between -> TIMES.forEach(time -> add(byMeaning, date + between + time, values)));
        }
        OTHERS.forEach(format -> add(byMeaning, format, values));
        Map<String, String> formats = new LinkedHashMap<>();
        byMeaning.forEach((read, format) -> formats.put(format, read.get(0).toString()));
        return formats;
    }

    private static void add(Map<List<TemporalAccessor>, String> byMeaning, String format, List<String> values) {
        List<TemporalAccessor> read = read(new DatePattern(format), values);
        if (!read.isEmpty() && read.stream().allMatch(time -> time.get(ChronoField.YEAR) >= FIRST_YEAR)) {
            byMeaning.putIfAbsent(read, format);
        }
    }

    /** Nothing where one does not fit. */
    private static List<TemporalAccessor> read(DatePattern pattern, List<String> values) {
        try {
            return values.stream().map(pattern::time).toList();
        } catch (DateTimeException e) {
            return List.of();
        }
    }
}
