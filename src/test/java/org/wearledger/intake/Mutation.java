package org.wearledger.intake;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;

/**
 * One fault of the kind that files meet on their way: a flipped bit, a cut, a piece lost, doubled or put in from elsewhere.
 *
 * @param at place and {@code length} of the fault, in thousandths of the text
 * @param token what is put in, by {@link Kind#INSERT} and {@link Kind#REPLACE}
 */
record Mutation(Kind kind, int at, int length, String token) {
    enum Kind { FLIP, CUT, DELETE, DOUBLE, INSERT, REPLACE }

    /** What parsers have stumbled over, from brackets to numbers beyond every type. */
    private static final List<String> TOKENS = List.of("{", "}", "[", "]", "\"", ",", ";", ":", "\t", "\n", "\r\n", "\\", "\\u0000", "\\ud800", "\u0000", "\uFEFF",
        " ", "''", "\"\"", "null", "true", "NaN", "-1", "0", "1e400", "1e-400", "0x10", "1E+14", "340282366920938463463374607431768211456",
        "9223372036854775807", "+999999999-12-31T23:59:59.999999999-18:00", "2025-02-31", "0000-00-00", "6.1.2025", "1,5", "\u0661\u0662", "\u2028", "\uD83D\uDE00",
        "\"healthLogPage\":\" \",", "\"machine\":{\"id\":{}},", "\"health\":[],", "\"schemaVersion\":\"2.0\",", "\"a\":".repeat(50), "[".repeat(1100), "machine.id",
        "drive.serial", "health.percentageUsed", "soldered", "9".repeat(1100), "AAAA", "==", "#", "--", "/", "~1");

    static Arbitrary<List<Mutation>> some() {
        Arbitrary<Mutation> one = Combinators.combine(Arbitraries.of(Kind.values()), Arbitraries.integers().between(0, 1000),
            Arbitraries.integers().between(0, 60), Arbitraries.of(TOKENS)).as(Mutation::new);
        return one.list().ofMaxSize(4);
    }

    static byte[] apply(List<Mutation> mutations, byte[] text) {
        byte[] changed = text;
        for (Mutation mutation : mutations) {
            changed = mutation.apply(changed);
        }
        return changed;
    }

    private byte[] apply(byte[] text) {
        int from = (int) ((long) at * text.length / 1000);
        int until = Math.min(text.length, from + (int) ((long) length * text.length / 1000));
        byte[] put = token.getBytes(StandardCharsets.UTF_8);
        byte[] none = {};
        return switch (kind) {
            case FLIP -> {
                byte[] flipped = text.clone();
                if (from < text.length) {
                    flipped[from] ^= (byte) (1 << length % 8);
                }
                yield flipped;
            }
            case CUT -> Arrays.copyOf(text, from);
            case DELETE -> joined(text, from, none, until);
            case DOUBLE -> joined(text, until, none, from);
            case INSERT -> joined(text, from, put, from);
            case REPLACE -> joined(text, from, put, until);
        };
    }

    /** What stands before a place, something else, and what stands from another place on. */
    private static byte[] joined(byte[] text, int before, byte[] between, int from) {
        ByteArrayOutputStream joined = new ByteArrayOutputStream();
        joined.write(text, 0, before);
        joined.writeBytes(between);
        joined.write(text, from, text.length - from);
        return joined.toByteArray();
    }
}
