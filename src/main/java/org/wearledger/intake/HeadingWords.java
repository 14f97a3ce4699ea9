package org.wearledger.intake;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.regex.Pattern;

/** Which heading may hold which field of the report form, and in what unit, by its words. */
final class HeadingWords {
    private static final Pattern BETWEEN = Pattern.compile("(?<=[\\p{Ll}0-9])(?<![KMGT]i)(?=\\p{Lu})|[^\\p{L}\\p{N}%]+|(?=%)");
    private static final int SHORTEST_BEGINNING = 4;
    private static final Map<String, String> UNITS = Map.ofEntries(Map.entry("tb", "TB"), Map.entry("tib", "TiB"), Map.entry("gb", "GB"), Map.entry("gib", "GiB"), Map.entry("mb", "MB"),
        Map.entry("mib", "MiB"), Map.entry("kb", "KB"), Map.entry("kib", "KiB"), Map.entry("byte", "bytes"), Map.entry("bytes", "bytes"), Map.entry("sectors", "sectors"),
        Map.entry("units", "dataUnits"), Map.entry("h", "hours"), Map.entry("hrs", "hours"), Map.entry("hours", "hours"), Map.entry("stunden", "hours"),
        Map.entry("betriebsstunden", "hours"), Map.entry("poh", "hours"), Map.entry("min", "minutes"), Map.entry("minutes", "minutes"), Map.entry("minuten", "minutes"), Map.entry("days", "days"),
        Map.entry("tage", "days"), Map.entry("c", "celsius"), Map.entry("celsius", "celsius"), Map.entry("k", "kelvin"), Map.entry("kelvin", "kelvin"));
    /** Headings that do not say of what they are. */
    private static final Set<String> GENERAL = Set.of("name", "id", "label", "model");
    private static final Map<String, List<Phrase>> PHRASES = phrases();

    /** Words that must stand in a heading, and such as must not. */
    private record Phrase(List<String> words, List<String> not) {
        static Phrase of(String text) {
            List<String> all = List.of(text.strip().split("\\s+"));
            return new Phrase(all.stream().filter(word -> !word.startsWith("-")).toList(), all.stream().filter(word -> word.startsWith("-")).map(word -> word.substring(1)).toList());
        }

        /** Its letters, all of which are met; 0 where they are not. */
        int letters(List<String> heading) {
            return words.stream().allMatch(word -> isMet(word, heading)) && not.stream().noneMatch(word -> isMet(word, heading)) ? words.stream().mapToInt(String::length).sum() : 0;
        }

        private static boolean isMet(String word, List<String> heading) {
            return heading.stream().anyMatch(each -> word.length() < SHORTEST_BEGINNING ? each.equals(word) : each.startsWith(word));
        }
    }

    /** A field and a heading that may hold it. */
    private record Pair(String field, String heading, int letters, long otherWords) {
        boolean isAsGoodAs(Pair other) {
            return letters == other.letters && otherWords == other.otherWords;
        }
    }

    /** A heading found for a field, and those that fit as well. */
    record Found(String heading, List<String> others) {
    }

    private HeadingWords() {
    }

    private static Map<String, List<Phrase>> phrases() {
        Properties words = new Properties();
        try (Reader in = new InputStreamReader(HeadingWords.class.getResourceAsStream("headings.properties"), StandardCharsets.UTF_8)) {
            words.load(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Map<String, List<Phrase>> phrases = new LinkedHashMap<>();
        ReportField.ALL.stream().map(ReportField::dotted).filter(words::containsKey)
            .forEach(field -> phrases.put(field, Arrays.stream(words.getProperty(field).split("\\|")).map(Phrase::of).toList()));
        return phrases;
    }

    static List<String> of(String heading) {
        return BETWEEN.splitAsStream(heading).map(word -> word.toLowerCase(Locale.ROOT)).filter(word -> !word.isEmpty()).toList();
    }

    /** The unit of these that the heading names; {@code null} when it names none. */
    static String unit(String heading, Collection<String> allowed) {
        return of(heading).stream().map(UNITS::get).filter(unit -> unit != null && allowed.contains(unit)).findFirst().orElse(null);
    }

    /**
     * Each field with the heading that fits it best. A heading holds one field.
     *
     * @param within pointer to the array of the records, whose name says what a heading such as "name" is of; {@code null} for none
     * @param mayHold whether the values of a heading can be those of a field
     */
    static Map<String, Found> found(Collection<String> headings, String within, BiPredicate<String, String> mayHold) {
        List<Pair> pairs = new ArrayList<>();
        PHRASES.forEach((field, phrases) -> headings.forEach(heading -> {
            List<String> words = GENERAL.contains(heading.toLowerCase(Locale.ROOT)) && within != null ? of(within.substring(within.lastIndexOf('/')) + " " + heading) : of(heading);
            int letters = phrases.stream().mapToInt(phrase -> phrase.letters(words)).max().orElse(0);
            if (letters > 0 && mayHold.test(field, heading)) {
                pairs.add(new Pair(field, heading, letters, words.stream().filter(word -> !UNITS.containsKey(word)).count()));
            }
        }));
        // Sorting is stable: what fits as well stays in the order of the file.
        pairs.sort(Comparator.comparing((Pair pair) -> -pair.letters).thenComparing(Pair::otherWords));
        Map<String, Pair> taken = new LinkedHashMap<>();
        for (Pair pair : pairs) {
            if (!taken.containsKey(pair.field) && taken.values().stream().noneMatch(other -> other.heading.equals(pair.heading))) {
                taken.put(pair.field, pair);
            }
        }
        Map<String, Found> found = new LinkedHashMap<>();
        PHRASES.keySet().stream().filter(taken::containsKey).forEach(field -> {
            Pair best = taken.get(field);
            found.put(field, new Found(best.heading, pairs.stream().filter(pair -> pair.field.equals(field) && pair != best && pair.isAsGoodAs(best)
                && taken.values().stream().noneMatch(other -> other.heading.equals(pair.heading))).map(Pair::heading).toList()));
        });
        return found;
    }
}
