package org.wearledger.intake;

import java.io.FilterReader;
import java.io.IOException;
import java.io.Reader;

/** Ends with a failure in the midst of a row longer than any report, so that it cannot fill the memory. */
final class RowReader extends FilterReader {
    /** No report is near it: all its columns and a log page come to some 2,000 characters. */
    static final int MOST_CHARACTERS = 1 << 20;

    /** Tells the end that no row has. */
    static final class RowTooLongException extends IOException {
        private static final long serialVersionUID = 1;

        RowTooLongException() {
            super("a row of more than " + MOST_CHARACTERS + " characters");
        }
    }

    private long sinceRow;

    RowReader(Reader in) {
        super(in);
    }

    /** What was read ahead belongs to the row that begins. */
    void beginRow() {
        sinceRow = 0;
    }

    @Override
    public int read() throws IOException {
        int c = super.read();
        count(c < 0 ? 0 : 1);
        return c;
    }

    @Override
    public int read(char[] buffer, int offset, int length) throws IOException {
        int read = super.read(buffer, offset, length);
        count(Math.max(0, read));
        return read;
    }

    private void count(int characters) throws IOException {
        sinceRow += characters;
        if (sinceRow > MOST_CHARACTERS) {
            throw new RowTooLongException();
        }
    }
}
