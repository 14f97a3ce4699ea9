package org.wearledger.intake;

import java.io.Closeable;
import java.io.IOException;

/** The records of one open file, one at a time, so that a file may be larger than memory. */
interface RecordSource extends Closeable {
    /**
     * The next record, {@code null} at the end.
     *
     * @throws IOException when the file cannot be read on from here
     */
    RawRecord next() throws IOException;

    /** Records were not reached, and their number cannot be estimated, as behind damaged compression. */
    long NOT_KNOWN = -1;

    /** About how many records were not reached behind faults so far; {@code null} when all were. */
    default Long unread() {
        return null;
    }

    /** Of two stretches of a file. */
    static Long unread(Long one, Long other) {
        if (one == null || other == null) {
            return one == null ? other : one;
        }
        return one == NOT_KNOWN || other == NOT_KNOWN ? NOT_KNOWN : one + other;
    }
}
