package org.wearledger.report;

/** The sum of files as every output writes it. */
public final class FileSum {
    private FileSum() {
    }

    /** Example: {@code files: 3 found = 1 read + 1 read in part + 1 refused}; the part that is seldom there only where it is. */
    public static String of(long found, long readInPart, long refused) {
        return "files: " + found + " found = " + (found - readInPart - refused) + " read + " + (readInPart == 0 ? "" : readInPart + " read in part + ") + refused + " refused";
    }
}
