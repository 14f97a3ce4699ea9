package org.wearledger.report;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;

/** Makes what was written ready to be renamed to its final name: closed to others, and on the disk itself. */
final class Sealed {
    private static final String OF_A_FILE = "rw-------";
    private static final String OF_A_FOLDER = "rwx------";

    private Sealed() {
    }

    /** A file, or a folder with all in it. */
    static void seal(Path place, Access access) throws IOException {
        List<Path> all;
        try (Stream<Path> tree = Files.walk(place)) {
            all = tree.toList();
        }
        for (Path each : all) {
            if (access == Access.OWNER && Files.getFileAttributeView(each, PosixFileAttributeView.class) != null) {
                Files.setPosixFilePermissions(each, PosixFilePermissions.fromString(Files.isDirectory(each) ? OF_A_FOLDER : OF_A_FILE));
            }
            force(each);
        }
    }

    /** Waits until a file, or the names in a folder, would outlast a power cut. */
    static void force(Path place) throws IOException {
        boolean folder = Files.isDirectory(place);
        try (FileChannel channel = FileChannel.open(place, folder ? StandardOpenOption.READ : StandardOpenOption.WRITE)) {
            channel.force(true);
        } catch (IOException e) {
            // Windows opens no folder, and some file systems know no flushing of one: there the names are theirs to keep.
            if (!folder) {
                throw e;
            }
        }
    }
}
