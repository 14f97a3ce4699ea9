package org.wearledger.intake;

import java.io.Serializable;

/**
 * A stretch of a report file to be read on its own: a large file of one record a line is read in several. Bytes {@code fromByte} to
 * before {@code toByte}, both at the beginning of a line or an end of the file.
 *
 * @param toByte {@link Long#MAX_VALUE} for the end of the file
 * @param linesBefore lines of the file before this part, so that places are those of the whole file
 */
public record ReportPart(ReportFile file, long fromByte, long toByte, long linesBefore) implements Serializable {
    /** The file from its beginning to its end. */
    public static ReportPart whole(ReportFile file) {
        return new ReportPart(file, 0, Long.MAX_VALUE, 0);
    }

    boolean isFirst() {
        return fromByte == 0;
    }

    boolean isWhole() {
        return isFirst() && toByte == Long.MAX_VALUE;
    }

    ReportPart after(long lines) {
        return new ReportPart(file, fromByte, toByte, lines);
    }
}
