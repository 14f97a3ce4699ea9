package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Folders of raw pages, each with an index of its own, and pages that no index names. */
class RawPagesIT {
    private static final int FOLDERS = 4;
    private static final int PAGES = 6;

    @TempDir
    Path folder;

    private void pages() throws IOException {
        for (int f = 0; f < FOLDERS; f++) {
            Path pages = Files.createDirectories(folder.resolve("pages/" + f));
            StringBuilder index = new StringBuilder("schemaVersion,collectedAt,machine.id,drive.serial,drive.model,file\n");
            for (int p = 0; p < PAGES; p++) {
                ByteBuffer page = ByteBuffer.allocate(512).order(ByteOrder.LITTLE_ENDIAN);
                page.putShort(1, (short) 310).put(3, (byte) 100).put(4, (byte) 10).putLong(48, 1_000_000L * (1 + f) + p).putLong(80, 90_000_000L * (1 + f) + p);
                Files.write(pages.resolve(p + ".bin"), page.array());
                index.append(p == PAGES - 1 ? "" : "1.0,2025-0" + (f + 1) + "-06T09:30:00Z,PC-" + p + ",KX-" + p + ",Kestrel K2," + p + ".bin\n");
            }
            Files.writeString(pages.resolve("index.csv"), index);
        }
    }

    @Test
    void partitionsChangeNoByte() throws IOException {
        pages();
        for (int partitions : new int[] {1, 5}) {
            Runs run = Runs.of("sweep", folder.resolve("pages"), "--partitions", partitions, "--out", folder.resolve("swept-" + partitions));
            assertThat(run.exitCode()).as(run.out() + run.err()).isEqualTo(3);
            assertThat(Files.readString(folder.resolve("swept-" + partitions + "/summary.md"))).contains("8 found = 4 read + 4 refused", "20 found = 20 readings + 0 refused");
        }
        try (Stream<Path> tables = Files.list(folder.resolve("swept-1"))) {
            for (Path table : tables.filter(file -> file.toString().endsWith(".csv")).toList()) {
                assertThat(table).hasSameBinaryContentAs(folder.resolve("swept-5").resolve(table.getFileName()));
            }
        }
    }
}
