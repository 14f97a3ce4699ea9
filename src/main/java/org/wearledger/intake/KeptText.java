package org.wearledger.intake;

import java.io.IOException;
import java.io.Reader;

/** Remembers the last stretch of what it handed on, so that reading can begin again within it: behind a fault, at the next record. */
final class KeptText extends Reader {
    private static final int CHUNK = 1 << 13;
    /** More than two rows or records of the longest kind. What lies further back is forgotten. */
    private static final int MOST_KEPT = 1 << 22;
    /** To take text off the front is worth its while only now and then. */
    private static final int LEAST_FORGOTTEN = 1 << 16;

    /** How often a text that begins with its only quotation mark but one, such as {@code "schemaVersion":}, came by. */
    static final class Sought {
        private final String text;
        private int matched;
        private long times;

        Sought(String text) {
            this.text = text;
        }

        private void see(char c) {
            matched = c == text.charAt(matched) ? matched + 1 : c == text.charAt(0) ? 1 : 0;
            if (matched == text.length()) {
                times++;
                matched = 0;
            }
        }

        long times() {
            return times;
        }
    }

    private final Reader in;
    private final char[] chunk = new char[CHUNK];
    private final StringBuilder kept = new StringBuilder();
    private long keptFrom;
    private int next;
    private boolean ended;

    KeptText(Reader in) {
        this.in = in;
    }

    /** Characters from the beginning of the text. */
    long position() {
        return keptFrom + next;
    }

    void forgetBefore(long position) {
        int most = (int) Math.min(position - keptFrom, next);
        if (most >= LEAST_FORGOTTEN) {
            kept.delete(0, most);
            keptFrom += most;
            next -= most;
        }
    }

    /** Goes there; false when that is forgotten. */
    boolean goTo(long position) {
        if (position < keptFrom || position > keptFrom + kept.length()) {
            return false;
        }
        next = (int) (position - keptFrom);
        return true;
    }

    @Override
    public int read(char[] buffer, int offset, int length) throws IOException {
        if (next == kept.length() && !fill()) {
            return -1;
        }
        int read = Math.min(length, kept.length() - next);
        kept.getChars(next, next + read, buffer, offset);
        next += read;
        return read;
    }

    private boolean fill() throws IOException {
        // A parser closes what it has read to the end.
        int read = ended ? -1 : in.read(chunk, 0, CHUNK);
        if (read < 0) {
            ended = true;
            return false;
        }
        if (next > MOST_KEPT) {
            keptFrom += next;
            kept.setLength(0);
            next = 0;
        }
        kept.append(chunk, 0, read);
        return true;
    }

    /**
     * The next line without its end, CR, LF or both; {@code null} at the end of the text. Of a longer one the first {@code most}
     * characters and one more.
     *
     * @param sought sees every character; {@code null} for nothing
     */
    String readLine(int most, Sought sought) throws IOException {
        StringBuilder line = null;
        while (next < kept.length() || fill()) {
            line = line == null ? new StringBuilder() : line;
            char c = kept.charAt(next++);
            if (c == '\n') {
                return line.toString();
            }
            if (c == '\r') {
                if ((next < kept.length() || fill()) && kept.charAt(next) == '\n') {
                    next++;
                }
                return line.toString();
            }
            if (line.length() <= most) {
                line.append(c);
            }
            if (sought != null) {
                sought.see(c);
            }
        }
        return line == null ? null : line.toString();
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
