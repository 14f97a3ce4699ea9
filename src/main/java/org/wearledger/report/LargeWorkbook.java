package org.wearledger.report;

import java.io.File;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.zip.Deflater;
import org.apache.commons.compress.archivers.zip.ZipArchiveOutputStream;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.apache.poi.xssf.streaming.SheetDataWriter;

/**
 * A streaming workbook for hundreds of thousands of rows. POI writes a sheet's text character by character, and the JDK's buffered
 * writer takes a lock for each of them: a buffer without one halves the time.
 */
final class LargeWorkbook extends SXSSFWorkbook {
    LargeWorkbook(int rowsInMemory) {
        super(rowsInMemory);
    }

    /** Less compressed: a tenth larger, and most of the time that compression takes is saved. */
    @Override
    protected ZipArchiveOutputStream createArchiveOutputStream(OutputStream out) {
        ZipArchiveOutputStream archive = super.createArchiveOutputStream(out);
        archive.setLevel(Deflater.BEST_SPEED);
        return archive;
    }

    @Override
    protected SheetDataWriter createSheetDataWriter() throws IOException {
        return new SheetDataWriter() {
            /** Deprecated for those who call it; to override it is POI's own way to another writer. */
            @Override
            @SuppressWarnings("deprecation")
            public Writer createWriter(File file) throws IOException {
                return new UnlockedBuffer(new OutputStreamWriter(new FileOutputStream(file), StandardCharsets.UTF_8));
            }
        };
    }

    /** For one thread. */
    private static final class UnlockedBuffer extends Writer {
        private final char[] buffer = new char[1 << 15];
        private final Writer out;
        private int filled;

        UnlockedBuffer(Writer out) {
            this.out = out;
        }

        @Override
        public void write(int c) throws IOException {
            if (filled == buffer.length) {
                empty();
            }
            buffer[filled++] = (char) c;
        }

        @Override
        public void write(char[] text, int from, int length) throws IOException {
            for (int i = from; i < from + length; i++) {
                write(text[i]);
            }
        }

        @Override
        public void write(String text, int from, int length) throws IOException {
            for (int i = from; i < from + length; i++) {
                write(text.charAt(i));
            }
        }

        private void empty() throws IOException {
            out.write(buffer, 0, filled);
            filled = 0;
        }

        @Override
        public void flush() throws IOException {
            empty();
            out.flush();
        }

        @Override
        public void close() throws IOException {
            empty();
            out.close();
        }
    }
}
