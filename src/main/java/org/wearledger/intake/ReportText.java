package org.wearledger.intake;

import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.Closeable;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.channels.FileChannel;
import java.nio.channels.Channels;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.zip.GZIPInputStream;
import org.apache.commons.io.ByteOrderMark;
import org.apache.commons.io.input.BOMInputStream;
import org.apache.commons.io.input.BoundedInputStream;
import org.apache.commons.io.input.ReaderInputStream;

/** An open report file: unpacked if it is gzip by its magic number, decoded as its byte order mark says, else as its mapping does, else as UTF-8. */
final class ReportText implements Closeable {
    static final int SNIFF_BYTES = 1 << 16;

    private final InputStream in;
    private final boolean gzipped;
    private final Charset charset;
    private final String head;
    private final String likelyEncoding;
    private final int bufferBytes;

    private ReportText(InputStream in, boolean gzipped, Charset charset, byte[] head, int bufferBytes) {
        this.bufferBytes = bufferBytes;
        this.in = in;
        this.gzipped = gzipped;
        this.charset = charset;
        this.head = Encodings.begun(head, charset);
        likelyEncoding = isUtf8() && this.head.indexOf(Fields.UNDECODABLE) >= 0 ? Encodings.likely(head) : null;
    }

    /**
     * Opens the file, looks at its beginning and goes to the part.
     *
     * @param otherwise the encoding of a file without a byte order mark
     */
    static ReportText open(ReportPart part, Charset otherwise) throws IOException {
        FileChannel channel = FileChannel.open(Path.of(part.file().path()), StandardOpenOption.READ);
        try {
            // A small file is read in one piece, and asks for no more memory than that.
            int bufferBytes = (int) Math.max(512, Math.min(channel.size() + 1, SNIFF_BYTES));
            InputStream in = new BufferedInputStream(Channels.newInputStream(channel), bufferBytes);
            in.mark(2);
            boolean gzipped = in.read() == 0x1F && in.read() == 0x8B;
            in.reset();
            if (gzipped) {
                in = new BufferedInputStream(new Unhurried(new GZIPInputStream(in, SNIFF_BYTES)), SNIFF_BYTES);
            }
            BOMInputStream marked = BOMInputStream.builder().setInputStream(in)
                .setByteOrderMarks(ByteOrderMark.UTF_8, ByteOrderMark.UTF_16LE, ByteOrderMark.UTF_16BE).get();
            String name = marked.getBOMCharsetName();
            byte[] head = head(marked, gzipped ? SNIFF_BYTES : bufferBytes);
            Charset charset = name == null ? Encodings.of(head, otherwise) : Charset.forName(name);
            if (part.isWhole()) {
                return new ReportText(marked, gzipped, charset, head, gzipped ? SNIFF_BYTES : bufferBytes);
            }
            long before = part.isFirst() ? marked.hasBOM() ? marked.getBOM().length() : 0 : part.fromByte();
            if (channel.size() < (part.toByte() == Long.MAX_VALUE ? part.fromByte() : part.toByte())) {
                throw new IOException("the file is shorter than it was when its lines were counted");
            }
            channel.position(before);
            return new ReportText(BoundedInputStream.builder().setInputStream(Channels.newInputStream(channel))
                .setMaxCount(part.toByte() - before).get(), false, charset, head, SNIFF_BYTES);
        } catch (IOException | RuntimeException e) {
            channel.close();
            throw e;
        }
    }

    /** The beginning of the text, as far as it can be read: a fault behind it is met again, and told, by the records. */
    private static byte[] head(InputStream in, int mostBytes) throws IOException {
        in.mark(mostBytes);
        byte[] head = new byte[mostBytes];
        int filled = 0;
        try {
            for (int read = in.read(head, 0, mostBytes); read > 0; read = in.read(head, filled, mostBytes - filled)) {
                filled += read;
            }
        } catch (IOException e) {
            if (filled == 0) {
                throw e;
            }
        }
        in.reset();
        return Arrays.copyOf(head, filled);
    }

    /** What the whole file begins with, up to 64 KiB, whichever part is open. */
    String head() {
        return head;
    }

    /** What bytes of the beginning look like that are no UTF-8; {@code null} where all are, or they look like nothing known. */
    String likelyEncoding() {
        return likelyEncoding;
    }

    /** Room for as much of the text as is read at once: all of a small file, and no more. */
    int bufferBytes() {
        return bufferBytes;
    }

    boolean isGzipped() {
        return gzipped;
    }

    boolean isUtf8() {
        return charset.equals(StandardCharsets.UTF_8);
    }

    /** The part's text in UTF-8; bytes that are no text stay as they are. */
    InputStream utf8() throws IOException {
        return isUtf8() ? in : ReaderInputStream.builder().setReader(reader()).setCharset(StandardCharsets.UTF_8).get();
    }

    /** The part's text; bytes that are no text are replaced by U+FFFD. */
    BufferedReader reader() {
        return new BufferedReader(new InputStreamReader(new Unhurried(in), charset.newDecoder()
            .onMalformedInput(CodingErrorAction.REPLACE).onUnmappableCharacter(CodingErrorAction.REPLACE)), bufferBytes);
    }

    @Override
    public void close() throws IOException {
        in.close();
    }

    /** Says that nothing is waiting, so that a reader hands on what it has before it meets a fault further on. */
    private static final class Unhurried extends FilterInputStream {
        private Unhurried(InputStream in) {
            super(in);
        }

        @Override
        public int available() {
            return 0;
        }
    }
}
