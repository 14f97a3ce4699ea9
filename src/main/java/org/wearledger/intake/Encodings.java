package org.wearledger.intake;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Which encoding bytes look like that are no UTF-8. A guess, for a person to judge. */
final class Encodings {
    /** Of Western Europe, as Windows, DOS and consoles write it. */
    private static final List<String> WESTERN = List.of("windows-1252", "IBM850");
    private static final List<String> USUAL = Stream.of("UTF-8", "windows-1252", "IBM850", "windows-1250", "windows-1251", "UTF-16LE", "UTF-16BE").filter(Charset::isSupported).toList();
    private static final String CYRILLIC = "windows-1251";
    /** Bytes above ASCII, one or more together, each as the character of its number. */
    private static final Pattern ABOVE_ASCII = Pattern.compile("[\\u0080-\\u00ff]+");
    /** Letters of Cyrillic in windows-1251. */
    private static final Pattern CYRILLIC_LETTERS = Pattern.compile("[\\u00c0-\\u00ff\\u00a8\\u00b8]+");
    private static final int A_WORD = 3;
    private static final int MOST_ASCII = 0x7F;

    private Encodings() {
    }

    /** The text so far: a letter that the end of a head cuts off is no fault. */
    static String begun(byte[] head, Charset charset) {
        CharBuffer text = CharBuffer.allocate((int) Math.ceil(head.length * (double) charset.newDecoder().maxCharsPerByte()));
        charset.newDecoder().onMalformedInput(CodingErrorAction.REPLACE).onUnmappableCharacter(CodingErrorAction.REPLACE).decode(ByteBuffer.wrap(head), text, head.length < ReportText.SNIFF_BYTES);
        return text.flip().toString();
    }

    /** What is UTF-8 beyond ASCII is hardly ever anything else of one byte a letter: a mapping says what its exports are, and this file may be none of them. */
    static Charset of(byte[] head, Charset said) {
        if (said.equals(StandardCharsets.UTF_8) || !isOfOneByte(said)) {
            return said;
        }
        String text = begun(head, StandardCharsets.UTF_8);
        return text.indexOf(Fields.UNDECODABLE) < 0 && text.chars().anyMatch(letter -> letter > MOST_ASCII) ? StandardCharsets.UTF_8 : said;
    }

    private static boolean isOfOneByte(Charset charset) {
        return charset.canEncode() && charset.newEncoder().maxBytesPerChar() <= 1;
    }

    /** The first of usual encodings in which a CSV file has these columns; {@code null} for none. */
    static String fitting(ReportPart part, Predicate<List<String>> wanted) throws IOException {
        for (String encoding : USUAL) {
            try (ReportText text = ReportText.open(part, Charset.forName(encoding))) {
                if (wanted.test(CsvRecords.columns(CsvHeader.of(text.head())))) {
                    return encoding;
                }
            }
        }
        return null;
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
