package org.wearledger.intake;

import java.io.IOException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * What lies in a folder and the folders in it, symbolic links followed: each file, and each pack, by its real place.
 *
 * @param mappings of folders, each under every name that the folder is met by
 * @param outputs folders that a sweep wrote; what lies in them is not looked at
 * @param leftAside folders whose name begins with an underscore
 * @param unreadable what could not be looked at: folders without permission, links that lead back to a folder above them
 */
record FolderWalk(Map<Path, Path> files, List<Path> mappings, Map<Path, Path> packs, Map<Path, Path> outputs, Map<Path, Path> leftAside, Map<Path, Path> unreadable) {
    private static final String LEFT_ASIDE = "_";
    private static final List<String> OF_A_SWEEP = List.of("machines.csv", "summary.md", "problems.csv");

    private static boolean isOutputOfSweep(Path folder) {
        return OF_A_SWEEP.stream().allMatch(name -> Files.isRegularFile(folder.resolve(name)));
    }

    /** A side table counts at the top, whatever links to it lie below. */
    private static final Comparator<Path> HIGHEST_FIRST = Comparator.comparingInt(Path::getNameCount).thenComparing(Comparator.naturalOrder());

    /** Where it really lies. What has no such place, as some links in {@code /proc}, or is gone by now, is called as it was found: reading it says so. */
    private static Path place(Path path) {
        try {
            return path.toRealPath();
        } catch (IOException e) {
            return path.toAbsolutePath();
        }
    }

    static FolderWalk of(Path folder) throws IOException {
        FolderWalk walk = new FolderWalk(new TreeMap<>(), new ArrayList<>(), new TreeMap<>(), new TreeMap<>(), new TreeMap<>(), new TreeMap<>());
        Files.walkFileTree(folder, EnumSet.of(FileVisitOption.FOLLOW_LINKS), Integer.MAX_VALUE, new Visitor(folder, walk));
        return walk;
    }

    private static final class Visitor extends SimpleFileVisitor<Path> {
        private final Path top;
        private final FolderWalk walk;
        private final Map<Path, Path> realFolders = new TreeMap<>();

        Visitor(Path top, FolderWalk walk) {
            this.top = top;
            this.walk = walk;
        }

        @Override
        public FileVisitResult preVisitDirectory(Path dir, BasicFileAttributes attributes) throws IOException {
            if (!dir.equals(top) && dir.getFileName().toString().startsWith(LEFT_ASIDE)) {
                walk.leftAside.putIfAbsent(dir.toRealPath(), dir);
                return FileVisitResult.SKIP_SUBTREE;
            }
            if (isOutputOfSweep(dir)) {
                walk.outputs.putIfAbsent(dir.toRealPath(), dir);
                return FileVisitResult.SKIP_SUBTREE;
            }
            if (Files.isRegularFile(dir.resolve(FoundFiles.PACK_FILE))) {
                walk.packs.putIfAbsent(dir.toRealPath(), dir);
                // Of the side tables that were packed with it.
                Stream.of(dir.resolve(FoundFiles.MAPPING_FILE)).filter(FoundFiles::isThere).forEach(walk.mappings::add);
                return FileVisitResult.SKIP_SUBTREE;
            }
            realFolders.put(dir, place(dir));
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            if (FoundFiles.isMapping(file)) {
                walk.mappings.add(file);
            } else if (attributes.isSymbolicLink()) {
                // It leads nowhere; told when it is read.
                walk.files.put(file.toAbsolutePath(), file);
            } else if (attributes.isRegularFile()) {
                // Asking for the real place of every file would take longer than reading small ones.
                Path place = Files.isSymbolicLink(file) ? place(file) : realFolders.get(file.getParent()).resolve(file.getFileName());
                walk.files.merge(place, file, (one, other) -> HIGHEST_FIRST.compare(one, other) <= 0 ? one : other);
            }
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult visitFileFailed(Path file, IOException e) {
            walk.unreadable.put(file.toAbsolutePath(), file);
            return FileVisitResult.CONTINUE;
        }
    }
}
