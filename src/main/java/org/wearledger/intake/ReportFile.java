package org.wearledger.intake;

import java.io.Serializable;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;

/**
 * A report file: {@code path} to open it by, {@code name} to print, which is the path as the user gave it with
 * {@code /} between folders.
 */
public record ReportFile(String path, String name) implements Serializable {
    /** What Java puts for bytes of a name that are no text in the encoding of names. */
    private static final char UNDECODABLE = '\uFFFD';

    /** A file whose name cannot be decoded cannot be opened either, since its path is kept as text; nor is it there under {@code path}. */
    static ReportFile of(Path found) {
        return new ReportFile(decodable(found.toAbsolutePath().toString()), found.toString().replace('\\', '/'));
    }

    /** The same where it can be a path, else one that leads nowhere. */
    static String decodable(String path) {
        return isPath(path) ? path : path.replace(UNDECODABLE, '?');
    }

    private static boolean isPath(String text) {
        try {
            Path.of(text);
            return true;
        } catch (InvalidPathException e) {
            return false;
        }
    }

    /** Whether its name, or that of a folder above it, has lost some of its bytes. */
    boolean isUndecodable() {
        return isUndecodable(name);
    }

    static boolean isUndecodable(String name) {
        return name.indexOf(UNDECODABLE) >= 0;
    }

    /** Example: {@code a/B.CSV.gz} has the ending {@code .csv}. */
    boolean hasEnding(String ending) {
        String lower = name.toLowerCase(Locale.ROOT);
        String plain = lower.endsWith(".gz") ? lower.substring(0, lower.length() - 3) : lower;
        return plain.endsWith(ending);
    }

    /** Whether it is a raw log page by its ending. */
    boolean isPage() {
        return isPage(name);
    }

    static boolean isPage(String name) {
        return name.toLowerCase(Locale.ROOT).endsWith(".bin");
    }

    boolean hasReportEnding() {
        return hasEnding(".json") || hasEnding(".jsonl") || hasEnding(".ndjson") || hasEnding(".csv");
    }
}
