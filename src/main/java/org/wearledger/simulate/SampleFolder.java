package org.wearledger.simulate;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.GZIPOutputStream;

/** Writes files below one folder. */
record SampleFolder(Path root) {

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
