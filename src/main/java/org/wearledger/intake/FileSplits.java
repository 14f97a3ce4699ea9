package org.wearledger.intake;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.function.Function;
import org.apache.commons.io.input.BoundedInputStream;

/**
 * Cuts large files into parts that are read side by side: JSON of one object a line, and CSV without quotes, in which every end of
 * line ends a record. Where it cuts depends on the file alone, and a reading's place is that in the whole file.
 */
public final class FileSplits {
    private static final long PART_BYTES = 16L << 20;
    private static final int COUNT_BUFFER_BYTES = 1 << 16;

    /**
     * What must be known of a part before its file can be read in parts.
     *
     * @param lines that end in it
     * @param quoted whether a quotation mark stands in it
     */
    public record Counted(long lines, boolean quoted) implements Serializable {
        static final Counted FAILED = new Counted(-1, true);
    }

    /** How to count many parts, in the order given; it may do so side by side. */
    public interface Counting extends Function<List<ReportPart>, List<Counted>> {
    }

    private FileSplits() {
    }

    /** The parts of all files in order, most of them whole; a file that cannot be opened is whole, and tells its problem when read. */
    public static List<ReportPart> of(List<ReportFile> files, Mappings mappings, Counting counting) {
        List<List<ReportPart>> cut = files.stream().map(file -> cut(file, mappings.of(file.name()).form(), PART_BYTES)).toList();
        return counted(cut, counting);
    }

    static List<ReportPart> counted(List<List<ReportPart>> cut, Counting counting) {
        List<ReportPart> toCount = cut.stream().filter(parts -> parts.size() > 1).flatMap(List::stream).toList();
        Iterator<Counted> counts = toCount.isEmpty() ? List.<Counted>of().iterator() : counting.apply(toCount).iterator();
        List<ReportPart> all = new ArrayList<>();
        for (List<ReportPart> parts : cut) {
            if (parts.size() == 1) {
                all.add(parts.get(0));
                continue;
            }
            List<ReportPart> placed = new ArrayList<>();
            long lines = 0;
            boolean quoted = false;
            boolean failed = false;
            for (ReportPart part : parts) {
                Counted counted = counts.next();
                placed.add(part.after(lines));
                lines += counted.lines;
                quoted |= counted.quoted;
                failed |= counted.equals(Counted.FAILED);
            }
            ReportFile file = parts.get(0).file();
            // Within quotation marks an end of line may be part of a cell: then only a reader from the beginning can tell.
            all.addAll(failed || quoted && isCsv(file) ? List.of(ReportPart.whole(file)) : placed);
        }
        return all;
    }

    private static boolean isCsv(ReportFile file) {
        try (ReportText text = ReportText.open(ReportPart.whole(file), StandardCharsets.UTF_8)) {
            return ReportFormat.of(file, text.head()) == ReportFormat.CSV;
        } catch (IOException e) {
            return true;
        }
    }

    static List<ReportPart> cut(ReportFile file, ExportForm form, long partBytes) {
        List<ReportPart> whole = List.of(ReportPart.whole(file));
        try {
            long size = Files.size(Path.of(file.path()));
            return size < 2 * partBytes || form.hasRecordsInside() || !form.keepsAsciiBytes() || !isOneRecordPerLine(file) ? whole : cut(file, size, partBytes);
        } catch (IOException e) {
            // Told when it is read.
            return whole;
        }
    }

    private static boolean isOneRecordPerLine(ReportFile file) throws IOException {
        try (ReportText text = ReportText.open(ReportPart.whole(file), StandardCharsets.UTF_8)) {
            ReportFormat format = ReportFormat.of(file, text.head());
            // Blanks before a header: where it stands is then for a reader from the beginning to say.
            boolean begins = !text.head().isEmpty() && !Character.isWhitespace(text.head().charAt(0));
            // A file of zero bytes, as a sparse one is, is refused by its head: its lines need no counting.
            return begins && !text.isGzipped() && text.isUtf8() && ForeignFile.ofZeroBytes(text.head()) == null
                && (format == ReportFormat.JSON_LINES || format == ReportFormat.CSV);
        }
    }

    private static List<ReportPart> cut(ReportFile file, long size, long partBytes) throws IOException {
        List<ReportPart> parts = new ArrayList<>();
        try (FileChannel channel = FileChannel.open(Path.of(file.path()), StandardOpenOption.READ)) {
            long from = 0;
            while (size - from >= 2 * partBytes) {
                long to = nextLine(channel, from + partBytes);
                if (to < 0) {
                    break;
                }
                parts.add(new ReportPart(file, from, to, 0));
                from = to;
            }
            parts.add(new ReportPart(file, from, Long.MAX_VALUE, 0));
        }
        return parts;
    }

    /** Where the first line after {@code from} begins; negative when none does within the longest line there may be. */
    private static long nextLine(FileChannel channel, long from) throws IOException {
        channel.position(from);
        InputStream in = new BufferedInputStream(Channels.newInputStream(channel), COUNT_BUFFER_BYTES);
        for (long at = from; at - from <= ByteLines.MOST_BYTES; at++) {
            int b = in.read();
            if (b < 0) {
                return -1;
            }
            if (b == '\n') {
                return at + 1;
            }
        }
        return -1;
    }

    /** Reads the part. When it cannot be read, its file is read whole, and tells the fault with its records. */
    public static Counted count(ReportPart part) {
        long lines = 0;
        boolean quoted = false;
        boolean afterCarriageReturn = false;
        try (FileChannel channel = FileChannel.open(Path.of(part.file().path()), StandardOpenOption.READ)) {
            channel.position(part.fromByte());
            InputStream in = BoundedInputStream.builder().setInputStream(Channels.newInputStream(channel)).setMaxCount(part.toByte() - part.fromByte()).get();
            byte[] buffer = new byte[COUNT_BUFFER_BYTES];
            for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
                for (int i = 0; i < read; i++) {
                    byte b = buffer[i];
                    if (b == '\n') {
                        lines += afterCarriageReturn ? 0 : 1;
                    } else if (b == '\r') {
                        lines++;
                    } else if (b == '"') {
                        quoted = true;
                    }
                    afterCarriageReturn = b == '\r';
                }
            }
            return new Counted(lines, quoted);
        } catch (IOException e) {
            return Counted.FAILED;
        }
    }
}
