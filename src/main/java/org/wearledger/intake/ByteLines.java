package org.wearledger.intake;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * The lines of a UTF-8 text as bytes, ended by CR, LF or both, as {@link java.io.BufferedReader} ends them. A decoder's pass over
 * every byte is saved, and a line without an end costs no more memory than {@link #MOST_BYTES}.
 */
final class ByteLines implements Closeable {
    /** No report is near it: the longest field is a log page of 684 characters. */
    static final int MOST_BYTES = 4 << 20;

    private final InputStream in;
    private byte[] buffer;
    private int filled;
    private int start;
    private int end;
    private int nextStart;
    private boolean afterCarriageReturn;
    private boolean ascii;
    private long tooLongBytes;

    /** @param bufferBytes room for a line, above 0; it grows with longer ones */
    ByteLines(InputStream in, int bufferBytes) {
        buffer = new byte[bufferBytes];
        this.in = in;
    }

    /** Goes to the next line; false at the end of the text. */
    boolean next() throws IOException {
        start = nextStart;
        tooLongBytes = 0;
        int at = start;
        int signs = 0;
        while (true) {
            if (at == filled) {
                int before = start;
                if (!fill()) {
                    return endOfText(at - before + start, signs);
                }
                at -= before - start;
            }
            if (afterCarriageReturn) {
                afterCarriageReturn = false;
                if (buffer[at] == '\n') {
                    start++;
                    at++;
                    continue;
                }
            }
            for (; at < filled; at++) {
                byte b = buffer[at];
                if (b == '\n' || b == '\r') {
                    end = at;
                    nextStart = at + 1;
                    afterCarriageReturn = b == '\r';
                    ascii = signs >= 0;
                    return true;
                }
                signs |= b;
            }
            if (filled - start > MOST_BYTES) {
                tooLongBytes += filled - start;
                start = filled;
            }
        }
    }

    private boolean endOfText(int at, int signs) {
        end = at;
        nextStart = at;
        ascii = signs >= 0;
        return end > start || tooLongBytes > 0;
    }

    /** Reads on behind what is held of the current line, which moves to the buffer's beginning; false at the end of the text. */
    private boolean fill() throws IOException {
        if (start > 0) {
            System.arraycopy(buffer, start, buffer, 0, filled - start);
            filled -= start;
            start = 0;
        }
        if (filled == buffer.length) {
            buffer = Arrays.copyOf(buffer, 2 * buffer.length);
        }
        int read = in.read(buffer, filled, buffer.length - filled);
        filled += Math.max(0, read);
        return read >= 0;
    }

    byte[] buffer() {
        return buffer;
    }

    int start() {
        return start;
    }

    int length() {
        return end - start;
    }

    /** Whether every byte of the line is ASCII, and so the same in any decoding. */
    boolean isAscii() {
        return ascii;
    }

    /** Of a line longer than {@link #MOST_BYTES}: its whole length; 0 for any other. */
    long tooLongBytes() {
        return tooLongBytes == 0 ? 0 : tooLongBytes + length();
    }

    /** The line's text; bytes that are no UTF-8 are replaced by U+FFFD. */
    String text() {
        return new String(buffer, start, length(), StandardCharsets.UTF_8);
    }

    boolean isBlank() {
        for (int i = start; i < end; i++) {
            if (buffer[i] != ' ' && buffer[i] != '\t') {
                return false;
            }
        }
        return true;
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
