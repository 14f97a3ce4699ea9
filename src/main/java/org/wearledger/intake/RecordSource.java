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

    /** About how many records were not reached behind faults so far, in the form of {@link FileSummary#unread}. */
    default Long unread() {
        return null;
    }
}
