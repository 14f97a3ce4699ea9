package org.wearledger.intake;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/** Which encoding bytes look like that are no UTF-8. A guess, for a person to judge: nothing is read by it. */
final class Encodings {
    /** Of Western Europe, as Windows, DOS and consoles write it. */
    private static final List<String> WESTERN = List.of("windows-1252", "IBM850");
    private static final String CYRILLIC = "windows-1251";
    /** Bytes above ASCII, one or more together, each as the character of its number. */
    private static final Pattern ABOVE_ASCII = Pattern.compile("[\\u0080-\\u00ff]+");
    /** Letters of Cyrillic in windows-1251. */
    private static final Pattern CYRILLIC_LETTERS = Pattern.compile("[\\u00c0-\\u00ff\\u00a8\\u00b8]+");
    private static final int A_WORD = 3;

    private Encodings() {
    }

    /** {@code null} when they look like none in particular, or like no text. */
    static String likely(byte[] bytes) {
        if (new String(bytes, StandardCharsets.ISO_8859_1).chars().anyMatch(c -> c < ' ' && c != '\n' && c != '\r' && c != '\t')) {
            return null;
        }
        List<String> runs = ABOVE_ASCII.matcher(new String(bytes, StandardCharsets.ISO_8859_1)).results().map(MatchResult::group).toList();
        if (runs.stream().anyMatch(run -> run.length() >= A_WORD)) {
            return runs.stream().allMatch(run -> CYRILLIC_LETTERS.matcher(run).matches()) ? CYRILLIC : null;
        }
        String best = null;
        long most = 0;
        for (String encoding : WESTERN) {
            long letters = Charset.isSupported(encoding) ? letters(runs, Charset.forName(encoding)) : 0;
            best = letters > most ? encoding : best;
            most = Math.max(most, letters);
        }
        return best;
    }

    private static long letters(List<String> runs, Charset charset) {
        return runs.stream().map(run -> new String(run.getBytes(StandardCharsets.ISO_8859_1), charset)).flatMapToInt(String::chars).filter(Character::isLetter).count();
    }
}
