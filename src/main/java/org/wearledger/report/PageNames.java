package org.wearledger.report;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.regex.Pattern;

/** The names of machines' pages in a folder: the machine's own as far as every file system and shell takes it. */
public final class PageNames {
    private static final Pattern SAFE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,63}");
    /** Devices of Windows, with whatever ending. */
    private static final Pattern DEVICE = Pattern.compile("(?i)(con|prn|aux|nul|(com|lpt)\\d)(\\..*)?");
    private static final int MOST_LETTERS = 64;
    private static final int BYTES_OF_HASH = 6;

    private PageNames() {
    }

    /**
     * Examples: {@code LT-001.html}; of a name that is not safe what is safe of it, and a part of its SHA-256, so that two of them stay apart:
     * {@code machine-A-B-998d3ed8983a.html} for {@code A/B}.
     */
    public static String of(String machineId) {
        if (SAFE.matcher(machineId).matches() && !DEVICE.matcher(machineId).matches()) {
            return machineId + ".html";
        }
        String safe = machineId.replaceAll("[^A-Za-z0-9]+", "-");
        return "machine-" + safe.substring(0, Math.min(MOST_LETTERS, safe.length())) + "-" + hash(machineId) + ".html";
    }

    private static String hash(String name) {
        return HexFormat.of().formatHex(sha256(name), 0, BYTES_OF_HASH);
    }

    /** Of the text as UTF-8. */
    static byte[] sha256(String text) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
