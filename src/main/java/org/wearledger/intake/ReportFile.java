package org.wearledger.intake;

import java.io.Serializable;
import java.util.Locale;

/**
 * A report file: {@code path} to open it by, {@code name} to print, which is the path as the user gave it with
 * {@code /} between folders.
 */
public record ReportFile(String path, String name) implements Serializable {

    /** Example: {@code a/B.CSV.gz} has the ending {@code .csv}. */
    boolean hasEnding(String ending) {
        String lower = name.toLowerCase(Locale.ROOT);
        String plain = lower.endsWith(".gz") ? lower.substring(0, lower.length() - 3) : lower;
        return plain.endsWith(ending);
    }

    boolean hasReportEnding() {
        return hasEnding(".json") || hasEnding(".jsonl") || hasEnding(".ndjson") || hasEnding(".csv");
    }
}
