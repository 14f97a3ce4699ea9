package org.wearledger.intake;

import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.PatternSyntaxException;

/** Looks for what the user's arguments name, one after another, and gathers it. */
final class FileSearch {
    private static final Set<String> SIDE_TABLES = Set.of("ratings.csv", "inventory.csv", "prices.csv", "repairs.csv", "decisions.csv");

    /** Keyed by the real place, so that a file named twice is read once, under its first name in order. */
    private final Map<Path, ReportFile> reports = new HashMap<>();
    private final Map<String, ReportFile> pages = new TreeMap<>();
    private final Map<Path, ReportFile> packs = new HashMap<>();
    private final Set<Path> mappings = new TreeSet<>();
    private final Map<String, List<ReportFile>> sideTables = new TreeMap<>();
    private final Set<Path> sideTablePlaces = new TreeSet<>();
    private final Set<String> passedOver = new TreeSet<>();

    private FileSearch() {
    }

    static FoundFiles of(SortedSet<String> arguments) throws IOException {
        FileSearch search = new FileSearch();
        for (String argument : arguments) {
            search.add(argument);
        }
        if (search.reports.isEmpty() && search.packs.isEmpty() && search.pages.isEmpty()) {
            throw new InputMissingException("no report file (.json, .jsonl, .ndjson, .csv, each also .gz) and no pack in " + String.join(", ", arguments));
        }
        return new FoundFiles(FoundFiles.byName(search.reports.values()), search.pages, FoundFiles.byName(search.packs.values()),
            FoundFiles.byName(search.mappings.stream().map(ReportFile::of).toList()), search.sideTables, List.copyOf(search.passedOver));
    }

    private void add(String argument) throws IOException {
        Path path = pathOrNull(argument);
        if (path != null && Files.isDirectory(path)) {
            addFolder(argument, path);
        } else if (path != null && Files.exists(path)) {
            addFile(path, path.getParent());
        } else if (path != null && ReportFile.isUndecodable(argument)) {
            // As a shell's pattern gives it; told when it is read.
            reports.putIfAbsent(path.toAbsolutePath(), ReportFile.of(path));
        } else {
            for (Path found : matching(argument)) {
                addFile(found, base(argument));
            }
        }
    }

    private void addFolder(String argument, Path path) throws IOException {
        FolderWalk walk = FolderWalk.of(path);
        if (walk.outputs().containsValue(path)) {
            throw new InputMissingException(argument + " is an output of a sweep: it holds machines.csv, problems.csv and summary.md; name the folder of the reports");
        }
        mappings.addAll(walk.mappings());
        walk.packs().forEach((place, found) -> packs.putIfAbsent(place, ReportFile.of(found)));
        walk.files().forEach((place, found) -> addWalked(place, found, path.equals(found.getParent())));
        walk.outputs().values().forEach(output -> passedOver.add(ReportFile.of(output).name() + " (an output of a sweep)"));
        walk.leftAside().values().forEach(aside -> passedOver.add(ReportFile.of(aside).name() + " (its name begins with _)"));
        walk.unreadable().forEach((place, found) -> reports.putIfAbsent(place, ReportFile.of(found)));
    }

    private void addWalked(Path place, Path found, boolean atTop) {
        String name = found.getFileName().toString();
        ReportFile file = ReportFile.of(found);
        if (atTop && SIDE_TABLES.contains(name)) {
            if (sideTablePlaces.add(place)) {
                sideTables.computeIfAbsent(name, k -> new ArrayList<>()).add(file);
            }
        } else if (file.isPage()) {
            addPage(found);
        } else if (file.hasReportEnding()) {
            reports.putIfAbsent(place, file);
        } else {
            passedOver.add(file.name());
        }
    }

    /** One that was named outright or by a pattern. */
    private void addFile(Path file, Path from) throws IOException {
        if (ReportFile.isPage(file.toString())) {
            addPage(file);
        } else {
            addNamed(file, from);
        }
    }

    /** The file, and the mappings between it and the folder where it was looked for. */
    private void addNamed(Path file, Path from) throws IOException {
        if (!FoundFiles.isMapping(file)) {
            reports.putIfAbsent(file.toRealPath(), ReportFile.of(file));
        }
        Path folder = file.getParent();
        while (true) {
            Path mapping = folder == null ? Path.of(FoundFiles.MAPPING_FILE) : folder.resolve(FoundFiles.MAPPING_FILE);
            if (FoundFiles.isThere(mapping)) {
                mappings.add(mapping);
            }
            if (folder == null || folder.equals(from)) {
                return;
            }
            folder = folder.getParent();
        }
    }

    /** A link is no page, whatever it leads to: what its real place would be is not asked. */
    private void addPage(Path found) {
        Path folder = found.toAbsolutePath().getParent();
        try {
            pages.putIfAbsent(folder.toRealPath().resolve(found.getFileName()).toString(), ReportFile.of(found));
        } catch (IOException e) {
            // The folder is gone since it was searched: then no record can name the page either.
            pages.putIfAbsent(found.toAbsolutePath().toString(), ReportFile.of(found));
        }
    }

    private static Path pathOrNull(String argument) {
        try {
            return Path.of(argument);
        } catch (InvalidPathException e) {
            // On Windows a pattern is no valid path.
            return null;
        }
    }

    private static int wild(String pattern) {
        return pattern.replaceAll("[*?\\[{].*", "").length();
    }

    /** The folder in which to look for what matches; {@code null} for that of the program. */
    private static Path base(String pattern) {
        String slashed = pattern.replace('\\', '/');
        String base = slashed.substring(0, Math.max(0, slashed.substring(0, wild(slashed)).lastIndexOf('/')));
        if (base.isEmpty()) {
            return slashed.startsWith("/") ? Path.of("/") : null;
        }
        return Path.of(base);
    }

    private static List<Path> matching(String pattern) throws IOException {
        String slashed = pattern.replace('\\', '/');
        int wild = wild(slashed);
        Path base = base(slashed);
        Path folder = base == null ? Path.of(".") : base;
        if (wild == slashed.length() || !Files.isDirectory(folder)) {
            throw new InputMissingException("no such file or folder: " + pattern);
        }
        PathMatcher matcher;
        try {
            matcher = FileSystems.getDefault().getPathMatcher("glob:" + slashed);
        } catch (PatternSyntaxException e) {
            throw new InputMissingException("no such file, and no pattern either: " + pattern + " (" + e.getDescription() + ")");
        }
        List<Path> found = FolderWalk.of(folder).files().values().stream().map(p -> base == null ? p.normalize() : p)
            .filter(matcher::matches).sorted().toList();
        if (found.isEmpty()) {
            throw new InputMissingException("no file matches " + pattern);
        }
        return found;
    }
}
