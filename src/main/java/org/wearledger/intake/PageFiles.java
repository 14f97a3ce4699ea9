package org.wearledger.intake;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;

/**
 * Raw log pages that lie as files beside the report whose records name them: such a record takes its health from those bytes. Nothing
 * outside the folder of the report is opened: a page is named by its plain name, and no link is followed.
 */
final class PageFiles {
    /** Far more than any log that a page may be padded to. */
    private static final long MOST_BYTES = 1 << 16;

    private final ReportFile index;
    private final Set<String> named = new TreeSet<>();
    /** Looked up once. */
    private Path folder;

    PageFiles(ReportFile index) {
        this.index = index;
    }

    /** Real places of the pages that were named and are there. */
    Set<String> named() {
        return named;
    }

    /** The record with the page that it names in place of the name; broken where that cannot be read. */
    RawRecord filled(RawRecord record) {
        RawFields values = record.values();
        String name = record.problem() == null ? values.get(ReportField.PAGE_FILE) : null;
        if (name == null || name.isBlank()) {
            return record;
        }
        try {
            Path page = place(name.strip());
            BasicFileAttributes found = page == null ? null : Files.readAttributes(page, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
            if (found == null || !found.isRegularFile()) {
                return refused(record, Finding.PAGE_FILE_ELSEWHERE, name);
            }
            named.add(page.toRealPath(LinkOption.NOFOLLOW_LINKS).toString());
            byte[] bytes = found.size() > MOST_BYTES ? null : unpadded(read(page));
            if (bytes == null) {
                return RawRecord.broken(problem(record, Finding.PAGE_FILE_LENGTH, name).with(Fact.BYTES, found.size()));
            }
            RawRecord filled = values.has(ReportField.LOG_PAGE) ? noted(record) : record;
            values.put(ReportField.LOG_PAGE, Base64.getEncoder().encodeToString(bytes));
            return filled;
        } catch (NoSuchFileException e) {
            return refused(record, Finding.PAGE_FILE_MISSING, name);
        } catch (IOException e) {
            return refused(record, Finding.PAGE_FILE_UNREADABLE, name);
        }
    }

    /** {@code null} for what is more than a name, or not that of a page. */
    private Path place(String name) throws IOException {
        if (!ReportFile.isPage(name) || name.indexOf('/') >= 0 || name.indexOf('\\') >= 0) {
            return null;
        }
        try {
            Path plain = Path.of(name).getFileName();
            if (folder == null) {
                folder = Path.of(index.path()).getParent().toRealPath();
            }
            return plain != null && plain.toString().equals(name) ? folder.resolve(plain) : null;
        } catch (InvalidPathException e) {
            return null;
        }
    }

    private static byte[] read(Path page) throws IOException {
        try (InputStream in = Files.newInputStream(page, LinkOption.NOFOLLOW_LINKS)) {
            return in.readNBytes((int) MOST_BYTES);
        }
    }

    /** The page, without what a longer log is filled up with: 00h or FFh; {@code null} when it is shorter or goes on otherwise. */
    private static byte[] unpadded(byte[] bytes) {
        int end = HealthLogPage.LENGTH_BYTES;
        boolean whole = bytes.length == end
            || bytes.length > end && (bytes[end] == 0 || bytes[end] == (byte) 0xFF) && IntStream.range(end, bytes.length).allMatch(i -> bytes[i] == bytes[end]);
        return whole ? Arrays.copyOf(bytes, end) : null;
    }

    private static RawRecord noted(RawRecord record) {
        List<Problem> notes = new ArrayList<>(record.notes());
        notes.add(Problem.of(Finding.HEALTH_TWICE, record.source(), Fields.subject(record.values())));
        return new RawRecord(record.source(), record.values(), null, notes);
    }

    private static RawRecord refused(RawRecord record, Finding finding, String name) {
        return RawRecord.broken(problem(record, finding, name));
    }

    private static Problem problem(RawRecord record, Finding finding, String name) {
        return Problem.of(finding, record.source(), Fields.subject(record.values())).about(ReportField.PAGE_FILE.dotted()).with(Fact.TEXT, Fields.shortened(name));
    }
}
