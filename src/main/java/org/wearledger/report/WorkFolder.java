package org.wearledger.report;

import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * A folder for what a run has not finished. It is locked while its run lives, whatever ends it; so the next run knows those that
 * killed runs left behind, and clears them away.
 */
public final class WorkFolder implements Closeable {
    /** Says which abandoned folder is not to be removed. */
    @FunctionalInterface
    public interface Leave {
        /** True for one that holds what nobody else has. */
        boolean asItIs(Path folder) throws IOException;
    }

    private static final String LOCK = "lock";
    private static final int TRIES = 3;

    private final Path path;
    private final FileChannel lock;
    private boolean kept;

    private WorkFolder(Path path, FileChannel lock) {
        this.path = path;
        this.lock = lock;
    }

    /** Makes a folder of a new name that begins with {@code prefix}. */
    public static WorkFolder in(Path parent, String prefix) throws IOException {
        for (int i = 1;; i++) {
            Path path = Files.createTempDirectory(parent, prefix);
            try {
                FileChannel lock = FileChannel.open(path.resolve(LOCK), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                boolean locked = tryLock(lock) != null;
                // Between its making and its locking another run may have taken it for an abandoned one. Some file systems have no locks.
                if (Files.exists(path.resolve(LOCK)) && (locked || i == TRIES)) {
                    return new WorkFolder(path, lock);
                }
                lock.close();
                if (i == TRIES) {
                    throw new NoSuchFileException(path.toString());
                }
            } catch (NoSuchFileException e) {
                // Another run took the empty folder for an abandoned one.
                if (i == TRIES) {
                    throw e;
                }
            }
        }
    }

    /** Where to work. */
    public Path path() {
        return path;
    }

    /** It holds what nobody else has: {@link #close} leaves it. */
    void keep() {
        kept = true;
    }

    /** Removes it with all that is in it, unless it is kept. */
    @Override
    public void close() throws IOException {
        lock.close();
        if (!kept) {
            delete(path);
        }
    }

    /**
     * Removes the folders that runs left behind which are no more.
     *
     * @param leave is asked of each, and may take out of it what must not be lost
     */
    public static void clearAbandoned(Path parent, String prefix, Leave leave) throws IOException {
        for (Path folder : named(parent, prefix)) {
            Path lockFile = folder.resolve(LOCK);
            try (FileChannel channel = FileChannel.open(lockFile, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)) {
                if (tryLock(channel) != null && !leave.asItIs(folder)) {
                    delete(folder);
                }
            } catch (AccessDeniedException e) {
                // Somebody else's, in a folder that is shared.
                continue;
            } catch (NoSuchFileException e) {
                // Killed before it had its lock, and empty; with anything in it, it is none of these, and stays.
                folder.toFile().delete();
            }
        }
    }

    private static List<Path> named(Path parent, String prefix) throws IOException {
        List<Path> folders = new ArrayList<>();
        if (Files.isDirectory(parent)) {
            try (DirectoryStream<Path> entries = Files.newDirectoryStream(parent,
                entry -> entry.getFileName().toString().startsWith(prefix) && Files.isDirectory(entry, LinkOption.NOFOLLOW_LINKS))) {
                entries.forEach(folders::add);
            }
        }
        return folders;
    }

    /** {@code null} when another run, or another part of this one, holds it; also where there are no locks. */
    private static FileLock tryLock(FileChannel channel) {
        try {
            return channel.tryLock();
        } catch (IOException | OverlappingFileLockException e) {
            return null;
        }
    }

    /** What is already gone was removed by another run. */
    private static void delete(Path folder) throws IOException {
        List<Path> deepestFirst;
        try (Stream<Path> tree = Files.walk(folder)) {
            deepestFirst = tree.sorted(Comparator.reverseOrder()).toList();
        } catch (NoSuchFileException e) {
            return;
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        for (Path path : deepestFirst) {
            Files.deleteIfExists(path);
        }
    }
}
