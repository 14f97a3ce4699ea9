package org.wearledger.report;

import java.util.List;
import org.wearledger.model.Accounting;

/** The sums that must hold, as every output writes them. */
public final class FileSum {
    private FileSum() {
    }

    /** Example: {@code files: 3 found = 1 read + 1 read in part + 1 refused}; the part that is seldom there only where it is. */
    public static String of(long found, long readInPart, long refused) {
        return "files: " + found + " found = " + (found - readInPart - refused) + " read + " + (readInPart == 0 ? "" : readInPart + " read in part + ") + refused + " refused";
    }

    /** The sums of the accounting, one a line. */
    static List<String> sums(Accounting sums) {
        return List.of(
            of(sums.filesFound(), sums.filesReadInPart(), sums.filesRefused()),
            "records: " + sums.recordsFound() + " found = " + sums.readingsIn() + " readings + "
                + sums.recordsRefused() + " refused",
            "readings: " + sums.readingsIn() + " in = " + sums.readingsKept() + " kept + "
                + sums.readingsSetAside() + " set aside",
            "side table rows: " + sums.rowsFound() + " found = " + sums.rowsRead() + " read + " + sums.rowsRefused() + " refused");
    }
}
