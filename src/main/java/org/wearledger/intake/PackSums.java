package org.wearledger.intake;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.FileVisitOption;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** SHA-256 (FIPS 180-4) of each file of a pack, so that a byte that changed is seen before a figure is taken from it. */
final class PackSums {
    private PackSums() {
    }

    /** By the file's name within the pack, with {@code /} between folders; what Spark hides beside the readings is left out. A link to it is followed. */
    static Map<String, String> of(Path pack) throws IOException {
        List<Path> files;
        try (Stream<Path> tree = Files.walk(pack, FileVisitOption.FOLLOW_LINKS)) {
            files = tree.filter(Files::isRegularFile).filter(file -> !isHidden(file)).toList();
        }
        try {
            // A pack of years is large, and its files are few: one core each.
            return new TreeMap<>(files.parallelStream().collect(Collectors.toMap(file -> pack.relativize(file).toString().replace('\\', '/'), PackSums::ofFile)));
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    static String of(byte[] bytes) {
        return HexFormat.of().formatHex(sha256().digest(bytes));
    }

    private static String ofFile(Path file) {
        try (InputStream in = new DigestInputStream(Files.newInputStream(file), sha256())) {
            in.transferTo(OutputStream.nullOutputStream());
            return HexFormat.of().formatHex(((DigestInputStream) in).getMessageDigest().digest());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** As Spark itself takes it: it reads no such file. */
    private static boolean isHidden(Path file) {
        String name = file.getFileName().toString();
        return name.startsWith(".") || name.startsWith("_");
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
