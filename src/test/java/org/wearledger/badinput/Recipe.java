package org.wearledger.badinput;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Map;
import java.util.zip.Deflater;
import java.util.zip.GZIPOutputStream;

/** Makes one input file, or a link, from its description in {@code case.json}; see the corpus's README. */
final class Recipe {
    private static final int CHUNK_CHARACTERS = 1 << 16;

    private Recipe() {
    }

    static void make(JsonNode recipe, Path target) throws IOException {
        Path file = target.resolve(recipe.get("name").asText());
        Files.createDirectories(file.getParent());
        if (recipe.has("linkTo")) {
            Files.createSymbolicLink(file, Path.of(recipe.get("linkTo").asText()));
            return;
        }
        if (recipe.has("keep")) {
            ByteArrayOutputStream whole = new ByteArrayOutputStream();
            write(recipe, whole);
            int keep = recipe.get("keep").asInt();
            Files.write(file, Arrays.copyOf(whole.toByteArray(), keep < 0 ? whole.size() + keep : keep));
            return;
        }
        try (OutputStream out = Files.newOutputStream(file)) {
            write(recipe, out);
        }
    }

    private static void write(JsonNode recipe, OutputStream out) throws IOException {
        GZIPOutputStream gzip = recipe.path("gzip").asBoolean() ? gzip(out, recipe.has("keep")) : null;
        OutputStream packed = new BufferedOutputStream(gzip == null ? out : gzip, CHUNK_CHARACTERS);
        Charset charset = Charset.forName(recipe.path("charset").asText("UTF-8"));
        for (JsonNode part : recipe.get("parts")) {
            if (part.isTextual()) {
                packed.write(part.asText().getBytes(charset));
            } else if (part.has("hex")) {
                packed.write(HexFormat.of().parseHex(part.get("hex").asText().replace(" ", "")));
            } else if (part.has("page")) {
                packed.write(part.path("raw").asBoolean() ? page(part) : Base64.getEncoder().encodeToString(page(part)).getBytes(charset));
            } else {
                repeat(part.get("repeat").asText(), part.get("times").asLong(), charset, packed);
            }
        }
        packed.flush();
        if (gzip != null) {
            gzip.finish();
        }
    }

    /** Quickly, but where it is cut: there a file's length counts. */
    private static GZIPOutputStream gzip(OutputStream out, boolean isCut) throws IOException {
        return new GZIPOutputStream(out, CHUNK_CHARACTERS) {
            {
                def.setLevel(isCut ? Deflater.DEFAULT_COMPRESSION : Deflater.BEST_SPEED);
            }
        };
    }

    /** {@code {n}} in the text stands for the number of the repetition, from 1. */
    private static void repeat(String text, long times, Charset charset, OutputStream out) throws IOException {
        if (text.contains("{n}")) {
            for (long n = 1; n <= times; n++) {
                out.write(text.replace("{n}", Long.toString(n)).getBytes(charset));
            }
            return;
        }
        int perChunk = Math.max(1, CHUNK_CHARACTERS / text.length());
        byte[] chunk = text.repeat(perChunk).getBytes(charset);
        for (long left = times; left > 0; left -= perChunk) {
            out.write(chunk, 0, left >= perChunk ? chunk.length : (int) (chunk.length / perChunk * left));
        }
    }

    /** A log page of {@code page} bytes, each {@code fill} but for those in {@code at}: offset to hex. */
    private static byte[] page(JsonNode part) {
        byte[] page = new byte[part.get("page").asInt()];
        Arrays.fill(page, (byte) part.path("fill").asInt());
        for (Map.Entry<String, JsonNode> at : part.path("at").properties()) {
            byte[] bytes = HexFormat.of().parseHex(at.getValue().asText().replace(" ", ""));
            System.arraycopy(bytes, 0, page, Integer.parseInt(at.getKey()), bytes.length);
        }
        return page;
    }
}
