package org.wearledger.simulate;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.zip.GZIPOutputStream;

/** Writes files below one folder. */
record SampleFolder(Path root) {
    /** A text that lies beside the classes, with the values put in as by {@link String#format}. */
    static String filled(String name, Object... values) {
        try (InputStream in = SampleFolder.class.getResourceAsStream(name)) {
            return String.format(Locale.ROOT, new String(in.readAllBytes(), StandardCharsets.UTF_8), values);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void text(String name, String content) throws IOException {
        bytes(name, content.getBytes(StandardCharsets.UTF_8));
    }

    /** UTF-16LE with a byte order mark, as some shells export. */
    void utf16(String name, String content) throws IOException {
        Charset charset = StandardCharsets.UTF_16LE;
        ByteBuffer encoded = charset.encode("\uFEFF" + content);
        byte[] bytes = new byte[encoded.remaining()];
        encoded.get(bytes);
        bytes(name, bytes);
    }

    void gzip(String name, String content) throws IOException {
        bytes(name, gzipped(content));
    }

    /** The JDK writes a modification time of zero, so the same text gives the same bytes. */
    static byte[] gzipped(String content) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
            gzip.write(content.getBytes(StandardCharsets.UTF_8));
        }
        return bytes.toByteArray();
    }

    void bytes(String name, byte[] content) throws IOException {
        Path file = root.resolve(name);
        Files.createDirectories(file.getParent());
        Files.write(file, content);
    }
}
